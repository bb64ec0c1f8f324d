using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Sections;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Idealisation;
using Xunit;

namespace Halfpin.Stability.Tests.Idealisation;

public class BoneFlexibilityTests
{
    private static readonly Wrench _load = new(new(3.1, -5.7, 11.3), new(431, 273, -179));

    [Fact]
    public void Tube_betweenTwoLevels_isThePrismaticBeam()
    {
        BoneShape tube = BoneShape.For(Bench.TubeLimb);
        MemberStiffness own = new BoneFlexibility(tube, BeamTheory.Timoshenko).Between(41.3, 97.1);
        MemberStiffness beam = Beam.Stiffness(
            new(0, 0, -97.1), new(0, 0, -41.3), ElasticModuli.Isotropic(16_300, 0.31), Section.Round(27.4, 13.6, 0.9), BeamTheory.Timoshenko, Vec3.UnitX);

        Motion a = Tip(own, 41.3, 97.1), b = Tip(beam, 41.3, 97.1);
        Assert.Equal(0, (a.TranslationMm - b.TranslationMm).Length / b.TranslationMm.Length, 1e-10);
    }

    [Fact]
    public void Tibia_asOneMember_movesLikeTwoInARow()
    {
        BoneFlexibility bone = new(new TibiaShape(352), BeamTheory.Timoshenko);

        Motion whole = Tip(bone.Between(31.7, 171.9), 31.7, 171.9), parts = Chain(bone, [31.7, 83.3, 171.9]);
        Assert.Equal(0, (whole.TranslationMm - parts.TranslationMm).Length / parts.TranslationMm.Length, 1e-9);
    }

    // Prismatic slices take the section at their middle: their error falls with the square of their length.
    [Theory]
    [InlineData(8, 5e-3)]
    [InlineData(64, 1e-4)]
    public void Tibia_asManyPrismaticSlices_approachesTheOneMember(int slices, double allowed)
    {
        TibiaShape tibia = new(352);
        Motion whole = Tip(new BoneFlexibility(tibia, BeamTheory.Timoshenko).Between(31.7, 171.9), 31.7, 171.9);
        double[] levels = [.. Enumerable.Range(0, slices + 1).Select(i => 31.7 + ((171.9 - 31.7) * i / slices))];
        MemberStiffness[] members = [.. levels.Zip(levels.Skip(1)).Select(l =>
        {
            BoneSection s = tibia.SectionAt((l.First + l.Second) / 2);
            return BeamIntegrals.Prismatic(l.Second - l.First, new(17_000, 3300), new(s.AreaMm2, s.XxMm4, s.YyMm4, s.XyMm4, s.TorsionMm4, 0.9), BeamTheory.Timoshenko)
                .StiffnessAt(new(0, 0, -(l.First + l.Second) / 2), Mat3.FromRows(Vec3.UnitZ, Vec3.UnitX, Vec3.UnitY));
        })];

        Motion sliced = Tip(members, levels);
        Assert.Equal(0, (whole.TranslationMm - sliced.TranslationMm).Length / whole.TranslationMm.Length, allowed);
    }

    private static Motion Chain(BoneFlexibility bone, double[] levels) =>
        Tip([.. levels.Zip(levels.Skip(1)).Select(l => bone.Between(l.First, l.Second))], levels);

    private static Motion Tip(MemberStiffness member, double proximal, double distal) => Tip([member], [proximal, distal]);

    // Held at the distal end, loaded at the proximal one.
    private static Motion Tip(MemberStiffness[] members, double[] levels)
    {
        int n = levels.Length;
        FrameSystem system = new(new(n, Enumerable.Range(0, n - 1).Select(i => new MemberEnds(i, i + 1)), [new(n - 1, Freedoms.All)]), 1);
        for (int i = 0; i < n; i++)
        {
            system.SetNode(i, new(0, 0, -levels[i]));
        }

        for (int m = 0; m < members.Length; m++)
        {
            system.SetMember(m, members[m]);
        }

        Assert.True(system.Factorise().IsStable);
        system.AddLoad(0, 0, system.Node(0), _load);
        system.Solve();
        return system.MotionOf(0, 0);
    }
}
