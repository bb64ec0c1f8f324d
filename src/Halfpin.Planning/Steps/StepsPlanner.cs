using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Building;
using Halfpin.Planning.Kit;
using Halfpin.Stability;

namespace Halfpin.Planning.Steps;

/// <summary>From a frame of a valid case to the order in which it is built.</summary>
/// <param name="value">The case.</param>
public sealed class StepsPlanner(Case value)
{
    private readonly Assessor _assessor = new(value);

    /// <summary>The steps of a frame.</summary>
    /// <param name="frame">The frame, of this case.</param>
    /// <param name="stock">The stock its lengths are taken from; null for lengths rounded up.</param>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    public StepsReport Plan(Frame frame, Stock? stock, ProgramStamp program, string caseSha256)
    {
        FrameAssessment assessed = _assessor.Assess(frame.Id, program, caseSha256).Frames[0];
        FrameKit kit = FrameKit.Of(value, _assessor.PartsOf(frame), stock);
        HashSet<string> pins = [.. kit.Layout.Parts.Pins.Select(p => p.Id)];
        string? warning = FrameWarning.Of(assessed, kit.Layout.Frame);
        ImmutableArray<Step> steps = new StepWriter(value, kit, FrameWarning.Holds(assessed.Status), isClear: warning is null).All();
        return new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = value.Title,
            SafetyNote = Safety.Note,
            Frame = frame.Id,
            Name = frame.DisplayName,
            Status = assessed.Status,
            Diagnosis = assessed.Diagnosis,
            Warning = warning,
            Recorded = [.. new LimbRecord(value).Warnings()],
            StepsToLastPin = steps.LastOrDefault(s => s.Places.Any(pins.Contains))?.N ?? 0,
            Steps = steps,
        };
    }
}
