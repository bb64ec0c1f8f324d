using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;
using Halfpin.Workbench.Plots;

namespace Halfpin.Workbench.Course;

/// <summary>The healing of one frame in the words and lines of a screen.</summary>
public sealed record HealingView
{
    /// <summary>The report, with its assumptions and notes.</summary>
    public required HealingReport Report { get; init; }

    /// <summary>The answer in a sentence.</summary>
    public required string Headline { get; init; }

    /// <summary>What it rests on and what it is not.</summary>
    public required string Detail { get; init; }

    /// <summary>Why motion is missing, each once; empty when none is.</summary>
    public required ImmutableArray<Diagnosis> Withheld { get; init; }

    /// <summary>A line a week, or a week and fracture.</summary>
    public required ImmutableArray<HealingLine> Lines { get; init; }

    /// <summary>True when the weeks are the program's own and not the case's.</summary>
    public required bool IsAssumed { get; init; }

    /// <summary>What callus reaches, the softest of several.</summary>
    public Plot? Callus { get; init; }

    /// <summary>What the frame still carries.</summary>
    public Plot? Share { get; init; }

    /// <summary>The view of a report on one frame.</summary>
    /// <param name="value">The case.</param>
    /// <param name="report">The report; it must hold the frame.</param>
    /// <param name="drawing">The frame's parts, for their names.</param>
    public static HealingView Of(Case value, HealingReport report, FrameDrawing drawing)
    {
        HealingFrame frame = report.Frames.First(f => f.Id == drawing.FrameId);
        HealingWeekResult[] weeks = [.. report.Weeks.Where(w => w.Frame == frame.Id)];
        RemovalThreshold threshold = report.RemovalThreshold;
        bool assumed = value.Healing.HasUsualWeeks;
        return new()
        {
            Report = report,
            Headline = weeks.Length == 0 ? $"No healing to look at: {frame.Diagnosis!.Message}" : Answer(weeks, threshold, assumed),
            Detail = weeks.Length == 0 ? frame.Diagnosis!.Try : Basis(assumed),
            Withheld = weeks.Length == 0 ? [] : [.. weeks.Select(w => w.Diagnosis).OfType<Diagnosis>().DistinctBy(d => d.Message)],
            Lines = [.. weeks.SelectMany(w => LinesOf(w, threshold, drawing))],
            IsAssumed = assumed,
            Callus = weeks.Length < 2 ? null : CallusPlot(weeks, threshold),
            Share = SharePlot(weeks),
        };
    }

    // Callus is judged where it is softest.
    internal static double Least(HealingWeekResult w) => w.Fractures.IsEmpty
        ? Least(w.CallusBendingNmPerDeg)
        : w.Fractures.Min(f => Least(f.CallusBendingNmPerDeg));

    private static double Least(CallusBending b) => Math.Min(b.Ap, b.Ml);

    private static string Answer(HealingWeekResult[] weeks, RemovalThreshold threshold, bool assumed)
    {
        string as_ = assumed ? "If callus stiffened as ASSUMED" : "If callus stiffened as the case says", limit = $"{N(threshold.BendingNmPerDeg)} N·m/° in both planes";
        int first = Array.FindIndex(weeks, w => Least(w) >= threshold.BendingNmPerDeg);
        return first switch
        {
            < 0 => $"{as_}, it would not reach {limit} by week {N(weeks[^1].Week)}, the last that is looked at.",
            0 => $"{as_}, it would stand above {limit} from week {N(weeks[0].Week)}, the first that is looked at.",
            _ => $"{as_}, it would pass {limit} between week {N(weeks[first - 1].Week)} and week {N(weeks[first].Week)}.",
        };
    }

    private static string Basis(bool assumed) => (assumed ? "The weeks are assumed and describe no patient: real ones differ by months. " : "The weeks are the case's and promise nothing. ")
        + "No sign that a frame may come off, and no load is permitted by what is left to a limit.";

    private static IEnumerable<HealingLine> LinesOf(HealingWeekResult w, RemovalThreshold threshold, FrameDrawing drawing)
    {
        HealingFractureResult[] places = w.Fractures.IsEmpty
            ? [new() { LevelMm = 0, Motion = w.Motion, FrameLoadShare = w.FrameLoadShare, StrainNearPercent = w.StrainNearPercent, StrainFarPercent = w.StrainFarPercent, CallusBendingNmPerDeg = w.CallusBendingNmPerDeg }]
            : [.. w.Fractures];
        for (int f = 0; f < places.Length; f++)
        {
            HealingFractureResult at = places[f];
            yield return new()
            {
                Week = N(w.Week),
                Fracture = places.Length == 1 ? "" : Text($"fracture {f + 1}{(w.MostStrainedFracture == f + 1 ? ", most strained" : "")}"),
                IsFirstOfWeek = f == 0,
                Tissue = w.Tissue ?? "",
                Modulus = N(w.CallusModulusMPa),
                LoadKg = w.LoadKg.ToString("0.#", CultureInfo.InvariantCulture),
                Axial = at.Motion is FractureMotion m ? Numbers.Motion(m.AxialMm) : null,
                Shear = at.Motion is FractureMotion s ? Numbers.Motion(s.ShearMm) : null,
                StrainNear = Strain(at.StrainNearPercent),
                StrainFar = Strain(at.StrainFarPercent),
                Share = at.FrameLoadShare is double share ? Carried(share) : null,
                CallusAp = Numbers.Stiffness(at.CallusBendingNmPerDeg.Ap),
                CallusMl = Numbers.Stiffness(at.CallusBendingNmPerDeg.Ml),
                IsReached = Least(at.CallusBendingNmPerDeg) >= threshold.BendingNmPerDeg,
                Limit = w.NearestLimit is UtilisationEntry u ? LimitWords.Of(u.Part, u.Check, u.Place, drawing) : null,
                Left = w.MarginPercent is double left ? left < 0 ? Text($"beyond it by {-left:0} %") : left > 99 ? "over 99 % left to it" : Text($"{left:0} % left to it") : "",
            };
        }
    }

    // Below nothing where the frame pulls the ends together.
    private static string Carried(double share) => share < 0 ? Text($"−{-100 * share:0} %") : Numbers.Percent(share);

    private static string? Strain(double? percent) => percent is double p ? Text($"{p:0.0}").Replace('-', '−') : null;

    private static Plot CallusPlot(HealingWeekResult[] weeks, RemovalThreshold threshold)
    {
        (double X, double Y)[] points = [.. weeks.Select(w => (w.Week, Least(w)))];
        PlotScale y = PlotScale.Powers([.. points.Select(p => p.Y), threshold.BendingNmPerDeg]);
        string summary = string.Join("; ", weeks.Select(w => $"week {N(w.Week)} {Numbers.Stiffness(Least(w))}"));
        return new(
            "Bending stiffness of callus alone, weaker plane", "weeks since the injury", "N·m/°, each line ten times the one below",
            PlotScale.Of([0, .. points.Select(p => p.X)], fromZero: true), y, [.. points], threshold.BendingNmPerDeg,
            $"{N(threshold.BendingNmPerDeg)} N·m/° (READ)", $"Bending stiffness of callus in N·m/°: {summary}. Line at {N(threshold.BendingNmPerDeg)} N·m/°.");
    }

    private static Plot? SharePlot(HealingWeekResult[] weeks)
    {
        // Of several fractures the one through which most still goes by way of the frame.
        (double X, double Y)[] points = [.. weeks.Where(w => w.FrameLoadShare is not null)
            .Select(w => (w.Week, 100 * (w.Fractures.IsEmpty ? w.FrameLoadShare!.Value : w.Fractures.Max(f => f.FrameLoadShare ?? double.NegativeInfinity))))];
        return points.Length < 2 ? null : new(
            "Share of the axial load that passes through the frame", "weeks since the injury", "%",
            PlotScale.Of([0, .. points.Select(p => p.X)], fromZero: true), PlotScale.Of([0, 100, .. points.Select(p => p.Y)], fromZero: true), [.. points], null, "",
            $"Share carried by the frame: {string.Join("; ", points.Select(p => $"week {N(p.X)} {Carried(p.Y / 100)}"))}.");
    }

    private static string N(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A week of healing at one fracture, as texts; what is null is withheld.</summary>
public sealed record HealingLine
{
    public required string Week { get; init; }

    /// <summary>Which fracture; empty for the only one.</summary>
    public required string Fracture { get; init; }

    /// <summary>True where what holds for the whole frame stands.</summary>
    public required bool IsFirstOfWeek { get; init; }

    /// <summary>The tissue that has the modulus; empty when none of the table has.</summary>
    public required string Tissue { get; init; }

    /// <summary>MPa.</summary>
    public required string Modulus { get; init; }

    public required string LoadKg { get; init; }

    /// <summary>Axial motion, mm.</summary>
    public required string? Axial { get; init; }

    /// <summary>Shear, mm.</summary>
    public required string? Shear { get; init; }

    /// <summary>Strain at the cortex toward the rods, %.</summary>
    public required string? StrainNear { get; init; }

    /// <summary>Strain at the opposite cortex, %.</summary>
    public required string? StrainFar { get; init; }

    /// <summary>What the frame carries, with %.</summary>
    public required string? Share { get; init; }

    /// <summary>N·m/°.</summary>
    public required string CallusAp { get; init; }

    /// <summary>N·m/°.</summary>
    public required string CallusMl { get; init; }

    /// <summary>True at or above the published stiffness in both planes.</summary>
    public required bool IsReached { get; init; }

    /// <summary>The part nearest to a limit.</summary>
    public required string? Limit { get; init; }

    /// <summary>What is left to that limit; empty when there is none.</summary>
    public required string Left { get; init; }
}
