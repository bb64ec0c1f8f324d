using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Sections;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Placement;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;
using Xunit;

namespace Halfpin.Stability.Tests.Idealisation;

/// <summary>What another wall of the parametric tibia does to what rests on it.</summary>
public class WallTests
{
    private static readonly TibiaShape _thin = new(352, 0.74), _model = new(352), _thick = new(352, 1.27);

    // EI/L and GJ/L of a short stretch, as beam theory has them (Timoshenko, Strength of Materials; MEMORY), with the section of that wall.
    [Theory]
    [InlineData(0.74)]
    [InlineData(1.27)]
    public void Bone_ofAnyWall_bendsAndTwistsWithItsSection(double share)
    {
        TibiaShape bone = new(352, share);
        BoneSection s = bone.SectionAt(205.5);
        MemberStiffness k = new BoneFlexibility(bone, BeamTheory.EulerBernoulli).Between(205, 206);

        MemberStiffness beam = BeamIntegrals.Prismatic(1, new(bone.Tissue.YoungsModulusMPa, bone.Tissue.ShearModulusMPa), new(s.AreaMm2, s.XxMm4, s.YyMm4, s.XyMm4, s.TorsionMm4, 0.9), BeamTheory.EulerBernoulli)
            .StiffnessAt(new(0, 0, -205.5), Mat3.FromRows(Vec3.UnitZ, Vec3.UnitX, Vec3.UnitY));
        Vec3 turn = new(0.31, -0.52, 0.79);
        Assert.Equal(0, ((k.MomentPerRotation * turn) - (beam.MomentPerRotation * turn)).Length / (beam.MomentPerRotation * turn).Length, 1e-3);
    }

    [Fact]
    public void Pin_inAThickerWall_isHeldOverALongerStretchOfBothCortices()
    {
        Pin pin = new() { Id = "p1", LevelMm = 171.3, AzimuthDeg = 47, DiameterMm = 5, Material = "steel" };
        PlacedPin thin = PlacedPin.Place(_thin, pin), thick = PlacedPin.Place(_thick, pin);

        Assert.True(thick.SurfaceMm - thick.NearCanalMm > thin.SurfaceMm - thin.NearCanalMm);
        Assert.True(thick.FarCanalMm - thick.FarSurfaceMm > thin.FarCanalMm - thin.FarSurfaceMm);
        Assert.Equal(thin.ChordMm, thick.ChordMm);
    }

    // Each point stands for its share of the cortical area: k = E·A/(2·layer), DERIVED.
    [Fact]
    public void BoneEnds_ofAThickerWall_bearOnTheirWholeArea()
    {
        Fracture fracture = new() { LevelMm = 205, GapMm = 3, Pattern = FracturePattern.Transverse };

        Assert.Equal(_thick.SectionAt(205).AreaMm2 / _model.SectionAt(205).AreaMm2, Total(_thick, fracture) / Total(_model, fracture), 1e-9);
        Assert.True(Total(_thick, fracture) > Total(_thin, fracture));
    }

    private static double Total(BoneShape bone, Fracture fracture)
    {
        double sum = 0;
        foreach (Mechanics.Contact.ContactPoint point in new CorticalRing(bone, fracture, 2).Contacts)
        {
            sum += point.StiffnessNPerMm;
        }

        return sum;
    }
}
