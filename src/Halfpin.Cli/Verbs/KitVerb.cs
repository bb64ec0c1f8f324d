using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Planning.Kit;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Stocks;

namespace Halfpin.Cli.Verbs;

/// <summary>Lists what it takes to build a frame, and what a stock lacks for it.</summary>
internal sealed class KitVerb(Terminal terminal) : BuildingVerb(
    terminal, "kit", "What it takes to build a frame: pins, rods and clamps by size, tools; with a stock also what is missing and the nearest frame that it can build.",
    "halfpin kit case.json --frame near-far", "halfpin kit case.json --frame near-far --stock stock.csv")
{
    protected override int Build(ParseResult run, Case value, Frame frame, CaseReading reading, StockReading? stock)
    {
        KitReport report = new KitPlanner(value).Plan(frame, stock?.Stock, stock?.Sha256, ProgramVersion.Stamp, reading.Sha256);
        if (run.GetValue(Json))
        {
            Terminal.Out.WriteLine(ReportWriter.ToJson(report));
        }
        else
        {
            KitTables.Print(report, Terminal.Console(run.GetValue(NoColor)));
        }

        return ExitCodes.Of([report.Status]);
    }
}
