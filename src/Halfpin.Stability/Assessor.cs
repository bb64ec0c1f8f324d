using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Placement;
using Halfpin.Placement.Checks;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Bands;
using Halfpin.Stability.Checks;
using Halfpin.Stability.Comparison;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Fatigue;
using Halfpin.Stability.FreeMotions;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability;

/// <summary>Assesses the frames of a valid case: from parts to stiffness, motion, demand, checks and words.</summary>
public sealed class Assessor
{
    private readonly Case _case;
    private readonly BoneShape _bone;
    private readonly MaterialTable _materials;
    private readonly BoneFlexibility _flexibility;

    /// <summary>An assessor for a valid case.</summary>
    public Assessor(Case value)
    {
        _case = value;
        _bone = BoneShape.For(value.Limb);
        _materials = new(value.Materials);
        _flexibility = new(_bone, FrameAnalyser.TheoryOf(value.Model));
    }

    /// <summary>Assesses frames of the case.</summary>
    /// <param name="frameId">One frame's id, or null for all.</param>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    /// <param name="gait">A step to look at beside the case's own load, or null.</param>
    public Assessment Assess(string? frameId, ProgramStamp program, string caseSha256, Gait? gait = null)
    {
        ImmutableArray<FrameAssessment> frames = [.. _case.Frames.Where(f => frameId is null || f.Id == frameId).Select(f => AssessFrame(f, gait))];
        return new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = _case.Title,
            CaseNotes = _case.Notes,
            SafetyNote = Safety.Note,
            Frames = frames,
            Findings = KeyFindings.Of(_case, frames),
            Comparison = FrameComparison.Sentences(_case, frames),
            Assumptions = Assumptions.Of(_case),
            Warnings = Warnings(),
        };
    }

    /// <summary>The parts of a frame, its construct laid out about the fractures.</summary>
    public Parts PartsOf(Frame frame) => frame.Parts ?? ConstructBuilder.Build(frame.Construct!, _case.Fractures);

    private FrameAssessment AssessFrame(Frame frame, Gait? gait)
    {
        Parts parts = PartsOf(frame);
        FrameAnalyser analyser = new(_bone, _case.Fractures, _case.Model, _materials, _flexibility);
        analyser.Analyse(parts);
        FrameAssessment bare = new()
        {
            Id = frame.Id,
            Name = frame.DisplayName,
            Status = FrameStatus.Ok,
            Kit = KitOf(parts),
            Checks = WorstFirst(PlacementChecks.Of(PlacedFrame.Of(_case, parts, _bone))),
        };
        return FrameDiagnosis.Of(analyser) is (FrameStatus faulty, Diagnosis diagnosis)
            ? bare with { Status = faulty, Diagnosis = diagnosis }
            : LoadedFrame.Of(analyser, parts) is LoadedFrame loaded ? Complete(bare, parts, analyser, loaded, gait)
            : bare with { Status = FrameStatus.Invalid, Diagnosis = FrameDiagnosis.Inaccurate };
    }

    private FrameAssessment Complete(FrameAssessment bare, Parts parts, FrameAnalyser analyser, LoadedFrame frame, Gait? gait)
    {
        LoadedResults loaded = LoadedResults.Of(frame, _case);
        FrameAssessment complete = bare with
        {
            Status = loaded.Withheld is null ? FrameStatus.Ok : FrameStatus.OutOfRange,
            Diagnosis = loaded.Withheld,
            Freedoms = analyser.Freedoms.Names,
            Stiffness = StiffnessReadout.Read(analyser),
            SiteStiffness = StiffnessReadout.ReadSite(analyser),
            BendingRose = StiffnessReadout.ReadRose(analyser),
            Motion = loaded.Motion,
            OverloadMotion = loaded.OverloadMotion,
            Utilisation = DemandWords.Entries(loaded.Chosen.AsSpan(), analyser.Data),
            FirstLimit = loaded.FirstLimit,
            FatigueFrom = loaded.FatigueFrom,
            Fatigue = FatigueOf(_case, loaded, analyser),
            Contact = ContactOf(frame, loaded, 0),
            Gait = gait is null ? null : GaitAnalysis.Of(frame, analyser.Data, gait),
            Fractures = _case.Fractures.Length > 1 ? [.. _case.Fractures.Select((f, i) => At(f, i, analyser, frame, loaded))] : [],
            InternalForces = loaded.Withheld is null ? new InternalForces(frame.Analyser, frame.Demand, loaded.ChosenState.Load).All() : [],
        };
        BandEnds? ends = new BandAnalysis(_case.Model).Ends(model => Loaded(parts, model));
        return complete with
        {
            Band = ends?.Around(complete),
            Checks = WorstFirst([.. ChecksOf(new(_case, complete, loaded, ends, analyser.Data, _materials)), .. bare.Checks]),
        };
    }

    private BoneContact ContactOf(LoadedFrame frame, LoadedResults loaded, int fracture) => ContactReadout.Of(
        frame, EndLoad.Of(_case), loaded.Withheld is null ? loaded.ChosenState : null, loaded.OverloadWithheld is null ? loaded.OverloadState : null, fracture);

    private FractureResult At(Fracture fracture, int number, FrameAnalyser analyser, LoadedFrame frame, LoadedResults loaded) => new()
    {
        LevelMm = fracture.LevelMm,
        AtFracture = StiffnessReadout.AtFracture(analyser, number),
        SiteStiffness = StiffnessReadout.ReadSite(analyser, number),
        BendingRose = StiffnessReadout.ReadRose(analyser, number),
        Motion = loaded.MotionAt(number),
        OverloadMotion = loaded.OverloadMotionAt(number),
        Contact = ContactOf(frame, loaded, number),
    };

    // The same parts under other modelling assumptions; null when they cannot be analysed so.
    private BandEnd? Loaded(Parts parts, ModelOptions model)
    {
        FrameAnalyser analyser = new(_bone, _case.Fractures, model, _materials, _flexibility);
        return analyser.Analyse(parts) == AnalysisStatus.Ok && LoadedFrame.Of(analyser, parts) is LoadedFrame frame
            ? new(StiffnessReadout.AtFracture(analyser), LoadedResults.Of(frame, _case))
            : null;
    }

    /// <summary>Life of the pins under the chosen load; null when none is chosen.</summary>
    internal static FatigueLife? FatigueOf(Case value, LoadedResults loaded, FrameAnalyser analyser) =>
        value.Loading.IsChosen ? FatigueAnalysis.Of(loaded.Chosen, value.Loading.Steps, analyser.Data, analyser.Materials) : null;

    /// <summary>The mechanical checks.</summary>
    internal static IEnumerable<Check> ChecksOf(CheckInput input) =>
        [.. RangeChecks.Of(input), .. ConstructChecks.Of(input), .. LimitChecks.Of(input), .. FatigueChecks.Of(input), .. MovementChecks.Of(input)];

    /// <summary>The verdicts of the mechanical checks, the worst of each rule, in the same order.</summary>
    internal static void Judge(CheckInput input, List<CheckVerdict> verdicts)
    {
        RangeChecks.Judge(input, verdicts);
        ConstructChecks.Judge(input, verdicts);
        LimitChecks.Judge(input, verdicts);
        FatigueChecks.Judge(input, verdicts);
        MovementChecks.Judge(input, verdicts);
    }

    private static ImmutableArray<Check> WorstFirst(IEnumerable<Check> checks) => [.. checks.OrderByDescending(c => c.Verdict)];

    /// <summary>Counts of a frame's parts.</summary>
    public static Kit KitOf(Parts parts) =>
        new(parts.Pins.Length, parts.Rods.Length, parts.Clamps.Count(c => c.State != ClampState.Off));

    private ImmutableArray<string> Warnings() =>
        [.. _case.Frames.Where(f => f.Construct is { Placement: PinPlacement.FarFar, NearMm: not null })
            .Select(f => $"Frame {f.Id}: far-far placement sets the inner pin midway to the outer one; nearMm is not used.")];
}
