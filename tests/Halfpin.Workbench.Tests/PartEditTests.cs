using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Placement;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Edits;
using Halfpin.Workbench.Handles;
using Xunit;

namespace Halfpin.Workbench.Tests;

public sealed class PartEditTests : IDisposable
{
    private readonly Works _works = new();

    public static TheoryData<string, int, FragmentEnd> Places
    {
        get
        {
            TheoryData<string, int, FragmentEnd> places = [];
            foreach (string frame in new[] { "near-far", "three-pins", "two-plane", "double-rod" })
            {
                places.Add(frame, 0, FragmentEnd.Proximal);
                places.Add(frame, 0, FragmentEnd.Distal);
                places.Add(frame, 1, FragmentEnd.Proximal);
                places.Add(frame, 1, FragmentEnd.Distal);
            }

            return places;
        }
    }

    // Laid out part by part.
    private Workspace PinByPin(string frame, Case? value = null)
    {
        Workspace work = _works.Begin(value);
        Assert.Empty(work.Apply(FrameEdits.PinByPin(work.Case.Named(frame))));
        return work;
    }

    [Theory]
    [MemberData(nameof(Places))]
    public void Pin_added_isValidOnItsRodsWhereItSpoilsPlacementLeast(string frame, int fragment, FragmentEnd end)
    {
        Workspace work = PinByPin(frame);
        Parts before = work.Case.Named(frame).Parts!;
        PlacementReview review = new();
        Dictionary<string, Verdict> was = review.Of(work.Case, before).Verdicts.GroupBy(c => c.Check).ToDictionary(g => g.Key, g => g.Max(c => c.Verdict));
        Assert.Empty(work.Apply(PartEdits.AddPin(work.Case, work.Case.Named(frame), fragment, end)));
        Parts after = work.Case.Named(frame).Parts!;
        Pin added = Assert.Single(after.Pins, p => before.Pins.All(o => o.Id != p.Id));
        Assert.Contains(added, PartEdits.PinsOf(work.Case, after, fragment));

        string[] rods = [.. after.Clamps.Where(c => c.Pin == added.Id).Select(c => c.Rod)];
        Assert.NotEmpty(rods);

        // The short distal fragment has no sound place left for a fourth pin; the least that it costs is a caution.
        Verdict worst = fragment == 1 && (frame is "three-pins" or "two-plane") ? Verdict.Caution : Verdict.Pass;
        Assert.All(review.Of(work.Case, after).Verdicts, c => Assert.True(c.Verdict <= was.GetValueOrDefault(c.Check, worst) || c.Verdict <= worst, c.Check));
        Assert.StartsWith($"add pin {added.Id} at ", work.UndoWords, StringComparison.Ordinal);
        work.Undo();
        Assert.Equal(before.Pins.AsEnumerable(), work.Case.Named(frame).Parts!.Pins);
    }

    [Fact]
    public void Pin_addedBeyondTheRod_lengthensItAlongItsAxis()
    {
        Workspace work = PinByPin("near-far");
        Parts before = work.Case.Named("near-far").Parts!;
        Parts after = Frames(PartEdits.AddPin(work.Case, work.Case.Named("near-far"), 0, FragmentEnd.Proximal).Apply(work.Case));
        Halfpin.Anatomy.Bones.BoneShape bone = Halfpin.Anatomy.Bones.BoneShape.For(work.Case.Limb);
        PlacedRod was = PlacedRod.Place(bone, before.Rods[0]), now = PlacedRod.Place(bone, after.Rods[0]);
        Assert.Equal(was.ToMm, now.ToMm);
        Assert.True(now.SpanMm > was.SpanMm + 5);
        Assert.Equal(0, (now.Along - was.Along).Length, 4);
        Assert.Equal(before.Clamps.AsEnumerable(), after.Clamps.Take(before.Clamps.Length));

        static Parts Frames(Case value) => value.Named("near-far").Parts!;
    }

    [Fact]
    public void Pin_addedToAFragmentWithoutAny_standsInItsMiddle()
    {
        // A construct puts no pin between two fractures.
        Workspace work = PinByPin("four-pins", Examples.Segmental);
        Assert.Empty(PartEdits.PinsOf(work.Case, work.Case.Named("four-pins").Parts!, 1));
        Assert.Empty(work.Apply(PartEdits.AddPin(work.Case, work.Case.Named("four-pins"), 1, FragmentEnd.Distal)));
        Pin added = Assert.Single(PartEdits.PinsOf(work.Case, work.Case.Named("four-pins").Parts!, 1));
        Assert.Equal((work.Case.Fractures[0].LevelMm + work.Case.Fractures[1].LevelMm) / 2, added.LevelMm, 0.51);
    }

    [Fact]
    public void Pin_removed_takesItsClampsAlong()
    {
        Workspace work = PinByPin("double-rod");
        string pin = work.Case.Named("double-rod").Parts!.Pins[1].Id;
        Assert.Empty(work.Apply(PartEdits.RemovePin(work.Case.Named("double-rod"), pin)));
        Parts after = work.Case.Named("double-rod").Parts!;
        Assert.DoesNotContain(after.Pins, p => p.Id == pin);
        Assert.DoesNotContain(after.Clamps, c => c.Pin == pin);
        Assert.StartsWith($"remove pin {pin}", work.UndoWords, StringComparison.Ordinal);
    }

    [Fact]
    public void Clamp_removedAndJoinedAgain_givesTheSameFrameButForItsName()
    {
        Workspace work = PinByPin("near-far");
        Frame Now() => work.Case.Named("near-far");
        Clamp clamp = Now().Parts!.Clamps[2];
        Assert.Empty(PartEdits.Joinable(work.Case, Now().Parts!));
        Assert.Empty(work.Apply(PartEdits.RemoveClamp(Now(), clamp.Id)));
        (string pin, string rod) = Assert.Single(PartEdits.Joinable(work.Case, Now().Parts!));
        Assert.Equal((clamp.Pin, clamp.Rod), (pin, rod));
        Assert.Empty(work.Apply(PartEdits.AddClamp(Now(), pin, rod)));
        Assert.Contains(clamp, Now().Parts!.Clamps);
        Assert.Equal($"clamp {pin} to {rod}, {Now().DisplayName}", work.UndoWords);
    }

    [Fact]
    public void CrossLink_moved_leavesTheOtherWhereItStood()
    {
        Handle first = FrameHandles.Of(Works.Demo, "two-plane").First(h => h.Key == "crossLink1"), second = FrameHandles.Of(Works.Demo, "two-plane").First(h => h.Key == "crossLink2");
        Workspace work = _works.Begin();
        double to = first.Value - 6.4;
        Assert.Empty(work.Apply(first.To("V", to)));
        Frame moved = work.Case.Named("two-plane");
        Assert.Equal([to, second.Value], ((TwoPlane)moved.Construct!).CrossLinkLevelsMm.AsEnumerable());
        Assert.Equal([to, second.Value], ConstructBuilder.Build(moved.Construct!, work.Case.Fractures).Rods.Skip(2).Select(r => r.To.LevelMm));
        Assert.Contains("cross-link 1 level", work.UndoWords, StringComparison.Ordinal);
    }

    [Fact]
    public void CrossLink_ofAFramePartByPart_movesLevelWithBothEnds()
    {
        Workspace work = PinByPin("two-plane");
        Handle link = FrameHandles.Of(work.Case, "two-plane").First(h => h.Key == "l2.level");
        Assert.Empty(work.Apply(link.To("V", link.Value + 7)));
        Rod rod = work.Case.Named("two-plane").Parts!.Rods.First(r => r.Id == "l2");
        Assert.Equal((link.Value + 7, link.Value + 7), (rod.From.LevelMm, rod.To.LevelMm));
        Assert.DoesNotContain(FrameHandles.Of(work.Case, "two-plane"), h => h.Key == "r1.level");
    }

    public void Dispose() => _works.Dispose();
}
