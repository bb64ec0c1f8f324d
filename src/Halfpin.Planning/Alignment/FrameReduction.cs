using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement;

namespace Halfpin.Planning.Alignment;

/// <summary>What to loosen on a frame so that a deformity can be corrected in it, and what its clamps cannot follow.</summary>
/// <remarks>
/// Fragments are rigid with their pins. The frame is taken as it stands on the limb: pins, rods and clamps where the case has them,
/// while the distal fragment is to move from its deformed place to its aligned one.
/// </remarks>
internal sealed class FrameReduction(BoneShape bone, Fracture fracture, Parts parts)
{
    /// <summary>Misfit that the play of a clamp takes up. ASSUMED.</summary>
    public const double PlayMm = 1;

    /// <summary>Misfit that pins still take up by bending; beyond it the frame forces the fracture. ASSUMED.</summary>
    public const double BendMm = 3;

    /// <summary>Pins within this of a plane through the bone's axis stand in it. ASSUMED.</summary>
    public const double OnePlaneDeg = 5;

    private readonly FrameHalves _halves = new(bone, fracture, parts);

    /// <summary>The ways to divide the frame, that which its clamps follow best first.</summary>
    /// <param name="m">What is to be corrected.</param>
    public ImmutableArray<ReductionWay> Ways(AlignmentMeasurement m)
    {
        RigidMotion deformity = LimbDeformity.Of(m, _halves.CentreMm), correction = deformity.Inverse();
        List<ReductionWay> ways = [];
        if (_halves.DistalPins.IsEmpty || _halves.ProximalPins.IsEmpty)
        {
            return [];
        }

        if (RodClamps() is { Length: > 0 } between)
        {
            ImmutableHashSet<string> distal = _halves.RodsOfTheDistalSide()!;
            ways.Add(Way("rodClamps", between, "the rods of each fragment stay on their pins", deformity, c => distal.Contains(c.OtherRod!) ? correction : deformity));
        }

        ways.Add(Way("distalPinClamps", [.. _halves.ClampsOf(_halves.DistalPins)], "the rods stay on the proximal pins", deformity, _ => correction));

        // Seen from rods that go with the distal fragment, the proximal pins make the movement that deformed the limb.
        ways.Add(Way("proximalPinClamps", [.. _halves.ClampsOf(_halves.ProximalPins)], "the rods go with the distal pins", deformity, _ => deformity));
        return [.. ways.Where(w => w.Loosen.Length > 0).OrderBy(w => w.Verdict).ThenBy(w => w.MisfitMm is double misfit ? Math.Round(misfit, 6) : double.MaxValue)];
    }

    /// <summary>What no set of clamps lets happen; empty when nothing is barred from the outset.</summary>
    /// <param name="m">What is to be corrected.</param>
    public IEnumerable<string> CannotCorrect(AlignmentMeasurement m)
    {
        foreach (string side in new[] { (_halves.ProximalPins.IsEmpty, "proximal"), (_halves.DistalPins.IsEmpty, "distal") }.Where(s => s.Item1).Select(s => s.Item2))
        {
            yield return $"No pin holds bone {side} to the fracture: this frame cannot turn it.";
        }

        if (RodClamps().Length > 0 || _halves.CommonPlaneAzimuthDeg(OnePlaneDeg) is not double plane)
        {
            yield break;
        }

        Vec3 footward = LimbDeformity.Footward(m.ApDeg, m.LateralDeg);
        (double inPlane, double outOfPlane) = Split(footward.X / -footward.Z, footward.Y / -footward.Z, plane);
        (_, double shift) = Split(m.LateralShiftMm ?? 0, m.ApShiftMm ?? 0, plane);
        List<string> barred = [];
        double outDeg = Math.Abs(Math.Atan(outOfPlane)) * 180 / Math.PI;
        if (Math.Round(outDeg, 1) > 0)
        {
            barred.Add($"{AlignmentWords.Angle(outDeg)} of angulation out of it");
        }

        if (m.RotationDeg is double rotation && rotation != 0)
        {
            barred.Add($"{AlignmentWords.Angle(Math.Abs(rotation))} of rotation");
        }

        if (Math.Round(Math.Abs(shift), 1) > 0)
        {
            barred.Add($"{AlignmentWords.Length(Math.Abs(shift))} of shift across it");
        }

        string words = $"All pins stand in one plane ({AlignmentWords.Toward(plane)}–{AlignmentWords.Toward(plane + 180)}, azimuth {plane:0}°) and a straight rod holds them there. Within it angulation ({AlignmentWords.Angle(Math.Abs(Math.Atan(inPlane)) * 180 / Math.PI)} here), shift and length can be set at the clamps";
        yield return barred.Count == 0
            ? $"{words}, and nothing of this deformity lies out of it."
            : $"{words}; {string.Join(", ", barred)} cannot, without reseating pins or adding rods: such a frame needs alignment before its second fragment is pinned.";
    }

    private Clamp[] RodClamps() => _halves.RodsOfTheDistalSide() is ImmutableHashSet<string> distal ? [.. _halves.RodClampsAcross(distal)] : [];

    private static (double In, double Out) Split(double anterior, double medial, double planeDeg)
    {
        (double sin, double cos) = Math.SinCos(planeDeg * Math.PI / 180);
        return ((anterior * cos) + (medial * sin), (medial * cos) - (anterior * sin));
    }

    private ReductionWay Way(string id, Clamp[] loosen, string stays, RigidMotion deformity, Func<Clamp, RigidMotion> memberAgainstRod)
    {
        ClampTravel?[] travels = [.. loosen.Select(c => ClampReader.Travel(_halves, c, memberAgainstRod(c)))];
        ClampTravel[] read = [.. travels.OfType<ClampTravel>()];
        bool parallel = read.Length < travels.Length;
        double misfit = parallel ? double.PositiveInfinity : read.Select(t => t.MisfitMm).DefaultIfEmpty(0).Max();
        Verdict verdict = misfit > BendMm ? Verdict.Fail : misfit > PlayMm || read.Any(t => t.Warning is not null) ? Verdict.Caution : Verdict.Pass;
        PivotReader pivots = new(_halves.CentreMm, deformity);
        string start = $"Loosen {string.Join(", ", loosen.Select(c => c.Id))} together; {stays}.";
        return new()
        {
            Id = id,
            Loosen = [.. loosen.Select(c => c.Id)],
            Verdict = verdict,
            Message = parallel ? $"{start} Two of its members would come to run parallel: it cannot be followed." : $"{start} {Fit(read, misfit)}",
            MisfitMm = parallel ? null : misfit,
            Clamps = [.. read],
            Pivots = [.. loosen.Select(c => pivots.About(c.Id, OnRod(c), azimuth => bone.OuterRadiusMm(fracture.LevelMm, azimuth)))],
        };
    }

    private static string Fit(ClampTravel[] read, double misfit)
    {
        string worst = read.MaxBy(t => t.MisfitMm)?.Clamp ?? "";
        string fit = misfit <= PlayMm ? "Its clamps can follow."
            : misfit <= BendMm ? $"Clamp {worst} cannot follow {AlignmentWords.Length(misfit)}: its pin would have to give."
            : $"Clamp {worst} cannot follow {AlignmentWords.Length(misfit)} across: with these members this correction is not to be had.";
        return string.Join(' ', read.Where(t => t.Warning is not null).Select(t => $"Clamp {t.Clamp}: {t.Warning}").Prepend(fit));
    }

    private Vec3 OnRod(Clamp clamp)
    {
        (Vec3 point, Vec3 along) = _halves.Member(clamp);
        PlacedRod rod = _halves.Rod(clamp.Rod);
        return PlacedClamp.Between(point, along, rod.FromMm, rod.Along).OnRodMm;
    }
}
