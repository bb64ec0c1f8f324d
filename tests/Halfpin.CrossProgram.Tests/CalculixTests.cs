using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.TestKit.CrossProgram;
using Xunit;

namespace Halfpin.CrossProgram.Tests;

/// <summary>CalculiX against the project's solver: its user element on plane frames, its expanded beams on frames in space.</summary>
public class CalculixTests
{
    private const double ShearCoefficient = 0.9;

    [Theory]
    [InlineData(PlaneMotion.Within, "fz", "my")]
    [InlineData(PlaneMotion.Across, "mx", "mz")]
    public void Construct_A_of_user_elements_moves_alike_in_both_programs(PlaneMotion motion, params string[] loadCases)
    {
        Need.CalculixProgram();
        BeamDeck deck = RawFrameDecks.ToDeck(SampleFrames.ConstructA()).WithOnly(loadCases);

        Assert.InRange(Calculix.SolvePlane(deck, motion).DifferenceFrom(RawFrameDecks.Solve(deck)), 0, Allowed.SameDeck);
    }

    [Theory]
    [InlineData("single rod, rigid", PlaneMotion.Within, "fx", "fz", "my")]
    [InlineData("single rod, rigid", PlaneMotion.Across, "fy", "mx", "mz")]
    [InlineData("single rod, yielding", PlaneMotion.Within, "fx", "fz", "my")]
    [InlineData("single rod, yielding", PlaneMotion.Across, "fy", "mx", "mz")]
    public void Plane_frame_of_user_elements_moves_alike_in_both_programs(string frame, PlaneMotion motion, params string[] loadCases)
    {
        Need.CalculixProgram();
        BeamDeck deck = Frames.Named(frame).Deck(DeckIdealisation.Usual).WithOnly(loadCases);

        Assert.InRange(Calculix.SolvePlane(deck, motion).DifferenceFrom(RawFrameDecks.Solve(deck)), 0, Allowed.SameDeck);
    }

    // Why expanded beams of circles are softer, and why the comparisons without contraction bore them.
    [Theory]
    [InlineData("pull", 1.18)]
    [InlineData("bend", 2.34)]
    public void Cantilever_of_an_expanded_circle_is_too_soft_by_a_known_share(string loadCase, double percent)
    {
        Need.CalculixProgram();
        const double ElementMm = 10, PrintedPercent = 0.01;
        BeamDeck deck = Cantilever().WithoutLateralContraction().WithOnly(loadCase);

        // Away from the loaded end, whose node gives way locally.
        double Middle(DeckMotions m) => m[loadCase, "middle"].TranslationMm.Length;
        double found = Middle(Calculix.SolveExpanded(deck, ElementMm, SolidSection.Circle)), right = Middle(RawFrameDecks.Solve(deck));

        Assert.InRange(100 * (1 - (right / found)), percent - PrintedPercent, percent + PrintedPercent);
    }

    // Solid circles short in second moment make it softer, knots that forbid lateral contraction stiffer.
    [Theory]
    [InlineData(10, 2.0)]
    [InlineData(5, 1.4)]
    [InlineData(2.5, 1.1)]
    public void Construct_A_of_expanded_beams_is_as_much_too_stiff_under_axial_load_as_recorded(double elementMm, double percent)
    {
        Need.CalculixProgram();
        BeamDeck deck = RawFrameDecks.ToDeck(SampleFrames.ConstructA()).WithOnly("fz");

        double found = GapOfA(RawFrameDecks.Solve(deck, ShearCoefficient), "fz").Z / GapOfA(Calculix.SolveExpanded(deck, elementMm, SolidSection.Circle), "fz").Z;

        Assert.InRange(100 * (found - 1), percent - Allowed.RecordedPercent, percent + Allowed.RecordedPercent);
    }

    [Theory]
    [InlineData("fz")]
    [InlineData("mx")]
    [InlineData("my")]
    [InlineData("mz")]
    public void Construct_A_of_expanded_beams_without_contraction_agrees_with_Timoshenko_beams(string loadCase)
    {
        Need.CalculixProgram();
        const double ElementMm = 10;
        BeamDeck deck = RawFrameDecks.ToDeck(SampleFrames.ConstructA()).WithoutLateralContraction().WithOnly(loadCase);

        Vec3 expanded = GapOfA(Calculix.SolveExpanded(deck, ElementMm, SolidSection.Bored), loadCase), ours = GapOfA(RawFrameDecks.Solve(deck, ShearCoefficient), loadCase);

        Assert.InRange((expanded - ours).Length / ours.Length, 0, Allowed.ExpandedWithoutContraction);
    }

    [Fact]
    public void Two_plane_frame_of_expanded_beams_without_contraction_agrees_with_Timoshenko_beams()
    {
        Need.CalculixProgram();
        const double ElementMm = 10;
        BeamDeck deck = TwoPlane().WithoutLateralContraction();

        Assert.InRange(GapDifference(Calculix.SolveExpanded(deck, ElementMm, SolidSection.Bored), RawFrameDecks.Solve(deck, ShearCoefficient)), 0, Allowed.ExpandedWithoutContraction);
    }

    // So the agreement above is no accident: without shear it would be ten times worse.
    [Fact]
    public void Two_plane_frame_of_expanded_beams_without_contraction_differs_from_beams_without_shear()
    {
        Need.CalculixProgram();
        const double ElementMm = 10;
        BeamDeck deck = TwoPlane().WithoutLateralContraction();

        Assert.True(GapDifference(Calculix.SolveExpanded(deck, ElementMm, SolidSection.Bored), RawFrameDecks.Solve(deck)) > 10 * Allowed.ExpandedWithoutContraction);
    }

    [Fact]
    public void Two_plane_frame_of_expanded_beams_comes_ever_nearer_as_elements_shorten()
    {
        Need.CalculixProgram();

        // Knots and short circles together, as for construct A: per cents, falling.
        const double LastShare = 0.025;
        BeamDeck deck = TwoPlane();
        DeckMotions ours = RawFrameDecks.Solve(deck, ShearCoefficient);

        double[] differences = [.. new[] { 20.0, 10, 5 }.Select(e => GapDifference(Calculix.SolveExpanded(deck, e, SolidSection.Circle), ours))];

        string all = string.Join(", ", differences.Select(d => d.ToString("0.0e+0", CultureInfo.InvariantCulture)));
        Assert.True(differences[0] > differences[1] && differences[1] > differences[2] && differences[2] < LastShare, $"Differences: {all}.");
    }

    private static BeamDeck Cantilever()
    {
        DeckSection section = DeckSection.Round(190_000, 73_000, 5);
        return new()
        {
            Nodes = [new("foot", default), new("middle", new(200, 0, 0)), new("tip", new(300, 0, 0))],
            Beams = [new("near", "foot", "middle", section, Vec3.UnitZ), new("far", "middle", "tip", section, Vec3.UnitZ)],
            Held = ImmutableSortedDictionary<string, Freedoms>.Empty.Add("foot", Freedoms.All),
            LoadCases = ImmutableSortedDictionary<string, ImmutableArray<DeckLoad>>.Empty
                .Add("pull", [new("tip", new Wrench(new(100, 0, 0), default))])
                .Add("bend", [new("tip", new Wrench(default, new(0, 1000, 0)))]),
        };
    }

    private static BeamDeck TwoPlane() => SampleFrames.TwoPlaneRigid().Deck(DeckIdealisation.Usual with { ArmStiffness = 1e3 });

    private static Vec3 GapOfA(DeckMotions motions, string loadCase) =>
        (motions[loadCase, SampleFrames.UpperGapA] - motions[loadCase, SampleFrames.LowerGapA]).TranslationMm;

    // Translation of one face against the other, over all load cases; the program prints no rotations.
    private static double GapDifference(DeckMotions expanded, DeckMotions ours) => FrameDecks.LoadCases.Max(c =>
    {
        Vec3 Gap(DeckMotions m) => (m[c, FrameDecks.UpperFace] - m[c, FrameDecks.LowerFace]).TranslationMm;
        return (Gap(expanded) - Gap(ours)).Length / Gap(ours).Length;
    });
}
