using System.Globalization;
using Halfpin.Verification.Running;
using Xunit;

namespace Halfpin.Verification.Tests;

public class CaseTests
{
    private static readonly Dictionary<string, VerificationCase> _cases = CaseLibrary.Load().ToDictionary(c => c.Case.Id, c => c.Case);

    public static TheoryData<string> Ids => [.. _cases.Keys];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Case_run_agrees_with_its_source_or_states_its_gap(string id)
    {
        string[] mismatches = [.. CaseRunner.Run(_cases[id])
            .Where(r => r.Outcome == Outcome.Mismatch)
            .Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.Check.Quantity}: {r.Ours} against {r.Reference} {r.Check.Unit} ({100 * r.RelativeDifference:0.###} %)"))];

        Assert.Empty(mismatches);
    }
}
