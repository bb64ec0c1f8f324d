using CsCheck;
using Halfpin.Anatomy.Corridors;
using Halfpin.Domain.Assessments;
using Xunit;

namespace Halfpin.Anatomy.Tests.Corridors;

public class TibiaCorridorTests
{
    // Half-pin directions by level from the online surgical reference, tibial shaft (READ): 20–60° medial of the sagittal plane in the proximal
    // fragment, 30–90° in the distal one. What is offered as preferred must lie within them.
    [Theory]
    [InlineData(21, 20, 60)]
    [InlineData(66, 30, 90)]
    [InlineData(78, 30, 90)]
    public void Preferred_liesWithinThePublishedDirections(double percent, double fromDeg, double toDeg)
    {
        CorridorSector preferred = TibiaCorridors.SectorsAt(percent).Single(s => s.Grade == CorridorGrade.Preferred);

        Assert.InRange(preferred.FromDeg, fromDeg, toDeg);
        Assert.InRange(preferred.ToDeg, fromDeg, toDeg);
    }

    // Arc proximal to the tuberosity 220° (Wheeless' Textbook, READ); the sectors are narrower on purpose.
    [Fact]
    public void NotAvoided_proximalToTheTuberosity_isLessThanThePublishedArc() =>
        Assert.InRange(TibiaCorridors.SectorsAt(7.1).Where(s => s.Grade != CorridorGrade.Avoid).Sum(s => s.ToDeg - s.FromDeg), 90, 220);

    // Knee capsule to 14 mm (DeCoster et al., READ): 3.9 % of 350 mm. Ankle capsule to 12.2 mm (Vora et al., READ): 96.5 %.
    [Theory]
    [InlineData(3.7)]
    [InlineData(96.6)]
    [InlineData(0)]
    [InlineData(100)]
    public void Everything_atAJointsCapsule_isAvoided(double percent) =>
        Assert.Equal(CorridorGrade.Avoid, Assert.Single(TibiaCorridors.SectorsAt(percent), s => s.ToDeg - s.FromDeg > 359).Grade);

    // The anterior tibial vessels cross the front of the tibia 105 to 46 mm above the plafond (O'Leary et al. 2024, READ): 70 to 87 % of 350 mm.
    [Theory]
    [InlineData(71)]
    [InlineData(86.9)]
    public void Front_whereTheAnteriorTibialVesselsCross_isNeverOffered(double percent) =>
        Assert.True(TibiaCorridors.GradeAt(percent, -7.3) == CorridorGrade.Avoid);

    [Fact]
    public void Sectors_anywhere_coverTheCircleOnce() => Gen.Double[0, 100].Sample(percent =>
    {
        CorridorSector[] sectors = [.. TibiaCorridors.SectorsAt(percent)];
        Assert.Equal(-180, sectors[0].FromDeg);
        Assert.Equal(180, sectors[^1].ToDeg);
        Assert.All(sectors.Zip(sectors.Skip(1)), s => Assert.Equal(s.First.ToDeg, s.Second.FromDeg));
    });

    [Fact]
    public void Offered_anywhere_keepsItsMarginFromWhatIsToBeAvoided() => Gen.Double[0, 100].Sample(percent =>
    {
        CorridorSector[] sectors = [.. TibiaCorridors.SectorsAt(percent)];
        foreach (CorridorSector good in sectors.Where(s => s.Grade <= CorridorGrade.Safe))
        {
            Assert.All(sectors.Where(s => s.Grade == CorridorGrade.Avoid), bad => Assert.True(
                Math.Min(Math.Abs(good.FromDeg - bad.ToDeg), Math.Abs(bad.FromDeg - good.ToDeg)) >= TibiaCorridors.MarginDeg - 1e-9));
        }
    });

    // Interpolation must never allow more than the printed zones on either side of a border, so that grades meet there without a step down in care.
    [Fact]
    public void Grade_nearABorder_isNotBetterThanInTheMiddleOfItsOwnZone() => Gen.Select(Gen.Int[0, 6], Gen.Double[0, 1], Gen.Double[-180, 180]).Sample((zone, t, azimuth) =>
    {
        double[] borders = [4, 10, 30, 60, 70, 87, 93, 96];
        double from = borders[zone], to = borders[zone + 1];
        Assert.True(TibiaCorridors.GradeAt(from + 1e-6 + (t * (to - from - 2e-6)), azimuth) >= TibiaCorridors.GradeAt((from + to) / 2, azimuth)
            || to - from < 4); // Shorter zones have no middle free of both borders.
    });

    [Fact]
    public void Grade_acrossABorder_hasNoStep() => Gen.Select(Gen.OneOf(Gen.Const(10.0), Gen.Const(30.0), Gen.Const(60.0), Gen.Const(70.0), Gen.Const(87.0)), Gen.Double[-180, 180]).Sample((border, azimuth) =>
    {
        // Ranges meet at the border; the second, lateral range and the narrow ends of none aside, a grade differs only at an edge itself.
        CorridorGrade above = TibiaCorridors.GradeAt(border - 1e-7, azimuth), below = TibiaCorridors.GradeAt(border + 1e-7, azimuth);
        Assert.True(above == below || TibiaCorridors.SectorsAt(border - 1e-7).Any(s => Math.Abs(s.FromDeg - azimuth) < 1e-3 || Math.Abs(s.ToDeg - azimuth) < 1e-3));
    });

    [Fact]
    public void Nearest_ofPreferred_isPreferred() => Gen.Select(Gen.Double[10, 90], Gen.Double[-180, 180]).Sample((percent, azimuth) =>
        Assert.Equal(CorridorGrade.Preferred, TibiaCorridors.GradeAt(percent, TibiaCorridors.NearestDeg(percent, azimuth, CorridorGrade.Preferred)!.Value)));

    [Fact]
    public void Nearest_withinTheCapsule_isNone() => Assert.Null(TibiaCorridors.NearestDeg(98.2, 40, CorridorGrade.Preferred));

    // Superficial tissue over the medial face of usual build (ESTIMATE of the handbook), 5 mm at mid shaft, and twice in obesity.
    [Theory]
    [InlineData(Domain.Cases.Habitus.Usual, 5)]
    [InlineData(Domain.Cases.Habitus.Obese, 10)]
    public void Skin_overTheMedialFace_isAsThickAsTheTableSays(Domain.Cases.Habitus habitus, double thicknessMm) => Assert.Equal(
        thicknessMm, new Anatomy.SoftTissue.SkinShape(new Anatomy.Bones.TibiaShape(350), new() { Habitus = habitus }).ThicknessMm(175, 42), 0.05);

    // Girths of a leg, 360 mm at the calf and 220 mm above the ankle (MEMORY): the modelled outline has them within a tenth.
    [Theory]
    [InlineData(105, 360)]
    [InlineData(315, 220)]
    public void Skin_roundTheLeg_hasItsUsualGirth(double levelMm, double girthMm)
    {
        Anatomy.SoftTissue.SkinShape skin = new(new Anatomy.Bones.TibiaShape(350), new());
        (double X, double Y)[] points = [.. Enumerable.Range(0, 360).Select(a => (skin.RadiusMm(levelMm, a) * Math.Cos(a * Math.PI / 180), skin.RadiusMm(levelMm, a) * Math.Sin(a * Math.PI / 180)))];
        double girth = points.Zip(points.Skip(1).Append(points[0])).Sum(p => double.Hypot(p.First.X - p.Second.X, p.First.Y - p.Second.Y));

        Assert.InRange(girth, 0.9 * girthMm, 1.1 * girthMm);
    }
}
