using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Stability;
using Halfpin.Storage.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>Says whether a case can be used, and holds its frames against every rule.</summary>
internal sealed class CheckVerb : Verb
{
    public CheckVerb(Terminal terminal)
        : base("check", "Check a case: everything that is wrong with the file, or every rule on every frame, worst first.", "halfpin check case.json", "halfpin check - < case.json")
    {
        Argument<string> path = CaseArgument();
        Arguments.Add(path);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            Assessment assessment = new Assessor(value).Assess(null, ProgramVersion.Stamp, reading.Sha256);
            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(ReportWriter.ToJson(CheckReport.Of(assessment)));
                return ExitCodes.Of([.. assessment.Frames.Select(f => f.Status)]);
            }

            IAnsiConsole console = terminal.Console(run.GetValue(NoColor));
            console.WriteLine($"{value.Title}: valid, {assessment.Frames.Length} frames. Valid means that it can be analysed, not that it is a good frame.");
            foreach (FrameAssessment frame in assessment.Frames)
            {
                FrameTables.PrintChecks(frame, console);
            }

            console.WriteLine(Safety.NotChecked);
            foreach (string caution in Safety.Cautions)
            {
                console.WriteLine($"! {caution}");
            }

            console.WriteLine(Safety.ShortNote);
            return ExitCodes.Of([.. assessment.Frames.Select(f => f.Status)]);
        }));
    }
}
