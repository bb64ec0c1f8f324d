using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Stability.Tests.Checks;

public class ConstructCheckTests
{
    [Fact]
    public void PinsWithoutACore_areACaution() =>
        Assert.Equal(Verdict.Caution, Bench.Assess(Bench.CaseOf(Bench.NearFar)).Checks.Single(c => c.Id == "thread-core").Verdict);

    [Fact]
    public void PinsWithACore_areNot() =>
        Assert.DoesNotContain(
            Bench.Assess(Bench.CaseOf(Bench.NearFar with { Pin = Bench.Pin with { CoreDiameterMm = 4.2, ThreadLengthMm = 37 } })).Checks, c => c.Id == "thread-core");

    [Fact]
    public void LoadBeyondTheModel_isAFailedCheck()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar with { StandoffMm = 120 }, allowedKg: 60));

        Assert.Equal(Verdict.Fail, f.Checks.Single(c => c.Id == "range").Verdict);
    }

    [Fact]
    public void OverloadBeyondTheModel_isACaution()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar with { StandoffMm = 160 }, allowedKg: 2));

        Assert.Equal(Verdict.Caution, f.Checks.Single(c => c.Id == "overload-range").Verdict);
        Assert.Null(f.OverloadMotion);
    }

    [Fact]
    public void LoadBeyondTheModel_isInTheFindings()
    {
        Case value = Bench.CaseOf(Bench.NearFar with { StandoffMm = 120 }, allowedKg: 60);

        Assert.Contains(new Assessor(value).Assess(null, new("halfpin", "test"), "").Findings, f => f is { Label: "No result at 60 kg", Verdict: Verdict.Fail });
    }

    [Fact]
    public void Findings_ofOneFrame_sayThatItIsNotForFullWeight() =>
        Assert.Contains("not for full weight over an open gap", new Assessor(Bench.CaseOf(Bench.NearFar, allowedKg: 3)).Assess(null, new("halfpin", "test"), "").Findings[0].Text, StringComparison.Ordinal);
}
