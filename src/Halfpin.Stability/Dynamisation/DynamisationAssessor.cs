using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Dynamisation;

/// <summary>
/// Assesses the frames of a case stage by stage: those that the case gives, and for a double-rod frame without stages the usual one, its
/// outer rod loose distally and its inner rod loose proximally.
/// </summary>
public sealed class DynamisationAssessor
{
    private const string AsMounted = "as-mounted";

    private readonly Case _case;
    private readonly Assessor _assessor;

    /// <summary>An assessor for a valid case.</summary>
    public DynamisationAssessor(Case value)
    {
        _case = value;
        _assessor = new(value);
    }

    /// <summary>Assesses stages and looks for clamps to loosen.</summary>
    /// <param name="frameId">One frame's id, or null for all frames that have stages.</param>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    /// <param name="freeMm">The axial travel wanted of the clamps to loosen under the chosen load, more than 0; null for any that free the axis.</param>
    /// <param name="watch">Who follows the search; null for nobody.</param>
    public DynamisationReport Assess(string? frameId, ProgramStamp program, string caseSha256, double? freeMm = null, SearchWatch? watch = null)
    {
        Frame[] frames = FramesOf(frameId);
        DynamisationReport report = Report(frames, program, caseSha256);
        (LooseningSearched Searched, ImmutableArray<LooseningProposal> Best)[] searches =
            [.. frames.Select(f => Search(f, report.Stages.First(s => s.Frame == f.Id), freeMm, watch ?? SearchWatch.None)).OfType<(LooseningSearched, ImmutableArray<LooseningProposal>)>()];
        return report with
        {
            WantedFreeMm = freeMm,
            Searches = [.. searches.Select(s => s.Searched)],
            Proposals = [.. searches.SelectMany(s => s.Best)],
        };
    }

    /// <summary>Assesses stages without looking for clamps to loosen, which takes most of the time.</summary>
    /// <param name="frameId">One frame's id, or null for all frames that have stages.</param>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    public DynamisationReport AssessStages(string? frameId, ProgramStamp program, string caseSha256) => Report(FramesOf(frameId), program, caseSha256);

    /// <summary>What a stiffness keeps of another.</summary>
    internal static KeptStiffness Kept(FourStiffnesses of, FourStiffnesses now) => new(
        Share(now.AxialNPerMm, of.AxialNPerMm), Share(now.ApBendingNmPerDeg, of.ApBendingNmPerDeg),
        Share(now.MlBendingNmPerDeg, of.MlBendingNmPerDeg), Share(now.TorsionNmPerDeg, of.TorsionNmPerDeg));

    // A direction that is free already keeps nothing.
    private static double Share(double now, double of) => of > 0 ? now / of : 0;

    private Frame[] FramesOf(string? frameId) => [.. _case.Frames.Where(f => frameId is null ? StagesOf(f).Length > 0 : f.Id == frameId)];

    private DynamisationReport Report(Frame[] frames, ProgramStamp program, string caseSha256) => new()
    {
        Program = program,
        CaseSha256 = caseSha256,
        CaseTitle = _case.Title,
        SafetyNote = Safety.Note,
        Gate = DynamisationGate.Of(_case.Progress),
        Stages = [.. frames.SelectMany(f => Stages(f, program, caseSha256))],
        Searches = [],
        Proposals = [],
    };

    private Stage[] StagesOf(Frame frame)
    {
        Stage[] given = [.. _case.Stages.Where(s => s.Frame == frame.Id)];
        return given.Length == 0 && frame.Construct is DoubleRod { Dynamised: false }
            ? [StageBuilder.DynamisedDoubleRod(frame.Id, _assessor.PartsOf(frame))]
            : given;
    }

    private List<StageResult> Stages(Frame frame, ProgramStamp program, string caseSha256)
    {
        Stage[] stages = StagesOf(frame);
        Parts parts = _assessor.PartsOf(frame);
        List<Frame> states = [new() { Id = AsMounted, Name = "As mounted", Parts = parts }];
        foreach (Stage stage in stages)
        {
            parts = StageBuilder.Apply(parts, stage);
            states.Add(new() { Id = stage.Id, Name = stage.DisplayName, Parts = parts });
        }

        ImmutableArray<FrameAssessment> assessed = new Assessor(_case with { Frames = [.. states] }).Assess(null, program, caseSha256).Frames;
        return [.. assessed.Select((a, i) => Result(frame.Id, states[i].Parts!, a, assessed[0], i > 0))];
    }

    private StageResult Result(string frame, Parts parts, FrameAssessment now, FrameAssessment mounted, bool changed)
    {
        ImmutableArray<StageFracture> each = [.. now.Fractures.Select((f, i) => new StageFracture(
            f.LevelMm, f.AtFracture, mounted.Fractures.IsEmpty ? null : Kept(mounted.Fractures[i].AtFracture, f.AtFracture), f.Motion, f.Contact))];
        return new()
        {
            Frame = frame,
            Id = now.Id,
            Name = now.Name,
            Status = now.Status,
            Diagnosis = now.Diagnosis,
            Freedoms = now.Freedoms,
            Stiffness = now.Stiffness?.AtFracture,
            Kept = now.Stiffness is FrameStiffness s && mounted.Stiffness is FrameStiffness m ? Kept(m.AtFracture, s.AtFracture) : null,
            Motion = now.Motion,
            FirstLimit = now.FirstLimit,
            Contact = now.Contact,
            Fractures = each,
            LeastKeptFracture = each.Any(f => f.Kept is not null) ? Enumerable.Range(0, each.Length).MinBy(f => each[f].Kept!.LeastShare()) + 1 : null,
            Warnings = [.. StageWarnings.Of(parts, _case.Fractures, now, changed ? mounted : null)],
        };
    }

    private (LooseningSearched, ImmutableArray<LooseningProposal>)? Search(Frame frame, StageResult mounted, double? freeMm, SearchWatch watch)
    {
        if (mounted.Stiffness is not FourStiffnesses stiffness)
        {
            return null;
        }

        BoneShape bone = BoneShape.For(_case.Limb);
        FrameAnalyser analyser = new(bone, _case.Fractures, _case.Model, new MaterialTable(_case.Materials), new(bone, FrameAnalyser.TheoryOf(_case.Model)));
        return new LooseningSearch(analyser, EndLoad.Of(_case), freeMm, watch).Of(
            frame.Id, _assessor.PartsOf(frame), mounted.Fractures.IsEmpty ? [stiffness] : [.. mounted.Fractures.Select(f => f.Stiffness)]);
    }
}
