using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.TestKit.CrossProgram;
using Halfpin.Verification.Models;
using Xunit;

namespace Halfpin.CrossProgram.Tests;

/// <summary>Z88 against the project's solver on the same decks, and against the product where decks only approach it.</summary>
public class Z88Tests
{
    // Twice as many lumps leave a quarter of the difference (second order), ten times stiffer arms a tenth (first order). Room for
    // the next order, and for the last digits of the solvers: up to 1e-6 beside a last difference of 5e-6.
    private const double FallByDoubledLumps = 3, FallByTenfoldArms = 7;

    public static TheoryData<string> AllFrames => Frames.All;

    public static TheoryData<string> RigidFrames => Frames.Rigid;

    public static TheoryData<string> YieldingFrames => Frames.Yielding;

    [Fact]
    public void Construct_A_moves_alike_in_both_programs()
    {
        Need.Z88Program();
        BeamDeck deck = RawFrameDecks.ToDeck(SampleFrames.ConstructA());

        Assert.InRange(Z88.Solve(deck).DifferenceFrom(RawFrameDecks.Solve(deck)), 0, Allowed.SameDeck);
    }

    [Theory]
    [InlineData("fz", 1437.994734, 1980.130535, 1980.130535, 1437.994734)]
    [InlineData("mx", 1885.152964, 1885.152964, 1885.152964, 1885.152964)]
    [InlineData("my", 293.2066346, 209.6157420, 209.6157420, 293.2066346)]
    [InlineData("mz", 2487.301910, 2512.698090, 2512.698090, 2487.301910)]
    public void Construct_A_bends_its_pins_in_Z88_as_an_independent_program_found(string loadCase, params double[] momentsNmm)
    {
        Need.Z88Program();
        BeamDeck deck = RawFrameDecks.ToDeck(SampleFrames.ConstructA());

        // Bending at x = 13.5: the moment across the pins, which lie along x.
        Assert.All(Z88BendingOfPins(deck, loadCase).Zip(momentsNmm), p => Assert.InRange(Math.Abs(p.First - p.Second), 0, Allowed.PrintedForces * p.Second));
    }

    [Theory]
    [InlineData("fz")]
    [InlineData("mx")]
    [InlineData("my")]
    [InlineData("mz")]
    public void Construct_A_bends_its_pins_alike_in_both_programs(string loadCase)
    {
        Need.Z88Program();
        RawFrame frame = SampleFrames.ConstructA();
        RawFrameSolution own = new(frame);

        double[] ours = [.. Enumerable.Range(1, 4).Select(i => Math.Sqrt(
            Math.Pow(own.Read($"internal pin{i} 0 m2 {loadCase}"), 2) + Math.Pow(own.Read($"internal pin{i} 0 m3 {loadCase}"), 2)))];

        Assert.All(Z88BendingOfPins(RawFrameDecks.ToDeck(frame), loadCase).Zip(ours), p => Assert.InRange(Math.Abs(p.First - p.Second), 0, Allowed.PrintedForces * p.Second));
    }

    [Fact]
    public void Sections_with_unlike_second_moments_bend_alike_in_both_programs()
    {
        Need.Z88Program();
        DeckSection flat = new(70_000, 26_000, 200, 400, 7000, 1300);
        BeamDeck deck = new()
        {
            Nodes = [new("foot", default), new("knee", new(120, 40, 25)), new("elbow", new(150, -60, 70)), new("tip", new(260, -90, 70))],
            Beams =
            [
                new("flat", "foot", "knee", flat, Vec3.UnitZ),
                new("upright", "knee", "elbow", flat, Vec3.UnitZ.Cross(new Vec3(30, -100, 45))),
                new("level", "elbow", "tip", flat, Vec3.UnitZ),
            ],
            Held = ImmutableSortedDictionary<string, Freedoms>.Empty.Add("foot", Freedoms.All),
            LoadCases = ImmutableSortedDictionary<string, ImmutableArray<DeckLoad>>.Empty
                .Add("all", [new("tip", new Wrench(new(13, -37, 29), new(310, -450, 270)))]),
        };

        Assert.InRange(Z88.Solve(deck).DifferenceFrom(RawFrameDecks.Solve(deck)), 0, Allowed.SameDeck);
    }

    [Theory]
    [MemberData(nameof(AllFrames))]
    public void Frame_as_a_deck_moves_alike_in_both_programs(string frame)
    {
        Need.Z88Program();
        BeamDeck deck = Frames.Named(frame).Deck(DeckIdealisation.Usual);

        Assert.InRange(Z88.Solve(deck).DifferenceFrom(RawFrameDecks.Solve(deck)), 0, Allowed.SameDeck);
    }

    [Theory]
    [MemberData(nameof(RigidFrames))]
    public void Frame_with_ever_stiffer_arms_approaches_the_product(string frame)
    {
        Need.Z88Program();
        const double Last = 1e-5;
        SampleFrame sample = Frames.Named(frame);
        FrameMotions product = sample.Product();

        double[] differences = [.. new[] { 1e3, 1e4, 1e5 }.Select(arms => Difference(sample, product, DeckIdealisation.Usual with { ArmStiffness = arms }))];

        AssertFall(differences, FallByTenfoldArms, Last);
    }

    [Theory]
    [MemberData(nameof(YieldingFrames))]
    public void Frame_with_ever_finer_foundation_approaches_the_product(string frame)
    {
        Need.Z88Program();
        const double Last = 1e-4;
        SampleFrame sample = Frames.Named(frame);
        FrameMotions product = sample.Product();

        double[] differences = [.. new[] { 4, 8, 16 }.Select(lumps => Difference(sample, product, new(ArmStiffness: 1e5, lumps)))];

        AssertFall(differences, FallByDoubledLumps, Last);
    }

    private static double[] Z88BendingOfPins(BeamDeck deck, string loadCase)
    {
        ImmutableArray<(Wrench AtA, Wrench AtB)> ends = Z88.SolveForces(deck, loadCase);
        return
        [
            .. deck.Beams.Select((b, i) => (b.Name, ends[i].AtA.MomentNmm))
                .Where(b => b.Name.StartsWith("pin", StringComparison.Ordinal))
                .Select(b => Math.Sqrt(Math.Pow(b.MomentNmm.Y, 2) + Math.Pow(b.MomentNmm.Z, 2))),
        ];
    }

    private static double Difference(SampleFrame sample, FrameMotions product, DeckIdealisation how) =>
        sample.Read(Z88.Solve(sample.Deck(how))).DifferenceFrom(product);

    private static void AssertFall(double[] differences, double by, double last)
    {
        string all = string.Join(", ", differences.Select(d => d.ToString("0.0e+0", CultureInfo.InvariantCulture)));
        Assert.True(differences.Zip(differences.Skip(1)).All(d => d.First >= by * d.Second), $"Differences {all} do not fall by {by} at each step.");
        Assert.True(differences[^1] <= last, $"Differences {all} do not end below {last}.");
    }
}
