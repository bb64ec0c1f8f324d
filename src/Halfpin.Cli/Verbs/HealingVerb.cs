using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Stability.Healing;
using Halfpin.Storage.Assessments;

namespace Halfpin.Cli.Verbs;

/// <summary>Shows frames with callus in the gap, week by week.</summary>
internal sealed class HealingVerb : Verb
{
    public HealingVerb(Terminal terminal)
        : base("healing", "Frames with callus in the gap, week by week: motion, strain, who carries the load. Assumed weeks unless the case gives its own.",
            "halfpin healing case.json --frame near-far", "halfpin healing case.json --json > healing.json")
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

            HealingReport report = new HealingAssessor(value).Assess(id, ProgramVersion.Stamp, reading.Sha256);
            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(HealingWriter.ToJson(report));
            }
            else
            {
                HealingTables.Print(report, terminal.Console(run.GetValue(NoColor)));
            }

            return report.Frames.Any(f => f.Status is FrameStatus.Mechanism or FrameStatus.Invalid) ? ExitCodes.CannotAnalyse : ExitCodes.Done;
        }));
    }
}
