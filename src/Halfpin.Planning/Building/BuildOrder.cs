using System.Collections.Immutable;
using Halfpin.Domain.Frames;

namespace Halfpin.Planning.Building;

/// <summary>An act of building.</summary>
internal abstract record BuildAct;

/// <summary>A pin goes into the bone.</summary>
/// <param name="Pin">Its id.</param>
/// <param name="Through">The clamp on a mounted rod that guides it; null for a pin set free-hand through its sleeve.</param>
internal sealed record InsertPin(string Pin, string? Through) : BuildAct;

/// <summary>A rod is mounted.</summary>
/// <param name="Rod">Its id.</param>
/// <param name="Loaded">Clamps put on it beforehand, along the rod.</param>
/// <param name="Joining">Clamps that tie it to rods already mounted, and so must open to the side there.</param>
internal sealed record MountRod(string Rod, ImmutableArray<string> Loaded, ImmutableArray<string> Joining) : BuildAct;

/// <summary>A clamp is put on a mounted rod for a pin that already stands; it must open to the side.</summary>
internal sealed record AddClamp(string Clamp) : BuildAct;

/// <summary>
/// The order in which a frame is built, on which hang its steps and the clamps that must open to the side.
/// </summary>
/// <remarks>
/// A rod is loaded on the table with the clamps of its two outermost pins and of every pin still to come, is brought to those
/// two pins, and its later pins go through clamps already on it, those of a fragment between two fractures first, so that every
/// fragment can be aligned. A third pin that already stands is rarely in line, so its clamp
/// is added to the mounted rod. Rods of one fragment come first and make partial frames, then rods across a fracture, the
/// innermost first, and last what ties rods together.
/// </remarks>
internal sealed class BuildOrder
{
    private readonly FrameLayout _layout;
    private readonly HashSet<string> _standing = [];
    private readonly List<string> _mounted = [];
    private readonly List<BuildAct> _acts = [];
    private int _joinedAfter = -1;
    private int _endsJoinedAfter = -1;

    private BuildOrder(FrameLayout layout) => _layout = layout;

    /// <summary>The acts in their order.</summary>
    public ImmutableArray<BuildAct> Acts { get; private set; } = [];

    /// <summary>
    /// Number of the act after which all fragments that are held hang together, else the first and the last; −1 when they never do.
    /// </summary>
    public int JoinedAfter => _joinedAfter >= 0 ? _joinedAfter : _endsJoinedAfter;

    /// <summary>The pins that stand when the frame is aligned; all of them when it never is.</summary>
    public ImmutableArray<string> PinsAtAlignment => [.. (JoinedAfter < 0 ? Acts : Acts.Take(JoinedAfter + 1)).OfType<InsertPin>().Select(a => a.Pin)];

    /// <summary>Rods of one fragment only, which make partial frames.</summary>
    public ImmutableArray<string> PartialRods { get; private set; } = [];

    /// <summary>Rods with pins on both sides of a fracture.</summary>
    public ImmutableArray<string> SpanningRods { get; private set; } = [];

    /// <summary>The order for a frame.</summary>
    public static BuildOrder Of(FrameLayout layout)
    {
        BuildOrder order = new(layout);
        order.Build();
        return order;
    }

    /// <summary>Clamps that are put on a rod after it is mounted.</summary>
    public ImmutableHashSet<string> OpenSided =>
        [.. Acts.SelectMany(a => a switch { MountRod m => m.Joining, AddClamp c => [c.Clamp], _ => ImmutableArray<string>.Empty })];

    private void Build()
    {
        Rod[] withPins = [.. _layout.Parts.Rods.Where(r => !_layout.PinClampsOn(r.Id).IsEmpty)];
        int[] FragmentsOf(Rod r) => [.. _layout.PinClampsOn(r.Id).Select(c => _layout.FragmentOf(_layout.Pin(c.Part.Pin!))).Distinct().Order()];
        PartialRods = [.. withPins.Where(r => FragmentsOf(r).Length == 1 && _layout.PinClampsOn(r.Id).Length > 1).OrderBy(r => FragmentsOf(r)[0]).Select(r => r.Id)];
        SpanningRods = [.. withPins.Where(r => FragmentsOf(r).Length > 1).OrderBy(InnerRank).Select(r => r.Id)];
        foreach (string rod in PartialRods.Concat(SpanningRods))
        {
            Mount(rod);
        }

        // What is left: links and rods of a single pin, those that meet a mounted rod first.
        List<Rod> left = [.. _layout.Parts.Rods.Where(r => !_mounted.Contains(r.Id))];
        while (left.Count > 0)
        {
            Rod next = left.FirstOrDefault(r => _layout.RodClampsOn(r.Id).Any(c => _mounted.Contains(c.Part.Rod == r.Id ? c.Part.OtherRod! : c.Part.Rod))) ?? left[0];
            left.Remove(next);
            Mount(next.Id);
        }

        foreach (Pin pin in _layout.Parts.Pins.Where(p => !_standing.Contains(p.Id)))
        {
            Do(new InsertPin(pin.Id, null));
        }

        Acts = [.. _acts];
    }

    // A rod that shares pins with another comes after the one nearer to the bone.
    private int InnerRank(Rod rod) => _layout.PinClampsOn(rod.Id).Max(c => _layout.OnPin(c.Part.Pin!).IndexOf(c));

    private void Mount(string rod)
    {
        ImmutableArray<LaidClamp> clamps = _layout.PinClampsOn(rod);
        LaidClamp[] ends = clamps.Length > 1 ? [clamps[0], clamps[^1]] : [.. clamps];
        HashSet<string> stoodBefore = [.. _standing];
        foreach (Pin pin in ends.Select(e => _layout.Pin(e.Part.Pin!)).Where(p => !_standing.Contains(p.Id)).DistinctBy(p => p.Id).OrderBy(p => p.LevelMm))
        {
            Insert(pin.Id, null);
        }

        LaidClamp[] added = [.. clamps.Where(c => !ends.Contains(c) && stoodBefore.Contains(c.Part.Pin!))];
        string[] joining = [.. _layout.RodClampsOn(rod).Where(c => _mounted.Contains(c.Part.Rod == rod ? c.Part.OtherRod! : c.Part.Rod)).Select(c => c.Part.Id)];
        _mounted.Add(rod);
        Do(new MountRod(rod, [.. clamps.Except(added).Select(c => c.Part.Id)], [.. joining]));
        foreach (LaidClamp c in added)
        {
            Do(new AddClamp(c.Part.Id));
        }

        LaidClamp[] later = [.. clamps.Where(c => !_standing.Contains(c.Part.Pin!))];
        LaidClamp[] middle = [.. later.Where(c => _layout.IsMiddle(_layout.FragmentOf(_layout.Pin(c.Part.Pin!))))];
        foreach (LaidClamp c in middle.Concat(later.Except(middle)))
        {
            // Alignment waits for every pin of a middle fragment on this rod.
            Insert(c.Part.Pin!, c.Part.Id, more: middle.Contains(c) && c != middle[^1]);
        }
    }

    private void Insert(string pin, string? through, bool more = false)
    {
        _standing.Add(pin);
        Do(new InsertPin(pin, through), more);
    }

    private void Do(BuildAct act, bool more = false)
    {
        _acts.Add(act);
        if (more || _joinedAfter >= 0)
        {
            return;
        }

        HashSet<int> joined = Joined(), held = [.. _layout.Parts.Pins.Where(p => !_layout.OnPin(p.Id).IsEmpty).Select(_layout.FragmentOf)];
        if (!joined.Contains(_layout.Fragments - 1))
        {
            return;
        }

        _endsJoinedAfter = _endsJoinedAfter < 0 ? _acts.Count - 1 : _endsJoinedAfter;
        if (held.IsSubsetOf(joined))
        {
            _joinedAfter = _acts.Count - 1;
        }
    }

    // The fragments to whose pins what is mounted leads from a pin of the first.
    private HashSet<int> Joined()
    {
        HashSet<string> reached = [.. _layout.Parts.Pins.Where(p => _standing.Contains(p.Id) && _layout.FragmentOf(p) == 0).Select(p => p.Id)];
        bool grown = true;
        while (grown)
        {
            grown = false;
            foreach (Clamp c in _layout.Clamps.Select(c => c.Part).Where(c => _mounted.Contains(c.Rod)))
            {
                bool there = c.Pin is string pin ? _standing.Contains(pin) : _mounted.Contains(c.OtherRod!);
                string member = c.Pin ?? c.OtherRod!;
                if (there && reached.Contains(member) != reached.Contains(c.Rod))
                {
                    reached.Add(member);
                    reached.Add(c.Rod);
                    grown = true;
                }
            }
        }

        return [.. _layout.Parts.Pins.Where(p => reached.Contains(p.Id)).Select(_layout.FragmentOf)];
    }
}
