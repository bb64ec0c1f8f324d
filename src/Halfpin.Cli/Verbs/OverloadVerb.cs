using System.CommandLine;
using System.Globalization;
using System.Text;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Reports.Figures;
using Halfpin.Stability.Overload;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Files;

namespace Halfpin.Cli.Verbs;

/// <summary>Follows a frame under an axial load that grows past its limits and is taken off again.</summary>
internal sealed class OverloadVerb : Verb
{
    public OverloadVerb(Terminal terminal)
        : base("overload", "One frame under a growing axial load and back: which clamps slip, when bone bears, what yields, what is left.",
            "halfpin overload case.json --frame near-far --to 600", "halfpin overload case.json --frame near-far --to 600 --svg path.svg")
    {
        Argument<string> path = CaseArgument();
        Option<string> frame = new("--frame") { Description = "The id of the frame.", Required = true };
        Option<double> to = new("--to") { Description = "The greatest axial load, N.", Required = true };
        Option<string?> svg = new("--svg") { Description = "Also write a plot of load against axial motion to this file." };
        Arguments.Add(path);
        Options.Add(frame);
        Options.Add(to);
        Options.Add(svg);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            string id = run.GetValue(frame)!;
            double toN = run.GetValue(to);
            if (!HasFrame(value, id, terminal))
            {
                return ExitCodes.Usage;
            }

            if (!(toN > 0 && toN <= OverloadAssessor.MostN))
            {
                terminal.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"--to must be more than 0 and at most {OverloadAssessor.MostN:0} N."));
                return ExitCodes.Usage;
            }

            OverloadReport report = new OverloadAssessor(value).Assess(value.Frames.First(f => f.Id == id), toN, ProgramVersion.Stamp, reading.Sha256);
            WritePlot(report, run.GetValue(svg), terminal);
            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(ReportWriter.ToJson(report));
            }
            else
            {
                OverloadTables.Print(report, terminal.Console(run.GetValue(NoColor)));
            }

            return report.Complete ? ExitCodes.Done : ExitCodes.CannotAnalyse;
        }));
    }

    private static void WritePlot(OverloadReport report, string? file, Terminal terminal)
    {
        if (file is null)
        {
            return;
        }

        if (report.Path.IsEmpty)
        {
            terminal.Error.WriteLine("There is no path to plot.");
            return;
        }

        AtomicFile.Write(file, Encoding.UTF8.GetBytes(OverloadFigure.Draw(report)));
        terminal.Error.WriteLine($"Plot: {file}");
    }
}
