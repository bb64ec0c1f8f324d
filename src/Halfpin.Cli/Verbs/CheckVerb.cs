using System.CommandLine;
using System.Text.Json;
using Halfpin.Domain.Assessments;
using Halfpin.Stability;
using Halfpin.Storage.Json;

namespace Halfpin.Cli.Verbs;

/// <summary>Says whether a case can be used.</summary>
internal sealed class CheckVerb : Verb
{
    public CheckVerb(Terminal terminal)
        : base("check", "Check a case file: everything that is wrong with it, or that nothing is.", "halfpin check case.json", "halfpin check - < case.json")
    {
        Argument<string> path = CaseArgument();
        Arguments.Add(path);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, _) =>
        {
            Assessor assessor = new(value);
            var frames = value.Frames.Select(f => new { f.Id, Name = f.DisplayName, Kit = Assessor.KitOf(assessor.PartsOf(f)) }).ToArray();
            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(JsonSerializer.Serialize(
                    new { format = "halfpin-check", formatVersion = 1, valid = true, frames, safetyNote = Safety.Note }, HalfpinJson.Options));
                return ExitCodes.Done;
            }

            terminal.Out.WriteLine($"{value.Title}: valid, {frames.Length} frames.");
            foreach (var f in frames)
            {
                terminal.Out.WriteLine($"  {f.Id}: {f.Name}: {f.Kit.Pins} pins, {f.Kit.Rods} rods, {f.Kit.Clamps} clamps");
            }

            terminal.Out.WriteLine("Valid means that it can be analysed, not that it is a good frame.");
            terminal.Out.WriteLine(Safety.ShortNote);
            return ExitCodes.Done;
        }));
    }
}
