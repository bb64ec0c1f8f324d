using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Planning.Kit;
using Halfpin.Planning.Steps;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Files;
using Halfpin.Storage.Stocks;

namespace Halfpin.Cli.Verbs;

/// <summary>Tells the order in which a frame is built.</summary>
internal sealed class StepsVerb : BuildingVerb
{
    private readonly Option<string?> _report = new("--report") { Description = "Also write kit and steps with boxes to tick as an HTML page that prints on A4." };

    public StepsVerb(Terminal terminal)
        : base(terminal, "steps", "The order in which a frame is built, step by step with its numbers, what to check and what follows.",
            "halfpin steps case.json --frame near-far", "halfpin steps case.json --frame near-far --stock stock.json --report steps.html")
    {
        Options.Add(_report);
    }

    protected override int Build(ParseResult run, Case value, Frame frame, CaseReading reading, StockReading? stock)
    {
        StepsReport steps = new StepsPlanner(value).Plan(frame, stock?.Stock, ProgramVersion.Stamp, reading.Sha256);
        if (run.GetValue(_report) is string file)
        {
            KitReport kit = new KitPlanner(value).Plan(frame, stock?.Stock, stock?.Sha256, ProgramVersion.Stamp, reading.Sha256);
            AtomicFile.Write(file, ReportBuilder.Building(value, frame, kit, steps));
            Terminal.Error.WriteLine($"Report: {file}");
        }

        if (run.GetValue(Json))
        {
            Terminal.Out.WriteLine(ReportWriter.ToJson(steps));
        }
        else
        {
            StepsTables.Print(steps, Terminal.Console(run.GetValue(NoColor)));
        }

        return ExitCodes.Of([steps.Status]);
    }
}
