using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Stability.Overload;
using Xunit;

namespace Halfpin.Stability.Tests.Segments;

/// <summary>Overload paths across two fractures, against equilibria found without a path and against a single fracture.</summary>
public class SegmentOverloadTests
{
    private static readonly ImmutableArray<Fracture> _narrow =
        [SegmentBench.Upper with { GapMm = 0.9, Contact = true }, SegmentBench.Lower with { GapMm = 0.4, Contact = true }];

    [Fact]
    public void Touch_ofEachFracture_isThatOfTheEquilibriaAndNamesTheFracture()
    {
        Case value = CaseOf(_narrow, new RigidClamp());
        FrameAssessment assessed = Bench.Assess(value with { Loading = new() { AllowedKg = 7 } });
        OverloadEvent[] touches = [.. Follow(value, 290).Events.Where(e => e is { Kind: OverloadEventKind.Contact, OnWayBack: false })];

        Assert.Equal(2, touches.Length);
        foreach ((OverloadEvent touch, int fracture) in touches.Select(t => (t, t.Part == "fracture 1" ? 0 : 1)))
        {
            double firstN = assessed.Fractures[fracture].Contact!.FirstTouchN!.Value;
            Assert.Equal(firstN, touch.LoadN, 1e-5 * firstN);
            Assert.Contains($"at fracture {fracture + 1} touch", touch.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Motion_ofBothFracturesWithEndsThatBear_isThatOfTheEquilibrium()
    {
        Case value = CaseOf(_narrow, new RigidClamp());
        FrameAssessment assessed = Bench.Assess(value with { Loading = new() { AllowedKg = 23 } });
        OverloadReport report = Follow(value, 23 * Loading.NewtonPerKg);

        for (int f = 0; f < 2; f++)
        {
            OverloadPoint top = report.Fractures[f].Path.MaxBy(p => p.LoadN)!;
            Assert.Equal(assessed.Fractures[f].Motion!.AxialMm, top.AxialMm, 1e-6);
            Assert.Equal(assessed.Fractures[f].Motion!.TiltDeg, top.TiltDeg, 1e-6);
            Assert.Equal(assessed.Fractures[f].Motion!.FrameShare!.Value, top.FrameShare!.Value, 1e-6);
        }
    }

    [Fact]
    public void Set_isTheGreatestOfTheFractures_andElasticPathsLeaveNone()
    {
        OverloadReport slipped = Follow(CaseOf(_narrow, new SpringClamp { SlipMomentNm = 0.6 }), 290), elastic = Follow(CaseOf(_narrow, new SpringClamp { SlipMomentNm = 90 }), 190);

        Assert.True(slipped.Complete, slipped.Ended);
        Assert.True(elastic.Complete, elastic.Ended);
        Assert.Contains(slipped.Events, e => e.Kind == OverloadEventKind.Slip);
        Assert.True(slipped.SetMm > 1e-3);
        Assert.Equal(slipped.Fractures.Max(f => f.SetMm), slipped.SetMm);
        Assert.All(elastic.Fractures, f => Assert.Equal(0, f.SetMm!.Value, 1e-9));
    }

    [Fact]
    public void OneFracture_hasNoList()
    {
        OverloadReport report = Follow(CaseOf([_narrow[0]], new SpringClamp()), 90);

        Assert.Empty(report.Fractures);
        Assert.Contains(report.Events, e => e.Part == "fracture");
    }

    private static Case CaseOf(ImmutableArray<Fracture> fractures, ClampModel clamp) =>
        Bench.CaseOf(new Frame { Id = "f", Parts = SegmentBench.Six }) with { Limb = Bench.TibiaLimb, Fractures = fractures, Model = new() { Clamp = clamp } };

    private static OverloadReport Follow(Case value, double toN) => new OverloadAssessor(value).Assess(value.Frames[0], toN, new("halfpin", "test"), "");
}
