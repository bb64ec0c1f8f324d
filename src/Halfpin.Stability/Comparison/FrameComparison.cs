using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;

namespace Halfpin.Stability.Comparison;

/// <summary>Says in words what the numbers of several frames mean side by side.</summary>
public static class FrameComparison
{
    // Frames within this share of each other are called alike: less than any band of the inputs.
    private const double Alike = 0.05;

    private static readonly Direction[] _directions =
    [
        new("axial loading", "N/mm", "0", s => s.AxialNPerMm),
        new("AP bending", "N·m/deg", "0.0", s => s.ApBendingNmPerDeg),
        new("ML bending", "N·m/deg", "0.0", s => s.MlBendingNmPerDeg),
        new("torsion", "N·m/deg", "0.00", s => s.TorsionNmPerDeg),
    ];

    /// <summary>Sentences, the most important first. One frame gets a sentence of its own; several are compared.</summary>
    public static ImmutableArray<string> Sentences(Case value, ImmutableArray<FrameAssessment> frames)
    {
        FrameAssessment[] held = [.. frames.Where(f => f.Stiffness is not null)];
        List<string> said = [.. frames.Where(f => f.Stiffness is null).Select(f => $"{f.Name} cannot be used as it stands: {f.Diagnosis!.Message}")];
        if (held.Length > 1)
        {
            said.AddRange(_directions.Select(d => Stiffest(d, held)));
            said.AddRange(WeakDirection(held));
            said.Add(Cost(held));
        }

        said.AddRange(Motion(value, held));
        said.AddRange(FirstToGive(held));
        said.AddRange(held.Where(f => !f.Freedoms.IsEmpty).Select(Freed));
        said.AddRange(held.Where(f => f.Status == FrameStatus.OutOfRange).Select(f => $"{f.Name}: motion and demand are withheld. {f.Diagnosis!.Message}"));
        return [.. said];
    }

    /// <summary>One frame in a sentence: where it is weak, how far the fracture moves, what comes first.</summary>
    public static string Summary(FrameAssessment frame)
    {
        if (frame.Stiffness is null)
        {
            return frame.Diagnosis!.Message;
        }

        string weak = frame.BendingRose is BendingRose r
            ? Text($"Weakest in bending at {r.WeakAzimuthDeg:0}° ({r.WeakNmPerDeg:0.0} N·m/deg, {100 * r.WeakNmPerDeg / r.StrongNmPerDeg:0} % of the strongest). ")
            : "";
        string motion = frame.Motion is { LoadN: > 0 } m
            ? Text($"At {m.LoadN / Loading.NewtonPerKg:0} kg the gap {(m.AxialMm < 0 ? "closes" : "opens")} {Math.Abs(m.AxialMm):0.00} mm on the axis with {m.ShearMm:0.00} mm of shear. ")
            : frame.Status == FrameStatus.OutOfRange ? frame.Diagnosis!.Message + " " : "";
        return (weak + motion + (frame.FirstLimit is FirstLimit f ? Limit(f) : "")).TrimEnd();
    }

    private static string Stiffest(Direction d, FrameAssessment[] frames)
    {
        FrameAssessment[] order = [.. frames.OrderByDescending(f => d.Of(f.Stiffness!.AtFracture))];
        double best = d.Of(order[0].Stiffness!.AtFracture);
        FrameAssessment[] top = [.. order.TakeWhile(f => d.Of(f.Stiffness!.AtFracture) >= (1 - Alike) * best)];
        FrameAssessment least = order[^1];
        double lowest = d.Of(least.Stiffness!.AtFracture);
        string leader = top.Length == order.Length
            ? Text($"All frames are alike in {d.Name}")
            : Text($"Stiffest in {d.Name}: {Join(top.Select(f => f.Name))}");
        string end = top.Length == order.Length ? "" : lowest == 0
            ? Text($"; {least.Name} gives way in it, as intended")
            : Text($"; least {least.Name}, {best / lowest:0.0} times softer");
        return leader + Text($" ({Format(best, d)} {d.Unit})") + end + ".";
    }

    private static IEnumerable<string> WeakDirection(FrameAssessment[] frames)
    {
        FrameAssessment[] bent = [.. frames.Where(f => f.BendingRose is not null).OrderByDescending(f => f.BendingRose!.WeakNmPerDeg)];
        if (bent.Length < 2)
        {
            yield break;
        }

        BendingRose best = bent[0].BendingRose!, worst = bent[^1].BendingRose!;
        yield return Text($"In its weakest bending direction {bent[0].Name} is best ({best.WeakNmPerDeg:0.0} N·m/deg at {best.WeakAzimuthDeg:0}°) and {bent[^1].Name} worst ({worst.WeakNmPerDeg:0.0} N·m/deg at {worst.WeakAzimuthDeg:0}°).");
    }

    private static string Cost(FrameAssessment[] frames)
    {
        FrameAssessment[] order = [.. frames.OrderBy(f => f.Kit.Pins + f.Kit.Rods + f.Kit.Clamps)];
        return $"Fewest parts: {order[0].Name} ({Parts(order[0].Kit)}); most: {order[^1].Name} ({Parts(order[^1].Kit)}).";
    }

    private static IEnumerable<string> Motion(Case value, FrameAssessment[] frames)
    {
        FrameAssessment[] moved = [.. frames.Where(f => f.Motion is { LoadN: > 0 }).OrderBy(f => Math.Abs(f.Motion!.AxialMm))];
        if (moved.Length > 0)
        {
            string load = Text($"At {value.Loading.AllowedKg:0.#} kg");
            yield return moved.Length == 1
                ? Text($"{load} the gap of {moved[0].Name} closes {-moved[0].Motion!.AxialMm:0.00} mm on the axis ({moved[0].Motion!.ClosingNearMm:0.00} near, {moved[0].Motion!.ClosingFarMm:0.00} far from the rod), with {moved[0].Motion!.ShearMm:0.00} mm of shear.")
                : Text($"{load} the fracture moves least with {moved[0].Name} ({Math.Abs(moved[0].Motion!.AxialMm):0.00} mm axial, {moved[0].Motion!.ShearMm:0.00} mm shear) and most with {moved[^1].Name} ({Math.Abs(moved[^1].Motion!.AxialMm):0.00} and {moved[^1].Motion!.ShearMm:0.00} mm).");
        }
    }

    private static IEnumerable<string> FirstToGive(FrameAssessment[] frames)
    {
        FrameAssessment[] limited = [.. frames.Where(f => f.FirstLimit is not null).OrderBy(f => f.FirstLimit!.LoadN)];
        if (limited.Length > 0)
        {
            yield return $"As an axial load grows, {limited[0].Name} comes to an end first: {Limit(limited[0].FirstLimit!)}"
                + (limited.Length > 1 ? $" {limited[^1].Name} goes farthest: {Limit(limited[^1].FirstLimit!)}" : "");
        }
    }

    private static string Freed(FrameAssessment frame) =>
        $"{frame.Name} is free by intention in {Join(frame.Freedoms)}: stiffness against loads that work on it reads 0.";

    private static string Limit(FirstLimit f) => f.Check switch
    {
        FirstLimits.Touch => Text($"the bone ends touch at {f.LoadN:0} N ({f.LoadKg:0} kg)."),
        FirstLimits.Range => Text($"the model's range ends at {f.LoadN:0} N ({f.LoadKg:0} kg), where {f.Place}, before any part reaches its limit."),
        _ => Text($"{f.Part} reaches its limit ({f.Check}, {f.Place}) at {f.LoadN:0} N ({f.LoadKg:0} kg) over an open gap."),
    };

    private static string Parts(Kit kit) => $"{kit.Pins} pins, {kit.Rods} {(kit.Rods == 1 ? "rod" : "rods")}, {kit.Clamps} clamps";

    private static string Format(double value, Direction d) => value.ToString(d.Digits, CultureInfo.InvariantCulture);

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);

    private static string Join(IEnumerable<string> words)
    {
        string[] w = [.. words];
        return w.Length < 2 ? string.Concat(w) : $"{string.Join(", ", w[..^1])} and {w[^1]}";
    }

    private sealed record Direction(string Name, string Unit, string Digits, Func<FourStiffnesses, double> Of);
}
