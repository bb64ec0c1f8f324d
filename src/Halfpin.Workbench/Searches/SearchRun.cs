using System.Security.Cryptography;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Stocks;
using Halfpin.Search;
using Halfpin.Storage.Cases;
using Halfpin.Workbench.Runs;

namespace Halfpin.Workbench.Searches;

/// <summary>The search for the simplest frame of a work.</summary>
public sealed class SearchRun(ProgramStamp program, TimeProvider time)
{
    /// <summary>State, progress and result.</summary>
    public LongRun<SuggestReport> Run { get; } = new(time);

    /// <summary>Starts a search for a valid case.</summary>
    /// <param name="value">The case.</param>
    /// <param name="stock">The stock that frames must be built from; null for any.</param>
    /// <returns>The search, to wait for; null when one is under way.</returns>
    public Task? Start(Case value, Stock? stock) => Run.Start(value, (tell, stop) =>
    {
        Suggester suggester = new(value, stock);
        long all = suggester.Candidates;
        tell(0, all);
        return suggester.Suggest(program, Convert.ToHexStringLower(SHA256.HashData(CaseWriter.Write(value))), WorkRuns.Threads, done => tell(done, all), stop);
    });

    /// <summary>How many candidates a search of a case would try.</summary>
    public static long CandidatesOf(Case value) => new Suggester(value, null).Candidates;
}
