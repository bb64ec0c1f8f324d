using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Stability;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Files;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>Compares the frames of a case.</summary>
internal sealed class CompareVerb : Verb
{
    public CompareVerb(Terminal terminal)
        : base("compare", "Compare the frames of a case side by side and say what the numbers mean.",
            "halfpin compare case.json", "halfpin compare case.json --report report.html")
    {
        Argument<string> path = CaseArgument();
        Option<string?> report = new("--report") { Description = "Also write a self-contained HTML report to this file." };
        Arguments.Add(path);
        Options.Add(report);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            Assessment assessment = new Assessor(value).Assess(null, ProgramVersion.Stamp, reading.Sha256);
            if (run.GetValue(report) is string file)
            {
                AtomicFile.Write(file, ReportBuilder.Html(value, assessment));
                terminal.Error.WriteLine($"Report: {file}");
            }

            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(ReportWriter.ToJson(assessment));
            }
            else
            {
                IAnsiConsole console = terminal.Console(run.GetValue(NoColor));
                console.WriteLine(assessment.CaseTitle);
                ComparisonTable.Print(value, assessment, console);
                console.WriteLine();
                console.WriteLine(Safety.Note);
            }

            return ExitCodes.Of(assessment.Frames.Select(f => f.Status));
        }));
    }
}
