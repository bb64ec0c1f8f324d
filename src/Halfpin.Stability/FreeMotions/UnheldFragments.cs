using Halfpin.Mechanics.Assembly;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.FreeMotions;

/// <summary>Fragments that no chain of members, loose or tight, joins to the held end.</summary>
internal static class UnheldFragments
{
    /// <summary>One node of each group of fragments that hang together but are joined to nothing else.</summary>
    public static IEnumerable<int> NodesOf(FramePlan plan)
    {
        int[] group = [.. Enumerable.Range(0, plan.Nodes.Length)];
        foreach (MemberEnds ends in plan.Topology.Members)
        {
            (int a, int b) = (group[ends.A], group[ends.B]);
            for (int n = 0; a != b && n < group.Length; n++)
            {
                group[n] = group[n] == b ? a : group[n];
            }
        }

        HashSet<int> told = [group[plan.Stations.Length - 1]];
        for (int s = 0; s < plan.Stations.Length; s++)
        {
            if (told.Add(group[s]))
            {
                yield return s;
            }
        }
    }
}
