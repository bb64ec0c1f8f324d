using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Dynamisation;
using Halfpin.Storage.Cases;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>Shows frames stage by stage as they are made to yield.</summary>
internal sealed class DynamiseVerb(Terminal terminal) : FrameVerb<DynamisationReport>(
    terminal, "dynamise", "Frames stage by stage as they are made to yield: what is freed, what is kept, which clamps to loosen.",
    "halfpin dynamise case.json", "halfpin dynamise case.json --frame double-rod --json")
{
    protected override DynamisationReport Report(Case value, string? frameId, CaseReading reading, ParseResult run) =>
        new DynamisationAssessor(value).Assess(frameId, ProgramVersion.Stamp, reading.Sha256);

    protected override void Print(Case value, DynamisationReport report, IAnsiConsole console) => DynamisationTables.Print(report, console);

    protected override int ExitCode(DynamisationReport report) => ExitCodes.Of(report.Stages.Select(s => s.Status));
}
