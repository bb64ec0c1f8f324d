using System.Collections.Immutable;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Diagnosis;

/// <summary>A motion of a frame that meets no resistance: a vector of the null space of its stiffness matrix.</summary>
/// <param name="Nodes">Motion of each node, to a common arbitrary scale.</param>
public sealed record FreeMotion(ImmutableArray<Motion> Nodes)
{
    /// <summary>Motion of end b of a member less that of end a, both carried by their rigid arms to the member's point P.</summary>
    public Motion Across(FrameSystem system, int member)
    {
        MemberEnds ends = system.Topology.Members[member];
        Vec3 at = system.Member(member).AtMm;
        return At(system, ends.B, at) - At(system, ends.A, at);
    }

    private Motion At(FrameSystem system, int node, Vec3 at) =>
        node == FrameTopology.Ground ? default : Nodes[node].At(at - system.Node(node));
}
