using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Healing;
using Halfpin.Storage.Cases;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>Shows frames with callus in the gap, week by week.</summary>
internal sealed class HealingVerb(Terminal terminal) : FrameVerb<HealingReport>(
    terminal, "healing", "Frames with callus in the gap, week by week: motion, strain, who carries the load. Assumed weeks unless the case gives its own.",
    "halfpin healing case.json --frame near-far", "halfpin healing case.json --json > healing.json")
{
    protected override HealingReport Report(Case value, string? frameId, CaseReading reading, ParseResult run) =>
        new HealingAssessor(value).Assess(frameId, ProgramVersion.Stamp, reading.Sha256);

    protected override void Print(Case value, HealingReport report, IAnsiConsole console) => HealingTables.Print(report, console);

    protected override int ExitCode(HealingReport report) => ExitCodes.Of(report.Frames.Select(f => f.Status));
}
