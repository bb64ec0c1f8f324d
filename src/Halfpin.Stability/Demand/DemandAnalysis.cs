using Halfpin.Domain.Frames;
using Halfpin.Domain.Materials;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;
using Halfpin.Stability.Placement;

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

    private const int StationsPerSpan = 5;

    private readonly BarStation[] _stations = new BarStation[FrameWriter.MaxSpans * StationsPerSpan];
    private DemandItem[] _items = [];
    private int _count;

    /// <summary>Demand of every part under a load over an open gap.</summary>
    /// <returns>A view of this workspace, valid until the next call.</returns>
    public ReadOnlySpan<DemandItem> Under(EndLoad load) => Under(new LoadState(load, default));

    /// <summary>The greatest demand under a load over an open gap, leaving fatigue out: what gives first when the load grows once.</summary>
    public DemandItem FirstUnder(EndLoad load) => FirstUnder(new LoadState(load, default));

    /// <summary>Demand of every part under a load on the end and what contact and callus exert on the faces.</summary>
    internal ReadOnlySpan<DemandItem> Under(scoped in LoadState load)
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
                    PinInBoneDemand(m, member.Part, load);
                    break;
                case MemberKind.PinOutside:
                    PinOutsideDemand(m, member, load);
                    break;
                case MemberKind.Rod:
                    RodDemand(m, member, load);
                    break;
                case MemberKind.Clamp:
                    ClampDemand(m, member.Part, load);
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
    internal Wrench WrenchAbout(int member, Vec3 point, in LoadState load)
    {
        Wrench sum = default;
        for (int c = 0; c < 6; c++)
        {
            if (load.End[c] != 0)
            {
                sum += load.End[c] * analyser.System.WrenchOn(member, SiteAnalysis.EndColumn(c));
            }

            for (int s = 0; s < analyser.Plan.Sites.Length; s++)
            {
                if (load.OnFace(s, c) != 0)
                {
                    sum += load.OnFace(s, c) * analyser.System.WrenchOn(member, SiteAnalysis.SiteColumn(s, c));
                }
            }
        }

        return sum.About(point - analyser.System.Member(member).AtMm);
    }

    /// <summary>Largest nominal von Mises stress of a round section: bending and axial stress with torsion on the surface.</summary>
    internal static double VonMisesMPa(in Wrench w, Vec3 along, double outerMm, double innerMm)
    {
        Section s = Section.Round(outerMm, innerMm, 1);
        double torsion = w.MomentNmm.Dot(along), axial = w.ForceN.Dot(along);
        double bending = (w.MomentNmm - (torsion * along)).Length;
        double sigma = (Math.Abs(axial) / s.AreaMm2) + (bending * outerMm / (2 * s.I22Mm4));
        double tau = torsion * outerMm / (2 * s.TorsionMm4);
        return Math.Sqrt((sigma * sigma) + (3 * tau * tau));
    }

    private void PinInBoneDemand(int member, int pin, in LoadState load)
    {
        PlacedPin placed = analyser.Data.PlacedPins[pin];
        Wrench w = WrenchAbout(member, placed.At(placed.SurfaceMm), load);
        Span<GroundSpan> spans = stackalloc GroundSpan[FrameWriter.MaxSpans];
        int count = analyser.Writer.SpansOf(pin, spans);
        EmbeddedBar.Profile(spans[..count], StationsPerSpan, _stations);

        // In vector form over both bending planes: deflection w = f·w_F + (m × d)·w_M, and likewise for the moment.
        Vec3 d = -placed.Outward;
        double axial = w.ForceN.Dot(d), torsion = w.MomentNmm.Dot(d);
        Vec3 force = w.ForceN - (axial * d), moment = w.MomentNmm.Cross(d);
        double foundation = analyser.Writer.FoundationOf(pin), strength = analyser.Data.Bone.Tissue.TransverseStrengthMPa, from = placed.SurfaceMm;
        DemandPlace cortex = DemandPlace.NearCortex;
        for (int i = 0; i < count; i++)
        {
            double bendingDiameterMm = analyser.Writer.BendingDiameterMm(pin, from - (spans[i].LengthMm / 2)), pressure = 0;
            foreach (BarStation s in _stations.AsSpan(i * StationsPerSpan, StationsPerSpan))
            {
                Vec3 bending = (s.MomentPerForceNmm * force) + (s.MomentPerMoment * moment);
                PinStress(pin, VonMisesMPa(new(axial * d, bending + (torsion * d)), d, bendingDiameterMm, 0), DemandPlace.InBone, -1);
                Vec3 deflection = (s.DeflectionPerForceMm * force) + (s.DeflectionPerMomentMm * moment);
                pressure = Math.Max(pressure, foundation * deflection.Length / analyser.Data.Pins[pin].DiameterMm);
            }

            if (spans[i].FoundationNPerMm2 > 0)
            {
                Raise(Limit.BoneBearing, pin, cortex, -1, pressure / strength);
            }
            else
            {
                cortex = DemandPlace.FarCortex;
            }

            from -= spans[i].LengthMm;
        }
    }

    private void PinOutsideDemand(int member, PlannedMember planned, in LoadState load)
    {
        FrameData data = analyser.Data;
        int pin = planned.Part;
        PlacedPin placed = data.PlacedPins[pin];
        double threadEnd = analyser.Writer.ThreadEndMm(pin);
        double from = planned.From < 0 ? placed.SurfaceMm : data.PlacedClamps[planned.From].AlongMemberMm;
        double to = data.PlacedClamps[planned.To].AlongMemberMm;
        DemandPlace start = planned.From < 0 ? DemandPlace.BoneSurface : DemandPlace.AtClamp;
        PinSection(member, pin, from, threadEnd > from, start, planned.From, load);
        PinSection(member, pin, to, threadEnd > to, DemandPlace.AtClamp, planned.To, load);
        if (threadEnd > from && threadEnd < to)
        {
            PinSection(member, pin, threadEnd, true, DemandPlace.ThreadEnd, -1, load);
        }

        if (planned.From < 0 && data.FixedAtSurface[pin])
        {
            FixedPinBearing(member, pin, placed, load);
        }
    }

    private void PinSection(int member, int pin, double atMm, bool core, DemandPlace place, int clamp, in LoadState load)
    {
        PlacedPin placed = analyser.Data.PlacedPins[pin];
        Pin part = analyser.Data.Pins[pin];
        Wrench w = WrenchAbout(member, placed.At(atMm), load);
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
    private void FixedPinBearing(int member, int pin, PlacedPin placed, in LoadState load)
    {
        Wrench w = WrenchAbout(member, placed.At(placed.SurfaceMm), load);
        double wallMm = placed.NearCanalMm > 0 ? placed.SurfaceMm - placed.NearCanalMm : placed.ChordMm;
        double diameterMm = analyser.Data.Pins[pin].DiameterMm;
        double across = (w.ForceN - (w.ForceN.Dot(placed.Outward) * placed.Outward)).Length;
        double bending = (w.MomentNmm - (w.MomentNmm.Dot(placed.Outward) * placed.Outward)).Length;
        double pressure = (across / (diameterMm * wallMm)) + (6 * bending / (diameterMm * wallMm * wallMm));
        Raise(Limit.BoneBearing, pin, DemandPlace.NearCortex, -1, pressure / analyser.Data.Bone.Tissue.TransverseStrengthMPa);
    }

    private void RodDemand(int member, PlannedMember planned, in LoadState load)
    {
        Rod rod = analyser.Data.Rods[planned.Part];
        Vec3 along = analyser.Data.PlacedRods[planned.Part].Along;
        double limit = analyser.Materials[rod.Material].YieldMPa;
        foreach (int clamp in (ReadOnlySpan<int>)[planned.From, planned.To])
        {
            Wrench w = WrenchAbout(member, PointOnRod(clamp, planned.Part), load);
            Raise(Limit.RodYield, planned.Part, DemandPlace.AtClamp, clamp, VonMisesMPa(w, along, rod.DiameterMm, rod.InnerDiameterMm) / limit);
        }
    }

    private void ClampDemand(int member, int clamp, in LoadState load)
    {
        if (analyser.Data.ModelOf(clamp) is not SpringClamp spring)
        {
            return;
        }

        Wrench w = WrenchAbout(member, analyser.System.Member(member).AtMm, load);
        Mat3 axes = analyser.Writer.ClampAxes(clamp);
        Vec3 moment = axes * w.MomentNmm, force = axes * w.ForceN;
        double slip = spring.SlipMomentNm * 1000;
        Raise(Limit.ClampSlipAboutPin, clamp, DemandPlace.AtClamp, clamp, Math.Abs(moment.X) / slip);
        Raise(Limit.ClampPivot, clamp, DemandPlace.AtClamp, clamp, Math.Abs(moment.Z) / slip);
        if (analyser.Plan.Clamps[clamp].State == ClampState.Tight)
        {
            // The friction that holds a moment about the rod at its surface holds slip/radius along it. DERIVED from the
            // slip moment; no test of sliding was found.
            double radiusMm = analyser.Data.Rods[analyser.Plan.Clamps[clamp].Rod].DiameterMm / 2;
            Raise(Limit.ClampSlipAboutRod, clamp, DemandPlace.AtClamp, clamp, Math.Abs(moment.Y) / slip);
            Raise(Limit.ClampSlide, clamp, DemandPlace.AtClamp, clamp, Math.Abs(force.Y) * radiusMm / slip);
        }
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
