using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Sections;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Anatomy.Tests;

public class SectionTests
{
    [Fact]
    public void Polygon_offsetRectangle_hasTheTextbookMoments()
    {
        // b = 7, h = 3 about a corner: ∫x² = hb³/3, ∫y² = bh³/3, ∫xy = b²h²/4.
        PolygonProperties p = OutlineIntegration.Polygon([0, 7, 7, 0], [0, 0, 3, 3]);

        Assert.Equal(21, p.AreaMm2, 12);
        Assert.Equal(343, p.XxMm4, 9);
        Assert.Equal(63, p.YyMm4, 9);
        Assert.Equal(110.25, p.XyMm4, 9);
    }

    [Fact]
    public void Polygon_aboutItsCentroid_losesTheOffset()
    {
        PolygonProperties p = OutlineIntegration.Polygon([11, 18, 18, 11], [-5, -5, -2, -2]).AboutCentroid();

        Assert.Equal(3 * 343 / 12.0, p.XxMm4, 9);
        Assert.Equal(0, p.XyMm4, 9);
    }

    // The tube's own constants, from polygons with enough corners: chords fall short of arcs by (π/n)²/6 and the like.
    [Theory]
    [InlineData(27, 13)]
    [InlineData(20, 19)]
    [InlineData(31, 2)]
    public void Torsion_roundTubeOfAnyWall_isExact(double outer, double inner)
    {
        const int N = 720;
        (double[] ox, double[] oy) = Circle(outer / 2, N);
        (double[] ix, double[] iy) = Circle(inner / 2, N);
        double exact = Math.PI / 32 * (Math.Pow(outer, 4) - Math.Pow(inner, 4));

        Assert.Equal(1, OutlineIntegration.Torsion(ox, oy, ix, iy) / exact, 1e-4);
    }

    [Fact]
    public void Torsion_thinBox_isBredts()
    {
        // 60 × 40 mm middle line, wall 0.5: 4A²t/perimeter = 4·2400²·0.5/200 = 57 600, and ¼t³·200 = 6.25 for the wall's own twist.
        double[] ox = [-30.25, 30.25, 30.25, -30.25], oy = [-20.25, -20.25, 20.25, 20.25];
        double[] ix = [-29.75, 29.75, 29.75, -29.75], iy = [-19.75, -19.75, 19.75, 19.75];

        Assert.Equal(57_606.25, OutlineIntegration.Torsion(ox, oy, ix, iy), 1e-8);
    }

    [Fact]
    public void TubeShape_hasTheTubesSection()
    {
        TubeShape tube = new(362, new() { OuterDiameterMm = 27.4, InnerDiameterMm = 13.6, YoungsModulusMPa = 16_300, PoissonRatio = 0.31 });
        BoneSection s = tube.SectionAt(100);

        Assert.Equal(Math.PI / 64 * (Math.Pow(27.4, 4) - Math.Pow(13.6, 4)), s.XxMm4, 6);
        Assert.Equal(16_300 / 2.62, tube.Tissue.ShearModulusMPa, 9);
    }

    [Fact]
    public void TubeShape_withItsOwnShearModulus_usesIt()
    {
        TubeShape tube = new(362, new TubeBone { OuterDiameterMm = 27.4, InnerDiameterMm = 13.6, YoungsModulusMPa = 16_300, PoissonRatio = 0.31, ShearModulusMPa = 3100 });

        Assert.Equal(3100, tube.Tissue.ShearModulusMPa);
    }

    [Fact]
    public void MonotoneCubic_overATurn_doesNotOvershoot()
    {
        MonotoneCubic c = new([0, 1, 2, 3, 4], [0, 1, 5, 5, 2]);
        double[] values = [.. Enumerable.Range(0, 401).Select(i => c.At(i / 100.0))];

        Assert.Equal(5, values.Max(), 12);
        Assert.Equal(0, values.Min(), 12);
        Assert.Equal(5, c.At(2.5), 12);
    }

    [Fact]
    public void MonotoneCubic_beyondItsEnds_staysThere()
    {
        MonotoneCubic c = new([1, 2, 4], [3, 5, 4]);

        Assert.Equal(3, c.At(-7));
        Assert.Equal(4, c.At(9));
    }

    private static (double[] X, double[] Y) Circle(double r, int n) =>
        ([.. Enumerable.Range(0, n).Select(i => r * Math.Cos(2 * Math.PI * i / n))], [.. Enumerable.Range(0, n).Select(i => r * Math.Sin(2 * Math.PI * i / n))]);
}
