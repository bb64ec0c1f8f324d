using System.CommandLine;
using Halfpin.Storage.Json;
using Halfpin.Storage.Schemas;

namespace Halfpin.Cli.Verbs;

/// <summary>Prints a JSON Schema.</summary>
internal sealed class SchemaVerb : Verb
{
    public SchemaVerb(Terminal terminal)
        : base("schema", "Print the JSON Schema of the case file or of the assessment.", "halfpin schema case > case.schema.json", "halfpin schema assessment")
    {
        Argument<string> which = new("WHICH") { Description = "case or assessment." };
        which.AcceptOnlyFromAmong("case", "assessment");
        Arguments.Add(which);
        SetAction(run =>
        {
            terminal.Out.WriteLine((run.GetValue(which) == "case" ? SchemaExporter.Case() : SchemaExporter.Assessment()).ToJsonString(HalfpinJson.Options));
            return ExitCodes.Done;
        });
    }
}
