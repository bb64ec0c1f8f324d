using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Xunit;

namespace Halfpin.Mechanics.Tests.Members;

public class BeamIntegralsTests
{
    // Two different factorisations of the same flexibility: rounding only.
    private const double Rounding = 1e-9;

    private static readonly ElasticModuli _moduli = new(17_300, 3_310);
    private static readonly Vec3 _from = new(3.1, -2.7, 11.3), _to = new(31.9, 17.3, -41.1), _towards2 = new(0.3, 0.9, 0.2);

    [Fact]
    public void SteppedMember_asOneMember_movesLikeTwoBeams()
    {
        Section thin = new(17.3, 31.1, 22.7, 9.3, 44.9, 0.87), thick = new(29.7, 71.3, 93.1, -14.9, 101.3, 0.91);
        const double Share = 0.37;
        Vec3 step = _from + (Share * (_to - _from));
        Mat3 axes = Beam.LocalAxes(_from, _to, _towards2);
        double length = (_to - _from).Length;

        BeamIntegrals whole =
            BeamIntegrals.Prismatic(Share * length, _moduli, thin, BeamTheory.Timoshenko).AboutPointFurtherBack(-Share * length / 2)
            + BeamIntegrals.Prismatic((1 - Share) * length, _moduli, thick, BeamTheory.Timoshenko).AboutPointFurtherBack((1 - Share) * length / 2);
        FrameSystem one = Solved([_from, _to], [new(0, 1)], [whole.StiffnessAt(step, axes)], 1);
        FrameSystem two = Solved(
            [_from, step, _to], [new(0, 1), new(1, 2)],
            [Beam.Stiffness(_from, step, _moduli, thin, BeamTheory.Timoshenko, _towards2), Beam.Stiffness(step, _to, _moduli, thick, BeamTheory.Timoshenko, _towards2)], 2);

        Motion a = one.MotionOf(1, 0), b = two.MotionOf(2, 0);
        Assert.Equal(0, (a.TranslationMm - b.TranslationMm).Length / b.TranslationMm.Length, Rounding);
        Assert.Equal(0, (a.RotationRad - b.RotationRad).Length / b.RotationRad.Length, Rounding);
    }

    [Fact]
    public void Integrals_aboutAnotherPoint_giveTheSameMember()
    {
        Section section = new(17.3, 31.1, 22.7, 9.3, 44.9, 0.87);
        Mat3 axes = Beam.LocalAxes(_from, _to, _towards2);
        Vec3 along = (_to - _from).Normalised(), middle = 0.5 * (_from + _to);
        BeamIntegrals integrals = BeamIntegrals.Prismatic((_to - _from).Length, _moduli, section, BeamTheory.EulerBernoulli);

        Motion about = Solved([_from, _to], [new(0, 1)], [integrals.StiffnessAt(middle, axes)], 1).MotionOf(1, 0);
        Motion back = Solved([_from, _to], [new(0, 1)], [integrals.AboutPointFurtherBack(13.7).StiffnessAt(middle - (13.7 * along), axes)], 1).MotionOf(1, 0);

        Assert.Equal(0, (about - back).TranslationMm.Length / about.TranslationMm.Length, Rounding);
    }

    [Fact]
    public void IsotropicBeam_byItsShortcut_equalsTheGeneralForm()
    {
        Section round = Section.Round(11.3, 4.7, 0.9);
        MemberStiffness direct = Beam.Stiffness(_from, _to, _moduli, round, BeamTheory.Timoshenko, _towards2);
        MemberStiffness general = BeamIntegrals.Prismatic((_to - _from).Length, _moduli, round, BeamTheory.Timoshenko)
            .StiffnessAt(0.5 * (_from + _to), Beam.LocalAxes(_from, _to, _towards2));

        Assert.Equal(direct.ForcePerTranslation.XY, general.ForcePerTranslation.XY, Rounding * Math.Abs(direct.ForcePerTranslation.XY));
        Assert.Equal(direct.MomentPerRotation.ZZ, general.MomentPerRotation.ZZ, Rounding * Math.Abs(direct.MomentPerRotation.ZZ));
    }

    private static FrameSystem Solved(Vec3[] nodes, MemberEnds[] ends, MemberStiffness[] members, int loaded)
    {
        FrameSystem system = new(new(nodes.Length, ends, [new(0, Freedoms.All)]), 1);
        for (int n = 0; n < nodes.Length; n++)
        {
            system.SetNode(n, nodes[n]);
        }

        for (int m = 0; m < members.Length; m++)
        {
            system.SetMember(m, members[m]);
        }

        Assert.True(system.Factorise().IsStable);
        system.AddLoad(0, loaded, nodes[loaded], new(new(3.1, -5.7, 2.3), new(71, 43, -37)));
        system.Solve();
        return system;
    }
}
