using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Path;
using Halfpin.Mechanics.Solution;
using Halfpin.TestKit.Paths;
using Xunit;

namespace Halfpin.Mechanics.Tests.Path;

/// <summary>Follows the path of a model given as plain data.</summary>
internal static class PathRun
{
    public const double LeverMm = 100;

    public static FrameSystem System(StepModel m)
    {
        FrameSystem system = new(new(m.Nodes.Count, m.Ends, m.Supports), DislocationResponse.ColumnsFor(m.Components.Count, m.Sites.Count));
        for (int i = 0; i < m.Nodes.Count; i++)
        {
            system.SetNode(i, m.Nodes[i]);
        }

        for (int i = 0; i < m.Members.Count; i++)
        {
            system.SetMember(i, m.Members[i]);
        }

        return system;
    }

    public static DislocationResponse Response(StepModel m)
    {
        FrameSystem system = System(m);
        Assert.True(system.Factorise().IsStable);
        DislocationResponse response = new(system, m.Loaded, [.. m.Sites.Select(s => new Site(s.Upper, s.Lower))], m.Components.Count);
        Assert.True(response.Run([.. m.Components], m.Nodes[m.Loaded], [.. m.Sites.Select(s => s.PointMm)], LeverMm) < 1e-7);
        return response;
    }

    public static LoadPath Follow(StepModel m, double target, bool andBack = false)
    {
        LoadPath path = new(m.Components.Count, m.Contacts.Count, m.Sites.Count);
        path.Run(Response(m), [.. m.Contacts], new(m.LoadForceN, m.LoadMomentNmm), target, andBack);
        return path;
    }

    /// <summary>
    /// Some frames are left with a billionth of their stiffness and run for ten metres and more: digits are lost as the motion grows, and
    /// a failed check is the right answer. About one in two thousand.
    /// </summary>
    public static bool RunsFar(LoadPath path)
    {
        double most = 0;
        for (int i = 0; i < path.PointCount; i++)
        {
            most = Math.Max(most, path[i].EndMotion.TranslationMm.Length);
        }

        return most > 1e4;
    }

    /// <summary>Events as text: kind and index, by the order in which they came.</summary>
    public static string Story(LoadPath path) => string.Join(' ', path.Events.ToArray().Select(e => $"{e.Kind}{e.Index}"));

    /// <summary>A rigid body at the origin on springs to the ground, loaded and read there; the site is between it and the ground.</summary>
    public static StepModel Body(Vec3 force, Vec3 moment, IReadOnlyList<MemberStiffness> springs, IReadOnlyList<YieldingComponent> components, params ContactPoint[] contacts) =>
        new(
            [default],
            [.. springs.Select(_ => new MemberEnds(FrameTopology.Ground, 0))],
            springs,
            [],
            components,
            0,
            FrameTopology.Ground,
            default,
            contacts,
            0,
            force,
            moment);

    public static MemberStiffness Spring(Vec3 at, Vec3 translation, Vec3 rotation) => Mechanics.Members.Spring.Stiffness(at, Mat3.Identity, translation, rotation);

    /// <summary>A straight beam of round section, without shear.</summary>
    public static MemberStiffness Beam(Vec3 a, Vec3 b, double youngsModulusMPa, double diameterMm) => Mechanics.Members.Beam.Stiffness(
        a, b, ElasticModuli.Isotropic(youngsModulusMPa, 0.3), Section.Round(diameterMm, 0, 0.9), BeamTheory.EulerBernoulli, (b - a).AnyNormal());
}
