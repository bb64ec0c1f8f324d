using System.Collections.Immutable;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Path;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Overload;

/// <summary>A way in which a clamp gives way.</summary>
/// <param name="Clamp">The clamp's number.</param>
/// <param name="Limit">How it gives way.</param>
/// <param name="Component">The same for the path.</param>
internal readonly record struct ClampComponent(int Clamp, Limit Limit, YieldingComponent Component);

/// <summary>The yielding components of all clamps of the analyser's last frame.</summary>
/// <remarks>
/// The slip moment holds about the pin, about the rod and across both, each for itself, and divided by the rod's radius along the rod: the
/// limits of <see cref="DemandAnalysis"/>. A loose clamp turns on its rod with nothing and slides with its friction between its stops, which hold. Tight rigid clamps never slip, and of
/// a loose rigid one only what is loose gives way.
/// </remarks>
internal static class ClampComponents
{
    /// <summary>Of loose clamps what is loose alone.</summary>
    public static ImmutableArray<ClampComponent> OfLoose(FrameAnalyser analyser, DemandAnalysis demand) =>
        [.. Of(analyser, demand).Where(c => analyser.Data.Clamps[c.Clamp].State == ClampState.Loose && c.Limit is (Limit.ClampSlipAboutRod or Limit.ClampSlide))];

    /// <summary>Of every clamp all that gives way.</summary>
    public static ImmutableArray<ClampComponent> Of(FrameAnalyser analyser, DemandAnalysis demand)
    {
        List<ClampComponent> all = [];
        for (int m = 0; m < analyser.Plan.Members.Length; m++)
        {
            PlannedMember member = analyser.Plan.Members[m];
            if (member.Kind == MemberKind.Clamp)
            {
                Add(all, analyser, demand, m, member.Part);
            }
        }

        return [.. all];
    }

    private static void Add(List<ClampComponent> all, FrameAnalyser analyser, DemandAnalysis demand, int member, int clamp)
    {
        Vec3 at = analyser.System.Member(member).AtMm;
        Mat3 axes = analyser.Writer.ClampAxes(clamp).Transposed();
        bool loose = analyser.Data.Clamps[clamp].State == ClampState.Loose;
        double? slipNmm = analyser.Data.ModelOf(clamp) is SpringClamp spring ? spring.SlipMomentNm * 1000 : null;
        if (slipNmm is double holds)
        {
            Moment(Limit.ClampSlipAboutPin, Vec3.UnitX, holds);
            Moment(Limit.ClampPivot, Vec3.UnitZ, holds);
        }

        if (loose || slipNmm is not null)
        {
            Moment(Limit.ClampSlipAboutRod, Vec3.UnitY, loose ? 0 : slipNmm!.Value);
            all.Add(new(clamp, Limit.ClampSlide, loose
                ? Slide(SlideLimits.Of(analyser.Data, clamp))
                : YieldingComponent.Force(member, axes * Vec3.UnitY, demand.SlideN(clamp, slipNmm!.Value))));
        }

        // The clamp's end b is at the rod, so the slide has the sense of the law.
        YieldingComponent Slide(SlideLaw law) => YieldingComponent.Slide(member, axes * Vec3.UnitY, law.ResistanceN, law.LeastMm, law.MostMm);

        void Moment(Limit limit, Vec3 axis, double capacityNmm) =>
            all.Add(new(clamp, limit, YieldingComponent.Moment(member, at, axes * axis, capacityNmm)));
    }
}
