using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Sections;
using Xunit;

namespace Halfpin.Anatomy.Tests;

/// <summary>
/// The parametric outline against what was MEASURED on eight adult tibiae of six people (openly published CT and MRI surfaces), for a
/// bone of 350 mm: area, widths, second moments and chords by level.
/// </summary>
public class TibiaTableTests
{
    private static readonly TibiaShape _tibia = new(350);

    // Level %, area mm² (SD), ML mm (SD), AP mm (SD).
    public static TheoryData<double, double, double, double, double, double, double> Widths => new()
    {
        { 3, 3504, 392, 78.1, 4.9, 55.6, 3.8 }, { 5, 3083, 351, 73.1, 4.6, 54.1, 3.8 }, { 8, 2069, 218, 58.8, 4.7, 48.6, 2.9 },
        { 10, 1635, 153, 50.0, 3.8, 45.0, 2.2 }, { 15, 1151, 107, 39.6, 2.9, 40.7, 1.6 }, { 20, 916, 82, 34.1, 2.6, 37.8, 1.9 },
        { 25, 761, 65, 30.4, 2.4, 35.3, 1.4 }, { 30, 676, 58, 28.4, 2.5, 33.5, 1.2 }, { 40, 573, 50, 26.2, 2.8, 30.6, 1.3 },
        { 50, 502, 42, 25.8, 2.8, 27.6, 1.4 }, { 60, 440, 39, 25.1, 2.6, 24.6, 1.7 }, { 65, 420, 40, 24.6, 2.3, 23.6, 1.6 },
        { 70, 409, 39, 24.2, 1.9, 23.0, 1.5 }, { 75, 419, 37, 24.3, 1.8, 23.0, 1.3 }, { 80, 464, 39, 25.2, 1.7, 24.0, 0.9 },
        { 85, 538, 40, 27.0, 1.6, 25.9, 1.1 }, { 90, 701, 69, 30.9, 1.9, 30.0, 1.5 }, { 95, 1199, 146, 41.9, 3.1, 41.0, 2.3 },
    };

    // Level %, bone chord through the centroid for entry at 0, 15 … 90°, mm.
    public static TheoryData<double, double[]> Chords => new()
    {
        { 5, [50, 48, 53, 61, 68, 71, 73] }, { 10, [40, 37, 38, 41, 42, 43, 47] }, { 15, [37, 34, 33, 33, 34, 35, 37] },
        { 20, [34, 31, 30, 29, 29, 30, 32] }, { 30, [30, 27, 26, 25, 24, 24, 26] }, { 40, [28, 26, 25, 23, 22, 23, 24] },
        { 50, [25, 24, 23, 22, 21, 22, 24] }, { 60, [23, 22, 21, 20, 20, 21, 23] }, { 70, [21, 21, 21, 21, 21, 21, 23] },
        { 80, [23, 23, 23, 24, 23, 24, 25] }, { 90, [30, 30, 30, 30, 31, 31, 30] }, { 95, [40, 40, 39, 38, 40, 41, 41] },
    };

    // Level %, crest, posterolateral corner, posteromedial border with their SD, degrees.
    public static TheoryData<double, double, double, double, double, double, double> Corners => new()
    {
        { 10, -22, 3, -131, 4, 108, 4 }, { 15, -32, 9, -148, 13, 101, 9 }, { 20, -33, 5, -154, 11, 96, 7 }, { 25, -30, 4, -150, 7, 101, 6 },
        { 30, -28, 6, -146, 11, 102, 8 }, { 40, -27, 10, -146, 12, 104, 14 }, { 50, -32, 10, -152, 12, 98, 12 }, { 60, -38, 9, -154, 11, 98, 12 },
        { 65, -33, 9, -148, 10, 101, 9 }, { 70, -29, 8, -145, 11, 103, 8 }, { 75, -20, 8, -138, 10, 106, 7 }, { 80, -16, 10, -133, 12, 110, 10 },
        { 85, -8, 12, -128, 11, 112, 11 },
    };

    [Theory]
    [MemberData(nameof(Widths))]
    public void Outline_byLevel_hasTheMeasuredAreaAndWidths(double percent, double area, double areaSd, double ml, double mlSd, double ap, double apSd)
    {
        (double[] x, double[] y) = Outline(percent, 720);
        PolygonProperties p = OutlineIntegration.Polygon(x, y);

        Assert.Equal(area, p.AreaMm2, Math.Max(0.04 * area, areaSd));
        Assert.Equal(ml, y.Max() - y.Min(), Math.Max(0.04 * ml, mlSd));
        Assert.Equal(ap, x.Max() - x.Min(), Math.Max(0.04 * ap, apSd));
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Outline_byLevel_hasItsCentroidOnTheAxis(double percent, double area, double areaSd, double ml, double mlSd, double ap, double apSd)
    {
        _ = (area, areaSd, ml, mlSd, ap, apSd);
        (double[] x, double[] y) = Outline(percent, 720);
        PolygonProperties p = OutlineIntegration.Polygon(x, y);

        Assert.Equal(0, Math.Sqrt((p.CentroidXMm * p.CentroidXMm) + (p.CentroidYMm * p.CentroidYMm)), 0.05);
    }

    [Theory]
    [MemberData(nameof(Chords))]
    public void Chord_throughTheCentroid_isWithin1_5MmOfTheMeasured(double percent, double[] chords)
    {
        for (int i = 0; i < chords.Length; i++)
        {
            double chord = _tibia.OuterRadiusMm(3.5 * percent, 15 * i) + _tibia.OuterRadiusMm(3.5 * percent, (15 * i) - 180);
            Assert.Equal(chords[i], chord, 1.5);
        }
    }

    [Theory]
    [MemberData(nameof(Corners))]
    public void Corners_byLevel_lieWithinOneSdOfTheMeasured(double percent, double crest, double crestSd, double pl, double plSd, double pm, double pmSd)
    {
        Assert.Equal(crest, Corner(percent, crest), Math.Max(crestSd, 0.04 * Math.Abs(crest)));
        Assert.Equal(pl, Corner(percent, pl), Math.Max(plSd, 0.04 * Math.Abs(pl)));
        Assert.Equal(pm, Corner(percent, pm), Math.Max(pmSd, 0.04 * Math.Abs(pm)));
    }

    [Fact]
    public void Outline_atEveryLevel_isConvex()
    {
        for (double percent = 0; percent <= 100; percent += 0.5)
        {
            (double[] x, double[] y) = Outline(percent, 180);
            for (int i = 0; i < 180; i++)
            {
                int j = (i + 1) % 180, k = (i + 2) % 180;
                double turn = ((x[j] - x[i]) * (y[k] - y[j])) - ((y[j] - y[i]) * (x[k] - x[j]));
                Assert.True(turn > -1e-6, $"concave at {percent} %");
            }
        }
    }

    // Computed from the closed form by separate code.
    [Theory]
    [InlineData(3, 0, 28.8763)]
    [InlineData(12, 37, 15.8248)]
    [InlineData(22.5, -30, 21.8622)]
    [InlineData(50, 145, 13.3650)]
    [InlineData(82, -150, 12.6301)]
    [InlineData(95, 90, 20.2677)]
    public void Radius_againstASecondImplementation_agrees(double percent, double azimuthDeg, double radiusMm) =>
        Assert.Equal(radiusMm, _tibia.OuterRadiusMm(3.5 * percent, azimuthDeg), 0.02);

    [Fact]
    public void Section_thinnestShaft_liesInTheDistalThird()
    {
        // READ: least second moments at about p 85, least area measured at p 70 here (Capozza et al., J Anat 2010;216:470, abstract).
        double least = Enumerable.Range(15, 80).MinBy(p => _tibia.SectionAt(3.5 * p).PrincipalMm4().MaxMm4);

        Assert.InRange(least, 65, 90);
    }

    [Fact]
    public void Section_polarMoment_nearA33PercentLevel_isThatOfOlderMen()
    {
        // READ: 32 917 ± 6 918 mm⁴ at 33 % from the ankle (p 67), older men, pQCT (PMC3179319, table 4). The polar moment of area.
        BoneSection s = _tibia.SectionAt(3.5 * 67);

        Assert.InRange(s.XxMm4 + s.YyMm4, 32917 - (2 * 6918), 32917 + (2 * 6918));
    }

    [Fact]
    public void Tibia_scaledByLength_scalesItsSections()
    {
        BoneSection reference = _tibia.SectionAt(175), longer = new TibiaShape(420).SectionAt(210);

        Assert.Equal(Math.Pow(1.2, 2), longer.AreaMm2 / reference.AreaMm2, 9);
        Assert.Equal(Math.Pow(1.2, 4), longer.TorsionMm4 / reference.TorsionMm4, 9);
    }

    [Fact]
    public void Canal_everywhere_leavesAWall()
    {
        for (double percent = 0; percent <= 100; percent += 0.5)
        {
            for (int azimuth = -180; azimuth < 180; azimuth += 5)
            {
                Assert.True(_tibia.CanalRadiusMm(3.5 * percent, azimuth) < _tibia.OuterRadiusMm(3.5 * percent, azimuth) - 0.5);
            }
        }
    }

    [Fact]
    public void Radius_allTheWayRound_isContinuous() =>
        Assert.Equal(_tibia.OuterRadiusMm(123.4, -180), _tibia.OuterRadiusMm(123.4, 180), 9);

    private static (double[] X, double[] Y) Outline(double percent, int corners)
    {
        double[] x = new double[corners], y = new double[corners];
        for (int i = 0; i < corners; i++)
        {
            double azimuth = i * 360.0 / corners, r = _tibia.OuterRadiusMm(3.5 * percent, azimuth);
            (double sin, double cos) = Math.SinCos(azimuth * Math.PI / 180);
            (x[i], y[i]) = (r * cos, r * sin);
        }

        return (x, y);
    }

    // A corner is where the outline bends most: the largest curvature within 35° of where it is sought, from the closed form.
    private static double Corner(double percent, double soughtDeg)
    {
        const int N = 1440;
        double[] outer = new double[N], canal = new double[N];
        TibiaOutline.Fill(percent, outer, canal);
        double step = 2 * Math.PI / N;
        double Curvature(int i)
        {
            double r = outer[(i + N) % N], before = outer[(i - 1 + N) % N], after = outer[(i + 1 + N) % N];
            double d1 = (after - before) / (2 * step), d2 = (after - (2 * r) + before) / (step * step);
            return ((r * r) + (2 * d1 * d1) - (r * d2)) / Math.Pow((r * r) + (d1 * d1), 1.5);
        }

        int centre = (int)Math.Round(soughtDeg * N / 360);
        int best = Enumerable.Range(centre - 140, 281).MaxBy(Curvature);
        return best * 360.0 / N;
    }
}
