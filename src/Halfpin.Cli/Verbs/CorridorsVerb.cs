using System.CommandLine;
using System.Globalization;
using System.Text;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Placement.Corridors;
using Halfpin.Reports.Figures;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Files;

namespace Halfpin.Cli.Verbs;

/// <summary>Where half-pins may go at a level.</summary>
internal sealed class CorridorsVerb : Verb
{
    public CorridorsVerb(Terminal terminal)
        : base("corridors", "Where half-pins may enter the bone at a level, what is at risk, and which pins stand there.",
            "halfpin corridors case.json --level 110", "halfpin corridors case.json --level 300 --frame near-far --svg section.svg")
    {
        Argument<string> path = CaseArgument();
        Option<double> level = new("--level") { Description = "Level from the knee joint line, mm.", Required = true };
        Option<string?> frame = new("--frame") { Description = "Only the pins of the frame with this id." };
        Option<string?> svg = new("--svg") { Description = "Also write the cross-section to this file." };
        Arguments.Add(path);
        Options.Add(level);
        Options.Add(frame);
        Options.Add(svg);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            string? id = run.GetValue(frame);
            double levelMm = run.GetValue(level);
            if (id is not null && !HasFrame(value, id, terminal))
            {
                return ExitCodes.Usage;
            }

            if (value.Limb.BoneModel is not AnatomicalBone)
            {
                terminal.Error.WriteLine("The bone of this case is a synthetic tube: it has no corridors. Use an anatomical boneModel.");
                return ExitCodes.Usage;
            }

            if (!(levelMm >= 0 && levelMm <= value.Limb.LengthMm))
            {
                terminal.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"--level must lie within the bone, 0 to {value.Limb.LengthMm:0.#} mm."));
                return ExitCodes.Usage;
            }

            IEnumerable<Frame> frames = value.Frames.Where(f => id is null || f.Id == id);
            CorridorReport report = CorridorSurvey.At(value, levelMm, frames, ProgramVersion.Stamp, reading.Sha256);
            if (run.GetValue(svg) is string file)
            {
                AtomicFile.Write(file, Encoding.UTF8.GetBytes(CorridorFigure.Draw(report, value.Limb.Side)));
                terminal.Error.WriteLine($"Cross-section: {file}");
            }

            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(ReportWriter.ToJson(report));
            }
            else
            {
                CorridorTables.Print(report, terminal.Console(run.GetValue(NoColor)));
            }

            return ExitCodes.Done;
        }));
    }
}
