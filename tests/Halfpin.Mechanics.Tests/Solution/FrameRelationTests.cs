using CsCheck;
using Halfpin.Mechanics.Solution;
using Halfpin.Mechanics.Tests.Frames;
using Xunit;

namespace Halfpin.Mechanics.Tests.Solution;

/// <summary>Metamorphic relations over random frames: what must hold between a frame and a changed copy, whatever its numbers.</summary>
public class FrameRelationTests
{
    private const int Frames = 200;

    [Fact]
    public void Frame_turnedAndShifted_movesTurned() => Gen.Select(FrameGen.Frame, FrameGen.Rotation, FrameGen.Point).Sample(
        (frame, r, shift) =>
        {
            // Partial supports are along global axes and do not turn with the frame.
            TestFrame free = frame with { Supports = [frame.Supports[0]] };
            return Gap.Between(free.Turned(r, shift).Solve(), free.Solve().Select(m => Gap.Map(m, v => r * v, v => r * v))) < Gap.Reordered;
        },
        iter: Frames);

    [Fact]
    public void Frame_mirrored_movesMirrored() => FrameGen.Frame.Sample(
        frame => Gap.Between(
            frame.Mirrored().Solve(),
            frame.Solve().Select(m => Gap.Map(m, v => new(v.X, -v.Y, v.Z), v => new(-v.X, v.Y, -v.Z)))) < Gap.Reordered,
        iter: Frames);

    [Fact]
    public void Frame_beamEndsExchanged_movesAlike() => FrameGen.Frame.Sample(
        frame => Gap.Between(frame.Solve(), frame.EndsExchanged().Solve()) < Gap.Reordered, iter: Frames);

    [Fact]
    public void Frame_nodesRenumbered_movesAlike() => FrameGen.Frame.SelectMany(f => FrameGen.Permutation(f.Nodes.Count), (f, p) => (f, p)).Sample(
        (frame, to) =>
        {
            IReadOnlyList<Motion> renumbered = frame.Renumbered(to).Solve();
            return Gap.Between(frame.Solve(), to.Select(t => renumbered[t])) < Gap.Reordered;
        },
        iter: Frames);

    [Fact]
    public void Frame_everyBeamCutInTwo_movesAlike() => Gen.Select(FrameGen.Frame, Gen.Double[0.2, 0.8]).Sample(
        (frame, share) => Gap.Between(frame.Solve(), frame.Split(share).Solve().Take(frame.Nodes.Count)) < Gap.Reordered, iter: Frames);

    [Fact]
    public void Frame_stiffnessTimesThree_movesAThird() => FrameGen.Frame.Sample(
        frame => Gap.Between(frame.Solve(), frame.Stiffened(3).Solve().Select(m => 3 * m)) < Gap.Reordered, iter: Frames);

    [Fact]
    public void Frame_inMetres_movesAlike() => FrameGen.Frame.Sample(
        frame => Gap.Between(frame.Solve(), frame.InLengthUnit(1000).Solve().Select(m => Gap.Map(m, v => 1000 * v, v => v))) < Gap.Reordered,
        iter: Frames);

    [Fact]
    public void Frame_inAnOddUnit_movesAlike() => FrameGen.Frame.Sample(
        frame => Gap.Between(frame.Solve(), frame.InLengthUnit(2.7).Solve().Select(m => Gap.Map(m, v => 2.7 * v, v => v))) < Gap.Reordered,
        iter: Frames);

    [Fact]
    public void Frame_withUnloadedBranch_movesAlike() => Gen.Select(FrameGen.Frame, FrameGen.Direction).Sample(
        (frame, d) => Gap.Between(frame.Solve(), frame.WithBranch(3, 57 * d, frame.Beams[0] with { Towards2 = d.AnyNormal() }).Solve().Take(frame.Nodes.Count)) < Gap.Reordered,
        iter: Frames);

    [Fact]
    public void Frame_beamsDoubledInParallel_movesAlike() => FrameGen.Frame.Sample(
        frame => Gap.Between(frame.Solve(), frame.Doubled(0.3).Solve()) < Gap.Reordered, iter: Frames);

    [Fact]
    public void Frame_twoLoads_superpose() => FrameGen.Frame.Sample(
        frame =>
        {
            IReadOnlyList<Motion> first = (frame with { Loads = [frame.Loads[0]] }).Solve(), second = (frame with { Loads = [frame.Loads[1]] }).Solve();
            return Gap.Between(frame.Solve(), first.Zip(second, (a, b) => a + b)) < Gap.SameFactor;
        },
        iter: Frames);

    [Fact]
    public void Frame_twoLoads_doReciprocalWork() => FrameGen.Frame.Sample(
        frame =>
        {
            (TestLoad a, TestLoad b) = (frame.Loads[0], frame.Loads[1]);
            Motion aByB = (frame with { Loads = [b] }).Solve()[a.Node], bByA = (frame with { Loads = [a] }).Solve()[b.Node];
            double ab = Work(a, aByB), ba = Work(b, bByA);
            double scale = Math.Sqrt((frame with { Loads = [a] }).Work() * (frame with { Loads = [b] }).Work());
            return Math.Abs(ab - ba) < Gap.SameFactor * scale;
        },
        iter: Frames);

    [Fact]
    public void Frame_anyLoad_isInBalanceAtEveryNode() => FrameGen.Frame.Sample(
        frame =>
        {
            frame.Solve(out FrameSystem system);
            return system.Recover(100) < Gap.Reordered;
        },
        iter: Frames);

    [Fact]
    public void Frame_beamThickened_takesLessWork() => Gen.Select(FrameGen.Frame, Gen.Int[0, 100], Gen.Double[1.05, 4]).Sample(
        (frame, pick, factor) =>
        {
            // Work, not single motions: a stiffer part may well let some node move more.
            int i = pick % frame.Beams.Count;
            TestFrame stiffer = frame with { Beams = [.. frame.Beams.Select((b, j) => j == i ? b with { Moduli = new(factor * b.Moduli.YoungsModulusMPa, factor * b.Moduli.ShearModulusMPa) } : b)] };
            return stiffer.Work() <= frame.Work() * (1 + Gap.Reordered);
        },
        iter: Frames);

    [Fact]
    public void Frame_againstPlainDenseTwin_movesAlike() => FrameGen.Frame.Sample(
        frame => Gap.Between(frame.Solve(), DenseTwin.Solve(frame)) < Gap.Reordered, iter: Frames);

    private static double Work(TestLoad l, Motion m) => l.Force.Dot(m.TranslationMm) + l.Moment.Dot(m.RotationRad);
}
