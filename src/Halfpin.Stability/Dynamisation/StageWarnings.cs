using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Stability.Dynamisation;

/// <summary>What to look out for when a frame is made to yield.</summary>
internal static class StageWarnings
{
    // Less twist than this is not seen on any image.
    private const double LeastTwistDeg = 0.1;

    // Growth of motion within this share is alike.
    private const double Alike = 0.01;

    /// <summary>The warnings of a stage.</summary>
    /// <param name="parts">The parts at the stage.</param>
    /// <param name="fractures">The fractures, from proximal.</param>
    /// <param name="now">The frame at the stage.</param>
    /// <param name="mounted">The frame as mounted; null when this is it.</param>
    public static IEnumerable<string> Of(Parts parts, ImmutableArray<Fracture> fractures, FrameAssessment now, FrameAssessment? mounted)
    {
        if (now.Status == FrameStatus.Mechanism)
        {
            yield return "The frame has become a mechanism in more than the intended slide: do not do this.";
        }

        for (int f = 0; f <= fractures.Length; f++)
        {
            double from = f == 0 ? double.NegativeInfinity : fractures[f - 1].LevelMm, to = f == fractures.Length ? double.PositiveInfinity : fractures[f].LevelMm;
            int pins = Held(parts, l => l > from && l < to);
            string fragment = f == 0 ? "proximal" : f == fractures.Length ? "distal" : fractures.Length == 2 ? "middle" : $"{f + 1}.";
            if (pins < 2)
            {
                yield return $"The {fragment} fragment is left on {(pins == 0 ? "no pin" : "one pin")}.";
            }
        }

        string[] beside = [.. now.Freedoms.Where(f => f is not "axial")];
        if (beside.Length > 0)
        {
            yield return $"Beside the axis the frame is free in {string.Join(", ", beside)}.";
        }

        foreach (string warning in mounted is null ? [] : Growth(mounted, now))
        {
            yield return warning;
        }

        if (mounted is not null && !now.Freedoms.IsEmpty)
        {
            yield return "Released columns changed peak axial motion little but raised transverse and torsional strain by up to 100 % on a bench (Gardner 1996, READ): watch shear and twist.";
        }
    }

    private static IEnumerable<string> Growth(FrameAssessment mounted, FrameAssessment now) => now.Fractures.IsEmpty
        ? mounted.Motion is FractureMotion before && now.Motion is FractureMotion after ? Growth(before, after) : []
        : mounted.Fractures.Zip(now.Fractures).SelectMany((f, i) => f.First.Motion is FractureMotion first && f.Second.Motion is FractureMotion second
            ? Growth(first, second).Select(w => $"Fracture {i + 1}: {w}")
            : []);

    private static IEnumerable<string> Growth(FractureMotion before, FractureMotion after)
    {
        double axial = Ratio(after.AxialMm, before.AxialMm);
        if (Ratio(after.ShearMm, before.ShearMm) > axial * (1 + Alike))
        {
            yield return Text($"Shear grows faster than axial motion: from {before.ShearMm:0.00} to {after.ShearMm:0.00} mm, axial from {Math.Abs(before.AxialMm):0.00} to {Math.Abs(after.AxialMm):0.00} mm.");
        }

        if (Ratio(after.TwistDeg, before.TwistDeg) > axial * (1 + Alike) && Math.Abs(after.TwistDeg) > LeastTwistDeg)
        {
            yield return Text($"Twist grows faster than axial motion: from {Math.Abs(before.TwistDeg):0.00} to {Math.Abs(after.TwistDeg):0.00}°.");
        }
    }

    private static double Ratio(double after, double before) => before == 0 ? 1 : Math.Abs(after / before);

    private static int Held(Parts parts, Func<double, bool> inFragment) => parts.Pins.Count(p =>
        inFragment(p.LevelMm) && parts.Clamps.Any(c => c.Pin == p.Id && c.State != ClampState.Off));

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
