using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Materials;
using static Halfpin.Domain.Validity.CaseRules;

namespace Halfpin.Domain.Validity;

/// <summary>What must hold within the frames of a case.</summary>
internal static class FrameRules
{
    public static IEnumerable<Fault> Check(Case value)
    {
        string[] materials = [.. value.Materials.Select(m => m.Id).Concat(BuiltInMaterials.All.Select(b => b.Material.Id)).Distinct()];
        IEnumerable<Fault> faults = Duplicates(value.Frames.Select((f, i) => (f.Id, $"/frames/{i}/id")));
        for (int i = 0; i < value.Frames.Length; i++)
        {
            string pointer = $"/frames/{i}";
            faults = faults.Concat(value.Frames[i] switch
            {
                { Construct: not null, Parts: null } f => ConstructFaults(value, f.Construct, $"{pointer}/construct", materials),
                { Construct: null, Parts: not null } f => PartsFaults(value, f.Parts, $"{pointer}/parts", materials),
                { Construct: null } => [new(pointer, FaultCodes.Missing, "The frame has neither a construct nor parts.", "Exactly one of construct and parts.", "Add one; a construct is single-rod, double-rod or two-plane.")],
                _ => [new(pointer, FaultCodes.Inconsistent, "The frame has a construct and parts.", "Exactly one of construct and parts.", "Remove one.")],
            });
        }

        return faults;
    }

    private static IEnumerable<Fault> ConstructFaults(Case value, Construct c, string at, string[] materials)
    {
        foreach (Fault f in MaterialFaults(c.Pin.Material, $"{at}/pin/material", materials).Concat(MaterialFaults(c.Rod.Material, $"{at}/rod/material", materials)))
        {
            yield return f;
        }

        foreach (Fault f in Thread(c.Pin.DiameterMm, c.Pin.CoreDiameterMm, c.Pin.ThreadLengthMm, $"{at}/pin").Concat(Hollow(c.Rod.DiameterMm, c.Rod.InnerDiameterMm, $"{at}/rod")))
        {
            yield return f;
        }

        if (c.Placement != PinPlacement.FarFar && c.NearMm is null)
        {
            yield return new($"{at}/nearMm", FaultCodes.Missing, "\"nearMm\" is missing.", "Distance of the nearest pin from the fracture edge.", "Add it, or use far-far placement.");
        }

        if (c.Placement != PinPlacement.FarFar && c.NearMm >= c.FarMm)
        {
            yield return new($"{at}/nearMm", FaultCodes.Inconsistent, $"The near pin, {Text(c.NearMm.Value)} mm, is not nearer than the far one, {Text(c.FarMm)} mm.", $"Less than {Text(c.FarMm)} mm.", "Exchange the two.");
        }

        foreach (Fault f in Special(c, at))
        {
            yield return f;
        }

        if (!value.Fractures.IsEmpty)
        {
            foreach (Fault f in Reach(value, c, at))
            {
                yield return f;
            }
        }
    }

    private static IEnumerable<Fault> Special(Construct c, string at)
    {
        if (c is DoubleRod twin && twin.RodSpacingMm < twin.Rod.DiameterMm)
        {
            yield return new($"{at}/rodSpacingMm", FaultCodes.Collision, $"Rods of {Text(twin.Rod.DiameterMm)} mm at {Text(twin.RodSpacingMm)} mm run into each other.", $"At least {Text(twin.Rod.DiameterMm)} mm.", "Set them farther apart.");
        }

        if (c is TwoPlane v)
        {
            if (!v.CrossLinkLevelsMm.IsEmpty && v.CrossLinkLevelsMm.Length != v.CrossLinks)
            {
                yield return new($"{at}/crossLinkLevelsMm", FaultCodes.Inconsistent, $"{v.CrossLinkLevelsMm.Length} levels are given for {v.CrossLinks} cross-links.", "A level for each cross-link, or none at all.", "Match the two.");
            }

            if (AngleBetween(v.AzimuthDeg, v.SecondAzimuthDeg) < 20)
            {
                yield return new($"{at}/secondAzimuthDeg", FaultCodes.Inconsistent, $"The planes stand {Text(AngleBetween(v.AzimuthDeg, v.SecondAzimuthDeg))}° apart.", "At least 20°; 60° and more makes a useful V.", "Turn the second plane, or use a double-rod.");
            }
        }
    }

    // All pins of a construct must stay in the bone.
    private static IEnumerable<Fault> Reach(Case value, Construct c, string at)
    {
        Fracture first = value.Fractures[0], last = value.Fractures[^1];
        double shift = c is TwoPlane v ? Math.Max(0, v.SecondPlaneShiftMm) : 0;
        double above = first.LevelMm - (first.GapMm / 2) - shift, below = value.Limb.LengthMm - last.LevelMm - (last.GapMm / 2) - shift;
        if (above <= c.FarMm || below <= c.FarMm)
        {
            yield return new($"{at}/farMm", FaultCodes.OutsideBone, $"Pins {Text(c.FarMm + shift)} mm from the fracture lie beyond the bone.", $"Less than {Text(Math.Min(above, below))} mm here.", "Bring the far pins nearer, or give parts with other distances on each side.");
        }

        if (c is TwoPlane two && ConstructBuilder.PinDistancesMm(c)[0] + two.SecondPlaneShiftMm <= 0)
        {
            yield return new($"{at}/secondPlaneShiftMm", FaultCodes.ThroughFracture, "The shift brings the second plane's near pins into the fracture.", $"More than {Text(-ConstructBuilder.PinDistancesMm(c)[0])} mm.", "Shift the second plane away from the fracture.");
        }
    }

    private static IEnumerable<Fault> PartsFaults(Case value, Parts parts, string at, string[] materials)
    {
        IEnumerable<(string, string)> ids = parts.Pins.Select((p, i) => (p.Id, $"{at}/pins/{i}/id"))
            .Concat(parts.Rods.Select((r, i) => (r.Id, $"{at}/rods/{i}/id")))
            .Concat(parts.Clamps.Select((c, i) => (c.Id, $"{at}/clamps/{i}/id")));
        return Duplicates(ids)
            .Concat(parts.Pins.SelectMany((p, i) => PinFaults(value, p, $"{at}/pins/{i}", materials)))
            .Concat(parts.Rods.SelectMany((r, i) => RodFaults(r, $"{at}/rods/{i}", materials)))
            .Concat(parts.Clamps.SelectMany((c, i) => ClampFaults(parts, c, $"{at}/clamps/{i}")))
            .Concat(parts.Clamps.SelectMany((c, i) => OneWayFaults(value, parts, c, $"{at}/clamps/{i}")));
    }

    private static IEnumerable<Fault> PinFaults(Case value, Pin pin, string at, string[] materials)
    {
        if (pin.LevelMm <= 0 || pin.LevelMm >= value.Limb.LengthMm)
        {
            yield return new($"{at}/levelMm", FaultCodes.OutsideBone, $"Pin {pin.Id} at level {Text(pin.LevelMm)} mm misses the bone.", $"Between 0 and {Text(value.Limb.LengthMm)} mm.", "Check the level and the bone's length.");
        }

        foreach (Fault f in MaterialFaults(pin.Material, $"{at}/material", materials).Concat(Thread(pin.DiameterMm, pin.CoreDiameterMm, pin.ThreadLengthMm, at)))
        {
            yield return f;
        }
    }

    private static IEnumerable<Fault> RodFaults(Rod rod, string at, string[] materials)
    {
        foreach (Fault f in MaterialFaults(rod.Material, $"{at}/material", materials).Concat(Hollow(rod.DiameterMm, rod.InnerDiameterMm, at)))
        {
            yield return f;
        }

        foreach ((RodPoint point, string name) in new[] { (rod.From, "from"), (rod.To, "to") })
        {
            if (point.StandoffMm is null == point.RadiusMm is null)
            {
                yield return new($"{at}/{name}", point.StandoffMm is null ? FaultCodes.Missing : FaultCodes.Inconsistent, $"The point has {(point.StandoffMm is null ? "neither" : "both")} a standoff and a radius.", "Exactly one of standoffMm and radiusMm.", "Give the distance from the bone's surface, or from its axis.");
            }
        }
    }

    private static IEnumerable<Fault> ClampFaults(Parts parts, Clamp clamp, string at)
    {
        if (clamp.Pin is null == clamp.OtherRod is null)
        {
            yield return new(at, clamp.Pin is null ? FaultCodes.Missing : FaultCodes.Inconsistent, $"Clamp {clamp.Id} names {(clamp.Pin is null ? "neither" : "both")} a pin and another rod.", "Exactly one of pin and otherRod, beside rod.", "Say what the clamp joins.");
        }

        string[] pins = [.. parts.Pins.Select(p => p.Id)], rods = [.. parts.Rods.Select(r => r.Id)];
        if (clamp.Pin is string pin && !pins.Contains(pin))
        {
            yield return Unknown($"{at}/pin", "pin", pin, pins);
        }

        if (!rods.Contains(clamp.Rod))
        {
            yield return Unknown($"{at}/rod", "rod", clamp.Rod, rods);
        }

        if (clamp.OtherRod is string other && !rods.Contains(other))
        {
            yield return Unknown($"{at}/otherRod", "rod", other, rods);
        }

        if (clamp.OtherRod == clamp.Rod)
        {
            yield return new($"{at}/otherRod", FaultCodes.Inconsistent, $"Clamp {clamp.Id} joins rod {clamp.Rod} to itself.", "Two rods.", "Name the other rod.");
        }
    }

    /// <summary>Whether it can be told which way a one-way clamp slides: a fragment between two fractures leaves the one as it nears the other.</summary>
    internal static IEnumerable<Fault> OneWayFaults(Case value, Parts parts, Clamp clamp, string at)
    {
        if (clamp.OneWay && clamp.OtherRod is not null)
        {
            yield return new($"{at}/oneWay", FaultCodes.Inconsistent, $"Clamp {clamp.Id} joins two rods: which way brings the fragments together is not told.", "oneWay on a clamp that holds a pin.", "Leave it out, or give slideStopMm.");
        }

        if (clamp.OneWay && value.Fractures.Length > 1 && parts.Pins.FirstOrDefault(p => p.Id == clamp.Pin) is Pin pin
            && pin.LevelMm > value.Fractures[0].LevelMm && pin.LevelMm < value.Fractures[^1].LevelMm)
        {
            yield return new($"{at}/oneWay", FaultCodes.Inconsistent, $"Clamp {clamp.Id} holds a fragment between two fractures: what brings it nearer to the one takes it from the other.", "oneWay on a clamp of the first or last fragment.", "Leave it out, or give slideStopMm.");
        }
    }

    private static Fault Unknown(string at, string kind, string id, string[] known) => new(
        at, FaultCodes.Reference, $"There is no {kind} \"{id}\".", known.Length == 0 ? $"This frame has no {kind}s." : string.Join(", ", known), $"Name one of the frame's {kind}s.");

    private static IEnumerable<Fault> MaterialFaults(string id, string at, string[] known) => known.Contains(id)
        ? []
        : [new(at, FaultCodes.Reference, $"There is no material \"{id}\".", string.Join(", ", known), "Name one of these, or add it under materials.")];

    private static IEnumerable<Fault> Thread(double diameterMm, double? coreMm, double? threadMm, string at)
    {
        if (coreMm >= diameterMm)
        {
            yield return new($"{at}/coreDiameterMm", FaultCodes.Inconsistent, $"The core, {Text(coreMm.Value)} mm, is not thinner than the pin, {Text(diameterMm)} mm.", $"Less than {Text(diameterMm)} mm.", "Exchange the two, or leave the core out.");
        }

        if (coreMm is null != threadMm is null)
        {
            string missing = coreMm is null ? "coreDiameterMm" : "threadLengthMm";
            yield return new($"{at}/{missing}", FaultCodes.Missing, $"\"{missing}\" is missing.", "Both coreDiameterMm and threadLengthMm, or neither.", "Add it: the thread bends with its core as far as it reaches.");
        }
    }

    private static IEnumerable<Fault> Hollow(double outerMm, double innerMm, string at)
    {
        if (innerMm >= outerMm)
        {
            yield return new($"{at}/innerDiameterMm", FaultCodes.Inconsistent, $"The inner diameter {Text(innerMm)} mm leaves no wall.", $"Less than {Text(outerMm)} mm.", "Exchange the two, or leave it out for a solid rod.");
        }
    }

    private static double AngleBetween(double aDeg, double bDeg) => Math.Abs(Math.IEEERemainder(aDeg - bDeg, 360));
}
