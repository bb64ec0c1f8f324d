using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Words;

namespace Halfpin.Workbench.Course;

/// <summary>Clamps to loosen on one frame in the words of a screen.</summary>
public sealed record LooseningView
{
    /// <summary>The greatest axial travel that can be asked for.</summary>
    public const double MostFreeMm = 50;

    /// <summary>The outcome of the search in a sentence.</summary>
    public required string Headline { get; init; }

    /// <summary>What stands against any stage.</summary>
    public required Check Gate { get; init; }

    /// <summary>Clamps to loosen, those that keep most first.</summary>
    public required ImmutableArray<ProposalLine> Proposals { get; init; }

    /// <summary>The view of a report on one frame.</summary>
    /// <param name="value">The case, to whose stages a proposal would be added.</param>
    /// <param name="frame">The frame.</param>
    /// <param name="report">The report on it.</param>
    /// <param name="drawing">Its parts as mounted, for their names.</param>
    public static LooseningView Of(Case value, Frame frame, DynamisationReport report, FrameDrawing drawing) => new()
    {
        Headline = report.Searches.FirstOrDefault(s => s.Frame == frame.Id)?.Message ?? "No search: the frame as mounted has no stiffness to keep.",
        Gate = report.Gate,
        Proposals = [.. report.Proposals.Where(p => p.Frame == frame.Id).Select(p => new ProposalLine(
            string.Join(", ", p.Clamps.Select(id => Clamp(id, drawing))), p.Clamps,
            DynamisationView.Share(p.Kept.Ap), DynamisationView.Share(p.Kept.Ml), DynamisationView.Share(p.Kept.Torsion),
            p.ClosingMm is double mm ? $"{Numbers.Motion(mm)} mm" : null, StageEdits.Loosen(value, frame, p.Clamps)))],
    };

    // A clamp with what it holds, since its id alone says little.
    private static string Clamp(string id, FrameDrawing drawing) => drawing.Clamps.FirstOrDefault(c => c.Part.Id == id) is DrawnClamp clamp
        ? $"{id} ({clamp.Part.Pin ?? clamp.Part.OtherRod} on {clamp.Part.Rod})"
        : id;
}

/// <summary>Clamps that may be loosened together.</summary>
/// <param name="Words">The clamps with what they hold.</param>
/// <param name="Clamps">Their ids.</param>
/// <param name="KeptAp">Share of AP bending kept of the frame as mounted.</param>
/// <param name="KeptMl">Of ML bending.</param>
/// <param name="KeptTorsion">Of torsion.</param>
/// <param name="Closing">How far the gap closes, with its unit; null when no travel was asked for.</param>
/// <param name="Offer">How it is added as a stage.</param>
public sealed record ProposalLine(string Words, ImmutableArray<string> Clamps, string KeptAp, string KeptMl, string KeptTorsion, string? Closing, StageOffer Offer);
