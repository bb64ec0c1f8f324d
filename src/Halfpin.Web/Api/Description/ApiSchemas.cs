using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using Halfpin.Storage.Json;
using Halfpin.Storage.Schemas;
using Halfpin.Web.Api.Problems;

namespace Halfpin.Web.Api.Description;

/// <summary>The schemas of the OpenApi document: those of files and reports by reference to where they stand, those of the API itself in full.</summary>
internal static class ApiSchemas
{
    public const string Problem = "problem";
    public const string Work = "work";
    public const string Works = "works";
    public const string Job = "job";
    public const string JobStatus = "jobStatus";
    public const string Examples = "examples";
    public const string Any = "any";

    /// <summary>The groups of operations.</summary>
    public static readonly (string Name, string Meaning)[] Groups =
    [
        ("Reports", "A case in, a report out."), ("Works", "The cases that people work on in the workbench of this machine."),
        ("Searches", "Long work: the simplest frame that is stable enough."), ("Studies", "Long work: many variants of a frame."), ("Catalogue", "Schemas and examples."),
    ];

    /// <summary>The header that makes a creation safe to repeat.</summary>
    public static readonly ApiParameter IdempotencyKey = new("Idempotency-Key", "string", "A random text of your own: the same request under the same key creates nothing twice.");

    private static readonly (string Name, Type Type)[] _own =
    [
        (Problem, typeof(ProblemDocument)), (Work, typeof(WorkDocument)), (Works, typeof(WorkListDocument)), (Job, typeof(JobDocument)), (JobStatus, typeof(JobEvent)), (Examples, typeof(ExampleListDocument)),
    ];

    /// <summary>All schemas by name.</summary>
    public static JsonObject All()
    {
        JsonObject all = [];
        foreach (string name in SchemaExporter.Names)
        {
            // Relative to the document, on the server as in the source tree.
            all[name] = new JsonObject { ["$ref"] = $"../schemas/{name}.schema.json" };
        }

        JsonSchemaExporterOptions options = new() { TreatNullObliviousAsNonNullable = true };
        foreach ((string name, Type type) in _own)
        {
            all[name] = JsonSchemaExporter.GetJsonSchemaAsNode(HalfpinJson.Options, type, options);
        }

        all[Any] = new JsonObject { ["type"] = "object" };
        return all;
    }
}
