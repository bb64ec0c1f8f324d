using CsCheck;
using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Sections;
using Halfpin.Domain.Cases;
using Xunit;

namespace Halfpin.Anatomy.Tests;

/// <summary>The parametric tibia with another wall: the canal of its closed form, worked out anew for every wall, is the comparison.</summary>
public class WallTests
{
    private static readonly Gen<double> _share = Gen.Double[AnatomicalBone.LeastWallShare, AnatomicalBone.MostWallShare];

    // On rows of the table, between which everything runs straight.
    private static readonly Gen<double> _percent = Gen.Int[0, 200].Select(i => i / 2.0);

    [Fact]
    public void Canal_ofAnyWall_isThatOfTheClosedForm() => Gen.Select(_percent, _share, Gen.Int[0, 179]).Sample((percent, share, azimuth) =>
    {
        (double[] _, double[] canal) = Outlines(percent, share);

        Assert.Equal(canal[azimuth], new TibiaShape(350, share).CanalRadiusMm(3.5 * percent, 2 * azimuth), 1e-9);
    });

    [Fact]
    public void Section_ofAnyWall_isThatOfTheClosedForm() => Gen.Select(_percent, _share).Sample((percent, share) =>
    {
        (double[] outer, double[] canal) = Outlines(percent, share);
        (PolygonProperties o, PolygonProperties c, _) = TibiaOutline.OutlinesOf(outer, canal);

        BoneSection s = new TibiaShape(350, share).SectionAt(3.5 * percent);
        Assert.Equal(1, s.AreaMm2 / (o.AreaMm2 - c.AreaMm2), 1e-9);
        Assert.Equal(1, s.XxMm4 / (o.XxMm4 - c.XxMm4), 1e-9);
        Assert.Equal(1, s.YyMm4 / (o.YyMm4 - c.YyMm4), 1e-9);
        Assert.Equal(0, (s.XyMm4 - o.XyMm4 + c.XyMm4) / s.YyMm4, 1e-9);
    });

    [Fact]
    public void Torsion_ofEveryLevelAndWall_isWithinOneIn10000OfTheClosedForm()
    {
        double worst = 0;
        for (int row = 0; row <= 200; row++)
        {
            for (double share = AnatomicalBone.LeastWallShare; share <= AnatomicalBone.MostWallShare; share += 0.0207)
            {
                (double[] outer, double[] canal) = Outlines(row / 2.0, share);
                worst = Math.Max(worst, Math.Abs((new TibiaShape(350, share).SectionAt(1.75 * row).TorsionMm4 / TibiaOutline.OutlinesOf(outer, canal).TorsionMm4) - 1));
            }
        }

        Assert.InRange(worst, 0, 1e-4);
    }

    // The handbook: r_in = k·[(1−w)r + w·r_eq], k = 1 − t/r_eq, so at w = 0 (p 85) area of canal = k²·A. MODEL from MEMORY.
    [Theory]
    [InlineData(0.7)]
    [InlineData(1)]
    [InlineData(1.3)]
    public void CanalArea_whereItCopiesTheOutline_isTheHandbooks(double share)
    {
        (double[] outer, double[] _) = Outlines(85, 1);
        (PolygonProperties o, _, _) = TibiaOutline.OutlinesOf(outer, outer);
        double k = 1 - (share * 2.5 / Math.Sqrt(o.AreaMm2 / Math.PI));

        Assert.Equal(o.AreaMm2 * (1 - (k * k)), new TibiaShape(350, share).SectionAt(3.5 * 85).AreaMm2, 0.03); // The polygon falls short of its arcs.
    }

    // A ring has I = π/4·(R⁴ − r⁴), so of the full disc's 1 − (r/R)⁴ (Timoshenko, Strength of Materials, appendix A; MEMORY). A canal that
    // copies its outline at r/R = 1 − s·t/r_eq has the same share, whatever the outline.
    [Theory]
    [InlineData(0.74)]
    [InlineData(1.28)]
    public void SecondMoment_whereTheCanalCopiesTheOutline_isThatOfARing(double share)
    {
        (double[] outer, double[] canal) = Outlines(85, share);
        (PolygonProperties o, _, _) = TibiaOutline.OutlinesOf(outer, canal);
        double ratio = canal[17] / outer[17];

        Assert.Equal(1 - Math.Pow(ratio, 4), new TibiaShape(350, share).SectionAt(3.5 * 85).XxMm4 / o.XxMm4, 1e-9);
    }

    [Fact]
    public void Canal_ofAnyWallAllowed_isOpenAndClosedRound() => Gen.Select(_percent, _share, Gen.Double[-180, 180]).Sample((percent, share, azimuth) =>
    {
        TibiaShape bone = new(350, share);
        double canal = bone.CanalRadiusMm(3.5 * percent, azimuth), wall = bone.OuterRadiusMm(3.5 * percent, azimuth) - canal;

        Assert.True(canal > 1 && wall > 0.3, $"canal {canal}, wall {wall}");
    });

    [Fact]
    public void Outline_ofAnotherWall_staysTheSame() =>
        Assert.Equal(new TibiaShape(352).OuterRadiusMm(127.3, 41), new TibiaShape(352, 1.27).OuterRadiusMm(127.3, 41));

    [Fact]
    public void Section_ofAThickerWall_isStifferInEveryWay()
    {
        BoneSection thin = new TibiaShape(352, 0.83).SectionAt(211.7), thick = new TibiaShape(352, 1.19).SectionAt(211.7);

        Assert.True(thick.AreaMm2 > thin.AreaMm2 && thick.PrincipalMm4().MinMm4 > thin.PrincipalMm4().MinMm4 && thick.TorsionMm4 > thin.TorsionMm4);
    }

    [Theory]
    [InlineData(0.59)]
    [InlineData(1.41)]
    [InlineData(double.NaN)]
    public void Wall_beyondItsBounds_isRefused(double share) => Assert.Throws<ArgumentOutOfRangeException>(() => new TibiaShape(350, share));

    private static (double[] Outer, double[] Canal) Outlines(double percent, double share)
    {
        double[] outer = new double[180], canal = new double[180];
        TibiaOutline.Fill(percent, outer, canal, share);
        return (outer, canal);
    }
}
