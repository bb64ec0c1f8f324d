using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Stability.Dynamisation;
using Halfpin.Storage.Assessments;

namespace Halfpin.Cli.Verbs;

/// <summary>Shows frames stage by stage as they are made to yield.</summary>
internal sealed class DynamiseVerb : Verb
{
    public DynamiseVerb(Terminal terminal)
        : base("dynamise", "Frames stage by stage as they are made to yield: what is freed, what is kept, which clamps to loosen.",
            "halfpin dynamise case.json", "halfpin dynamise case.json --frame double-rod --json")
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

            DynamisationReport report = new DynamisationAssessor(value).Assess(id, ProgramVersion.Stamp, reading.Sha256);
            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(DynamisationWriter.ToJson(report));
            }
            else
            {
                DynamisationTables.Print(report, terminal.Console(run.GetValue(NoColor)));
            }

            return report.Stages.Any(s => s.Status is FrameStatus.Mechanism or FrameStatus.Invalid) ? ExitCodes.CannotAnalyse : ExitCodes.Done;
        }));
    }
}
