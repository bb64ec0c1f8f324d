using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Storage.Cases;

namespace Halfpin.Workbench.Runs;

/// <summary>Whether two states of a case are the same in what a result depends on.</summary>
public static class CaseSameness
{
    /// <summary>True when the cases agree in all but title, notes, stages and frames.</summary>
    public static bool Around(Case a, Case b) => ReferenceEquals(a, b) || Same(Bare(a), Bare(b));

    /// <summary>True when the cases agree around the frames and in one frame, its name aside.</summary>
    /// <param name="a">A case that has the frame.</param>
    /// <param name="b">Another, which need not have it.</param>
    /// <param name="frameId">The frame.</param>
    public static bool AroundFrame(Case a, Case b, string frameId) => Around(a, b) && Frames(a, b, frameId);

    /// <summary>True when the cases agree in a frame, its name aside.</summary>
    public static bool Frames(Case a, Case b, string frameId)
    {
        Frame? now = b.Frames.FirstOrDefault(f => f.Id == frameId);
        return now is not null && Same(With(a, a.Frames.First(f => f.Id == frameId)), With(a, now));
    }

    private static Case Bare(Case value) => value with { Title = "", Notes = [], Stages = [], Frames = [] };

    private static Case With(Case value, Frame frame) => Bare(value) with { Frames = [frame with { Name = null }] };

    // Records compare arrays by reference, so that equal records are the same but others may be too: their files tell.
    private static bool Same(Case a, Case b) => a == b || CaseWriter.Write(a).AsSpan().SequenceEqual(CaseWriter.Write(b));
}
