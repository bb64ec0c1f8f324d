using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Halfpin.Stability.Drawings;

namespace Halfpin.Workbench.Answers;

/// <summary>Assesses frames as they are asked for and remembers the last few. May be used from several threads.</summary>
public sealed class FrameAnswers(ProgramStamp program)
{
    // More than all frames of a few works that people drag at once.
    private const int Remembered = 400;

    private readonly Lock _gate = new();
    private readonly LinkedList<(Case Around, Frame Frame, FrameAssessment Assessment)> _recent = [];

    /// <summary>The answer on one frame of a valid case.</summary>
    public FrameAnswer Of(Case value, string frameId, StiffnessScales scales)
    {
        Frame frame = value.Frames.First(f => f.Id == frameId);
        return AnswerWriter.Of(value, Assess(value, frame), Drawing(value, frame), scales);
    }

    /// <summary>Ends of the bars for all frames of a case together.</summary>
    public StiffnessScales ScalesOf(Case value) => StiffnessScales.Of(value.Frames.Select(f => Assess(value, f)));

    /// <summary>All frames of a case in one assessment, as the program's other outputs have it.</summary>
    /// <param name="value">The case.</param>
    /// <param name="caseSha256">Hash of its file.</param>
    public Assessment Whole(Case value, string caseSha256) => new Assessor(value).Assess(null, program, caseSha256);

    /// <summary>The assessment of one frame, remembered while neither the frame nor the rest of the case changes.</summary>
    public FrameAssessment Assess(Case value, Frame frame)
    {
        Case rest = value with { Frames = [], Title = "", Stages = [], Notes = [] };
        lock (_gate)
        {
            for (LinkedListNode<(Case Around, Frame Frame, FrameAssessment Assessment)>? node = _recent.First; node is not null; node = node.Next)
            {
                if (node.Value.Frame == frame && node.Value.Around == rest)
                {
                    _recent.Remove(node);
                    _recent.AddFirst(node);
                    return node.Value.Assessment;
                }
            }
        }

        FrameAssessment made = new Assessor(value with { Frames = [frame] }).Assess(frame.Id, program, "").Frames[0];
        lock (_gate)
        {
            _recent.AddFirst((rest, frame, made));
            if (_recent.Count > Remembered)
            {
                _recent.RemoveLast();
            }
        }

        return made;
    }

    /// <summary>The parts of a frame in space.</summary>
    public static FrameDrawing Drawing(Case value, Frame frame) =>
        new DrawingBuilder(value).Frame(frame.Id, frame.Parts ?? ConstructBuilder.Build(frame.Construct!, value.Fractures));
}
