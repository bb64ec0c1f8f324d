using System.Collections.Immutable;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Condensation;

namespace Halfpin.Stability.Idealisation;

/// <summary>What a member of the model stands for.</summary>
internal enum MemberKind
{
    /// <summary>Bone between two stations.</summary>
    Bone,

    /// <summary>A pin inside the bone, from the bone's node to the surface.</summary>
    PinInBone,

    /// <summary>A pin between the surface (clamp −1) or a clamp and the next clamp.</summary>
    PinOutside,

    /// <summary>A rod between two of its clamps.</summary>
    Rod,

    /// <summary>A clamp, from its pin (or other rod) to its rod.</summary>
    Clamp,
}

/// <summary>A member: what it stands for, of which part, and between which stations or clamps.</summary>
internal readonly record struct PlannedMember(MemberKind Kind, int Part, int From, int To);

/// <summary>Which part a node belongs to.</summary>
internal enum NodeOwner
{
    Fragment,
    Pin,
    Rod,
}

/// <summary>A node: the part it belongs to and the clamp, pin or station that places it.</summary>
/// <param name="Owner">Kind of part.</param>
/// <param name="Part">Fragment, pin or rod number.</param>
/// <param name="Place">Bone station for a fragment; clamp for a pin or rod; −1 for a pin's surface or a rod without clamps.</param>
internal readonly record struct PlannedNode(NodeOwner Owner, int Part, int Place);

/// <summary>What a station of the bone's axis is.</summary>
internal enum StationKind
{
    ProximalEnd,
    Pin,

    /// <summary>Proximal face of the fracture below its fragment.</summary>
    ProximalFace,

    /// <summary>Distal face of the fracture above its fragment.</summary>
    DistalFace,
    DistalEnd,
}

/// <summary>A station of the bone's axis; nodes are numbered like stations.</summary>
internal readonly record struct BoneStation(StationKind Kind, int Pin, int Fragment);

/// <summary>
/// Nodes and members of a frame: all of its idealisation that does not change when only numbers change. Immutable; shared
/// by the variants of one construct.
/// </summary>
/// <remarks>
/// One node for each end and face of a fragment and for each pin on its axis; a node where a pin leaves the bone and where
/// each clamp holds it; a node where each clamp holds a rod. Rod and pin ends beyond the last clamp carry nothing and are
/// left out. A tight rigid clamp makes one node of two; a pin fixed at the surface starts from the bone's node by a rigid arm.
/// </remarks>
internal sealed class FramePlan
{
    private readonly List<PlannedNode> _nodes = [];
    private readonly List<PlannedMember> _members = [];
    private readonly List<MemberEnds> _ends = [];

    public FramePlan(FrameData data)
    {
        FixedAtSurface = [.. data.FixedAtSurface];
        Rods = data.Rods.Length;
        Clamps = [.. data.Clamps];
        Stations = StationsOf(data);
        foreach (BoneStation s in Stations)
        {
            _nodes.Add(new(NodeOwner.Fragment, s.Fragment, _nodes.Count));
        }

        NodeOnMember = [.. Enumerable.Repeat(-1, Clamps.Length)];
        NodeOnRod = [.. NodeOnMember];
        ClampsOfPin = [.. Enumerable.Range(0, FixedAtSurface.Length).Select(p => Ordered(data, c => c.Pin == p, c => data.PlacedClamps[c].AlongMemberMm))];
        ClampsOfRod = [.. Enumerable.Range(0, Rods).Select(r => Ordered(data, c => c.Rod == r || c.OtherRod == r, c => AlongRod(data, c, r)))];
        PlanBone();
        for (int p = 0; p < FixedAtSurface.Length; p++)
        {
            PlanPin(p);
        }

        for (int r = 0; r < Rods; r++)
        {
            PlanRod(r);
        }

        for (int c = 0; c < Clamps.Length; c++)
        {
            if (Clamps[c].IsSpring && Clamps[c].State != ClampState.Off)
            {
                Add(new(MemberKind.Clamp, c, -1, -1), NodeOnMember[c], NodeOnRod[c]);
            }
        }

        Nodes = [.. _nodes];
        Members = [.. _members];
        Topology = new(Nodes.Length, _ends, [new(Stations.Length - 1, Freedoms.All)]);
        BoneStation[] stations = [.. Stations];
        Sites = [.. Enumerable.Range(0, data.Fractures.Length).Select(site => new Site(
            Array.FindIndex(stations, s => s.Kind == StationKind.ProximalFace && s.Fragment == site),
            Array.FindIndex(stations, s => s.Kind == StationKind.DistalFace && s.Fragment == site + 1)))];
    }

    /// <summary>For each pin, whether it is rigidly tied to the bone at the surface.</summary>
    public ImmutableArray<bool> FixedAtSurface { get; }

    public int Rods { get; }

    public ImmutableArray<ClampData> Clamps { get; }

    public ImmutableArray<BoneStation> Stations { get; }

    public ImmutableArray<PlannedNode> Nodes { get; }

    public ImmutableArray<PlannedMember> Members { get; }

    public FrameTopology Topology { get; }

    /// <summary>The two faces of each fracture, from proximal.</summary>
    public ImmutableArray<Site> Sites { get; }

    /// <summary>The first fracture's two faces.</summary>
    public Site Site => Sites[0];

    /// <summary>The loaded end is the first station.</summary>
    public static int LoadedNode => 0;

    /// <summary>Acting clamps of each pin, from the bone outwards.</summary>
    public ImmutableArray<ImmutableArray<int>> ClampsOfPin { get; }

    /// <summary>Acting clamps of each rod, from its first point on.</summary>
    public ImmutableArray<ImmutableArray<int>> ClampsOfRod { get; }

    /// <summary>Node of each clamp on its pin or other rod, −1 when off.</summary>
    public int[] NodeOnMember { get; }

    /// <summary>Node of each clamp on its rod, −1 when off.</summary>
    public int[] NodeOnRod { get; }

    /// <summary>True when this plan, made for other numbers, also fits these: same parts, joined alike, in the same order.</summary>
    public bool Fits(FrameData data)
    {
        if (data.Rods.Length != Rods || !data.Clamps.SequenceEqual(Clamps.AsSpan()) || !data.FixedAtSurface.SequenceEqual(FixedAtSurface.AsSpan()))
        {
            return false;
        }

        for (int s = 1; s < Stations.Length; s++)
        {
            if (!(data.LevelMm(Stations[s - 1]) <= data.LevelMm(Stations[s])))
            {
                return false;
            }
        }

        return PinsInOrder(data) && RodsInOrder(data);
    }

    private bool PinsInOrder(FrameData data)
    {
        foreach (ImmutableArray<int> clamps in ClampsOfPin)
        {
            for (int i = 1; i < clamps.Length; i++)
            {
                if (!(data.PlacedClamps[clamps[i - 1]].AlongMemberMm <= data.PlacedClamps[clamps[i]].AlongMemberMm))
                {
                    return false;
                }
            }
        }

        return true;
    }

    private bool RodsInOrder(FrameData data)
    {
        for (int r = 0; r < Rods; r++)
        {
            ImmutableArray<int> clamps = ClampsOfRod[r];
            for (int i = 1; i < clamps.Length; i++)
            {
                if (!(AlongRod(data, clamps[i - 1], r) <= AlongRod(data, clamps[i], r)))
                {
                    return false;
                }
            }
        }

        return true;
    }

    private static double AlongRod(FrameData data, int clamp, int rod) =>
        data.Clamps[clamp].Rod == rod ? data.PlacedClamps[clamp].AlongRodMm : data.PlacedClamps[clamp].AlongMemberMm;

    private static ImmutableArray<int> Ordered(FrameData data, Func<ClampData, bool> of, Func<int, double> by)
    {
        ClampData[] clamps = data.Clamps.ToArray();
        return [.. Enumerable.Range(0, clamps.Length).Where(c => clamps[c].State != ClampState.Off && of(clamps[c])).OrderBy(by)];
    }

    private static ImmutableArray<BoneStation> StationsOf(FrameData data)
    {
        IEnumerable<BoneStation> PinsOf(int fragment) => Enumerable.Range(0, data.Pins.Length)
            .Where(p => data.FragmentOf(p) == fragment)
            .OrderBy(p => data.Pins[p].LevelMm)
            .Select(p => new BoneStation(StationKind.Pin, p, fragment));
        int last = data.Fragments - 1;
        return [.. Enumerable.Range(0, data.Fragments).SelectMany(f => (BoneStation[])
        [
            new(f == 0 ? StationKind.ProximalEnd : StationKind.DistalFace, -1, f),
            .. PinsOf(f),
            new(f == last ? StationKind.DistalEnd : StationKind.ProximalFace, -1, f),
        ])];
    }

    private void PlanBone()
    {
        for (int s = 1; s < Stations.Length; s++)
        {
            if (Stations[s - 1].Fragment == Stations[s].Fragment)
            {
                Add(new(MemberKind.Bone, Stations[s].Fragment, s - 1, s), s - 1, s);
            }
        }
    }

    private void PlanPin(int pin)
    {
        if (ClampsOfPin[pin].IsEmpty)
        {
            return; // Nothing beyond the bone carries load.
        }

        int bone = Array.FindIndex([.. Stations], s => s.Pin == pin);
        int from = bone;
        if (!FixedAtSurface[pin])
        {
            from = NewNode(new(NodeOwner.Pin, pin, -1));
            Add(new(MemberKind.PinInBone, pin, -1, -1), bone, from);
        }

        int previous = -1;
        foreach (int c in ClampsOfPin[pin])
        {
            NodeOnMember[c] = NewNode(new(NodeOwner.Pin, pin, c));
            Add(new(MemberKind.PinOutside, pin, previous, c), from, NodeOnMember[c]);
            (from, previous) = (NodeOnMember[c], c);
        }
    }

    private void PlanRod(int rod)
    {
        if (ClampsOfRod[rod].IsEmpty)
        {
            NewNode(new(NodeOwner.Rod, rod, -1)); // Held by nothing: the analysis shall find it free.
            return;
        }

        int before = -1, clampBefore = -1;
        foreach (int c in ClampsOfRod[rod])
        {
            int node = NodeOf(c, rod);
            if (before >= 0)
            {
                Add(new(MemberKind.Rod, rod, clampBefore, c), before, node);
            }

            (before, clampBefore) = (node, c);
        }
    }

    // The node of a clamp on a rod. A tight rigid clamp shares one node between its two members, whichever comes first.
    private int NodeOf(int clamp, int rod)
    {
        bool onRod = Clamps[clamp].Rod == rod;
        int[] own = onRod ? NodeOnRod : NodeOnMember, other = onRod ? NodeOnMember : NodeOnRod;
        if (own[clamp] < 0)
        {
            own[clamp] = !Clamps[clamp].IsSpring && other[clamp] >= 0 ? other[clamp] : NewNode(new(NodeOwner.Rod, rod, clamp));
        }

        return own[clamp];
    }

    private int NewNode(PlannedNode node)
    {
        _nodes.Add(node);
        return _nodes.Count - 1;
    }

    private void Add(PlannedMember member, int a, int b)
    {
        _members.Add(member);
        _ends.Add(new(a, b));
    }
}
