using System.CommandLine;
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

    public SuggestVerb(Terminal terminal)
        : base("suggest", "The simplest frame that is stable enough and may stand where it stands, what else there is, and the smallest change that would make each frame of the case pass.",
            "halfpin suggest case.json", "halfpin suggest case.json --stock stock.csv --json")
    {
        Argument<string> path = CaseArgument();
        Option<string?> stockFile = new("--stock") { Description = "Only what this stock can build, JSON or CSV (docs/stock-file.md)." };
        Option<int> threads = new("--threads") { Description = "Threads to use; the answer does not depend on them.", DefaultValueFactory = _ => Environment.ProcessorCount };
        Arguments.Add(path);
        Options.Add(stockFile);
        Options.Add(threads);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            if (run.GetValue(threads) is < 1 or > MostThreads)
            {
                terminal.Error.WriteLine($"--threads must be 1 to {MostThreads}.");
                return ExitCodes.Usage;
            }

            StockReading? stock = run.GetValue(stockFile) is string file ? StockSource.Read(file) : null;
            if (stock is { Stock: null })
            {
                FaultPrinter.Print(run.GetValue(stockFile)!, stock.Faults, run.GetValue(Json), terminal);
                return ExitCodes.InvalidInput;
            }

            SuggestReport report = Search(value, stock, run.GetValue(threads), reading, terminal);
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

    private static SuggestReport Search(Case value, StockReading? stock, int threads, CaseReading reading, Terminal terminal)
    {
        Suggester suggester = new(value, stock?.Stock);
        SearchProgress progress = new(suggester.Candidates, terminal.Error);
        return suggester.Suggest(ProgramVersion.Stamp, reading.Sha256, threads, progress.Tell);
    }
}
