using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Planning.Building;
using Halfpin.Planning.Kit;
using static Halfpin.Planning.Building.SizeWords;

namespace Halfpin.Planning.Steps;

/// <summary>Sentences on the parts of one frame, with their numbers.</summary>
internal sealed class PartSentences(FrameKit kit)
{
    private readonly FrameLayout _layout = kit.Layout;

    /// <summary>Where a pin stands.</summary>
    public string Place(Pin pin)
    {
        string tilt = pin.TiltDeg == 0 ? "" : $", its outer end tilted {Whole(Math.Abs(pin.TiltDeg))}° {(pin.TiltDeg > 0 ? "up" : "down")}";
        return $"Pin {pin.Id} in the {_layout.FragmentWords(_layout.FragmentOf(pin))}: {Level(pin.LevelMm, _layout.BoneLengthMm)}, {Whole(_layout.ToFractureEdgeMm(pin))} mm from the fracture's edge along the bone, {Azimuth(pin.AzimuthDeg)}{tilt}.";
    }

    /// <summary>How a pin goes in: which pin, how deep, how far its rod stands off.</summary>
    public string Insert(Pin pin)
    {
        PinLength p = LengthOf(pin);
        string length = p.LengthMm is double l ? $"{Whole(l)} mm long" : $"at least {Whole(Math.Ceiling(p.NeededMm))} mm long";
        string size = $"{Fine(pin.DiameterMm)} mm, {length}";
        string depth = p.Tip == PinTip.SelfDrilling
            ? $"Drive the self-drilling pin ({size}) at low speed with cooling through the near cortex, then by hand through {Whole(p.ChordMm)} mm of bone until its tip is lodged in the far cortex, not through it."
            : $"Drill both cortices {Fine(kit.DrillMm(pin))} mm at low speed with cooling, take out the drill sleeve, and turn the pin ({size}) through {Whole(p.ChordMm)} mm of bone, by hand in the far cortex, until its tip stands no more than 2 mm past it.";
        string skin = p.ThreadThroughSkin ? $" and comes through the skin, {Full(p.SoftTissueMm!.Value)} mm off the bone: take a shorter thread" : "";
        string exposed = p.ExposedThreadMm > 0.5 ? $" {Full(p.ExposedThreadMm.Value)} mm of thread stays outside the near cortex{skin}." : "";
        return $"{depth}{exposed} Confirm by image.";
    }

    /// <summary>How the hole is made ready; in full the first time.</summary>
    public string Approach(Pin pin, int? asInStep)
    {
        if (asInStep is int n)
        {
            return $"Cut, spread, sleeve and trocar on bone as in step {n}.";
        }

        string nested = LengthOf(pin).Tip == PinTip.Predrilled ? "the nested sleeves with their trocar" : "the pin sleeve with its trocar";
        return $"Stab the skin lengthwise 10–15 mm, spread to bone, put {nested} on it, feel both edges and centre between them.";
    }

    /// <summary>A rod with what it is loaded with and where it goes.</summary>
    public string Mount(MountRod act)
    {
        Rod rod = _layout.Rod(act.Rod);
        (double from, double to) = _layout.Extent(rod);
        double taken = kit.Items.First(i => i.Kind == KitKind.Rod && i.Parts.Contains(rod.Id)).LengthMm!.Value;
        bool lacking = kit.Shortages.Any(s => s.Kind == KitKind.Rod && s.Parts.Contains(rod.Id));
        string what = $"rod {rod.Id} ({Fine(rod.DiameterMm)} mm {rod.Material}, {(lacking ? $"at least {Whole(Math.Ceiling(to - from))}" : Whole(taken))} mm)";
        LaidClamp[] loaded = [.. _layout.PinClampsOn(rod.Id).Where(c => act.Loaded.Contains(c.Part.Id))];
        if (_layout.Placed(rod).Along.Z > 0)
        {
            Array.Reverse(loaded);
        }

        string load = loaded.Length == 0 ? $"Take {what}." : $"On the table put {Named("clamp", [.. loaded.Select(c => c.Part.Id)])} on {what}, {(loaded.Length > 1 ? "in this order from its proximal end" : "at its place")}.";
        string standing = loaded.Length == 0 ? "" : $" Bring it to {Ends(loaded)}; tighten by hand only.";
        string joined = act.Joining.IsEmpty ? "" : $" Tie it with {List([.. act.Joining.Select(id => Joint(id, rod.Id))])}, open to the side, since {(act.Joining.Length > 1 ? "these rods are" : "that rod is")} mounted already; tighten by hand only.";
        return load + standing + joined;
    }

    /// <summary>A clamp added to a mounted rod.</summary>
    public string Add(string clamp)
    {
        LaidClamp c = _layout.Clamps.First(x => x.Part.Id == clamp);
        return $"Add open-sided clamp {clamp} between standing pin {c.Part.Pin} and mounted rod {c.Part.Rod}, {Whole(_layout.StandoffMm(c))} mm off the bone; tighten by hand only.";
    }

    public PinLength LengthOf(Pin pin) => kit.Lengths.First(p => p.Pin == pin.Id);

    // Outermost clamps of a rod, with the rod's distance from the bone along their pins.
    private string Ends(LaidClamp[] loaded)
    {
        LaidClamp[] all = [.. _layout.PinClampsOn(loaded[0].Part.Rod)], ends = all.Length > 1 ? [all[0], all[^1]] : all;
        return List([.. ends.OrderBy(e => _layout.Pin(e.Part.Pin!).LevelMm).Select(e => $"pin {e.Part.Pin} with clamp {e.Part.Id}, {Whole(_layout.StandoffMm(e))} mm from bone surface to rod axis")]);
    }

    private string Joint(string clamp, string rod)
    {
        Clamp c = _layout.Clamps.First(x => x.Part.Id == clamp).Part;
        LaidClamp at = _layout.Clamps.First(x => x.Part.Id == clamp);
        return $"clamp {clamp} to rod {(c.Rod == rod ? c.OtherRod : c.Rod)}, {Level(-at.At.OnRodMm.Z, _layout.BoneLengthMm)}";
    }

    /// <summary>Ids of clamps by state.</summary>
    public ImmutableArray<string> Clamps(ClampState state) => [.. _layout.Clamps.Where(c => c.Part.State == state).Select(c => c.Part.Id)];
}
