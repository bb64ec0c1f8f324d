using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Placement;

namespace Halfpin.Planning.Alignment;

/// <summary>
/// How far a loosened clamp travels when one of its members is moved against the other. A clamp slides along both, turns about both and
/// hinges between them; the distance of their axes it keeps.
/// </summary>
internal static class ClampReader
{
    private const double DegPerRad = 180 / Math.PI;

    // Sine of the angle below which two members have no nearest points to speak of.
    private const double Parallel = 1e-3;

    /// <summary>The travel of a clamp whose pin or other rod moves while its rod stays; null when the two come to run parallel.</summary>
    public static ClampTravel? Travel(FrameHalves frame, Clamp clamp, RigidMotion memberAgainstRod)
    {
        PlacedRod rod = frame.Rod(clamp.Rod);
        (Vec3 point, Vec3 along) = frame.Member(clamp);
        Vec3 movedPoint = memberAgainstRod.Of(point), movedAlong = memberAgainstRod.Turn * along;
        if (along.Cross(rod.Along).Length < Parallel || movedAlong.Cross(rod.Along).Length < Parallel)
        {
            return null;
        }

        PlacedClamp before = PlacedClamp.Between(point, along, rod.FromMm, rod.Along);
        PlacedClamp after = PlacedClamp.Between(movedPoint, movedAlong, rod.FromMm, rod.Along);
        Vec3 rodSeenFromMember = memberAgainstRod.Turn.Transposed() * rod.Along;
        return new(
            clamp.Id,
            after.AlongRodMm - before.AlongRodMm,
            after.AlongMemberMm - before.AlongMemberMm,
            TurnDeg(along, movedAlong, rod.Along),
            TurnDeg(rod.Along, rodSeenFromMember, along),
            (Math.Acos(Math.Clamp(movedAlong.Dot(rod.Along), -1, 1)) - Math.Acos(Math.Clamp(along.Dot(rod.Along), -1, 1))) * DegPerRad,
            Math.Abs(Distance(movedPoint, movedAlong, rod) - Distance(point, along, rod)),
            Warning(frame, clamp, rod, after));
    }

    // With its sign, so that a rod that changes sides has travelled the whole way.
    private static double Distance(Vec3 point, Vec3 along, PlacedRod rod) => (point - rod.FromMm).Dot(rod.Along.Cross(along).Normalised());

    private static double TurnDeg(Vec3 from, Vec3 to, Vec3 about)
    {
        Vec3 a = from - (from.Dot(about) * about), b = to - (to.Dot(about) * about);
        return Math.Atan2(a.Cross(b).Dot(about), a.Dot(b)) * DegPerRad;
    }

    private static string? Warning(FrameHalves frame, Clamp clamp, PlacedRod rod, PlacedClamp after)
    {
        if (Beyond(after.AlongRodMm, rod) is double pastRod)
        {
            return $"Rod {clamp.Rod} ends {Text(pastRod)} mm short of it: use a longer rod.";
        }

        if (clamp.OtherRod is string other)
        {
            return Beyond(after.AlongMemberMm, frame.Rod(other)) is double past ? $"Rod {other} ends {Text(past)} mm short of it: use a longer rod." : null;
        }

        double free = after.AlongMemberMm - frame.Pin(clamp.Pin!).SurfaceMm - (clamp.BodyLengthMm / 2);
        return free <= 0 ? $"It would come {Text(-free)} mm into the bone along pin {clamp.Pin}: move the rod away first." : null;
    }

    private static double? Beyond(double alongMm, PlacedRod rod)
    {
        double past = Math.Max(-alongMm, alongMm - rod.SpanMm) - rod.OverhangMm;
        return past > 1e-6 ? past : null;
    }

    private static string Text(double mm) => mm.ToString("0.#", CultureInfo.InvariantCulture);
}
