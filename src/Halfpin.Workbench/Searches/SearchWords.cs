using System.Globalization;
using Halfpin.Domain.Cases;

namespace Halfpin.Workbench.Searches;

/// <summary>What a search of a case would do, in words.</summary>
public static class SearchWords
{
    /// <summary>How many candidates of what, and what counts as simple.</summary>
    public static string Lead(Case value)
    {
        long candidates = SearchRun.CandidatesOf(value);
        string purpose = value.Purpose.ToString().ToLowerInvariant();
        return candidates == 0
            ? "Frames for several fractures are not searched: a construct puts no pin in the fragment between. The case's own frames can still be judged."
            : string.Create(CultureInfo.InvariantCulture, $"Tries {candidates:#,0} candidates of one rod, two rods and a V against what a {purpose} frame must meet, and names the simplest: fewest parts, then least cost, then most room at the wound.");
    }
}
