using System.Collections.Immutable;
using System.Text;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Json;
using Halfpin.Storage.Schemas;
using Halfpin.Web.Api.Description;
using Halfpin.Web.Api.Problems;
using Halfpin.Web.Server;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Halfpin.Web.Api;

/// <summary>What does not change while the program runs: schemas, example cases, kinds of problems.</summary>
internal static class CatalogueOperations
{
    private const string Group = "Catalogue";

    public static void Map(IEndpointRouteBuilder routes)
    {
        Describe(routes.MapGet("/api/schemas/{name}", (string name) => Schema(name)), new("readSchema", Group, "A JSON Schema", $"One of {string.Join(", ", SchemaExporter.Names)}; as halfpin schema prints it.")
        {
            Answer = new(200, "The schema (draft 2020-12).", ApiSchemas.Any),
            Problems = [ProblemKind.NotFound],
        });
        Describe(routes.MapGet("/api/examples", (ExampleList examples) => new ReportAnswer(new ExampleListDocument([.. examples.All.Select(e => new ExampleDocument(e.Name, e.Case.Title, $"/api/examples/{e.Name}"))]))),
            new("listExamples", Group, "The example cases", "All invented or rebuilt from publications, and marked so.") { Answer = new(200, "The list.", ApiSchemas.Examples) });
        Describe(routes.MapGet("/api/examples/{name}", (ApiServices services, string name) => Example(services, name)), new("readExample", Group, "An example case", "The file as it ships with the program.")
        {
            Answer = new(200, "The case.", "case"),
            Problems = [ProblemKind.NotFound],
        });
        routes.MapGet("/problems/{name}", (string name) => Kind(name)).ExcludeFromDescription();

        // Where the references of the OpenApi document lead, there as in the source tree.
        routes.MapGet("/schemas/{name}.schema.json", (string name) => Schema(name)).ExcludeFromDescription();
    }

    private static IResult Schema(string name) => SchemaExporter.Names.Contains(name)
        ? TypedResults.Text(SchemaExporter.Of(name).ToJsonString(HalfpinJson.Options) + "\n", "application/schema+json", Encoding.UTF8)
        : Nothing(name, SchemaExporter.Names);

    private static IResult Example(ApiServices services, string name) => services.Options.Examples.FirstOrDefault(e => e.Name == name) is ExampleCase example
        ? TypedResults.Bytes(example.Json, "application/json")
        : Nothing(name, services.Options.Examples.Select(e => e.Name));

    private static IResult Kind(string name) => ProblemKind.All.FirstOrDefault(k => k.Name == name) is ProblemKind kind
        ? TypedResults.Text($"{kind.Title}\n{kind.Cure}\n\nHTTP status {kind.Status}. More in docs/http-api.md.\n", "text/plain", Encoding.UTF8)
        : Nothing(name, ProblemKind.All.Select(k => k.Name));

    private static Problem Nothing(string name, IEnumerable<string> known)
    {
        string[] names = [.. known];
        return new(ProblemKind.NotFound, $"There is none of this name. {Spelling.DidYouMean(name, names) ?? $"Names: {string.Join(", ", names)}."}");
    }

    private static void Describe(RouteHandlerBuilder route, ApiOperation operation) => route.WithMetadata(operation).WithName(operation.Id);
}

/// <summary>The example cases.</summary>
/// <param name="Examples">By name.</param>
internal sealed record ExampleListDocument(ImmutableArray<ExampleDocument> Examples);

/// <summary>An example case.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Title">Its title.</param>
/// <param name="Case">Address of the case.</param>
internal sealed record ExampleDocument(string Name, string Title, string Case);
