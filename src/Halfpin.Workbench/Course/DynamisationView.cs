using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Words;

namespace Halfpin.Workbench.Course;

/// <summary>The stages of one frame in the words of a screen.</summary>
public sealed record DynamisationView
{
    /// <summary>The report, with its notes.</summary>
    public required DynamisationReport Report { get; init; }

    /// <summary>What is missing before any stage, or what speaks against it.</summary>
    public required Check Gate { get; init; }

    /// <summary>The stages, the frame as mounted first.</summary>
    public required ImmutableArray<StageLines> Stages { get; init; }

    /// <summary>The view of a report on one frame.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frame">The frame.</param>
    /// <param name="report">The report on it.</param>
    public static DynamisationView Of(Case value, Frame frame, DynamisationReport report) => new()
    {
        Report = report,
        Gate = report.Gate,
        Stages = [.. report.Stages.Where(s => s.Frame == frame.Id).Select((s, i) => Lines(value, frame, s, i == 0))],
    };

    /// <summary>A share that is kept, in words.</summary>
    internal static string Share(double kept) => kept == 0 ? "free" : Numbers.Percent(kept);

    private static StageLines Lines(Case value, Frame frame, StageResult s, bool mounted)
    {
        Stage? own = mounted ? null : value.Stages.FirstOrDefault(x => x.Frame == frame.Id && x.Id == s.Id);
        return new()
        {
            Name = s.Name,
            IsMounted = mounted,
            Own = own,
            Offer = mounted || own is not null ? null : StageEdits.Keep(value, frame),
            Diagnosis = s.Diagnosis,
            Warnings = s.Warnings,
            Rows = s.Fractures.IsEmpty
                ? [Row("", s.Stiffness, mounted ? null : s.Kept, s.Motion)]
                : [.. s.Fractures.Select((f, i) => Row(
                    Text($"fracture {i + 1}{(!mounted && s.LeastKeptFracture == i + 1 ? ", keeps least" : "")}"), f.Stiffness, mounted ? null : f.Kept, f.Motion))],
        };
    }

    private static StageRow Row(string fracture, FourStiffnesses? stiffness, KeptStiffness? kept, FractureMotion? motion)
    {
        FractureMotion? loaded = motion is { LoadN: > 0 } ? motion : null;
        return new(
            fracture, stiffness is null ? null : Numbers.Stiffness(stiffness.AxialNPerMm),
            kept is null ? null : Share(kept.Ap), kept is null ? null : Share(kept.Ml), kept is null ? null : Share(kept.Torsion),
            loaded is null ? null : Numbers.Motion(loaded.AxialMm), loaded is null ? null : Numbers.Motion(loaded.ShearMm), loaded is null ? null : Numbers.Motion(loaded.TwistDeg),
            loaded?.FrameShare is double share ? Text($"{100 * share:0} %") : null);
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A stage of a frame.</summary>
public sealed record StageLines
{
    public required string Name { get; init; }

    /// <summary>True for the frame as mounted.</summary>
    public required bool IsMounted { get; init; }

    /// <summary>The case's stage; null for the frame as mounted and for one that is shown though the case does not have it.</summary>
    public required Stage? Own { get; init; }

    /// <summary>How a stage that the case does not have is added to it; else null.</summary>
    public required StageOffer? Offer { get; init; }

    /// <summary>Why results are missing.</summary>
    public required Diagnosis? Diagnosis { get; init; }

    public required ImmutableArray<string> Warnings { get; init; }

    /// <summary>A row a fracture.</summary>
    public required ImmutableArray<StageRow> Rows { get; init; }
}

/// <summary>A fracture at a stage, as texts; what is null is not told.</summary>
/// <param name="Fracture">Which fracture; empty for the only one.</param>
/// <param name="Axial">Axial stiffness, N/mm.</param>
/// <param name="KeptAp">Share of AP bending kept of the frame as mounted.</param>
/// <param name="KeptMl">Of ML bending.</param>
/// <param name="KeptTorsion">Of torsion.</param>
/// <param name="Closing">Axial motion, mm.</param>
/// <param name="Shear">Shear, mm.</param>
/// <param name="Twist">Twist, °.</param>
/// <param name="Share">What the frame carries.</param>
public sealed record StageRow(string Fracture, string? Axial, string? KeptAp, string? KeptMl, string? KeptTorsion, string? Closing, string? Shear, string? Twist, string? Share);
