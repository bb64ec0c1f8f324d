using System.Collections.Immutable;
using Halfpin.Web.Api.Problems;

namespace Halfpin.Web.Api.Description;

/// <summary>What the OpenApi document says of an operation, and what its handler may be asked.</summary>
/// <param name="Id">Stable name of the operation.</param>
/// <param name="Group">Group it stands in.</param>
/// <param name="Summary">What it does, in a line.</param>
/// <param name="Description">What a caller must know, in a few sentences.</param>
internal sealed record ApiOperation(string Id, string Group, string Summary, string Description)
{
    /// <summary>Query parameters; no others are taken.</summary>
    public ImmutableArray<ApiParameter> Query { get; init; } = [];

    /// <summary>Request headers that the operation reads.</summary>
    public ImmutableArray<ApiParameter> Headers { get; init; } = [];

    /// <summary>The body it takes.</summary>
    public ApiBody Body { get; init; }

    /// <summary>A file that may come with the case as a second part: stock or gait; null when none may.</summary>
    public string? Further { get; init; }

    /// <summary>What it answers when all is well.</summary>
    public required ApiAnswer Answer { get; init; }

    /// <summary>Problems it may answer with, but for those that any may.</summary>
    public ImmutableArray<ProblemKind> Problems { get; init; } = [];

    /// <summary>Names of the query parameters.</summary>
    public string[] QueryNames => [.. Query.Select(q => q.Name)];
}

/// <summary>The body of a request.</summary>
internal enum ApiBody
{
    None,
    Case,
    CaseOrNothing,
}

/// <summary>A parameter.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Type">JSON type: string, number or integer.</param>
/// <param name="Meaning">What it is, with unit and limits.</param>
/// <param name="IsRequired">Whether it must be given.</param>
/// <param name="IsMany">Whether it may be given several times.</param>
internal sealed record ApiParameter(string Name, string Type, string Meaning, bool IsRequired = false, bool IsMany = false);

/// <summary>An answer.</summary>
/// <param name="Status">HTTP status.</param>
/// <param name="Meaning">What it is.</param>
/// <param name="Schema">Name of its schema in the document; null for none.</param>
/// <param name="MediaType">Its type.</param>
internal sealed record ApiAnswer(int Status, string Meaning, string? Schema, string MediaType = "application/json")
{
    /// <summary>Headers it carries, with their meanings.</summary>
    public ImmutableArray<(string Name, string Meaning)> Headers { get; init; } = [];
}
