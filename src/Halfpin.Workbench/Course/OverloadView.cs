using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Figures;
using Halfpin.Reports.Words;
using Halfpin.Stability.Checks;
using Halfpin.Stability.Overload;

namespace Halfpin.Workbench.Course;

/// <summary>An overload path in the words of a screen.</summary>
public sealed record OverloadView
{
    /// <summary>The report, with its assumptions and notes.</summary>
    public required OverloadReport Report { get; init; }

    /// <summary>What gives first and at what load, or why that is not told.</summary>
    public required string Headline { get; init; }

    /// <summary>The first to give in full, else the first event; empty when there is none.</summary>
    public required string Detail { get; init; }

    /// <summary>What is left when the load is off, or why that is not told.</summary>
    public required string Set { get; init; }

    /// <summary>False when there is no path at all.</summary>
    public required bool HasPath { get; init; }

    /// <summary>Caution where something gives, fail where there is no answer; null where nothing gives, since that is no pass and allows nothing.</summary>
    public required Verdict? Verdict { get; init; }

    public required ImmutableArray<OverloadLine> Events { get; init; }

    /// <summary>The path corner by corner at each fracture, from proximal; empty without one.</summary>
    public required ImmutableArray<OverloadTrace> Traces { get; init; }

    /// <summary>What the plot shows, for those who do not see it; empty without one.</summary>
    public required string Picture { get; init; }

    /// <summary>The load that is looked at unless one is asked for: the chosen one and the mean by which patients exceeded an order, whole N.</summary>
    public static double UsualToN(Case value) => Math.Clamp(Math.Round(OverloadCase.Kg(value) * Loading.NewtonPerKg), 1, OverloadAssessor.MostN);

    /// <summary>Where that load comes from.</summary>
    public static string UsualWords(Case value) =>
        Text($"Unless you say otherwise {Load(UsualToN(value))}: the load you entered and the mean by which patients exceeded an order. {OverloadCase.Source} (READ).");

    /// <summary>The view of a report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="drawing">The frame's parts, for their names.</param>
    public static OverloadView Of(OverloadReport report, FrameDrawing drawing)
    {
        OverloadEvent? first = report.Events.FirstOrDefault(e => e.Kind is not (OverloadEventKind.Contact or OverloadEventKind.Stop) && !e.OnWayBack);
        return new()
        {
            Report = report,
            Headline = report.Diagnosis is Diagnosis none ? $"No path: {none.Message}" : Answer(report, first, drawing),
            Detail = report.Diagnosis?.Try ?? (first ?? report.Events.FirstOrDefault())?.Message ?? "",
            Set = Left(report),
            HasPath = !report.Path.IsEmpty,
            Verdict = report.Diagnosis is not null || !HasAnswer(report, first) ? Domain.Assessments.Verdict.Fail : first is null ? null : Domain.Assessments.Verdict.Caution,
            Events = [.. report.Events.Select((e, i) => new OverloadLine(i + 1, Newton(e.LoadN), Kilogram(e.LoadN), e.OnWayBack, Kind(e.Kind), e.Message))],
            Traces = report.Path.IsEmpty ? []
                : report.Fractures.IsEmpty ? [new("The path corner by corner", Corners(report.Path))]
                : [.. report.Fractures.Select((f, i) => new OverloadTrace($"The path corner by corner at fracture {i + 1}", Corners(f.Path)))],
            Picture = report.Path.IsEmpty ? "" : OverloadFigure.Words(report),
        };
    }

    /// <summary>A load in N and kg.</summary>
    public static string Load(double loadN) => $"{Newton(loadN)} N ({Kilogram(loadN)} kg)";

    private static ImmutableArray<OverloadCorner> Corners(ImmutableArray<OverloadPoint> path) => [.. path.Select(p => new OverloadCorner(
        Newton(p.LoadN), Kilogram(p.LoadN), Signed(p.AxialMm), Numbers.Motion(p.ShearMm), Numbers.Motion(p.TiltDeg), Signed(p.TwistDeg),
        p.FrameShare is double share ? Text($"{100 * share:0} %") : null))];

    private static bool HasAnswer(OverloadReport report, OverloadEvent? first) => first is not null || report.Complete;

    private static string Answer(OverloadReport report, OverloadEvent? first, FrameDrawing drawing)
    {
        if (first is null)
        {
            return report.Complete
                ? $"Nothing slips, yields or crushes bone up to {Load(report.ToN)}, as the model has it. That allows no load."
                : report.Ended!;
        }

        string gives = first.Kind switch
        {
            OverloadEventKind.Slip => $"clamp {first.Part} slips",
            OverloadEventKind.Yield => $"{(drawing.Rods.Any(r => r.Part.Id == first.Part) ? "rod" : "pin")} {first.Part} begins to yield",
            _ => $"bone under pin {first.Part} reaches its strength",
        };
        return $"First {gives}, at {Load(first.LoadN)}.";
    }

    private static string Left(OverloadReport report) => report switch
    {
        { Diagnosis: not null } => "",
        { SetMm: not null, Fractures.IsEmpty: false } =>
            $"Left when the load is off, by slip of clamps alone: {string.Join(", ", report.Fractures.Select((f, i) => $"{Numbers.Motion(f.SetMm ?? 0)} mm between the faces of fracture {i + 1}"))}.",
        { SetMm: double set } => $"Left between the fracture faces when the load is off: {Numbers.Motion(set)} mm, by slip of clamps alone.",
        _ => $"What is left when the load is off is not told. {report.Ended} {report.SetBefore?.Message}".TrimEnd(),
    };

    private static string Kind(OverloadEventKind kind) => kind switch
    {
        OverloadEventKind.Contact => "bone ends",
        OverloadEventKind.Slip => "clamp slips",
        OverloadEventKind.Yield => "metal yields",
        OverloadEventKind.Stop => "clamp's stop",
        _ => "bone crushed",
    };

    private static string Newton(double loadN) => Text($"{loadN:0}");

    private static string Kilogram(double loadN) => Text($"{loadN / Loading.NewtonPerKg:0.#}");

    // Closing is negative; what rounds to nothing has no sign.
    private static string Signed(double value) => Math.Abs(value) < 0.005 ? "0.00" : (value < 0 ? "−" : "") + Numbers.Motion(value);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>An event of an overload path.</summary>
/// <param name="Number">Its number in the plot.</param>
/// <param name="Newton">Axial load, N.</param>
/// <param name="Kilogram">The same as a reading on a scale.</param>
/// <param name="OnWayBack">True when it happens as the load comes off.</param>
/// <param name="Kind">What kind it is of.</param>
/// <param name="Message">What happens.</param>
public sealed record OverloadLine(int Number, string Newton, string Kilogram, bool OnWayBack, string Kind, string Message);

/// <summary>A corner of an overload path, as texts.</summary>
/// <param name="Newton">Axial load, N.</param>
/// <param name="Kilogram">The same as a reading on a scale.</param>
/// <param name="Axial">Axial motion, mm; closing negative.</param>
/// <param name="Shear">Shear, mm.</param>
/// <param name="Tilt">Tilt, °.</param>
/// <param name="Twist">Twist, °.</param>
/// <param name="Share">What the frame carries; null without load.</param>
public sealed record OverloadCorner(string Newton, string Kilogram, string Axial, string Shear, string Tilt, string Twist, string? Share);

/// <summary>The path at a fracture.</summary>
/// <param name="Title">What it is, with the fracture's number where there are several.</param>
/// <param name="Corners">Its corners in their order.</param>
public sealed record OverloadTrace(string Title, ImmutableArray<OverloadCorner> Corners);
