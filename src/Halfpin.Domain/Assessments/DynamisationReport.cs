using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>Frames of a case stage by stage, each stage beside the frame as it was mounted.</summary>
public sealed record DynamisationReport
{
    /// <summary>The word that marks such a report.</summary>
    public const string FormatName = "halfpin-dynamisation";

    /// <summary>The version of the format.</summary>
    public const int CurrentFormatVersion = 1;

    public string Format { get; init; } = FormatName;

    public int FormatVersion { get; init; } = CurrentFormatVersion;

    public required ProgramStamp Program { get; init; }

    /// <summary>SHA-256 of the case file's bytes, lower-case hexadecimal.</summary>
    public required string CaseSha256 { get; init; }

    public required string CaseTitle { get; init; }

    /// <summary>What must be said wherever advice is shown.</summary>
    public required string SafetyNote { get; init; }

    /// <summary>What speaks against any stage at all, from what was seen of fracture and pins.</summary>
    public required Check Gate { get; init; }

    /// <summary>Stages of all frames, frame by frame; the first of each is the frame as it was mounted.</summary>
    public required ImmutableArray<StageResult> Stages { get; init; }

    /// <summary>What the search for clamps to loosen looked at in each frame that holds.</summary>
    public required ImmutableArray<LooseningSearched> Searches { get; init; }

    /// <summary>The axial travel that was asked for under the chosen load; null when none was.</summary>
    public double? WantedFreeMm { get; init; }

    /// <summary>
    /// Sets of clamps whose loosening frees the axis alone, or gives the travel asked for and frees nothing else; those that keep most
    /// first.
    /// </summary>
    public required ImmutableArray<LooseningProposal> Proposals { get; init; }
}

/// <summary>A frame at a stage.</summary>
public sealed record StageResult
{
    /// <summary>Id of the frame.</summary>
    public required string Frame { get; init; }

    /// <summary>Id of the stage; as-mounted for the first.</summary>
    public required string Id { get; init; }

    public required string Name { get; init; }

    public required FrameStatus Status { get; init; }

    /// <summary>Why results are missing; null when none are.</summary>
    public Diagnosis? Diagnosis { get; init; }

    public required ImmutableArray<string> Freedoms { get; init; }

    /// <summary>Stiffness at the fracture, the first of several; null for a mechanism.</summary>
    public FourStiffnesses? Stiffness { get; init; }

    /// <summary>What is kept of the frame as mounted; null for a mechanism.</summary>
    public KeptStiffness? Kept { get; init; }

    /// <summary>Motion under the chosen load.</summary>
    public FractureMotion? Motion { get; init; }

    /// <summary>What comes first as an axial load grows, as in an assessment; null for a frame that slides freely under it.</summary>
    public FirstLimit? FirstLimit { get; init; }

    /// <summary>How the bone ends come to bear as the chosen load grows, with the stiffness before and after; null without results.</summary>
    public BoneContact? Contact { get; init; }

    /// <summary>Each fracture by itself, from proximal, when there are several; empty for one. The members above speak of the first.</summary>
    public ImmutableArray<StageFracture> Fractures { get; init; } = [];

    /// <summary>Number of the fracture, from 1, that keeps least in the worst kept of bending and torsion; null for one fracture or a mechanism.</summary>
    public int? LeastKeptFracture { get; init; }

    public required ImmutableArray<string> Warnings { get; init; }
}

/// <summary>One of several fractures at a stage.</summary>
/// <param name="LevelMm">Middle of its gap.</param>
/// <param name="Stiffness">Stiffness here; a direction that a slide frees anywhere reads 0.</param>
/// <param name="Kept">What is kept here of the frame as mounted.</param>
/// <param name="Motion">Motion here under the chosen load; null when withheld.</param>
/// <param name="Contact">How the bone ends come to bear here; null without results.</param>
public sealed record StageFracture(double LevelMm, FourStiffnesses Stiffness, KeptStiffness? Kept, FractureMotion? Motion, BoneContact? Contact = null);

/// <summary>Stiffness at the fracture as a share of that of the frame as mounted; 0 where it is freed.</summary>
public sealed record KeptStiffness(double Axial, double Ap, double Ml, double Torsion)
{
    /// <summary>The least of bending in either plane and torsion.</summary>
    public double LeastShare() => Math.Min(Ap, Math.Min(Ml, Torsion));
}

/// <summary>Clamps that may be loosened together.</summary>
/// <param name="Frame">Id of the frame.</param>
/// <param name="Clamps">The clamps.</param>
/// <param name="Kept">What is kept of the frame as mounted, at the fracture that keeps least.</param>
/// <param name="ClosingMm">Axial closing under the chosen load, at the fracture that closes most; null when no travel was asked for.</param>
public sealed record LooseningProposal(string Frame, ImmutableArray<string> Clamps, KeptStiffness Kept, double? ClosingMm = null);

/// <summary>How far the search for clamps to loosen went in a frame.</summary>
/// <param name="Frame">Id of the frame.</param>
/// <param name="PinClamps">Tight clamps on its pins.</param>
/// <param name="SetsTried">Sets of them that were tried: all, or none when there are too many.</param>
/// <param name="Message">The outcome in a sentence.</param>
public sealed record LooseningSearched(string Frame, int PinClamps, int SetsTried, string Message);
