using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Json;
using Microsoft.AspNetCore.Http;

namespace Halfpin.Web.Api.Problems;

/// <summary>A problem as an answer: application/problem+json with everything that is wrong.</summary>
/// <param name="kind">Its kind.</param>
/// <param name="detail">What is wrong this time, in a sentence.</param>
/// <param name="errors">Every single fault, where there are such.</param>
internal sealed class Problem(ProblemKind kind, string detail, ImmutableArray<ProblemError> errors = default) : IResult
{
    private const string MediaType = "application/problem+json";

    /// <summary>Seconds after which to try again; null to say nothing.</summary>
    public int? RetryAfterSeconds { get; init; }

    /// <summary>Faults of what was sent.</summary>
    /// <param name="kind">The kind for faults of content; for texts that cannot be read and for too large ones it is theirs.</param>
    /// <param name="part">Which part of the request they are in.</param>
    /// <param name="faults">The faults.</param>
    public static Problem Of(ProblemKind kind, string part, ImmutableArray<Fault> faults)
    {
        ProblemKind whole = faults.Any(f => f.Code == FaultCodes.TooLarge) ? ProblemKind.TooLarge
            : part != ProblemError.Query && faults.Any(f => f.Code == FaultCodes.Syntax) ? ProblemKind.NotJson
            : kind;
        return new(whole, faults.Length == 1 ? faults[0].Message : $"{faults.Length} faults.", [.. faults.Select(f => new ProblemError(part, f.Pointer, f.Code, f.Message, f.Allowed, f.Try))]);
    }

    public Task ExecuteAsync(HttpContext httpContext)
    {
        HttpResponse response = httpContext.Response;
        response.StatusCode = kind.Status;
        response.ContentType = MediaType;
        if (RetryAfterSeconds is int seconds)
        {
            response.Headers.RetryAfter = seconds.ToString(CultureInfo.InvariantCulture);
        }

        if (kind == ProblemKind.TooLarge)
        {
            response.Headers.Connection = "close"; // The rest of the body is not wanted.
        }

        ProblemDocument document = new(kind.Address, kind.Title, kind.Status, detail, httpContext.Request.Path.ToUriComponent(), errors.IsDefault ? [] : errors);
        return response.Body.WriteAsync(Encoding.UTF8.GetBytes(JsonSerializer.Serialize(document, HalfpinJson.Options))).AsTask();
    }
}

/// <summary>A problem in the form of RFC 9457.</summary>
/// <param name="Type">Stable address of its kind.</param>
/// <param name="Title">The kind in words.</param>
/// <param name="Status">HTTP status.</param>
/// <param name="Detail">What is wrong this time.</param>
/// <param name="Instance">The address that was asked.</param>
/// <param name="Errors">Every single fault; empty where there are no such.</param>
internal sealed record ProblemDocument(string Type, string Title, int Status, string Detail, string Instance, ImmutableArray<ProblemError> Errors);

/// <summary>One thing that is wrong.</summary>
/// <param name="In">Which part of the request: case, stock, gait, query or header.</param>
/// <param name="Pointer">Where in it: a JSON Pointer, /row/column of a table, or a parameter's name.</param>
/// <param name="Code">A stable word for programs.</param>
/// <param name="Message">What is wrong.</param>
/// <param name="Allowed">What is allowed.</param>
/// <param name="Try">What to try.</param>
internal sealed record ProblemError(string In, string Pointer, string Code, string Message, string Allowed, string Try)
{
    public const string Case = "case";
    public const string Stock = "stock";
    public const string Gait = "gait";
    public const string Query = "query";
    public const string Header = "header";
}
