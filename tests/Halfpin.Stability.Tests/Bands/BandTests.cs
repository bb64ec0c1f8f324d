using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Modelling;
using Xunit;

namespace Halfpin.Stability.Tests.Bands;

public class BandTests
{
    [Fact]
    public void MeasuredSlipMomentAlone_doesNotNarrowTheStiffness()
    {
        Case measured = Bench.CaseOf(Bench.NearFar, allowedKg: 3) with { Model = new() { Clamp = new SpringClamp { SlipMomentNm = 9.7 } } };

        Assert.Equal(Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 3)).Band!.Low, Bench.Assess(measured).Band!.Low);
    }

    [Fact]
    public void MeasuredClampStiffness_leavesTheBoneInTheBand()
    {
        Case measured = Bench.CaseOf(Bench.NearFar, allowedKg: 3) with { Model = new() { Clamp = new SpringClamp { RotationalNmPerRad = 213, SlipMomentNm = 9.7 } } };

        Assert.Equal("pin–bone foundation 500–10000 N/mm²", Bench.Assess(measured).Band!.Inputs);
    }

    [Fact]
    public void AxialMotion_atTheSoftEnd_isTheLoadOverTheLeastStiffness()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 7));

        Assert.Equal(7 * 9.81 / f.Band!.Low.AxialNPerMm, f.Band.AxialMm!.High, 1e-9);
    }

    [Fact]
    public void FirstLimit_liesInItsBand()
    {
        FrameAssessment f = Bench.Assess(Bench.CaseOf(Bench.NearFar, allowedKg: 7));

        Assert.InRange(f.FirstLimit!.LoadKg, f.Band!.FirstLimitKg!.Low, f.Band.FirstLimitKg.High);
    }
}
