using CsCheck;
using Halfpin.Domain.Assessments;
using Halfpin.Mechanics.Geometry;
using Halfpin.Planning.Alignment;
using Xunit;

namespace Halfpin.Planning.Tests.Alignment;

public class LimbDeformityTests
{
    private const double DegPerRad = 180 / Math.PI;

    private static readonly Gen<AlignmentMeasurement> _measurements =
        from ap in Gen.Double[-57, 57]
        from lateral in Gen.Double[-57, 57]
        from rotation in Gen.Double[-58, 58]
        from apShift in Gen.Double[-31, 31]
        from lateralShift in Gen.Double[-31, 31]
        from length in Gen.Double[-27, 27]
        select Bench.Exactly(ap, lateral, rotation, apShift, lateralShift, length);

    [Fact]
    public void Correction_afterItsDeformity_isNoMovement() => _measurements.Sample(m =>
    {
        RigidMotion deformity = LimbDeformity.Of(m, Bench.CentreMm);
        RigidMotion both = deformity.Then(deformity.Inverse());
        Vec3 p = new(23.7, -41.3, -267.9);

        Assert.Equal(0, (both.Of(p) - p).Length, 1e-9);
        Assert.Equal(0, both.AngleDeg, 1e-6);
    });

    // The test makes the true deformity itself, about any axis across the bone, and looks at it square from the front and from the side.
    [Fact]
    public void TwoViews_ofATrueDeformity_giveItBack() => Gen.Select(Gen.Double[-179, 179], Gen.Double[0.7, 51], Gen.Double[-58, 58], Gen.Double[-30, 30], Gen.Double[-30, 30]).Sample((axisDeg, angleDeg, external, medial, anterior) =>
    {
        Vec3 axis = new(Math.Cos(axisDeg / DegPerRad), Math.Sin(axisDeg / DegPerRad), 0);
        Mat3 turn = RigidMotion.TurnAbout(axis, angleDeg) * RigidMotion.TurnAbout(Vec3.UnitZ, -external);
        Vec3 foot = turn * -Vec3.UnitZ;
        double ap = Math.Atan2(foot.Y, -foot.Z) * DegPerRad, lateral = Math.Atan2(-foot.X, -foot.Z) * DegPerRad;
        RigidMotion read = LimbDeformity.Of(Bench.Exactly(ap, lateral, external, medial, anterior), Bench.CentreMm);
        Mat3 gap = read.Turn - turn;
        double largest = new[] { gap.XX, gap.XY, gap.XZ, gap.YX, gap.YY, gap.YZ, gap.ZX, gap.ZY, gap.ZZ }.Max(Math.Abs);

        Assert.Equal(0, largest, 1e-9);
        Assert.Equal(angleDeg, AngularDeformity.From(ap, lateral).AngleDeg, 1e-7);
        Assert.Equal(0, (read.Of(Bench.CentreMm) - Bench.CentreMm - new Vec3(anterior, medial, 0)).Length, 1e-9);
    });

    [Fact]
    public void Varus_leansTheFootMedially_withItsApexLateral()
    {
        Assert.True(LimbDeformity.Footward(7.3, 0).Y > 0);
        Assert.Equal(-90, AngularDeformity.From(7.3, 0).ApexAzimuthDeg, 1e-9);
    }

    [Fact]
    public void Procurvatum_leansTheFootBackward_withItsApexAnterior()
    {
        Assert.True(LimbDeformity.Footward(0, 8.9).X < 0);
        Assert.Equal(0, AngularDeformity.From(0, 8.9).ApexAzimuthDeg, 1e-9);
    }

    [Fact]
    public void ApexAzimuth_ofAnyDeformity_isOppositeToWhereTheFootLeans() => Gen.Select(Gen.Double[-57, 57], Gen.Double[-57, 57]).Sample((ap, lateral) =>
    {
        double apex = AngularDeformity.From(ap, lateral).ApexAzimuthDeg / DegPerRad;
        Vec3 foot = LimbDeformity.Footward(ap, lateral);

        Assert.Equal(-double.Hypot(foot.X, foot.Y), (foot.X * Math.Cos(apex)) + (foot.Y * Math.Sin(apex)), 1e-9);
    });

    [Fact]
    public void ExternalRotation_carriesTheFrontLaterally() =>
        Assert.Equal(-Math.Sin(11.7 / DegPerRad), (LimbDeformity.Of(Bench.Exactly(0, 0, 11.7), Bench.CentreMm).Turn * Vec3.UnitX).Y, 1e-12);

    [Fact]
    public void Shift_isMedialOnTheApViewAndAnteriorOnTheLateralOne()
    {
        Vec3 moved = LimbDeformity.Of(Bench.Exactly(5.1, -6.3, 9, 3.7, -2.9, -4.3), Bench.CentreMm).Of(Bench.CentreMm) - Bench.CentreMm;

        Assert.Equal(0, (moved - new Vec3(-2.9, 3.7, 4.3)).Length, 1e-9);
    }

    [Fact]
    public void Turn_ofAKnownAngle_isReadBack() => Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[0.1, 1], Gen.Double[1e-4, 179]).Sample((x, y, z, angle) =>
        Assert.Equal(angle, new RigidMotion(RigidMotion.TurnAbout(new Vec3(x, y, z).Normalised(), angle), default).AngleDeg, 1e-6));
}
