using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Gaits;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>Assesses frames in full.</summary>
internal sealed class AssessVerb : FrameVerb<Assessment>
{
    private readonly Terminal _terminal;
    private readonly Option<string?> _gait = new("--gait") { Description = "Also look at the phases of a step: a CSV file with the wrench on the proximal end, a row a phase." };

    public AssessVerb(Terminal terminal)
        : base(terminal, "assess", "Assess the frames of a case: stiffness, motion at the fracture, limits, checks.",
            "halfpin assess case.json --frame near-far", "halfpin assess case.json --gait step.csv", "halfpin assess case.json --json > assessment.json")
    {
        _terminal = terminal;
        Options.Add(_gait);
    }

    protected override Assessment? Report(Case value, string? frameId, CaseReading reading, ParseResult run)
    {
        if (run.GetValue(_gait) is not string path)
        {
            return new Assessor(value).Assess(frameId, ProgramVersion.Stamp, reading.Sha256);
        }

        GaitReading gait = CaseSource.ReadGait(path);
        if (!gait.Faults.IsEmpty)
        {
            FaultPrinter.Print(path, gait.Faults, run.GetValue(Json), _terminal);
            return null;
        }

        return new Assessor(value).Assess(frameId, ProgramVersion.Stamp, reading.Sha256, gait.Gait) with { GaitSha256 = gait.Sha256 };
    }

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
