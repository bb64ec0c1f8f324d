using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Cases;
using Halfpin.Web.Api.Description;
using Halfpin.Web.Api.Problems;
using Halfpin.Web.Api.Requests;
using Halfpin.Workbench.Documents;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Halfpin.Web.Api;

/// <summary>The work of this machine as resources: the cases that the workbench shows, to read, change and delete.</summary>
internal static class WorkOperations
{
    private const string Group = "Works";

    private static readonly ApiParameter _ifMatch = new("If-Match", "string", "The ETag that the change is based on.", IsRequired: true);
    private static readonly ImmutableArray<(string, string)> _tag = [("ETag", "Strong entity tag of the case.")];

    public static void Map(IEndpointRouteBuilder routes)
    {
        Describe(routes.MapGet("/api/works", (ApiServices services) => All(services)), new("listWorks", Group, "The work of this machine", "Last changed first.") { Answer = new(200, "The list.", ApiSchemas.Works) });
        Describe(routes.MapPost("/api/works", CreateAsync), new("createWork", Group, "Begin a work on a case", "It appears on the start page of the workbench.")
        {
            Body = ApiBody.Case,
            Headers = [ApiSchemas.IdempotencyKey],
            Answer = new(201, "It was created; Location names its case.", ApiSchemas.Work) { Headers = [("Location", "Address of its case."), .. _tag] },
            Problems = [ProblemKind.NotJson, ProblemKind.TooLarge, ProblemKind.MediaType, ProblemKind.InvalidCase, ProblemKind.InvalidParameter, ProblemKind.KeyTaken],
        });
        Describe(routes.MapGet("/api/works/{id}/case", (HttpContext context, ApiServices services, string id) => Read(context, services, id)), new("readCase", Group, "The case of a work", "As the workbench would save it to a file.")
        {
            Headers = [new("If-None-Match", "string", "An ETag that you have: the answer is 304 when it still holds.")],
            Answer = new(200, "The case.", "case") { Headers = _tag },
            Problems = [ProblemKind.NotFound],
        });
        Describe(routes.MapPut("/api/works/{id}/case", ReplaceAsync), new("replaceCase", Group, "Change the case of a work", "An edit like any other: people at the screen see it at once and can undo it.")
        {
            Body = ApiBody.Case,
            Headers = [_ifMatch],
            Answer = new(200, "The case as it is kept now.", "case") { Headers = _tag },
            Problems = [ProblemKind.NotJson, ProblemKind.NotFound, ProblemKind.PreconditionFailed, ProblemKind.TooLarge, ProblemKind.MediaType, ProblemKind.InvalidCase, ProblemKind.PreconditionRequired],
        });
        Describe(routes.MapDelete("/api/works/{id}/case", (HttpContext context, ApiServices services, string id) => Delete(context, services, id)), new("deleteWork", Group, "Delete a work", "With its history; this cannot be undone.")
        {
            Headers = [_ifMatch],
            Answer = new(204, "It is gone.", null),
            Problems = [ProblemKind.NotFound, ProblemKind.PreconditionFailed, ProblemKind.PreconditionRequired],
        });
    }

    private static ReportAnswer All(ApiServices services) =>
        new(new WorkListDocument([.. services.Works.Saved().Select(w => new WorkDocument(w.Id, w.Title, w.ChangedUtc, Address(w.Id)))]));

    private static async Task<IResult> CreateAsync(HttpContext context, ApiServices services)
    {
        RequestFiles files = await RequestFiles.ReadAsync(context.Request, null, mayBeEmpty: false).ConfigureAwait(false);
        if (files.Problem is not null)
        {
            return files.Problem;
        }

        Case value = files.Case!.Case!;
        return services.Create(context.Request, files.Case.Sha256, id => services.Works.Find(id) is not null, () => services.Works.Begin(value, "sent by a program").Id, id =>
        {
            context.Response.Headers.Location = Address(id);
            context.Response.Headers.ETag = CaseTag.Of(services.Works.Find(id)?.Case ?? value);
            DateTime changed = services.Works.Saved().FirstOrDefault(w => w.Id == id)?.ChangedUtc ?? DateTime.UtcNow;
            return new ReportAnswer(new WorkDocument(id, value.Title, changed, Address(id)), StatusCodes.Status201Created);
        });
    }

    private static IResult Read(HttpContext context, ApiServices services, string id)
    {
        if (services.Works.Find(id) is not Workspace work)
        {
            return NoWork();
        }

        byte[] file = CaseWriter.Write(work.Case);
        string tag = CaseTag.Of(file);
        context.Response.Headers.ETag = tag;
        return CaseTag.IsKnown(context.Request, tag) ? TypedResults.StatusCode(StatusCodes.Status304NotModified) : TypedResults.Bytes(file, "application/json");
    }

    private static async Task<IResult> ReplaceAsync(HttpContext context, ApiServices services, string id)
    {
        if (services.Works.Find(id) is not Workspace work)
        {
            return NoWork();
        }

        // Told before the body is read, and again under the lock of the edit below.
        if (Based(context.Request, work) is Problem early)
        {
            return early;
        }

        RequestFiles files = await RequestFiles.ReadAsync(context.Request, null, mayBeEmpty: false).ConfigureAwait(false);
        if (files.Problem is not null)
        {
            return files.Problem;
        }

        bool isStale = false;
        ImmutableArray<Fault> faults = work.Apply(new("case replaced by a program", now =>
        {
            isStale = !CaseTag.IsIn(context.Request.Headers.IfMatch, CaseTag.Of(now));
            return isStale ? now : files.Case!.Case!;
        }));
        if (isStale)
        {
            return Changed();
        }

        if (!faults.IsEmpty)
        {
            return Problem.Of(ProblemKind.InvalidCase, ProblemError.Case, faults);
        }

        context.Response.Headers.ContentLocation = Address(id);
        return Read(context, services, id);
    }

    private static IResult Delete(HttpContext context, ApiServices services, string id)
    {
        if (services.Works.Find(id) is not Workspace work)
        {
            return NoWork();
        }

        if (Based(context.Request, work) is Problem problem)
        {
            return problem;
        }

        services.Works.Delete(id);
        return TypedResults.NoContent();
    }

    private static Problem? Based(HttpRequest request, Workspace work) =>
        request.Headers.IfMatch.Count == 0 ? new(ProblemKind.PreconditionRequired, "If-Match is missing.")
        : CaseTag.IsIn(request.Headers.IfMatch, CaseTag.Of(work.Case)) ? null
        : Changed();

    private static Problem Changed() => new(ProblemKind.PreconditionFailed, "If-Match names another state of the case than the one in force.");

    private static Problem NoWork() => new(ProblemKind.NotFound, "There is no work of this id.");

    private static string Address(string id) => $"/api/works/{id}/case";

    private static void Describe(RouteHandlerBuilder route, ApiOperation operation) => route.WithMetadata(operation).WithName(operation.Id);
}

/// <summary>The work of this machine.</summary>
/// <param name="Works">Last changed first.</param>
internal sealed record WorkListDocument(ImmutableArray<WorkDocument> Works);

/// <summary>A work.</summary>
/// <param name="Id">Its id; the workbench shows it at /works/ID/frame.</param>
/// <param name="Title">Title of its case.</param>
/// <param name="ChangedUtc">When it was last changed.</param>
/// <param name="Case">Address of its case.</param>
internal sealed record WorkDocument(string Id, string Title, DateTime ChangedUtc, string Case);
