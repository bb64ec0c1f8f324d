using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>Assesses frames in full.</summary>
internal sealed class AssessVerb(Terminal terminal) : FrameVerb<Assessment>(
    terminal, "assess", "Assess the frames of a case: stiffness, motion at the fracture, limits, checks.",
    "halfpin assess case.json --frame near-far", "halfpin assess case.json --json > assessment.json")
{
    protected override Assessment Report(Case value, string? frameId, CaseReading reading) =>
        new Assessor(value).Assess(frameId, ProgramVersion.Stamp, reading.Sha256);

    protected override void Print(Case value, Assessment report, IAnsiConsole console)
    {
        console.WriteLine(report.CaseTitle);
        console.WriteLine($"Loading: {LoadWords.Of(value)}; overload: {LoadWords.Overload(value)}.");
        foreach (FrameAssessment frame in report.Frames)
        {
            FrameTables.Print(frame, console);
        }

        foreach (string warning in report.Warnings)
        {
            console.WriteLine($"Note: {warning}");
        }

        console.WriteLine(Safety.NotChecked);
        console.WriteLine(Safety.Note);
    }

    protected override int ExitCode(Assessment report) => ExitCodes.Of(report.Frames.Select(f => f.Status));
}
