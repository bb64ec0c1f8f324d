using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Files;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>Shows the main job on the invented example.</summary>
internal sealed class DemoVerb : Verb
{
    public DemoVerb(Terminal terminal)
        : base("demo", "Assess the invented example, compare its seven frames and write report.html.", "halfpin demo", "halfpin demo --output somewhere")
    {
        Option<string> output = new("--output") { Description = "Folder for report.html and demo-case.json.", DefaultValueFactory = _ => "." };
        Options.Add(output);
        SetAction(run =>
        {
            byte[] bytes = CaseSource.DemoBytes();
            CaseReading reading = CaseSource.Read(bytes);
            Case value = reading.Case ?? throw new InvalidDataException("The built-in example has faults.");
            Assessment assessment = new Assessor(value).Assess(null, ProgramVersion.Stamp, reading.Sha256);
            string folder = run.GetValue(output)!;
            Directory.CreateDirectory(folder);
            string report = Path.Combine(folder, "report.html"), file = Path.Combine(folder, "demo-case.json");
            AtomicFile.Write(report, ReportBuilder.Html(value, assessment));
            AtomicFile.Write(file, bytes);
            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(ReportWriter.ToJson(assessment));
                return ExitCodes.Done;
            }

            IAnsiConsole console = terminal.Console(run.GetValue(NoColor));
            console.WriteLine(assessment.CaseTitle);
            ComparisonTable.Print(value, assessment, console);
            console.WriteLine();
            console.WriteLine(Safety.Note);
            terminal.Error.WriteLine();
            terminal.Error.WriteLine($"Report: {report}    Case: {file}");
            terminal.Error.WriteLine("Next:");
            terminal.Error.WriteLine($"  halfpin assess {file} --frame near-far    one frame in full");
            terminal.Error.WriteLine($"  halfpin compare {file} --report mine.html    after you have edited the case");
            terminal.Error.WriteLine("  halfpin constructs    what a case can name in one line");
            terminal.Error.WriteLine("  halfpin verify    the published checks, on this machine");
            return ExitCodes.Done;
        });
    }
}
