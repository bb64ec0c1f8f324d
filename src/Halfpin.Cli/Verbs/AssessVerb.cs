using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>Assesses frames in full.</summary>
internal sealed class AssessVerb : Verb
{
    public AssessVerb(Terminal terminal)
        : base("assess", "Assess the frames of a case: stiffness, motion at the fracture, limits, checks.",
            "halfpin assess case.json --frame near-far", "halfpin assess case.json --json > assessment.json")
    {
        Argument<string> path = CaseArgument();
        Option<string?> frame = new("--frame") { Description = "Only the frame with this id." };
        Arguments.Add(path);
        Options.Add(frame);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            string? id = run.GetValue(frame);
            if (id is not null && !value.Frames.Any(f => f.Id == id))
            {
                terminal.Error.WriteLine($"There is no frame \"{id}\". Frames of this case: {string.Join(", ", value.Frames.Select(f => f.Id))}.");
                return ExitCodes.Usage;
            }

            Assessment assessment = new Assessor(value).Assess(id, ProgramVersion.Stamp, reading.Sha256);
            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(AssessmentWriter.ToJson(assessment));
            }
            else
            {
                Print(value, assessment, terminal.Console(run.GetValue(NoColor)));
            }

            return ExitCodeOf(assessment);
        }));
    }

    /// <summary>4 when a frame cannot be analysed, else 0.</summary>
    public static int ExitCodeOf(Assessment assessment) =>
        assessment.Frames.Any(f => f.Status is FrameStatus.Mechanism or FrameStatus.Invalid) ? ExitCodes.CannotAnalyse : ExitCodes.Done;

    private static void Print(Case value, Assessment assessment, IAnsiConsole console)
    {
        console.WriteLine(assessment.CaseTitle);
        console.WriteLine($"Loading: {LoadWords.Of(value)}; overload: {LoadWords.Overload(value)}.");
        foreach (FrameAssessment frame in assessment.Frames)
        {
            FrameTables.Print(frame, console);
        }

        foreach (string warning in assessment.Warnings)
        {
            console.WriteLine($"Note: {warning}");
        }

        console.WriteLine(Safety.NotChecked);
        console.WriteLine(Safety.Note);
    }
}
