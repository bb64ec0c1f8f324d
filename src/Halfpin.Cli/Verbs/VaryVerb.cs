using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Reports.Figures;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Files;
using Halfpin.Storage.Tables;
using Halfpin.Studies.Varying;

namespace Halfpin.Cli.Verbs;

/// <summary>Takes one frame through the values of one or two of its numbers.</summary>
internal sealed class VaryVerb : Verb
{
    private readonly Terminal _terminal;
    private readonly Argument<string> _path = CaseArgument();
    private readonly Option<string> _frame = new("--frame") { Description = "The id of the frame.", Required = true };

    private readonly Option<string[]> _over = new("--over")
    {
        Description = "NAME=FROM..TO[:STEPS], once or twice: a number of the construct, or a JSON Pointer from the frame or the case; STEPS is how many values.",
        Required = true,
    };

    private readonly Option<int?> _threads = new("--threads") { Description = "Threads to work on; all of the machine when left out." };
    private readonly Option<string?> _csv = new("--csv") { Description = "Also write the rows to this CSV file." };
    private readonly Option<string?> _svg = new("--svg") { Description = "Also write a plot to this file." };

    public VaryVerb(Terminal terminal)
        : base("vary", "One frame while one or two of its numbers run through a range: stiffness, motion, and where a verdict changes.",
            "halfpin vary case.json --frame near-far --over standoffMm=20..90", "halfpin vary case.json --frame near-far --over standoffMm=40..60:5 --over nearMm=30..50:3 --csv rows.csv")
    {
        _terminal = terminal;
        Arguments.Add(_path);
        foreach (Option option in new Option[] { _frame, _over, _threads, _csv, _svg })
        {
            Options.Add(option);
        }

        SetAction(run => WithCase(run.GetValue(_path)!, run.GetValue(Json), terminal, (value, reading) => Run(run, value, reading)));
    }

    private int Run(ParseResult run, Case value, CaseReading reading)
    {
        string id = run.GetValue(_frame)!;
        int threads = run.GetValue(_threads) ?? Environment.ProcessorCount;
        if (!HasFrame(value, id, _terminal))
        {
            return ExitCodes.Usage;
        }

        if (threads is < 1 or > 256)
        {
            _terminal.Error.WriteLine("--threads must be 1 to 256.");
            return ExitCodes.Usage;
        }

        (ImmutableArray<VariedRange> ranges, ImmutableArray<Fault> faults) = VariedRange.Read(value, id, run.GetValue(_over)!);
        if (!faults.IsEmpty)
        {
            FaultPrinter.Print("--over", faults, run.GetValue(Json), _terminal);
            return ExitCodes.InvalidInput;
        }

        long rows = ranges.Aggregate(1L, (n, r) => n * r.Values.Length);
        if (rows > VariationAssessor.MaxRows)
        {
            _terminal.Error.WriteLine($"That makes {rows} rows; at most {VariationAssessor.MaxRows}. Use fewer steps.");
            return ExitCodes.Usage;
        }

        using StopSignal stop = new();
        StudyProgress progress = new(_terminal);
        VariationReport report;
        try
        {
            report = new VariationAssessor(value).Assess(id, ranges, threads, ProgramVersion.Stamp, reading.Sha256, progress.Tell, stop.Token);
        }
        catch (OperationCanceledException)
        {
            _terminal.Error.WriteLine("Stopped.");
            return ExitCodes.Interrupted;
        }

        return Tell(run, report);
    }

    private int Tell(ParseResult run, VariationReport report)
    {
        if (run.GetValue(_csv) is string csv)
        {
            VariationTable.Write(csv, report);
            _terminal.Error.WriteLine($"Rows: {csv}");
        }

        if (run.GetValue(_svg) is string svg)
        {
            AtomicFile.Write(svg, Encoding.UTF8.GetBytes(VariationFigure.Draw(report)));
            _terminal.Error.WriteLine($"Plot: {svg}");
        }

        if (run.GetValue(Json))
        {
            _terminal.Out.WriteLine(ReportWriter.ToJson(report));
        }
        else
        {
            VariationTables.Print(report, _terminal.Console(run.GetValue(NoColor)));
        }

        return report.Rows.All(r => r.Stiffness is null) ? ExitCodes.CannotAnalyse : ExitCodes.Done;
    }
}
