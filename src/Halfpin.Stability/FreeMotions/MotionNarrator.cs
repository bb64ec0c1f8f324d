using System.Collections.Immutable;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Diagnosis;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.FreeMotions;

/// <summary>Puts a free motion of a frame into words: which part moves, how, and which clamps let it.</summary>
internal sealed class MotionNarrator(FrameAnalyser analyser)
{
    private const double Tolerance = 1e-5;
    private const double LeverMm = 100;

    private readonly FramePlan _plan = analyser.Plan;
    private readonly FrameData _data = analyser.Data;

    /// <summary>Describes one motion.</summary>
    /// <param name="motion">The motion.</param>
    /// <param name="turns">True when it turns a loose clamp about its rod.</param>
    public LooseMotion Describe(FreeMotion motion, bool turns)
    {
        int[] fragments = [.. Enumerable.Range(0, _data.Fragments).Where(f => Moves(motion, NodeOwner.Fragment, f))];
        bool fragment = fragments.Length > 0;
        int[] rods = [.. Enumerable.Range(0, _plan.Rods).Where(r => Moves(motion, NodeOwner.Rod, r))];
        int[] clamps = [.. LooseClamps(motion)];
        ImmutableArray<string> parts = [.. rods.Select(r => _data.Rods[r].Id), .. clamps.Select(c => _data.ClampParts[c].Id)];
        if (clamps.Length == 0)
        {
            return Unheld(fragments, rods, parts);
        }

        int[] about = [.. clamps.Select(c => _plan.Clamps[c].Rod).Distinct()];
        string rodNames = Join(about.Select(r => $"rod {_data.Rods[r].Id}"));
        bool ownAxis = !fragment && rods.Length == 1 && about.Length == 1 && rods[0] == about[0];
        string subject = fragment ? Named(fragments) : Join(rods.Select(r => $"rod {_data.Rods[r].Id}"));
        string verb = (fragment ? fragments.Length : rods.Length) == 1 ? (turns ? "turns" : "slides") : (turns ? "turn" : "slide");
        string path = turns
            ? ownAxis ? "about its axis" : $"about {rodNames}"
            : ownAxis ? "along its axis" : $"along {rodNames}";
        return new(parts, $"{Capital(subject)} {verb} {path}: {Reason(clamps, about)}.", Cure(clamps, about));
    }

    /// <summary>Joins sentences about the same parts, so that a free rod is named once and not in each of its freedoms.</summary>
    public static ImmutableArray<LooseMotion> Merge(IEnumerable<LooseMotion> motions)
    {
        List<LooseMotion> merged = [];
        foreach (LooseMotion m in motions)
        {
            if (!merged.Any(o => o.Message == m.Message))
            {
                merged.Add(m);
            }
        }

        return [.. merged];
    }

    private LooseMotion Unheld(int[] fragments, int[] rods, ImmutableArray<string> parts)
    {
        if (fragments.Length > 0 && _data.Fragments > 2)
        {
            return UnheldAmongSeveral(fragments);
        }

        if (fragments.Length > 0)
        {
            return new(
                parts.IsEmpty ? [.. _data.Pins.Select(p => p.Id)] : parts,
                "The proximal fragment moves freely: no chain of pin, clamp, rod, clamp and pin joins it to the distal fragment.",
                "Clamp at least two pins of each fragment to one rod.");
        }

        string subject = Join(rods.Select(r => $"rod {_data.Rods[r].Id}"));
        return new(
            parts,
            $"{Capital(subject)} {(rods.Length == 1 ? "moves" : "move")} freely: no clamp joins {(rods.Length == 1 ? "it" : "them")} to the rest of the frame.",
            "Clamp it to a pin or another rod, or leave it out.");
    }

    private LooseMotion UnheldAmongSeveral(int[] fragments)
    {
        int[] pins = [.. Enumerable.Range(0, _data.Pins.Length).Where(p => fragments.Contains(_data.FragmentOf(p)))];
        ImmutableArray<string> ids = [.. pins.Select(p => _data.Pins[p].Id)];
        string name = Named(fragments);
        if (fragments.Length > 1)
        {
            return new(
                ids, $"{Capital(name)} move freely together: no chain of pin, clamp, rod, clamp and pin joins them to the distal fragment.",
                "Clamp at least two pins of each fragment to one rod.");
        }

        return pins.Length == 0
            ? new(
                ids, $"{Capital(name)} moves freely: there is no pin in it.",
                $"Add at least two pins to {name} and clamp them to a rod; a construct sets none between fractures, so list the parts.")
            : new(
                ids, $"{Capital(name)} moves freely: {(pins.Length == 1 ? $"its pin {ids[0]} is" : $"its pins {Join(ids)} are")} not joined to the rest of the frame.",
                $"Clamp at least two pins of {name} to a rod.");
    }

    private string Named(int[] fragments) => fragments.Length == 1
        ? $"the {_data.FragmentWords(fragments[0])}"
        : Join(fragments.Select(f => $"the {_data.FragmentWords(f)}"));

    private string Reason(int[] clamps, int[] rods)
    {
        string names = Join(clamps.Select(c => _data.ClampParts[c].Id));
        bool lone = rods.Length == 1 && _plan.ClampsOfRod[rods[0]].Length == 1;
        return lone
            ? $"held by one clamp, {names}, which is loose"
            : clamps.Length == 1 ? $"clamp {names} is loose" : $"clamps {names} are loose";
    }

    private string Cure(int[] clamps, int[] rods)
    {
        string id = _data.ClampParts[clamps[0]].Id;
        return rods.Length == 1
            ? $"Tighten {id}, or hold rod {_data.Rods[rods[0]].Id} by a tight clamp elsewhere on this side."
            : $"Tighten {id}.";
    }

    private IEnumerable<int> LooseClamps(FreeMotion motion)
    {
        for (int m = 0; m < _plan.Members.Length; m++)
        {
            PlannedMember member = _plan.Members[m];
            if (member.Kind == MemberKind.Clamp && _plan.Clamps[member.Part].State == ClampState.Loose)
            {
                Motion across = motion.Across(analyser.System, m);
                Vec3 r = _data.PlacedRods[_plan.Clamps[member.Part].Rod].Along;
                if (Math.Abs(across.TranslationMm.Dot(r)) + (LeverMm * Math.Abs(across.RotationRad.Dot(r))) > Tolerance)
                {
                    yield return member.Part;
                }
            }
        }
    }

    private bool Moves(FreeMotion motion, NodeOwner owner, int part)
    {
        for (int n = 0; n < _plan.Nodes.Length; n++)
        {
            Motion node = motion.Nodes[n];
            if (Owns(n, owner, part) && node.TranslationMm.Length + (LeverMm * node.RotationRad.Length) > Tolerance)
            {
                return true;
            }
        }

        return false;
    }

    // A rigid clamp's shared node counts for the rod too.
    private bool Owns(int node, NodeOwner owner, int part) =>
        (_plan.Nodes[node].Owner == owner && _plan.Nodes[node].Part == part)
        || (owner == NodeOwner.Rod && _plan.ClampsOfRod[part].Any(c =>
            (_plan.Clamps[c].Rod == part ? _plan.NodeOnRod[c] : _plan.NodeOnMember[c]) == node));

    private static string Capital(string s) => char.ToUpperInvariant(s[0]) + s[1..];

    private static string Join(IEnumerable<string> words)
    {
        string[] w = [.. words];
        return w.Length < 2 ? string.Concat(w) : $"{string.Join(", ", w[..^1])} and {w[^1]}";
    }
}
