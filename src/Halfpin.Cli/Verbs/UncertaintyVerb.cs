using System.CommandLine;
using System.Globalization;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Tables;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Sampling;
using Halfpin.Studies.Uncertainty;

namespace Halfpin.Cli.Verbs;

/// <summary>How sure a frame's results are under uncertain inputs.</summary>
internal sealed class UncertaintyVerb : Verb
{
    private const long MostSamples = 100_000_000;

    private readonly Terminal _terminal;
    private readonly Argument<string> _path = CaseArgument();
    private readonly Option<string> _frame = new("--frame") { Description = "The id of the frame.", Required = true };
    private readonly Option<long> _samples = new("--samples") { Description = "The most evaluations, all counted.", DefaultValueFactory = _ => 4096 };
    private readonly Option<ulong> _seed = new("--seed") { Description = "Seed: the same one gives the same figures on any number of threads.", DefaultValueFactory = _ => 1 };
    private readonly Option<int?> _threads = new("--threads") { Description = "Threads to work on; all of the machine when left out." };
    private readonly Option<string?> _against = new("--against") { Description = "Another frame, to rank the two under the same inputs." };
    private readonly Option<double?> _until = new("--until") { Description = "Stop when both ends of every 90 % band are known to this percentage of the median." };
    private readonly Option<string?> _out = new("--out") { Description = "Also write every evaluation to this .csv or .parquet file." };
    private readonly Option<bool> _resume = new("--resume") { Description = "Go on with the unfinished study of --out; begin anew, and say so, when there is none." };

    public UncertaintyVerb(Terminal terminal)
        : base("uncertainty", "One frame under uncertain inputs: bands, how likely each check passes, which input matters most.",
            "halfpin uncertainty case.json --frame near-far --samples 10000 --seed 1", "halfpin uncertainty case.json --frame near-far --against two-plane --out study.parquet")
    {
        _terminal = terminal;
        Arguments.Add(_path);
        foreach (Option option in new Option[] { _frame, _samples, _seed, _threads, _against, _until, _out, _resume })
        {
            Options.Add(option);
        }

        SetAction(run => WithCase(run.GetValue(_path)!, run.GetValue(Json), terminal, (value, reading) => Run(run, value, reading)));
    }

    private int Run(ParseResult run, Case value, CaseReading reading)
    {
        string frame = run.GetValue(_frame)!;
        string? against = run.GetValue(_against), file = run.GetValue(_out);
        if (!HasFrame(value, frame, _terminal) || (against is not null && !HasFrame(value, against, _terminal)) || Wrong(run, value) is not null)
        {
            return ExitCodes.Usage;
        }

        int threads = run.GetValue(_threads) ?? Environment.ProcessorCount;
        Study plan = UncertaintyStudy.Plan(value, reading.Sha256, frame, against, run.GetValue(_samples), run.GetValue(_seed))!;
        UncertaintyStudy study = new(plan, run.GetValue(_samples), run.GetValue(_until), threads);
        using StopSignal stop = new();
        using (StudyFile? kept = file is null ? null : new(file, study, run.GetValue(_resume), _terminal.Error))
        {
            StudyProgress progress = new(_terminal);
            while (!study.IsFinished && !stop.Token.IsCancellationRequested)
            {
                progress.Tell(study.Done, study.Rows.Count);
                byte[] rows = study.Next();
                kept?.Keep(rows);
            }

            if (!study.IsFinished)
            {
                _terminal.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Stopped after {study.Done} of {study.Rows.Count} evaluations.")
                    + (kept is null ? "" : " The same command with --resume goes on from there."));
                return ExitCodes.Interrupted;
            }

            kept?.Finish();
        }

        if (file is not null)
        {
            _terminal.Error.WriteLine($"Evaluations: {file}");
        }

        return Tell(run, study.Report(ProgramVersion.Stamp));
    }

    private int Tell(ParseResult run, UncertaintyReport report)
    {
        if (run.GetValue(Json))
        {
            _terminal.Out.WriteLine(ReportWriter.ToJson(report));
        }
        else
        {
            UncertaintyTables.Print(report, _terminal.Console(run.GetValue(NoColor)));
        }

        return report.Results.All(r => r.Median is null) ? ExitCodes.CannotAnalyse : ExitCodes.Done;
    }

    // What is wrong with the options, all of it told; null when nothing is.
    private string? Wrong(ParseResult run, Case value)
    {
        string frame = run.GetValue(_frame)!;
        string? against = run.GetValue(_against), file = run.GetValue(_out);
        List<string> faults = [];
        if (frame == against)
        {
            faults.Add("--against must name another frame than --frame.");
        }

        int inputs = UncertaintyStudy.InputsOf(value, frame, against);
        if (inputs > SaltelliDesign.MaxInputs)
        {
            faults.Add($"There are {inputs} uncertain inputs; at most {SaltelliDesign.MaxInputs} can be studied at once. Study one frame at a time, or a simpler one.");
        }
        else if (UncertaintyStudy.LeastSamples(value, frame, against) is long least && run.GetValue(_samples) is long samples && (samples < least || samples > MostSamples))
        {
            faults.Add($"--samples is {samples}: with {inputs} inputs it must be at least {least}, better a hundred times as many, and at most {MostSamples}.");
        }

        if (run.GetValue(_threads) is < 1 or > 256)
        {
            faults.Add("--threads must be 1 to 256.");
        }

        if (run.GetValue(_until) is double until && !(until is > 0 and <= 100))
        {
            faults.Add("--until must be a percentage above 0 and at most 100.");
        }

        if (file is not null && !TableWriter.Knows(file))
        {
            faults.Add($"--out {file}: the name must end in .csv or .parquet.");
        }

        if (file is null && run.GetValue(_resume))
        {
            faults.Add("--resume needs --out, the file of the study to go on with.");
        }

        foreach (string fault in faults)
        {
            _terminal.Error.WriteLine(fault);
        }

        return faults.FirstOrDefault();
    }
}
