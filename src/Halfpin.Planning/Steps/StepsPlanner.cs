using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
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
        bool holds = assessed.Status is FrameStatus.Ok or FrameStatus.OutOfRange;
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
            Warning = holds ? null : $"This frame does not hold the fracture. {assessed.Diagnosis?.Message} Built as below it stays so: change it first.",
            Steps = new StepWriter(value, FrameKit.Of(value, _assessor.PartsOf(frame), stock), holds).All(),
        };
    }
}
