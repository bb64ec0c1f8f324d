using System.Security.Cryptography;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Search;
using Halfpin.Storage.Cases;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Runs;

namespace Halfpin.Workbench.Searches;

/// <summary>The search for the simplest frame of a work.</summary>
public sealed class SearchRun(ProgramStamp program, TimeProvider time, CancellationToken gone = default)
{
    /// <summary>State, progress and result.</summary>
    public LongRun<SearchFound> Run { get; } = new(time, gone);

    /// <summary>Starts a search for a valid case.</summary>
    /// <param name="value">The case.</param>
    /// <param name="stock">The stock that frames must be built from; null for any.</param>
    /// <returns>The search, to wait for; null when one is under way.</returns>
    public Task? Start(Case value, StockFile? stock) => Run.Start(value, (tell, stop) =>
    {
        Suggester suggester = new(value, stock?.Stock);
        long all = suggester.Candidates;
        tell(0, all);
        SuggestReport report = suggester.Suggest(program, Convert.ToHexStringLower(SHA256.HashData(CaseWriter.Write(value))), WorkRuns.Threads, done => tell(done, all), stop: stop);
        return new(report, stock?.FileName, stock?.Sha256);
    });
}
