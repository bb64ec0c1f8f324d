using CsCheck;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Path;
using Halfpin.TestKit.Paths;
using Xunit;

namespace Halfpin.Mechanics.Tests.Path;

/// <summary>Paths with contact alone.</summary>
public class ContactPathTests
{
    private static readonly Vec3 _translation = new(400, 500, 47);
    private static readonly Vec3 _rotation = new(9e4, 8e4, 7e4);

    [Fact]
    public void TwoPoints_underAnEccentricLoad_closeOneAfterTheOther()
    {
        // Signorini's problem of a rigid bar on two unilateral springs at x = ±11 (Signorini 1959; here by hand). uz(x) = z − x·ry with
        // 47z = −F, 8e4·ry = 4F: the right end comes down first, at F/47 + 11·4F/8e4 = 0.5.
        ContactPoint right = new(new(11, 0, 0), Vec3.UnitZ, 0.5, 3100), left = new(new(-11, 0, 0), Vec3.UnitZ, 0.5, 2700);
        StepModel model = PathRun.Body(new(0, 0, -1), new(0, 4, 0), [PathRun.Spring(default, _translation, _rotation)], [], right, left);
        LoadPath path = PathRun.Follow(model, 900, andBack: true);

        Assert.Equal("Close0 Close1 Open1 Open0", PathRun.Story(path));
        Assert.Equal(0.5 / ((1 / 47.0) + (11 * 4 / 8e4)), path.Events[0].LoadFactor, 1e-9);

        // Both closed: (47 + 3100 + 2700)z + (−11·3100 + 11·2700)ry = −F − 0.5·5800, and the like about y.
        double a = 47 + 3100 + 2700, b = (-11 * 3100) + (11 * 2700), d = 8e4 + (121 * 5800.0), p = -900 - 2900, q = (4 * 900) - (0.5 * b);
        double det = (a * d) - (b * b);
        Assert.Equal(((d * p) - (b * q)) / det, path[path.TopPoint].SiteMotion.TranslationMm.Z, 1e-10);
        Assert.Equal(((a * q) - (b * p)) / det, path[path.TopPoint].SiteMotion.RotationRad.Y, 1e-12);
    }

    [Fact]
    public void Ring_anyLoad_endsWhereTheEquilibriumOfTheSiteIs() => _rings.Sample(
        r =>
        {
            // Contact without yielding remembers nothing: the end of the path is the minimum of the energy, found in one go by another way.
            LoadPath path = PathRun.Follow(r, 1, andBack: true);
            SiteEquilibrium site = new(r.Contacts.Count);
            site.SetPoints([.. r.Contacts]);
            SquareMatrix k = new(6);
            double[] diagonal = [_translation.X, _translation.Y, _translation.Z, _rotation.X, _rotation.Y, _rotation.Z];
            double[] load = [r.LoadForceN.X, r.LoadForceN.Y, r.LoadForceN.Z, r.LoadMomentNmm.X, r.LoadMomentNmm.Y, r.LoadMomentNmm.Z];
            for (int i = 0; i < 6; i++)
            {
                k[i, i] = diagonal[i];
            }

            if (path.Status != PathStatus.Complete || site.Solve(k, [.. load.Select((f, i) => f / diagonal[i])], null, [], 0) != ContactStatus.Solved)
            {
                return false;
            }

            double[] forces = path[path.TopPoint].ContactForcesN.ToArray();
            double most = forces.Append(1).Max();

            // To the path, loads within a hundred-millionth of the whole are one: a gap that such a load closes is still closed without any,
            // which leaves a set of about its size, sideways too.
            double gapMm = r.Contacts.Max(c => c.GapMm), leftMm = gapMm < 1e-7 ? gapMm : 0;
            return forces.Select((f, i) => Math.Abs(f - site.NormalForcesN[i])).Max() < 1e-7 * most && path.PermanentSet!.Value.TranslationMm.Length < (2 * leftMm) + 1e-9;
        },
        iter: 300);

    [Fact]
    public void PointsWithoutAGap_bearOrLiftOffFromTheFirstLoadOn()
    {
        // Turned about y by a moment alone: one side bears at once, the other lifts off. 47z + 3100(z − 11ry) = 0 and
        // 8e4·ry − 11·3100(z − 11ry) = F.
        ContactPoint right = new(new(11, 0, 0), Vec3.UnitZ, 0, 3100), left = new(new(-11, 0, 0), Vec3.UnitZ, 0, 3100);
        StepModel model = PathRun.Body(default, new(0, 1, 0), [PathRun.Spring(default, _translation, _rotation)], [], right, left);
        LoadPath path = PathRun.Follow(model, 900, andBack: true);

        double a = 47 + 3100, b = -11 * 3100, d = 8e4 + (121 * 3100.0), ry = 900 * a / ((a * d) - (b * b));
        Assert.Equal("Close0", PathRun.Story(path)[..6]);
        Assert.Equal(ry, path[path.TopPoint].SiteMotion.RotationRad.Y, 1e-10);
        Assert.Equal(-3100 * ry * ((-b / a) - 11), path[path.TopPoint].ContactForcesN[0], 1e-7);
        Assert.Equal(0, path[path.TopPoint].ContactForcesN[1]);
        Assert.Equal(0, path.PermanentSet!.Value.TranslationMm.Length, 1e-12);
    }

    private static readonly Gen<StepModel> _rings = Gen.Select(
        Gen.Double[-1000, 100], Gen.Double[-200, 200].Array[2], Gen.Double[-4000, 4000].Array[3], Gen.Double[0, 60], Gen.Double[-180, 180], Gen.Double[0, 2], Gen.Int[12, 30])
        .Select((down, across, moment, tiltDeg, azimuthDeg, gapMm, n) =>
        {
            (double st, double ct) = Math.SinCos(tiltDeg * Math.PI / 180);
            (double sa, double ca) = Math.SinCos(azimuthDeg * Math.PI / 180);
            Vec3 normal = new(st * ca, st * sa, ct);
            ContactPoint[] points = [.. Enumerable.Range(0, n).Select(i =>
            {
                (double s, double c) = Math.SinCos(2 * Math.PI * i / n);
                double x = (12 + Math.Cos(3.0 * i)) * c, y = 13 * s;
                return new ContactPoint(new(x, y, -((normal.X * x) + (normal.Y * y)) / normal.Z), normal, gapMm * ct, 2e4 + (100 * i));
            })];
            return PathRun.Body(
                new(across[0], across[1], down), new(moment[0], moment[1], moment[2]), [PathRun.Spring(default, _translation, _rotation)], [], points);
        });
}
