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
        Argument<string> which = new("WHICH") { Description = "case, stock, assessment, healing, align, indication, uncertainty or vary." };
        which.AcceptOnlyFromAmong("case", "stock", "assessment", "healing", "align", "indication", "uncertainty", "vary");
        Arguments.Add(which);
        SetAction(run =>
        {
            JsonObject schema = run.GetValue(which) switch
            {
                "case" => SchemaExporter.Case(),
                "stock" => SchemaExporter.Stock(),
                "assessment" => SchemaExporter.Assessment(),
                "healing" => SchemaExporter.Healing(),
                "align" => SchemaExporter.Alignment(),
                "uncertainty" => SchemaExporter.Uncertainty(),
                "vary" => SchemaExporter.Variation(),
                _ => SchemaExporter.Indication(),
            };
            terminal.Out.WriteLine(schema.ToJsonString(HalfpinJson.Options));
            return ExitCodes.Done;
        });
    }
}
