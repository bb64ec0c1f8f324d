using System.Text.Json.Nodes;
using Halfpin.Domain.Assessments;
using Halfpin.Storage.Json;
using Halfpin.Web.Api.Problems;
using Halfpin.Web.Security;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;

namespace Halfpin.Web.Api.Description;

/// <summary>The OpenApi document: made by the framework from the operations, filled from what they say of themselves.</summary>
internal static class ApiDocument
{
    private const string Name = "v1";
    private const string KeyScheme = "key";
    private const string ExampleName = "shortCase";

    /// <summary>Its address.</summary>
    public const string Address = $"/openapi/{Name}.json";

    public static void Add(IServiceCollection services) => services.AddOpenApi(Name, options =>
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.ShouldInclude = description => description.ActionDescriptor.EndpointMetadata.OfType<ApiOperation>().Any();
        options.AddOperationTransformer((operation, context, _) =>
        {
            Fill(operation, context.Description.ActionDescriptor.EndpointMetadata.OfType<ApiOperation>().Single(), context.Document!);
            return Task.CompletedTask;
        });
        options.AddDocumentTransformer((document, _, _) =>
        {
            Head(document);
            return Task.CompletedTask;
        });
    });

    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet(Address, async ([FromKeyedServices(Name)] IOpenApiDocumentProvider provider, CancellationToken left) =>
            TypedResults.Text(await WriteAsync(provider, left).ConfigureAwait(false), "application/json", System.Text.Encoding.UTF8)).ExcludeFromDescription();

    private static async Task<string> WriteAsync(IOpenApiDocumentProvider provider, CancellationToken left)
    {
        OpenApiDocument document = await provider.GetOpenApiDocumentAsync(left).ConfigureAwait(false);
        JsonObject root = JsonNode.Parse(await document.SerializeAsJsonAsync(OpenApiSpecVersion.OpenApi3_1, left).ConfigureAwait(false))!.AsObject();

        // The framework's model of a schema does not know all words of JSON Schema, so schemas are set where the text is made.
        root["components"]!["schemas"] = ApiSchemas.All();
        return root.ToJsonString(HalfpinJson.Options) + "\n";
    }

    private static void Head(OpenApiDocument document)
    {
        document.Info = new()
        {
            Title = "Halfpin",
            Version = "1",
            Description = $"Stability of external fixation frames on the tibia, for programs. Each operation gives what the verb of the command line gives. {Safety.Note}",
            License = new() { Name = "MIT", Identifier = "MIT" },
        };
        document.Servers = [new() { Url = "/" }];

        // The framework makes a tag of each class that has operations.
        document.Tags = new HashSet<OpenApiTag>(ApiSchemas.Groups.Select(g => new OpenApiTag { Name = g.Name, Description = g.Meaning }));
        document.Components ??= new();
        document.Components.Schemas ??= new Dictionary<string, IOpenApiSchema>();
        foreach (string name in ApiSchemas.All().Select(s => s.Key))
        {
            document.Components.Schemas[name] = new OpenApiSchema();
        }

        document.AddComponent(ExampleName, new OpenApiExample { Summary = "A short case, invented.", Value = JsonNode.Parse(ExampleBody.Json) });
        document.AddComponent(KeyScheme, new OpenApiSecurityScheme { Type = SecuritySchemeType.ApiKey, In = ParameterLocation.Header, Name = AccessKey.HeaderName, Description = "The key in the address that halfpin serve prints." });
        document.Security = [new() { [new OpenApiSecuritySchemeReference(KeyScheme, document)] = [] }];
    }

    private static void Fill(OpenApiOperation operation, ApiOperation said, OpenApiDocument document)
    {
        (operation.OperationId, operation.Summary, operation.Description) = (said.Id, said.Summary, said.Description);
        operation.Tags = new HashSet<OpenApiTagReference> { new(said.Group, document) };
        operation.Parameters = [.. operation.Parameters?.Where(p => p.In == ParameterLocation.Path) ?? [], .. said.Query.Select(p => Parameter(p, ParameterLocation.Query)), .. said.Headers.Select(p => Parameter(p, ParameterLocation.Header))];
        operation.RequestBody = Body(said, document);
        operation.Responses = new() { [$"{said.Answer.Status}"] = Response(said.Answer, document) };
        foreach (IGrouping<int, ProblemKind> kinds in said.Problems.Concat([ProblemKind.NoKey, ProblemKind.ForeignOrigin, ProblemKind.ForeignHost]).GroupBy(k => k.Status).OrderBy(g => g.Key))
        {
            string meaning = string.Join(" ", kinds.Select(k => $"{k.Title} ({k.Address})"));
            operation.Responses[$"{kinds.Key}"] = Response(new(kinds.Key, meaning, ApiSchemas.Problem, "application/problem+json"), document);
        }
    }

    private static OpenApiParameter Parameter(ApiParameter p, ParameterLocation where)
    {
        OpenApiSchema one = new() { Type = p.Type switch { "number" => JsonSchemaType.Number, "integer" => JsonSchemaType.Integer, _ => JsonSchemaType.String } };
        return new() { Name = p.Name, In = where, Description = p.Meaning, Required = p.IsRequired, Schema = p.IsMany ? new OpenApiSchema { Type = JsonSchemaType.Array, Items = one } : one };
    }

    private static OpenApiRequestBody? Body(ApiOperation said, OpenApiDocument document)
    {
        if (said.Body == ApiBody.None)
        {
            return null;
        }

        Dictionary<string, OpenApiMediaType> content = new()
        {
            ["application/json"] = new OpenApiMediaType { Schema = new OpenApiSchemaReference("case", document), Examples = new Dictionary<string, IOpenApiExample> { [ExampleName] = new OpenApiExampleReference(ExampleName, document) } },
        };
        if (said.Further is string further)
        {
            content["multipart/form-data"] = new OpenApiMediaType
            {
                Schema = new OpenApiSchema
                {
                    Type = JsonSchemaType.Object,
                    Required = new HashSet<string> { ProblemError.Case },
                    Properties = new Dictionary<string, IOpenApiSchema>
                    {
                        [ProblemError.Case] = new OpenApiSchemaReference("case", document),
                        [further] = new OpenApiSchema { Type = JsonSchemaType.String, Description = further == ProblemError.Stock ? "A stock file, JSON or CSV (docs/stock-file.md)." : "A table of gait, CSV." },
                    },
                },
            };
        }

        return new() { Required = said.Body == ApiBody.Case, Description = "A case file (docs/case-file.md).", Content = content };
    }

    private static OpenApiResponse Response(ApiAnswer answer, OpenApiDocument document) => new()
    {
        Description = answer.Meaning,
        Headers = answer.Headers.IsEmpty ? null : answer.Headers.ToDictionary(h => h.Name, h => (IOpenApiHeader)new OpenApiHeader { Description = h.Meaning, Schema = new OpenApiSchema { Type = JsonSchemaType.String } }),
        Content = answer.Schema is null ? null : new Dictionary<string, OpenApiMediaType> { [answer.MediaType] = new OpenApiMediaType { Schema = new OpenApiSchemaReference(answer.Schema, document) } },
    };
}
