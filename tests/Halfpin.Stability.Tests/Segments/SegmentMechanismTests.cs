using Halfpin.Domain.Frames;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.FreeMotions;
using Xunit;

namespace Halfpin.Stability.Tests.Segments;

public class SegmentMechanismTests
{
    [Fact]
    public void Construct_aboutTwoFractures_leavesTheMiddleFragmentFree()
    {
        FrameAnalyser analyser = SegmentBench.Analyser(SegmentBench.Both);
        analyser.Analyse(ConstructBuilder.Build(Bench.NearFar with { NearMm = 25, FarMm = 80 }, SegmentBench.Both));

        LooseMotion only = Assert.Single(analyser.Freedoms.Motions);
        Assert.Equal("The middle fragment moves freely: there is no pin in it.", only.Message);
        Assert.StartsWith("Add at least two pins to the middle fragment", only.Try, StringComparison.Ordinal);
    }

    [Fact]
    public void MiddleFragment_withUnclampedPins_isNamedWithThem()
    {
        FrameAnalyser analyser = Mechanism(SegmentBench.Six with { Clamps = [.. SegmentBench.Six.Clamps.Where(c => c.Pin is not ("p3" or "p4"))] });

        LooseMotion only = Assert.Single(analyser.Freedoms.Motions);
        Assert.Equal("The middle fragment moves freely: its pins p3 and p4 are not joined to the rest of the frame.", only.Message);
        Assert.Equal(["p3", "p4"], only.Parts);
    }

    [Fact]
    public void ProximalAndMiddleFragment_joinedToEachOtherOnly_moveTogether()
    {
        FrameAnalyser analyser = Mechanism(SegmentBench.Six with { Clamps = [.. SegmentBench.Six.Clamps.Where(c => c.Pin is not ("p5" or "p6"))] });

        Assert.Equal(
            "The proximal fragment and the middle fragment move freely together: no chain of pin, clamp, rod, clamp and pin joins them to the distal fragment.",
            Assert.Single(analyser.Freedoms.Motions).Message);
    }

    [Fact]
    public void FragmentsJoinedToNothing_areEachNamed()
    {
        FrameAnalyser analyser = Mechanism(SegmentBench.Six with { Clamps = [.. SegmentBench.Six.Clamps.Where(c => c.Pin is "p5" or "p6")] });

        Assert.Equal(2, analyser.Freedoms.Motions.Length);
        Assert.Contains(analyser.Freedoms.Motions, m => m.Message.StartsWith("The proximal fragment moves freely", StringComparison.Ordinal));
        Assert.Contains(analyser.Freedoms.Motions, m => m.Message.StartsWith("The middle fragment moves freely", StringComparison.Ordinal));
    }

    [Fact]
    public void MiddleFragment_looseOnOneRod_turnsAndSlides()
    {
        FrameAnalyser analyser = Mechanism(SegmentBench.Loosened(SegmentBench.Six, "c3", "c4"));

        Assert.Equal(
            ["The middle fragment turns about rod r1: clamps c3 and c4 are loose.", "The middle fragment slides along rod r1: clamps c3 and c4 are loose."],
            analyser.Freedoms.Motions.Select(m => m.Message));
    }

    [Fact]
    public void MiddleFragment_looseOnBothRods_slidesWhereNoLoadHoldsIt()
    {
        // An intended slide gives way to a load and ends where the bone bears; this one is moved by none, so it is a fault.
        FrameAnalyser analyser = Mechanism(SegmentBench.Loosened(SegmentBench.Twin, "c3", "c4", "d3", "d4"));

        Assert.Equal("The middle fragment slides along rod r1 and rod r2: clamps c3, c4, d3 and d4 are loose.", Assert.Single(analyser.Freedoms.Motions).Message);
    }

    [Fact]
    public void MiddleFragmentFree_besideALooseRod_areTwoFaults()
    {
        Parts parts = SegmentBench.Loosened(SegmentBench.Six, "c1", "c2");
        FrameAnalyser analyser = Mechanism(parts with { Clamps = [.. parts.Clamps.Where(c => c.Pin is not ("p3" or "p4"))] });

        Assert.Equal(
            ["The middle fragment moves freely: its pins p3 and p4 are not joined to the rest of the frame.", "The proximal fragment turns about rod r1: clamps c1 and c2 are loose."],
            analyser.Freedoms.Motions.Select(m => m.Message).Where(m => !m.Contains("slides", StringComparison.Ordinal)));
    }

    [Fact]
    public void ProximalFragment_looseOnBothRods_slidesAsIntended()
    {
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Loosened(SegmentBench.Twin, "c1", "c2", "d1", "d2"), SegmentBench.Both);

        Assert.Contains("axial", analyser.Freedoms.Names);
        Assert.Single(analyser.Freedoms.Freed);
        Assert.Equal(0, StiffnessReadout.AtFracture(analyser, 0).AxialNPerMm);
    }

    [Fact]
    public void ProximalAndDistalFragment_looseOnBothRods_slideInTwoWays()
    {
        FrameAnalyser analyser = SegmentBench.Analysed(SegmentBench.Loosened(SegmentBench.Twin, "c1", "c2", "d1", "d2", "c5", "c6", "d5", "d6"), SegmentBench.Both);

        Assert.Equal(2, analyser.Freedoms.Freed.Length);
    }

    private static FrameAnalyser Mechanism(Parts parts)
    {
        FrameAnalyser analyser = SegmentBench.Analyser(SegmentBench.Both);
        Assert.Equal(AnalysisStatus.Mechanism, analyser.Analyse(parts));
        return analyser;
    }
}
