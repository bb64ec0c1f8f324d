using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Studies.Sampling;
using Halfpin.Studies.Uncertainty;
using Halfpin.Workbench.Runs;

namespace Halfpin.Workbench.Comparing;

/// <summary>The bands of the frames of a comparison: all of them under the same draws of what is uncertain.</summary>
public sealed class SharedBandsRun(TimeProvider time, CancellationToken gone = default)
{
    /// <summary>Seed of every run: the figures stay the same from one to the next.</summary>
    public const ulong Seed = 1;

    /// <summary>Draws when nothing else is asked for.</summary>
    public const int UsualSamples = 512;

    /// <summary>Draws to choose from; powers of two, at which the sequence is most even.</summary>
    public static ImmutableArray<int> Samples { get; } = [128, UsualSamples, 2048, 8192];

    /// <summary>State, progress and result.</summary>
    public LongRun<SharedReport> Run { get; } = new(time, gone);

    /// <summary>Starts a run.</summary>
    /// <param name="value">The valid case.</param>
    /// <param name="frames">Ids of frames of it.</param>
    /// <param name="samples">Draws for each frame.</param>
    /// <returns>What forbids it, in which case nothing is started; and the run, to wait for, null when none was started.</returns>
    public (ImmutableArray<Fault> Faults, Task? Running) Start(Case value, ImmutableArray<string> frames, int samples)
    {
        int inputs = SharedStudy.CountInputs(value, frames);
        return inputs > SobolSequence.MaxDimensions
            ? ([new("Frames", FaultCodes.Range, Text($"There are {inputs} uncertain inputs."), Text($"At most {SobolSequence.MaxDimensions} at once."), "Compare fewer frames, or simpler ones.")], null)
            : ([], Run.Start(value, (tell, stop) => Work(value, frames, samples, tell, stop)));
    }

    // Told in assessments of a frame, which is what takes the time.
    private static SharedReport Work(Case value, ImmutableArray<string> frames, int samples, Action<long, long> tell, CancellationToken stop)
    {
        SharedStudy study = new(value, frames, samples, Seed, WorkRuns.Threads);
        while (!study.IsFinished)
        {
            stop.ThrowIfCancellationRequested();
            tell((long)study.Done * frames.Length, (long)samples * frames.Length);
            study.Next();
        }

        tell((long)samples * frames.Length, (long)samples * frames.Length);
        return study.Report();
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
