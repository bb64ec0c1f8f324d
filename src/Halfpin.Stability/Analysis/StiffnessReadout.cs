using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Mechanics.Condensation;
using Halfpin.Stability.FreeMotions;

namespace Halfpin.Stability.Analysis;

/// <summary>
/// Reads the stiffnesses of a solved frame: load component divided by its conjugate motion, the other loads zero and the
/// other motions free, so 1/|C_ii|. Loads that work on an intended freedom read 0.
/// </summary>
public static class StiffnessReadout
{
    private const double NmPerDeg = Math.PI / 180 / 1000;
    private const int Z = 2, Rx = 3, Ry = 4, Rz = 5;
    private const int RoseStepDeg = 5;

    private static readonly ImmutableArray<string> _order = ["x", "y", "z", "rx", "ry", "rz"];

    /// <summary>All stiffnesses of the analyser's last frame.</summary>
    public static FrameStiffness Read(FrameAnalyser analyser)
    {
        // Between two bodies, ball ends carry exactly the internal forces of potted ones: the lateral reactions vanish and
        // the ends' relative rotation and approach along the axis are unchanged by the rigid turn that differs.
        FourStiffnesses ends = Four(analyser.Site.EndCompliance, analyser.Freedoms);
        return new()
        {
            AtFracture = AtFracture(analyser),
            AtLoad = new(ends, ends, new(Guided(analyser.Site.EndCompliance, analyser.Freedoms))),
        };
    }

    /// <summary>Stiffness at a fracture of the analyser's last frame.</summary>
    public static FourStiffnesses AtFracture(FrameAnalyser analyser, int site = 0) => Four(analyser.Site.EndToSite[site], analyser.Freedoms);

    /// <summary>
    /// K_site of a fracture of the analyser's last frame, what opposite wrenches on its faces meet while all other gaps are open; null
    /// when an intended freedom makes it singular: its inverse then exists only with the freedom held.
    /// </summary>
    public static SiteStiffness? ReadSite(FrameAnalyser analyser, int site = 0)
    {
        if (!analyser.Freedoms.Freed.IsEmpty)
        {
            return null;
        }

        SquareMatrix k = analyser.Site.EndToSite.Count == 1 ? analyser.Site.SiteStiffness : Alone(analyser.Site.SiteCompliance, site);
        return new(_order, [.. Enumerable.Range(0, 6).Select(i => (ImmutableArray<double>)[.. Enumerable.Range(0, 6).Select(j => k[i, j])])]);
    }

    /// <summary>
    /// Bending stiffness at a fracture by direction: 1/nᵀCn with C the symmetric bending block of T_end and
    /// n = (−sin φ, cos φ). Null when a freedom lets the frame bend.
    /// </summary>
    public static BendingRose? ReadRose(FrameAnalyser analyser, int site = 0)
    {
        if (WeakBending(analyser, site) is not (double weakDeg, double weak))
        {
            return null;
        }

        SquareMatrix t = analyser.Site.EndToSite[site];
        return new(
            weakDeg,
            weak,
            Along(t, weakDeg + 90),
            [.. Enumerable.Range(0, 180 / RoseStepDeg).Select(i => Along(t, i * RoseStepDeg))]);
    }

    /// <summary>The direction of least bending stiffness at a fracture, above −90 to 90, and that stiffness; null when a freedom lets the frame bend.</summary>
    public static (double AzimuthDeg, double NmPerDeg)? WeakBending(FrameAnalyser analyser, int site = 0)
    {
        if (analyser.Freedoms.WorksOn(Rx) || analyser.Freedoms.WorksOn(Ry))
        {
            return null;
        }

        SquareMatrix t = analyser.Site.EndToSite[site];
        double weakDeg = Math.Atan2(-(t[Rx, Ry] + t[Ry, Rx]) / 2, (t[Ry, Ry] - t[Rx, Rx]) / 2) / 2 * 180 / Math.PI;
        weakDeg = weakDeg <= -90 ? weakDeg + 180 : weakDeg;
        return (weakDeg, Along(t, weakDeg));
    }

    /// <summary>
    /// The weakest bending that opposite moments on the two faces of a fracture meet while all other gaps are open, N·m/deg, at the fracture where
    /// that is least: how firmly the fragments between are held. Loads on the end of the bone run past such a fragment, so that no stiffness
    /// against them tells it. Null with one fracture or an intended freedom.
    /// </summary>
    public static double? BetweenBending(FrameAnalyser analyser)
    {
        if (analyser.Site.EndToSite.Count == 1 || !analyser.Freedoms.Freed.IsEmpty)
        {
            return null;
        }

        SquareMatrix c = analyser.Site.SiteCompliance;
        double softest = 0;
        for (int first = 0; first < 6 * analyser.Site.EndToSite.Count; first += 6)
        {
            double xx = c[first + Rx, first + Rx], yy = c[first + Ry, first + Ry], xy = c[first + Rx, first + Ry];
            softest = Math.Max(softest, ((xx + yy) / 2) + double.Hypot((xx - yy) / 2, xy));
        }

        return NmPerDeg / softest;
    }

    // Bending stiffness in a direction, from the symmetric bending block of T_end.
    private static double Along(SquareMatrix t, double azimuthDeg)
    {
        (double s, double c) = Math.SinCos(azimuthDeg * Math.PI / 180);
        double xy = (t[Rx, Ry] + t[Ry, Rx]) / 2;
        return NmPerDeg / Math.Abs((t[Rx, Rx] * s * s) - (2 * xy * s * c) + (t[Ry, Ry] * c * c));
    }

    // The inverse of a site's own block of the compliance: the other gaps take what motion they like.
    private static SquareMatrix Alone(SquareMatrix compliance, int site)
    {
        SquareMatrix block = new(6), stiffness = new(6);
        for (int i = 0; i < 6; i++)
        {
            for (int j = 0; j < 6; j++)
            {
                block[i, j] = compliance[(6 * site) + i, (6 * site) + j];
            }
        }

        return block.TryInvertInto(stiffness) ? stiffness : throw new InvalidOperationException("The compliance of a solved frame is positive definite.");
    }

    private static FourStiffnesses Four(SquareMatrix compliance, FreedomReport freedoms) => new(
        Stiffness(compliance, freedoms, Z),
        Stiffness(compliance, freedoms, Ry) * NmPerDeg,
        Stiffness(compliance, freedoms, Rx) * NmPerDeg,
        Stiffness(compliance, freedoms, Rz) * NmPerDeg);

    private static double Stiffness(SquareMatrix compliance, FreedomReport freedoms, int component) =>
        freedoms.WorksOn(component) ? 0 : 1 / Math.Abs(compliance[component, component]);

    // Axial stiffness with the three rotations of the ends held: the zz entry of the inverse of the compliance in z and the
    // rotations.
    private static double Guided(SquareMatrix compliance, FreedomReport freedoms)
    {
        if (freedoms.WorksOn(Z))
        {
            return 0;
        }

        SquareMatrix block = new(4), stiffness = new(4);
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
            {
                block[i, j] = compliance[Z + i, Z + j];
            }
        }

        return block.TryInvertInto(stiffness) ? stiffness[0, 0] : double.NaN;
    }
}
