using System.CommandLine;
using System.Text.Json.Nodes;
using Halfpin.Storage.Json;
using Halfpin.Storage.Schemas;

namespace Halfpin.Cli.Verbs;

/// <summary>Prints a JSON Schema.</summary>
internal sealed class SchemaVerb : Verb
{
    public SchemaVerb(Terminal terminal)
        : base("schema", "Print the JSON Schema of the case file, the assessment or another report.", "halfpin schema case > case.schema.json", "halfpin schema assessment")
    {
        Argument<string> which = new("WHICH") { Description = "case, assessment, healing, dynamise or overload." };
        which.AcceptOnlyFromAmong("case", "assessment", "healing", "dynamise", "overload");
        Arguments.Add(which);
        SetAction(run =>
        {
            JsonObject schema = run.GetValue(which) switch
            {
                "case" => SchemaExporter.Case(),
                "assessment" => SchemaExporter.Assessment(),
                "healing" => SchemaExporter.Healing(),
                "dynamise" => SchemaExporter.Dynamisation(),
                _ => SchemaExporter.Overload(),
            };
            terminal.Out.WriteLine(schema.ToJsonString(HalfpinJson.Options));
            return ExitCodes.Done;
        });
    }
}
