using Halfpin.Domain.Assessments;
using Halfpin.Domain.Validity;
using Halfpin.Web.Api.Problems;
using Halfpin.Web.Server;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Jobs;
using Microsoft.AspNetCore.Http;

namespace Halfpin.Web.Api;

/// <summary>What the operations of the API work with.</summary>
internal sealed class ApiServices(ProgramStamp program, WorkbenchOptions options, WorkspaceList works, JobList jobs)
{
    private const string KeyHeader = "Idempotency-Key";
    private const int LongestKey = 128;

    // A person waits no longer for one answer; what may take longer is long work.
    private static readonly TimeSpan _longest = TimeSpan.FromSeconds(30);

    public ProgramStamp Program => program;

    public WorkbenchOptions Options => options;

    public WorkspaceList Works => works;

    public JobList Jobs => jobs;

    public LongWork Long { get; } = new(jobs, program);

    public CreationKeys Keys { get; } = new();

    private ComputeGate Gate { get; } = new(Math.Max(2, Environment.ProcessorCount), _longest);

    /// <summary>Computes an answer within the time that a request may take.</summary>
    public async Task<IResult> ComputeAsync(Func<IResult> work, CancellationToken left)
    {
        try
        {
            return await Gate.RunAsync(work, left).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            return new Problem(ProblemKind.TookTooLong, $"It took longer than {_longest.TotalSeconds:0} s.") { RetryAfterSeconds = 10 };
        }
    }

    /// <summary>Creates, or repeats the answer to the same request under the same key.</summary>
    /// <param name="request">The request.</param>
    /// <param name="bodySha256">Hash of its files.</param>
    /// <param name="stillThere">Whether what was created under an id is still there.</param>
    /// <param name="create">Creates and gives the id; null while as much long work runs as may.</param>
    /// <param name="answer">The answer on what was created.</param>
    public IResult Create(HttpRequest request, string bodySha256, Func<string, bool> stillThere, Func<string?> create, Func<string, IResult> answer)
    {
        string? key = request.Headers.TryGetValue(KeyHeader, out var given) ? given.ToString() : null;
        if (key is { Length: 0 or > LongestKey })
        {
            return Problem.Of(ProblemKind.InvalidParameter, ProblemError.Header,
                [new(KeyHeader, FaultCodes.Range, $"{KeyHeader} has {key.Length} characters.", $"1 to {LongestKey}.", "Use a random text, such as a UUID.")]);
        }

        Creation made = Keys.Once(key, $"{request.Path} {request.QueryString} {bodySha256}", stillThere, create);
        return made.IsTaken ? new Problem(ProblemKind.KeyTaken, $"{KeyHeader} was used for a request with another body or other parameters.")
            : made.Id is null ? new Problem(ProblemKind.TooMany, $"At most {JobList.MostAtOnce} searches and studies run at once.") { RetryAfterSeconds = 5 }
            : answer(made.Id);
    }
}
