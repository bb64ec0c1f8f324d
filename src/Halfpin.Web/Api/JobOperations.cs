using System.Collections.Immutable;
using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using System.Text.Json;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Json;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Sampling;
using Halfpin.Studies.Uncertainty;
using Halfpin.Studies.Varying;
using Halfpin.Web.Api.Description;
using Halfpin.Web.Api.Problems;
using Halfpin.Web.Api.Requests;
using Halfpin.Workbench.Jobs;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Halfpin.Web.Api;

/// <summary>Long work as resources: begun, watched, read and stopped.</summary>
internal static class JobOperations
{
    private const string Searches = "searches";
    private const string Studies = "studies";

    // A request of a program is kept smaller than what the command line allows: its result is held in memory.
    private const long MostSamples = 1_000_000;
    private const long MostRows = 10_000;
    private const long UsualSamples = 4096;

    private static readonly JsonSerializerOptions _line = new(HalfpinJson.Options) { WriteIndented = false };

    private static readonly ImmutableArray<ApiParameter> _studyQuery =
    [
        new("kind", "string", "uncertainty or vary.", IsRequired: true),
        new("frame", "string", "The id of the frame.", IsRequired: true),
        new("samples", "integer", $"uncertainty: the most evaluations, all counted; {UsualSamples} unless given, at most {MostSamples}."),
        new("seed", "integer", "uncertainty: the same seed gives the same figures; 1 unless given."),
        new("against", "string", "uncertainty: another frame, to rank the two under the same inputs."),
        new("until", "number", "uncertainty: stop when both ends of every 90 % band are known to this percentage of the median."),
        new("over", "string", "vary: NAME=FROM..TO[:STEPS], once or twice, such as standoffMm=20..90:15.", IsMany: true),
    ];

    public static void Map(IEndpointRouteBuilder routes)
    {
        Describe(routes.MapPost($"/api/{Searches}", SearchAsync), new("beginSearch", "Searches", "Search for the simplest frame that is stable enough", "The result is the report of halfpin suggest --json.")
        {
            Body = ApiBody.Case,
            Further = ProblemError.Stock,
            Headers = [ApiSchemas.IdempotencyKey],
            Answer = Begun(),
            Problems = [.. BeginProblems(), ProblemKind.InvalidStock],
        });
        Follow(routes, Searches, LongWork.Search, "Search", "suggest");
        Describe(routes.MapPost($"/api/{Studies}", StudyAsync), new("beginStudy", "Studies", "Study many variants of a frame", "What uncertain inputs do, or one or two numbers varied. The result is the report of halfpin uncertainty --json or halfpin vary --json.")
        {
            Body = ApiBody.Case,
            Query = _studyQuery,
            Headers = [ApiSchemas.IdempotencyKey],
            Answer = Begun(),
            Problems = BeginProblems(),
        });
        Follow(routes, Studies, LongWork.Study, "Study", "uncertainty or vary");
    }

    private static void Follow(IEndpointRouteBuilder routes, string path, string kind, string name, string report)
    {
        string group = path == Searches ? "Searches" : "Studies";
        Describe(routes.MapGet($"/api/{path}/{{id}}", (ApiServices services, string id) => Read(services, kind, id)),
            new($"read{name}", group, $"Where a {kind} stands, with its result when it is done", $"The newest {JobList.MostKept} are remembered until the program ends. The result is a report as the schema {report} has it.")
            {
                Answer = new(200, "Its state.", ApiSchemas.Job),
                Problems = [ProblemKind.NotFound],
            });
        Describe(routes.MapGet($"/api/{path}/{{id}}/events", (HttpContext context, ApiServices services, string id) => Events(context, services, kind, id)),
            new($"watch{name}", group, $"Progress of a {kind} as server-sent events", "Events named progress with state, done, total, secondsLeft and reason as JSON; the last one is named ended.")
            {
                Answer = new(200, "Events until it has ended.", ApiSchemas.JobStatus, "text/event-stream"),
                Problems = [ProblemKind.NotFound],
            });
        Describe(routes.MapDelete($"/api/{path}/{{id}}", (ApiServices services, string id) => Remove(services, kind, id)),
            new($"stop{name}", group, $"Stop a {kind}", "One that runs is stopped and can still be read; one that has ended is forgotten.") { Answer = new(204, "It was asked to stop, or is forgotten.", null), Problems = [ProblemKind.NotFound] });
    }

    private static async Task<IResult> SearchAsync(HttpContext context, ApiServices services)
    {
        RequestFiles files = await RequestFiles.ReadAsync(context.Request, ProblemError.Stock, mayBeEmpty: false).ConfigureAwait(false);
        if (files.Problem is not null)
        {
            return files.Problem;
        }

        RequestQuery query = new(context.Request.Query, []);
        return query.Faults.IsEmpty
            ? Begin(context, services, Searches, LongWork.Search, files, () => services.Long.Suggest(files.Case!.Case!, files.Case.Sha256, files.Stock?.Stock))
            : Problem.Of(ProblemKind.InvalidParameter, ProblemError.Query, query.Faults);
    }

    private static async Task<IResult> StudyAsync(HttpContext context, ApiServices services)
    {
        RequestFiles files = await RequestFiles.ReadAsync(context.Request, null, mayBeEmpty: false).ConfigureAwait(false);
        if (files.Problem is not null)
        {
            return files.Problem;
        }

        (Case value, string sha) = (files.Case!.Case!, files.Case.Sha256);
        RequestQuery query = new(context.Request.Query, [.. _studyQuery.Select(p => p.Name)]);
        string? frame = query.Frame("frame", value, required: true), kind = query.Text("kind");
        Func<Job?>? begin = null;
        switch (kind)
        {
            case "uncertainty":
                begin = Uncertainty(query, value, sha, frame, services);
                break;
            case "vary":
                begin = Vary(query, value, sha, frame, services);
                break;
            default:
                query.Refuse("kind", kind is null ? FaultCodes.Missing : FaultCodes.Choice, kind is null ? "kind is missing." : "kind is no kind of study.", "uncertainty, vary", "Choose one.");
                break;
        }

        return begin is not null && query.Faults.IsEmpty
            ? Begin(context, services, Studies, LongWork.Study, files, begin)
            : Problem.Of(ProblemKind.InvalidParameter, ProblemError.Query, query.Faults);
    }

    private static Func<Job?>? Uncertainty(RequestQuery query, Case value, string sha, string? frame, ApiServices services)
    {
        string? against = query.Frame("against", value, required: false);
        long samples = query.Whole("samples", 1, MostSamples, UsualSamples), seed = query.Whole("seed", 0, long.MaxValue, 1);
        double? until = query.Number("until", 0.01, 100, " %");
        if (frame is not null && frame == against)
        {
            query.Refuse("against", FaultCodes.Inconsistent, "against names the same frame.", "Another frame than frame.", "Name another, or leave it out.");
        }

        if (frame is null || !query.Faults.IsEmpty)
        {
            return null;
        }

        int inputs = UncertaintyStudy.InputsOf(value, frame, against);
        if (inputs > SaltelliDesign.MaxInputs)
        {
            query.Refuse("frame", FaultCodes.Range, $"There are {inputs} uncertain inputs.", $"At most {SaltelliDesign.MaxInputs}.", "Study one frame at a time, or a simpler one.");
            return null;
        }

        long least = UncertaintyStudy.LeastSamples(value, frame, against);
        if (samples < least || UncertaintyStudy.Plan(value, sha, frame, against, samples, (ulong)seed) is not Study plan)
        {
            query.Refuse("samples", FaultCodes.Range, $"samples is {samples}: with {inputs} inputs that is too few.", $"{least} to {MostSamples}.", $"Use {100 * least} or so.");
            return null;
        }

        return () => services.Long.Uncertainty(plan, samples, until);
    }

    private static Func<Job?>? Vary(RequestQuery query, Case value, string sha, string? frame, ApiServices services)
    {
        if (frame is null)
        {
            return null;
        }

        (ImmutableArray<VariedRange> ranges, ImmutableArray<Fault> faults) = VariedRange.Read(value, frame, query.Texts("over"));
        query.Refuse(faults);
        long rows = ranges.Aggregate(1L, (n, r) => n * r.Values.Length);
        if (rows > MostRows)
        {
            query.Refuse("over", FaultCodes.Range, $"That makes {rows} rows.", $"At most {MostRows}.", "Use fewer steps.");
        }

        return () => services.Long.Vary(value, sha, frame, ranges);
    }

    private static IResult Begin(HttpContext context, ApiServices services, string path, string kind, RequestFiles files, Func<Job?> begin) =>
        services.Create(context.Request, $"{files.Case!.Sha256} {files.Stock?.Sha256}", id => services.Jobs.Find(kind, id) is not null, () => begin()?.Id, id =>
        {
            context.Response.Headers.Location = $"/api/{path}/{id}";
            return services.Jobs.Find(kind, id) is Job job ? new ReportAnswer(Document(job) with { Result = null }, StatusCodes.Status202Accepted) : Gone();
        });

    private static IResult Read(ApiServices services, string kind, string id) => services.Jobs.Find(kind, id) is Job job ? new ReportAnswer(Document(job)) : Gone();

    private static IResult Remove(ApiServices services, string kind, string id) => services.Jobs.Remove(kind, id) ? TypedResults.NoContent() : Gone();

    private static IResult Events(HttpContext context, ApiServices services, string kind, string id) =>
        services.Jobs.Find(kind, id) is Job job ? TypedResults.ServerSentEvents(EventsOf(job, context.RequestAborted)) : Gone();

    private static async IAsyncEnumerable<SseItem<string>> EventsOf(Job job, [EnumeratorCancellation] CancellationToken left)
    {
        await foreach (JobStatus status in job.WatchAsync(left).ConfigureAwait(false))
        {
            yield return new(JsonSerializer.Serialize(new JobEvent(status.State, status.Done, status.Total, status.SecondsLeft, status.Reason), _line), status.IsEnded ? "ended" : "progress");
        }
    }

    private static JobDocument Document(Job job)
    {
        JobStatus status = job.Status;
        return new(job.Id, job.Kind, status.State, status.Done, status.Total, status.SecondsLeft, status.Reason, job.CreatedUtc, status.IsEnded ? job.EndedUtc : null, status.IsEnded ? job.Result : null);
    }

    private static Problem Gone() => new(ProblemKind.NotFound, "There is none of this id, or none any more.");

    private static ApiAnswer Begun() => new(202, "It has begun; Location names it.", ApiSchemas.Job) { Headers = [("Location", "Address of the work.")] };

    private static ImmutableArray<ProblemKind> BeginProblems() =>
        [ProblemKind.NotJson, ProblemKind.TooLarge, ProblemKind.MediaType, ProblemKind.InvalidCase, ProblemKind.InvalidParameter, ProblemKind.KeyTaken, ProblemKind.TooMany];

    private static void Describe(RouteHandlerBuilder route, ApiOperation operation) => route.WithMetadata(operation).WithName(operation.Id);
}

/// <summary>Long work.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Kind">search or study.</param>
/// <param name="State">How far it has come.</param>
/// <param name="Done">Pieces done.</param>
/// <param name="Total">Pieces there are.</param>
/// <param name="SecondsLeft">About how long it still takes; null when nothing can be said.</param>
/// <param name="Reason">Why it stopped or failed; null otherwise.</param>
/// <param name="CreatedUtc">When it was begun.</param>
/// <param name="EndedUtc">When it ended; null while it runs.</param>
/// <param name="Result">The report; null until it is done.</param>
internal sealed record JobDocument(
    string Id, string Kind, JobState State, long Done, long Total, double? SecondsLeft, string? Reason, DateTime CreatedUtc, DateTime? EndedUtc, object? Result);

/// <summary>Where long work stands, as an event.</summary>
/// <param name="State">How far it has come.</param>
/// <param name="Done">Pieces done.</param>
/// <param name="Total">Pieces there are.</param>
/// <param name="SecondsLeft">About how long it still takes; null when nothing can be said.</param>
/// <param name="Reason">Why it stopped or failed; null otherwise.</param>
internal sealed record JobEvent(JobState State, long Done, long Total, double? SecondsLeft, string? Reason);
