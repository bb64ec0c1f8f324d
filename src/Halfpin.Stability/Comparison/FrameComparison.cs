using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Checks;

namespace Halfpin.Stability.Comparison;

/// <summary>Says in words what the numbers of several frames mean side by side.</summary>
public static class FrameComparison
{
    // Frames within this share of each other are called alike: less than any band of the inputs.
    private const double Alike = 0.05;

    private static readonly Direction[] _directions =
    [
        new("axial", "N/mm", "0", s => s.AxialNPerMm),
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
            said.AddRange(held.Skip(1).Select(f => Locked(value, held, f) is FrameAssessment locked ? Dynamised(locked, f) : Against(held[0], f)));
        }

        if (value.Fractures.Length > 1)
        {
            said.Add($"Of the {value.Fractures.Length} fractures, stiffness at the fracture is told of the first and motion of the one that moves most.");
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
        string motion = MostMoved.Of(frame) is { LoadN: > 0 } m
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
        string Named(int count) => Join(frames.Where(f => PartCount(f) == count).Select(f => $"{f.Name} ({Parts(f.Kit)})"));
        int fewest = frames.Min(PartCount), most = frames.Max(PartCount);
        return $"Fewest parts, {fewest}: {Named(fewest)}; most, {most}: {Named(most)}.";
    }

    // What a change of construct does, direction by direction; a change within the spread of the inputs is called none.
    private static string Against(FrameAssessment baseline, FrameAssessment frame)
    {
        int parts = PartCount(frame) - PartCount(baseline);
        string cost = parts == 0 ? "as many parts" : parts > 0 ? $"{parts} more parts" : $"{-parts} fewer parts";
        return $"{frame.Name} against {baseline.Name}: {Changes(baseline, frame)}; {cost}.";
    }

    // The same double-rod frame with all clamps tight, when the case holds it too.
    private static FrameAssessment? Locked(Case value, FrameAssessment[] held, FrameAssessment frame) =>
        value.Frames.First(f => f.Id == frame.Id).Construct is DoubleRod { Dynamised: true } twin
        && value.Frames.FirstOrDefault(f => f.Construct is DoubleRod other && other == twin with { Dynamised = false }) is Frame same
            ? held.FirstOrDefault(f => f.Id == same.Id)
            : null;

    private static string Dynamised(FrameAssessment locked, FrameAssessment frame) =>
        $"{frame.Name} keeps of the same frame locked: {Changes(locked, frame)}. Releasing a column changed peak axial motion little but raised transverse and torsional strain by up to 100 % on a bench (Gardner 1996, READ): watch shear and twist.";

    private static string Changes(FrameAssessment from, FrameAssessment to) => string.Join(", ", _directions.Select(d =>
    {
        double before = d.Of(from.Stiffness!.AtFracture), after = d.Of(to.Stiffness!.AtFracture);
        return after == 0 ? $"{d.Name} freed"
            : before == 0 ? $"{d.Name} held"
            : Math.Abs((after / before) - 1) <= Alike ? $"{d.Name} alike"
            : Text($"{d.Name} ×{Math.Round(after / before, after / before < 1 ? 2 : 1)}");
    }));

    private static int PartCount(FrameAssessment f) => f.Kit.Pins + f.Kit.Rods + f.Kit.Clamps;

    private static IEnumerable<string> Motion(Case value, FrameAssessment[] frames)
    {
        (string Name, FractureMotion Motion)[] moved = [.. frames.Select(f => (f.Name, Motion: MostMoved.Of(f)))
            .Where(f => f.Motion is { LoadN: > 0 }).Select(f => (f.Name, f.Motion!)).OrderBy(f => Math.Abs(f.Item2.AxialMm))];
        if (moved.Length > 0)
        {
            string load = $"At {ChosenLoadWords.Of(value)}";
            yield return moved.Length == 1
                ? Text($"{load} the gap of {moved[0].Name} closes {-moved[0].Motion.AxialMm:0.00} mm on the axis ({moved[0].Motion.ClosingNearMm:0.00} near, {moved[0].Motion.ClosingFarMm:0.00} far from the rod), with {moved[0].Motion.ShearMm:0.00} mm of shear.")
                : Text($"{load} the fracture moves least with {moved[0].Name} ({Math.Abs(moved[0].Motion.AxialMm):0.00} mm axial, {moved[0].Motion.ShearMm:0.00} mm shear) and most with {moved[^1].Name} ({Math.Abs(moved[^1].Motion.AxialMm):0.00} and {moved[^1].Motion.ShearMm:0.00} mm).");
        }
    }

    private static IEnumerable<string> FirstToGive(FrameAssessment[] frames)
    {
        FrameAssessment[] limited = [.. frames.Where(f => f.FirstLimit is not null).OrderBy(f => f.FirstLimit!.LoadN)];
        if (limited.Length > 0)
        {
            yield return $"As an axial load grows once, the model's first limit is met with {limited[0].Name}: {Limit(limited[0].FirstLimit!)}"
                + (limited.Length > 1 ? $" It is met last with {limited[^1].Name}: {Limit(limited[^1].FirstLimit!)}" : "")
                + " These are not loads to allow: repeated steps do harm at less.";
        }
    }

    private static string Freed(FrameAssessment frame) =>
        $"{frame.Name} is free by intention ({Join(frame.Freedoms)}): stiffness against loads that work on it reads 0.";

    private static string Limit(FirstLimit f) => f.Check switch
    {
        FirstLimits.Touch => Text($"the bone ends touch at {f.LoadN:0} N ({f.LoadKg:0} kg)."),
        FirstLimits.Range => Text($"the model's range ends at {f.LoadN:0} N ({f.LoadKg:0} kg), where {f.Place}, before any part reaches its limit."),
        FirstLimits.Runs => Text($"{f.Place} at {f.LoadN:0} N ({f.LoadKg:0} kg), before any part reaches its limit."),
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
