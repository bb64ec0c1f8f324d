using System.Text.Json;
using System.Text.Json.Serialization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Halfpin.Storage.Json;

namespace Halfpin.Cli.Verbs;

/// <summary>Lists the constructs that a case can name.</summary>
internal sealed class ConstructsVerb : Verb
{
    private static readonly JsonSerializerOptions _oneLine = new(HalfpinJson.Options) { WriteIndented = false, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull };

    public ConstructsVerb(Terminal terminal)
        : base("constructs", "List the constructs a case can name in one line, with what distinguishes each.", "halfpin constructs", "halfpin constructs --json")
    {
        SetAction(run =>
        {
            // Counts of parts do not depend on the fracture; any levels serve.
            var entries = ConstructGallery.All.Select(e => new { e.Title, e.Trait, Kit = Assessor.KitOf(ConstructBuilder.Build(e.Construct, 200, 203)), e.Construct }).ToArray();
            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(JsonSerializer.Serialize(new { format = "halfpin-constructs", formatVersion = 1, constructs = entries }, HalfpinJson.Options));
                return ExitCodes.Done;
            }

            foreach (var e in entries)
            {
                terminal.Out.WriteLine($"{e.Title}: {e.Kit.Pins} pins, {e.Kit.Rods} {(e.Kit.Rods == 1 ? "rod" : "rods")}, {e.Kit.Clamps} clamps");
                terminal.Out.WriteLine($"  {e.Trait}");
                terminal.Out.WriteLine($"  \"construct\": {JsonSerializer.Serialize(e.Construct, _oneLine)}");
                terminal.Out.WriteLine();
            }

            terminal.Out.WriteLine("Numbers are invented examples. " + Safety.ShortNote);
            return ExitCodes.Done;
        });
    }
}
