using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Placement;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Demand;

/// <summary>Internal forces at the ends of every stretch of pins, rods and bone.</summary>
internal sealed class InternalForces(FrameAnalyser analyser, DemandAnalysis demand, LoadState load)
{
    private readonly FrameData _data = analyser.Data;
    private readonly FramePlan _plan = analyser.Plan;

    public ImmutableArray<PartForces> All()
    {
        Dictionary<string, List<ForceStation>> parts = [];
        for (int m = 0; m < _plan.Members.Length; m++)
        {
            PlannedMember member = _plan.Members[m];
            switch (member.Kind)
            {
                case MemberKind.Bone:
                    Bone(m, member, Of(parts, $"fragment{member.Part + 1}"));
                    break;
                case MemberKind.PinOutside:
                    Pin(m, member, Of(parts, _data.Pins[member.Part].Id));
                    break;
                case MemberKind.Rod:
                    Rod(m, member, Of(parts, _data.Rods[member.Part].Id));
                    break;
                default:
                    break; // Within the bone and in clamps the demand analysis reads pressures and moments itself.
            }
        }

        return [.. parts.Select(p => new PartForces(p.Key, [.. p.Value]))];
    }

    private void Bone(int m, PlannedMember member, List<ForceStation> into)
    {
        foreach (int s in (ReadOnlySpan<int>)[member.From, member.To])
        {
            BoneStation station = _plan.Stations[s];
            string place = station.Kind switch
            {
                StationKind.ProximalEnd => "proximal end",
                StationKind.DistalEnd => "distal end",
                StationKind.ProximalFace => Face("proximal", station.Fragment),
                StationKind.DistalFace => Face("distal", station.Fragment - 1),
                _ => $"pin {_data.Pins[station.Pin].Id}",
            };
            double level = _data.LevelMm(station);
            into.Add(At(m, place, level, new(0, 0, -level), -Vec3.UnitZ, null));
        }
    }

    private string Face(string side, int fracture) =>
        _data.Fractures.Length == 1 ? $"{side} face" : $"{side} face of fracture {fracture + 1}";

    private void Pin(int m, PlannedMember member, List<ForceStation> into)
    {
        PlacedPin placed = _data.PlacedPins[member.Part];
        Pin pin = _data.Pins[member.Part];
        double threadEnd = analyser.Writer.ThreadEndMm(member.Part);
        double from = member.From < 0 ? placed.SurfaceMm : _data.PlacedClamps[member.From].AlongMemberMm;
        double to = _data.PlacedClamps[member.To].AlongMemberMm;
        string start = member.From < 0 ? "bone surface" : $"clamp {_data.ClampParts[member.From].Id}";
        into.Add(At(m, start, from, placed.At(from), placed.Outward, threadEnd > from ? pin.CoreDiameterMm : pin.DiameterMm));
        into.Add(At(
            m, $"clamp {_data.ClampParts[member.To].Id}", to, placed.At(to), placed.Outward, threadEnd > to ? pin.CoreDiameterMm : pin.DiameterMm));
    }

    private void Rod(int m, PlannedMember member, List<ForceStation> into)
    {
        Rod rod = _data.Rods[member.Part];
        PlacedRod placed = _data.PlacedRods[member.Part];
        foreach (int c in (ReadOnlySpan<int>)[member.From, member.To])
        {
            bool own = _plan.Clamps[c].Rod == member.Part;
            PlacedClamp clamp = _data.PlacedClamps[c];
            into.Add(At(
                m, $"clamp {_data.ClampParts[c].Id}", own ? clamp.AlongRodMm : clamp.AlongMemberMm,
                own ? clamp.OnRodMm : clamp.OnMemberMm, placed.Along, rod.DiameterMm, rod.InnerDiameterMm));
        }
    }

    private ForceStation At(int m, string place, double atMm, Vec3 point, Vec3 along, double? outerMm, double innerMm = 0)
    {
        Wrench w = demand.WrenchAbout(m, point, load);
        double axial = w.ForceN.Dot(along), torsion = w.MomentNmm.Dot(along);
        return new(
            place, atMm, axial, (w.ForceN - (axial * along)).Length, (w.MomentNmm - (torsion * along)).Length / 1000, torsion / 1000,
            outerMm is double d ? DemandAnalysis.VonMisesMPa(w, along, d, innerMm) : null);
    }

    private static List<ForceStation> Of(Dictionary<string, List<ForceStation>> parts, string id)
    {
        if (!parts.TryGetValue(id, out List<ForceStation>? list))
        {
            parts.Add(id, list = []);
        }

        return list;
    }
}
