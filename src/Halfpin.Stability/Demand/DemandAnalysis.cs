using Halfpin.Domain.Frames;
using Halfpin.Domain.Materials;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Placement;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Demand;

/// <summary>
/// How near pins, rods, clamps and bone are to their limits under a load, for the analyser's last frame: the worst place of
/// each part for each limit.
/// </summary>
/// <remarks>
/// Nominal stresses of beam theory on the core where thread is exposed or in bone, on the shank elsewhere; no local stress
/// at thread roots or clamp edges beyond the stated thread factor. A workspace: nothing is allocated after the first call
/// for a construct.
/// </remarks>
public sealed class DemandAnalysis(FrameAnalyser analyser)
{
    /// <summary>Thread factor on the smooth fatigue limit: 2, of 2–3 at a thread root. MEMORY mid.</summary>
    public const double ThreadFactor = 2;

    private readonly StateWrenches _linear = new(analyser);
    private DemandItem[] _items = [];
    private EmbeddedBarPeaks[] _peaks = [];
    private int _count;

    /// <summary>Demand of every part under a load over an open gap.</summary>
    /// <returns>A view of this workspace, valid until the next call.</returns>
    public ReadOnlySpan<DemandItem> Under(EndLoad load) => Under(new LoadState(load, default));

    /// <summary>The greatest demand under a load over an open gap, leaving fatigue out: what gives first when the load grows once.</summary>
    public DemandItem FirstUnder(EndLoad load) => FirstUnder(new LoadState(load, default));

    /// <summary>Demand of every part under a load on the end and what contact and callus exert on the faces.</summary>
    internal ReadOnlySpan<DemandItem> Under(LoadState load) => Under(Linear(load));

    /// <summary>Demand of every part under wrenches from anywhere.</summary>
    internal ReadOnlySpan<DemandItem> Under(IMemberWrenches wrenches)
    {
        FramePlan plan = analyser.Plan;
        int most = (3 * analyser.Data.Pins.Length) + plan.Rods + (4 * plan.Clamps.Length);
        if (_items.Length < most)
        {
            _items = new DemandItem[most];
        }

        _count = 0;
        for (int m = 0; m < plan.Members.Length; m++)
        {
            PlannedMember member = plan.Members[m];
            switch (member.Kind)
            {
                case MemberKind.PinInBone:
                    PinInBoneDemand(m, member.Part, wrenches);
                    break;
                case MemberKind.PinOutside:
                    PinOutsideDemand(m, member, wrenches);
                    break;
                case MemberKind.Rod:
                    RodDemand(m, member, wrenches);
                    break;
                case MemberKind.Clamp:
                    ClampDemand(m, member.Part, wrenches);
                    break;
            }
        }

        return _items.AsSpan(0, _count);
    }

    /// <summary>The greatest demand, leaving fatigue out.</summary>
    internal DemandItem FirstUnder(in LoadState load)
    {
        DemandItem first = default;
        foreach (DemandItem item in Under(load))
        {
            if (item.Limit != Limit.PinFatigue && item.Value > first.Value)
            {
                first = item;
            }
        }

        return first;
    }

    /// <summary>Wrench on a member from its second end, about a point, under a load.</summary>
    internal Wrench WrenchAbout(int member, Vec3 point, LoadState load) => Linear(load).About(member, point);

    /// <summary>Largest nominal von Mises stress of a round section: bending and axial stress with torsion on the surface.</summary>
    internal static double VonMisesMPa(in Wrench w, Vec3 along, double outerMm, double innerMm)
    {
        double torsion = w.MomentNmm.Dot(along);
        return VonMisesMPa(w.ForceN.Dot(along), (w.MomentNmm - (torsion * along)).Length, torsion, outerMm, innerMm);
    }

    private static double VonMisesMPa(double axialN, double bendingNmm, double torsionNmm, double outerMm, double innerMm)
    {
        Section s = Section.Round(outerMm, innerMm, 1);
        double sigma = (Math.Abs(axialN) / s.AreaMm2) + (bendingNmm * outerMm / (2 * s.I22Mm4));
        double tau = torsionNmm * outerMm / (2 * s.TorsionMm4);
        return Math.Sqrt((sigma * sigma) + (3 * tau * tau));
    }

    /// <summary>Force along its rod at which a tight clamp slides.</summary>
    /// <remarks>
    /// The friction that holds a moment about the rod at its surface holds slip/radius along it. DERIVED from the slip moment; no test of
    /// sliding was found.
    /// </remarks>
    internal double SlideN(int clamp, double slipNmm) => slipNmm / (analyser.Data.Rods[analyser.Data.Clamps[clamp].Rod].DiameterMm / 2);

    private void PinInBoneDemand(int member, int pin, IMemberWrenches wrenches)
    {
        PlacedPin placed = analyser.Data.PlacedPins[pin];
        Wrench w = wrenches.About(member, placed.At(placed.SurfaceMm));
        Span<GroundSpan> spans = stackalloc GroundSpan[FrameWriter.MaxSpans];
        int count = analyser.Writer.SpansOf(pin, spans);
        Span<SpanPeak> peaks = stackalloc SpanPeak[FrameWriter.MaxSpans];
        EmbeddedBarPeaks finder = PeaksOf(pin);
        finder.Set(spans[..count]);
        finder.Find(w.ForceN, w.MomentNmm, -placed.Outward, peaks);
        double axial = w.ForceN.Dot(placed.Outward), torsion = w.MomentNmm.Dot(placed.Outward);
        double strength = analyser.Data.Bone.Tissue.TransverseStrengthMPa, from = placed.SurfaceMm;
        DemandPlace cortex = DemandPlace.NearCortex;
        for (int i = 0; i < count; i++)
        {
            double bendingDiameterMm = analyser.Writer.BendingDiameterMm(pin, from - (spans[i].LengthMm / 2));
            PinStress(pin, VonMisesMPa(axial, peaks[i].MomentNmm, torsion, bendingDiameterMm, 0), DemandPlace.InBone, -1);
            if (spans[i].FoundationNPerMm2 > 0)
            {
                double pressure = spans[i].FoundationNPerMm2 * peaks[i].DeflectionMm / analyser.Data.Pins[pin].DiameterMm;
                Raise(Limit.BoneBearing, pin, cortex, -1, pressure / strength);
            }
            else
            {
                cortex = DemandPlace.FarCortex;
            }

            from -= spans[i].LengthMm;
        }
    }

    // Each pin has its own, since most pins stay as they are from load to load and from variant to variant.
    private EmbeddedBarPeaks PeaksOf(int pin)
    {
        if (_peaks.Length <= pin)
        {
            _peaks = [.. _peaks, .. Enumerable.Range(0, analyser.Data.Pins.Length - _peaks.Length).Select(_ => new EmbeddedBarPeaks())];
        }

        return _peaks[pin];
    }

    private void PinOutsideDemand(int member, PlannedMember planned, IMemberWrenches wrenches)
    {
        FrameData data = analyser.Data;
        int pin = planned.Part;
        PlacedPin placed = data.PlacedPins[pin];
        double threadEnd = analyser.Writer.ThreadEndMm(pin);
        double from = planned.From < 0 ? placed.SurfaceMm : data.PlacedClamps[planned.From].AlongMemberMm;
        double to = data.PlacedClamps[planned.To].AlongMemberMm;
        DemandPlace start = planned.From < 0 ? DemandPlace.BoneSurface : DemandPlace.AtClamp;
        PinSection(member, pin, from, threadEnd > from, start, planned.From, wrenches);
        PinSection(member, pin, to, threadEnd > to, DemandPlace.AtClamp, planned.To, wrenches);
        if (threadEnd > from && threadEnd < to)
        {
            PinSection(member, pin, threadEnd, true, DemandPlace.ThreadEnd, -1, wrenches);
        }

        if (planned.From < 0 && data.FixedAtSurface[pin])
        {
            FixedPinBearing(member, pin, placed, wrenches);
        }
    }

    private void PinSection(int member, int pin, double atMm, bool core, DemandPlace place, int clamp, IMemberWrenches wrenches)
    {
        PlacedPin placed = analyser.Data.PlacedPins[pin];
        Pin part = analyser.Data.Pins[pin];
        Wrench w = wrenches.About(member, placed.At(atMm));
        PinStress(pin, VonMisesMPa(w, placed.Outward, core ? part.CoreDiameterMm ?? part.DiameterMm : part.DiameterMm, 0), place, clamp);
    }

    private void PinStress(int pin, double stressMPa, DemandPlace place, int clamp)
    {
        Material material = analyser.Materials[analyser.Data.Pins[pin].Material];
        Raise(Limit.PinYield, pin, place, clamp, stressMPa / material.YieldMPa);
        if (material.FatigueLimitMPa is double fatigue)
        {
            Raise(Limit.PinFatigue, pin, place, clamp, stressMPa * ThreadFactor / fatigue);
        }
    }

    // A pin tied at the surface has no pressure distribution: that of a rigid pin in the near cortex alone,
    // p = R/(d t) + 6M/(d t²), which is on the safe side.
    private void FixedPinBearing(int member, int pin, PlacedPin placed, IMemberWrenches wrenches)
    {
        Wrench w = wrenches.About(member, placed.At(placed.SurfaceMm));
        double wallMm = placed.NearCanalMm > 0 ? placed.SurfaceMm - placed.NearCanalMm : placed.ChordMm;
        double diameterMm = analyser.Data.Pins[pin].DiameterMm;
        double across = (w.ForceN - (w.ForceN.Dot(placed.Outward) * placed.Outward)).Length;
        double bending = (w.MomentNmm - (w.MomentNmm.Dot(placed.Outward) * placed.Outward)).Length;
        double pressure = (across / (diameterMm * wallMm)) + (6 * bending / (diameterMm * wallMm * wallMm));
        Raise(Limit.BoneBearing, pin, DemandPlace.NearCortex, -1, pressure / analyser.Data.Bone.Tissue.TransverseStrengthMPa);
    }

    private void RodDemand(int member, PlannedMember planned, IMemberWrenches wrenches)
    {
        Rod rod = analyser.Data.Rods[planned.Part];
        Vec3 along = analyser.Data.PlacedRods[planned.Part].Along;
        double limit = analyser.Materials[rod.Material].YieldMPa;
        foreach (int clamp in (ReadOnlySpan<int>)[planned.From, planned.To])
        {
            Wrench w = wrenches.About(member, PointOnRod(clamp, planned.Part));
            Raise(Limit.RodYield, planned.Part, DemandPlace.AtClamp, clamp, VonMisesMPa(w, along, rod.DiameterMm, rod.InnerDiameterMm) / limit);
        }
    }

    private void ClampDemand(int member, int clamp, IMemberWrenches wrenches)
    {
        if (analyser.Data.ModelOf(clamp) is not SpringClamp spring)
        {
            return;
        }

        Wrench w = wrenches.About(member, analyser.System.Member(member).AtMm);
        Mat3 axes = analyser.Writer.ClampAxes(clamp);
        Vec3 moment = axes * w.MomentNmm, force = axes * w.ForceN;
        double slip = spring.SlipMomentNm * 1000;
        Raise(Limit.ClampSlipAboutPin, clamp, DemandPlace.AtClamp, clamp, Math.Abs(moment.X) / slip);
        Raise(Limit.ClampPivot, clamp, DemandPlace.AtClamp, clamp, Math.Abs(moment.Z) / slip);
        if (analyser.Plan.Clamps[clamp].State == ClampState.Tight)
        {
            Raise(Limit.ClampSlipAboutRod, clamp, DemandPlace.AtClamp, clamp, Math.Abs(moment.Y) / slip);
            Raise(Limit.ClampSlide, clamp, DemandPlace.AtClamp, clamp, Math.Abs(force.Y) / SlideN(clamp, slip));
        }
    }

    private StateWrenches Linear(LoadState load)
    {
        _linear.Set(load);
        return _linear;
    }

    private Vec3 PointOnRod(int clamp, int rod) => analyser.Plan.Clamps[clamp].Rod == rod
        ? analyser.Data.PlacedClamps[clamp].OnRodMm
        : analyser.Data.PlacedClamps[clamp].OnMemberMm;

    // Keeps the worst place of a part for a limit. A part's entries lie near the end of the list, so the search is short.
    private void Raise(Limit limit, int part, DemandPlace place, int clamp, double value)
    {
        for (int i = 0; i < _count; i++)
        {
            if (_items[i].Limit == limit && _items[i].Part == part)
            {
                if (value > _items[i].Value)
                {
                    _items[i] = new(limit, part, place, clamp, value);
                }

                return;
            }
        }

        _items[_count++] = new(limit, part, place, clamp, value);
    }
}
