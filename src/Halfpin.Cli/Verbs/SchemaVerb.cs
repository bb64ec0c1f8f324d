using System.CommandLine;
using System.Text.Json.Nodes;
using Halfpin.Storage.Json;
using Halfpin.Storage.Schemas;

namespace Halfpin.Cli.Verbs;

/// <summary>Prints a JSON Schema.</summary>
internal sealed class SchemaVerb : Verb
{
    public SchemaVerb(Terminal terminal)
        : base("schema", "Print the JSON Schema of the case file or of a report.", "halfpin schema case > case.schema.json", "halfpin schema assessment")
    {
        Argument<string> which = new("WHICH") { Description = $"One of {string.Join(", ", SchemaExporter.Names)}." };
        which.AcceptOnlyFromAmong([.. SchemaExporter.Names]);
        Arguments.Add(which);
        SetAction(run =>
        {
            JsonObject schema = SchemaExporter.Of(run.GetValue(which)!);
            terminal.Out.WriteLine(schema.ToJsonString(HalfpinJson.Options));
            return ExitCodes.Done;
        });
    }
}
