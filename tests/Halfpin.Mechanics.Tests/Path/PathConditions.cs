using Halfpin.Mechanics.Path;
using Halfpin.Mechanics.Solution;
using Halfpin.TestKit.Paths;

namespace Halfpin.Mechanics.Tests.Path;

/// <summary>What must hold at every point of a path.</summary>
internal static class PathConditions
{
    // After a run under constant load between stops, on a trace of stiffness, forces may be off by this share of the whole load: most are by less
    // than a millionth, 2 of 456,000 frames by a hundred-thousandth. Dissipation may fall by this share of the work: the most seen is 1e-11.
    private const double ForceAfterRun = 2e-5, DissipationAfterRun = 1e-10;

    /// <summary>
    /// The first point that breaks a condition; null where all hold. From each point to the next: forces within capacity at both unless a stop
    /// takes them, yielding only where both are at the same capacity and in its sense, slides within their stops; contacts push, and where
    /// they do the faces touch.
    /// </summary>
    public static int? BrokenAt(StepModel m, LoadPath path)
    {
        int run = FirstRun(path);
        for (int i = 1; i < path.PointCount; i++)
        {
            if (!Meets(m, path[i - 1], path[i], i > run && HasStops(m)))
            {
                return i;
            }
        }

        return null;
    }

    private static bool HasStops(StepModel m) => m.Components.Any(c => double.IsFinite(c.MostMm) || double.IsFinite(c.LeastMm));

    // The point from which a frame first runs under constant load.
    private static int FirstRun(LoadPath path)
    {
        foreach (PathEvent e in path.Events)
        {
            if (e.Kind == PathEventKind.Plateau)
            {
                return e.Point;
            }
        }

        return int.MaxValue;
    }

    private static bool Meets(StepModel m, PathPoint from, PathPoint to, bool hasRun)
    {
        (double mostForce, double mostMoment) = hasRun ? (m.LoadForceN.Length, m.LoadMomentNmm.Length) : (0, 0);
        for (int i = 0; i < m.Components.Count; i++)
        {
            double f = Math.Max(Math.Abs(to.ComponentForces[i]), m.Components[i].Capacity);
            (mostForce, mostMoment) = m.Components[i].Kind == ComponentKind.Force ? (Math.Max(mostForce, f), mostMoment) : (mostForce, Math.Max(mostMoment, f));
        }

        for (int i = 0; i < m.Components.Count; i++)
        {
            double q = to.ComponentForces[i], before = from.ComponentForces[i], capacity = m.Components[i].Capacity;
            double slack = ((hasRun ? ForceAfterRun : 1e-6) * (m.Components[i].Kind == ComponentKind.Force ? mostForce : mostMoment)) + 1e-9;
            double yielded = to.Dislocations[i] - from.Dislocations[i], noise = 1e-9 * (Math.Abs(to.Dislocations[i]) + Math.Abs(from.Dislocations[i]));
            bool moves = Math.Abs(yielded) > noise;
            (bool onMost, bool onLeast) = (to.Dislocations[i] == m.Components[i].MostMm, to.Dislocations[i] == m.Components[i].LeastMm);
            bool inside = to.Dislocations[i] <= m.Components[i].MostMm && to.Dislocations[i] >= m.Components[i].LeastMm;
            bool beyond = (q > capacity + slack && !onMost) || (q < -capacity - slack && !onLeast);
            bool atCapacity = Math.Abs(Math.Abs(q) - capacity) < slack && Math.Abs(Math.Abs(before) - capacity) < slack && Math.Abs(q - before) < 2 * slack;
            if (!inside || beyond || (moves && (!atCapacity || q * yielded < -slack * Math.Abs(yielded))))
            {
                return false;
            }
        }

        Motion d = to.SiteMotion;
        for (int k = 0; k < m.Contacts.Count; k++)
        {
            double opening = m.Contacts[k].GapMm + m.Contacts[k].Normal.Dot(d.At(m.Contacts[k].OffsetMm).TranslationMm);
            double law = m.Contacts[k].StiffnessNPerMm * Math.Max(0, -opening);
            if (to.ContactForcesN[k] < 0 || Math.Abs(to.ContactForcesN[k] - law) > 1e-7 * (1 + law))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Work is stored and dissipated, nothing is created.</summary>
    public static bool KeepsEnergy(StepModel m, LoadPath path)
    {
        int run = HasStops(m) ? FirstRun(path) : int.MaxValue;
        double most = path[path.TopPoint].WorkNmm, dissipated = 0;
        for (int i = 0; i < path.PointCount; i++)
        {
            PathPoint p = path[i];
            bool fell = p.DissipatedNmm < dissipated - ((i > run ? DissipationAfterRun : 1e-12) * most);
            dissipated = p.DissipatedNmm;
            if (fell || p.StoredNmm < -1e-12 * most || Math.Abs(p.WorkNmm - p.StoredNmm - p.DissipatedNmm) > 1e-9 * (1 + most))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether every node of a frame is in balance at every point of a path and halfway between.</summary>
    public static bool IsInBalance(StepModel m, LoadPath path)
    {
        for (int i = 0; i < path.PointCount; i++)
        {
            if (Imbalance(m, path, i) > 1e-7 || (i + 1 < path.PointCount && Imbalance(m, path, i + 0.5) > 1e-7))
            {
                return false;
            }
        }

        return true;
    }

    // Wrenches of the members, load and contacts at every free node, about the node, against the largest of them.
    private static double Imbalance(StepModel m, LoadPath path, double position)
    {
        int at = (int)position;
        double share = position - at;
        double factor = path[at].LoadFactor;
        Wrench contact = path[at].ContactWrench;
        if (share > 0)
        {
            factor += share * (path[at + 1].LoadFactor - factor);
            contact = ((1 - share) * contact) + (share * path[at + 1].ContactWrench);
        }

        double worst = 0, most = 1;
        for (int n = 1; n < m.Nodes.Count; n++)
        {
            Wrench sum = n == m.Loaded ? factor * new Wrench(m.LoadForceN, m.LoadMomentNmm) : default;
            sum += n == m.Upper ? contact.About(m.Nodes[n] - m.SitePointMm) : n == m.Lower ? -1 * contact.About(m.Nodes[n] - m.SitePointMm) : default;
            for (int e = 0; e < m.Members.Count; e++)
            {
                Wrench w = path.WrenchOn(e, position).About(m.Nodes[n] - m.Members[e].AtMm);
                most = m.Ends[e].A == n || m.Ends[e].B == n ? Math.Max(most, w.ForceN.Length + (w.MomentNmm.Length / PathRun.LeverMm)) : most;
                sum += m.Ends[e].A == n ? w : m.Ends[e].B == n ? -1 * w : default;
            }

            worst = Math.Max(worst, sum.ForceN.Length + (sum.MomentNmm.Length / PathRun.LeverMm));
        }

        return worst / most;
    }
}
