using System.CommandLine;
using System.Globalization;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Search;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Stocks;

namespace Halfpin.Cli.Verbs;

/// <summary>Finds the simplest frame that is stable enough.</summary>
internal sealed class SuggestVerb : Verb
{
    private const int MostThreads = 256;

    // ASSUMED: a search that takes minutes rather than seconds.
    private const long Many = 20_000_000;

    public SuggestVerb(Terminal terminal)
        : base("suggest", "The simplest frame that is stable enough and may stand where it stands, what else there is, and the smallest change that would make each frame of the case pass.",
            "halfpin suggest case.json", "halfpin suggest case.json --stock stock.csv --json", "halfpin suggest case.json --keep search.part --resume")
    {
        Argument<string> path = CaseArgument();
        Option<string?> stockFile = new("--stock") { Description = "Only what this stock can build, JSON or CSV (docs/stock-file.md)." };
        Option<int> threads = new("--threads") { Description = "Threads to use; the answer does not depend on them.", DefaultValueFactory = _ => Environment.ProcessorCount };
        Option<string?> keepFile = new("--keep") { Description = "Keep what is done in this file while the search runs, so that one that was stopped can go on by --resume." };
        Option<bool> resume = new("--resume") { Description = "Go on with the unfinished search of --keep; begin anew, and say so, when there is none." };
        Arguments.Add(path);
        Options.Add(stockFile);
        Options.Add(threads);
        Options.Add(keepFile);
        Options.Add(resume);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            if (run.GetValue(threads) is < 1 or > MostThreads)
            {
                terminal.Error.WriteLine($"--threads must be 1 to {MostThreads}.");
                return ExitCodes.Usage;
            }

            if (run.GetValue(resume) && run.GetValue(keepFile) is null)
            {
                terminal.Error.WriteLine("--resume needs --keep, the file of the search to go on with.");
                return ExitCodes.Usage;
            }

            StockReading? stock = run.GetValue(stockFile) is string file ? StockSource.Read(file) : null;
            if (stock is { Stock: null })
            {
                FaultPrinter.Print(run.GetValue(stockFile)!, stock.Faults, run.GetValue(Json), terminal);
                return ExitCodes.InvalidInput;
            }

            if (Search(value, stock, run.GetValue(threads), reading, terminal, run.GetValue(keepFile), run.GetValue(resume)) is not SuggestReport report)
            {
                return ExitCodes.Interrupted;
            }

            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(ReportWriter.ToJson(report));
            }
            else
            {
                SuggestTables.Print(report, terminal.Console(run.GetValue(NoColor)));
            }

            return ExitCodes.Done;
        }));
    }

    // Null when it was stopped.
    private static SuggestReport? Search(Case value, StockReading? stock, int threads, CaseReading reading, Terminal terminal, string? keepFile, bool resume)
    {
        Suggester suggester = new(value, stock?.Stock);
        SearchProgress progress = new(suggester.Candidates, terminal.Error);
        if (suggester.Candidates > Many)
        {
            terminal.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{suggester.Candidates:#,0} candidates to try, which may take long: fewer choices in search make it shorter{(keepFile is null ? ", and --keep FILE lets it go on after a stop" : "")}."));
        }

        using StopSignal stop = new();
        using SearchFile? kept = keepFile is null ? null : new(keepFile, reading.Sha256, stock?.Stock, resume, terminal.Error);
        try
        {
            SuggestReport report = suggester.Suggest(ProgramVersion.Stamp, reading.Sha256, threads, progress.Tell, kept?.Done, kept is null ? null : kept.Keep, stop.Token);
            kept?.Finish();
            return report;
        }
        catch (OperationCanceledException)
        {
            terminal.Error.WriteLine(kept is null ? "Stopped. With --keep FILE a search can go on where it was stopped." : "Stopped. The same command with --resume goes on from there.");
            return null;
        }
    }
}
