using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Cases;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Sampling;
using Halfpin.Studies.Uncertainty;
using Halfpin.Workbench.Runs;

namespace Halfpin.Workbench.Uncertain;

/// <summary>The study of uncertainty of a work.</summary>
public sealed class UncertaintyRun(ProgramStamp program, TimeProvider time, CancellationToken gone = default)
{
    /// <summary>Most evaluations on a screen; longer studies are for the command line, which can go on with a stopped one.</summary>
    public const long MaxSamples = 1_000_000;

    /// <summary>Evaluations when nothing else is asked for.</summary>
    public const long UsualSamples = 4096;

    /// <summary>State, progress and result.</summary>
    public LongRun<UncertaintyReport> Run { get; } = new(time, gone);

    /// <summary>What was asked for last; null before the first.</summary>
    public UncertaintyRequest? Asked { get; private set; }

    /// <summary>Starts a study.</summary>
    /// <param name="value">The valid case.</param>
    /// <param name="request">What is asked for.</param>
    /// <returns>All that is wrong with the request, in which case nothing is started; and the run, to wait for, null when none was started.</returns>
    public (ImmutableArray<Fault> Faults, Task? Running) Start(Case value, UncertaintyRequest request)
    {
        ImmutableArray<Fault> faults = [.. Wrong(value, request)];
        if (!faults.IsEmpty || Run.IsBusy)
        {
            return (faults, null);
        }

        Asked = request;
        return ([], Run.Start(value, (tell, stop) => Work(value, request, tell, stop)));
    }

    private UncertaintyReport Work(Case value, UncertaintyRequest request, Action<long, long> tell, CancellationToken stop)
    {
        long samples = (long)request.Samples!.Value;
        Study plan = UncertaintyStudy.Plan(value, Convert.ToHexStringLower(SHA256.HashData(CaseWriter.Write(value))), request.Frame, request.Against, samples, request.Seed)!;
        UncertaintyStudy study = new(plan, samples, null, WorkRuns.Threads);
        while (!study.IsFinished)
        {
            stop.ThrowIfCancellationRequested();
            tell(study.Done, study.Rows.Count);
            _ = study.Next();
        }

        tell(study.Done, study.Rows.Count);
        return study.Report(program);
    }

    private static IEnumerable<Fault> Wrong(Case value, UncertaintyRequest request)
    {
        if (request.Frame == request.Against)
        {
            yield return new("Against", FaultCodes.Reference, "A frame cannot be ranked against itself.", "Another frame, or none.", "Choose another.");
            yield break;
        }

        int inputs = UncertaintyStudy.InputsOf(value, request.Frame, request.Against);
        if (inputs > SaltelliDesign.MaxInputs)
        {
            yield return new("Frame", FaultCodes.Range, Text($"There are {inputs} uncertain inputs."), Text($"At most {SaltelliDesign.MaxInputs} at once."), "Study one frame at a time, or a simpler one.");
            yield break;
        }

        long least = UncertaintyStudy.LeastSamples(value, request.Frame, request.Against);
        if (request.Samples is not double samples || samples != Math.Floor(samples) || samples < least || samples > MaxSamples)
        {
            yield return new("Samples", FaultCodes.Range, request.Samples is double s ? Text($"{s} samples with {inputs} inputs.") : "Samples is no number.",
                Text($"A whole number from {least} to {MaxSamples}; better a hundred times the least."), "The command line takes more, and goes on with a stopped study.");
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
