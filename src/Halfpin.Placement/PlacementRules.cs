using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;
using Halfpin.Mechanics.Geometry;

namespace Halfpin.Placement;

/// <summary>
/// What must hold between the parts of a frame in space, before it can be analysed: pins in bone and clear of the fractures and
/// of each other, clamps within reach. These are bounds of the possible, not of good practice.
/// </summary>
public static class PlacementRules
{
    /// <summary>Farthest that the axes of a clamp's two members may pass each other.</summary>
    public const double MaxClampReachMm = 40;

    // Sine of the angle below which two members have no nearest points to speak of.
    private const double Parallel = 1e-3;

    // Two clamps of a rod or pin nearer than this would be one.
    private const double MinClampSpacingMm = 5;

    // A free stretch of pin shorter than this is no beam, and so stiff that it costs the rest its digits.
    private const double MinFreePinMm = 0.1;

    /// <summary>All faults of placement of a case's frames. Numbers that are NaN are passed over.</summary>
    public static IEnumerable<Fault> Check(Case value)
    {
        if (value.Fractures.IsEmpty || double.IsNaN(value.Limb.LengthMm))
        {
            return [];
        }

        BoneShape bone = BoneShape.For(value.Limb);
        return Planes(bone, value.Fractures).Concat(value.Frames.SelectMany((frame, i) => (frame.Construct, frame.Parts) switch
        {
            (Construct c, null) => Of(bone, value.Fractures, ConstructBuilder.Build(c, value.Fractures), new($"/frames/{i}/construct", NamesParts: false)),
            (null, Parts p) => Of(bone, value.Fractures, p, new($"/frames/{i}/parts", NamesParts: true)),
            _ => [],
        }));
    }

    /// <summary>All faults of placement of one frame's parts; pointers are relative to the frame.</summary>
    public static IEnumerable<Fault> Check(BoneShape bone, ImmutableArray<Fracture> fractures, Parts parts) => Of(bone, fractures, parts, new("/parts", NamesParts: true));

    /// <summary>The same for pins that stand in the bone already, in the order of the parts.</summary>
    internal static IEnumerable<Fault> Check(BoneShape bone, ImmutableArray<Fracture> fractures, Parts parts, PlacedPin[] pins) => Of(bone, fractures, parts, pins, new("/parts", NamesParts: true));

    // Tilted planes must not meet within the bone.
    private static IEnumerable<Fault> Planes(BoneShape bone, ImmutableArray<Fracture> fractures)
    {
        for (int i = 1; i < fractures.Length; i++)
        {
            double between = FracturePlane.BetweenMm(fractures[i - 1], fractures[i], bone);
            if (between <= 0 && fractures[i - 1].LevelMm + (fractures[i - 1].GapMm / 2) < fractures[i].LevelMm - (fractures[i].GapMm / 2))
            {
                yield return new($"/fractures/{i}/tiltDeg", FaultCodes.Inconsistent, $"The planes of this fracture and the one above meet in the bone: their gaps reach into each other by {Text(-between)} mm at its surface.", "Gaps that nowhere meet.", "Check tilts and levels, or enter one comminuted fracture with a gap that spans both.");
            }
        }
    }

    private static IEnumerable<Fault> Of(BoneShape bone, ImmutableArray<Fracture> fractures, Parts parts, Pointers pointers)
    {
        PlacedPin[] pins = new PlacedPin[parts.Pins.Length];
        for (int i = 0; i < pins.Length; i++)
        {
            pins[i] = PlacedPin.Place(bone, parts.Pins[i]);
        }

        return Of(bone, fractures, parts, pins, pointers);
    }

    // Pointers and words are made where there is a fault: of a million frames few have one.
    private static IEnumerable<Fault> Of(BoneShape bone, ImmutableArray<Fracture> fractures, Parts parts, PlacedPin[] pins, Pointers pointers)
    {
        for (int i = 0; i < pins.Length; i++)
        {
            foreach (Fault fault in InBone(bone, parts.Pins[i], pins[i], i, pointers))
            {
                yield return fault;
            }
        }

        for (int i = 0; i < pins.Length; i++)
        {
            for (int n = 0; n < fractures.Length; n++)
            {
                if (FracturePlane.ClearanceMm(fractures[n], pins[i]) < parts.Pins[i].DiameterMm / 2)
                {
                    yield return ThroughFracture(fractures[n], fractures.Length == 1 ? "the fracture" : $"fracture {n + 1}", parts.Pins[i], pointers.To($"pins/{i}/levelMm"));
                }
            }
        }

        foreach (Fault fault in Collisions(parts, pins, pointers))
        {
            yield return fault;
        }

        PlacedRod[] rods = new PlacedRod[parts.Rods.Length];
        for (int i = 0; i < rods.Length; i++)
        {
            rods[i] = PlacedRod.Place(bone, parts.Rods[i]);
        }

        foreach (Fault fault in Rods(parts, rods, pointers))
        {
            yield return fault;
        }

        foreach (Fault fault in Clamps(parts, pins, rods, pointers))
        {
            yield return fault;
        }
    }

    private static IEnumerable<Fault> InBone(BoneShape bone, Pin pin, PlacedPin placed, int number, Pointers pointers)
    {
        if (!(pin.LevelMm > 0 && pin.LevelMm < bone.LengthMm) || double.IsNaN(pin.AzimuthDeg) || double.IsNaN(pin.TiltDeg))
        {
            yield break; // Told as outside the bone, or as no number.
        }

        if (double.IsNaN(placed.ChordMm))
        {
            string end = double.IsNaN(placed.SurfaceMm) == (pin.TiltDeg > 0) ? "proximal" : "distal";
            yield return new(pointers.To($"pins/{number}"), FaultCodes.OutsideBone, $"Pin {pin.Id} at {Text(pin.LevelMm)} mm, tilted {Text(pin.TiltDeg)}°, leaves through the {end} end of the bone.", "A pin that meets the bone's surface on both sides.", "Tilt it less, or move it away from the end.");
            yield break;
        }

        double farWall = placed.FarCanalMm - placed.FarSurfaceMm;
        if (-pin.TipBeyondMm >= farWall)
        {
            yield return new($"{pointers.To($"pins/{number}")}/tipBeyondMm", FaultCodes.OutsideBone, $"Pin {pin.Id} ends {Text(-pin.TipBeyondMm)} mm before the far surface, where the far cortex is {Text(farWall)} mm thick: it holds one cortex only.", $"More than {Text(-farWall)} mm; pins here hold both cortices.", "Drive the pin into the far cortex.");
        }

        double edge = pin.DiameterMm / 2 * placed.Outward.Dot(PlacedPin.Radial(pin.AzimuthDeg));
        double near = -placed.At(placed.SurfaceMm).Z, far = -placed.At(placed.FarSurfaceMm).Z;
        double proximal = Math.Min(near, far) - edge, distal = Math.Max(near, far) + edge;
        if (proximal < 0 || distal > bone.LengthMm)
        {
            yield return new(pointers.To($"pins/{number}"), FaultCodes.OutsideBone, $"Pin {pin.Id} breaks out of the {(proximal < 0 ? "proximal" : "distal")} end of the bone: it takes up levels {Text(proximal)} to {Text(distal)} mm.", $"Between 0 and {Text(bone.LengthMm)} mm with its whole width.", "Move it away from the end.");
        }
    }

    private static Fault ThroughFracture(Fracture fracture, string name, Pin pin, string at) =>
        new(at, FaultCodes.ThroughFracture, $"Pin {pin.Id} runs through {name}.", $"At least {Text((fracture.GapMm + pin.DiameterMm) / 2)} mm clear of its middle along the whole pin.", "Move the pin away from the fracture.");

    private static IEnumerable<Fault> Collisions(Parts parts, PlacedPin[] pins, Pointers pointers)
    {
        for (int i = 0; i < pins.Length; i++)
        {
            for (int j = i + 1; j < pins.Length; j++)
            {
                double touch = (parts.Pins[i].DiameterMm + parts.Pins[j].DiameterMm) / 2;
                double distance = PlacedPin.DistanceInBoneMm(pins[i], pins[j]);
                if (distance < touch)
                {
                    yield return new(pointers.To($"pins/{j}/levelMm"), FaultCodes.Collision, $"Pins {parts.Pins[i].Id} and {parts.Pins[j].Id} meet in the bone: their axes pass at {Text(distance)} mm.", $"At least {Text(touch)} mm.", "Move one of them along the bone; in a V, shift the second plane.");
                }
            }
        }
    }

    private static IEnumerable<Fault> Rods(Parts parts, PlacedRod[] rods, Pointers pointers)
    {
        for (int i = 0; i < parts.Rods.Length; i++)
        {
            PlacedRod placed = rods[parts.RodIndex(parts.Rods[i].Id)];
            if (placed.SpanMm < 10)
            {
                yield return new(pointers.To($"rods/{i}/to"), FaultCodes.Inconsistent, $"Rod {parts.Rods[i].Id} runs {Text(placed.SpanMm)} mm.", "At least 10 mm between its two points.", "Check the two points.");
            }
            else if (placed.OverhangMm < 0)
            {
                yield return new(pointers.To($"rods/{i}/lengthMm"), FaultCodes.Inconsistent, $"Rod {parts.Rods[i].Id} is shorter than the {Text(placed.SpanMm)} mm between its points.", $"At least {Text(placed.SpanMm)} mm.", "Use a longer rod or leave the length out.");
            }
        }
    }

    private static IEnumerable<Fault> Clamps(Parts parts, PlacedPin[] pins, PlacedRod[] rods, Pointers pointers)
    {
        List<Seat> seats = new(2 * parts.Clamps.Length);
        for (int i = 0; i < parts.Clamps.Length; i++)
        {
            Clamp clamp = parts.Clamps[i];
            int pin = parts.PinIndex(clamp.Pin), rod = parts.RodIndex(clamp.Rod), other = parts.RodIndex(clamp.OtherRod);
            if (rod < 0 || (pin < 0 && (other < 0 || other == rod)))
            {
                continue; // Told as an unknown reference.
            }

            (Vec3 through, Vec3 along) = pin >= 0 ? (pins[pin].CrossingMm, pins[pin].Outward) : (rods[other].FromMm, rods[other].Along);
            PlacedClamp placed = PlacedClamp.Between(through, along, rods[rod].FromMm, rods[rod].Along);
            Fault? fault = Reach(clamp, placed, along, rods[rod], i, pointers)
                ?? (pin >= 0 ? AlongPin(clamp, parts.Pins[pin], pins[pin], placed, i, pointers) : OnRod(clamp, clamp.OtherRod!, placed.AlongMemberMm, rods[other], i, pointers));
            if (fault is not null)
            {
                yield return fault;
            }
            else if (clamp.State != ClampState.Off)
            {
                // A body takes up length of its pin only; on rods a clamp is a place.
                seats.Add(new(false, clamp.Rod, placed.AlongRodMm, 0, clamp.Id, i));
                seats.Add(pin >= 0 ? new(true, clamp.Pin!, placed.AlongMemberMm, clamp.BodyLengthMm / 2, clamp.Id, i) : new(false, clamp.OtherRod!, placed.AlongMemberMm, 0, clamp.Id, i));
            }
        }

        foreach (Fault crowded in AnyCrowded(seats) ? Crowded(seats, pointers) : [])
        {
            yield return crowded;
        }
    }

    private static Fault? Reach(Clamp clamp, PlacedClamp placed, Vec3 along, PlacedRod rod, int number, Pointers pointers)
    {
        string Member() => clamp.Pin is not null ? $"pin {clamp.Pin}" : $"rod {clamp.OtherRod}";
        if (along.Cross(rod.Along).Length < Parallel)
        {
            return new(pointers.To($"clamps/{number}"), FaultCodes.OutOfReach, $"Clamp {clamp.Id}: {Member()} and rod {clamp.Rod} run parallel.", "Members that cross.", "Turn one of them.");
        }

        return placed.EccentricityMm > MaxClampReachMm
            ? new(pointers.To($"clamps/{number}"), FaultCodes.OutOfReach, $"Clamp {clamp.Id}: rod {clamp.Rod} never comes within {Text(MaxClampReachMm)} mm of {Member()}; at its nearest it passes at {Text(placed.EccentricityMm)} mm.", $"At most {Text(MaxClampReachMm)} mm.", "Bring the rod to the pin, or clamp another one.")
            : OnRod(clamp, clamp.Rod, placed.AlongRodMm, rod, number, pointers);
    }

    private static Fault? OnRod(Clamp clamp, string rodId, double alongMm, PlacedRod rod, int number, Pointers pointers)
    {
        double beyond = Math.Max(-alongMm, alongMm - rod.SpanMm) - rod.OverhangMm;
        return beyond > 1e-6
            ? new(pointers.To($"clamps/{number}"), FaultCodes.OutOfReach, $"Clamp {clamp.Id} would sit {Text(beyond)} mm beyond the end of rod {rodId}.", "A place on the rod.", "Use a longer rod.")
            : null;
    }

    private static Fault? AlongPin(Clamp clamp, Pin pin, PlacedPin placed, PlacedClamp at, int number, Pointers pointers)
    {
        double above = at.AlongMemberMm - placed.SurfaceMm, free = above - (clamp.BodyLengthMm / 2);
        if (above <= 0)
        {
            return new(pointers.To($"clamps/{number}"), FaultCodes.OutOfReach, $"Clamp {clamp.Id} would sit in the bone: rod {clamp.Rod} passes pin {pin.Id} {Text(-above)} mm below its surface.", "Outside the bone.", "Move the rod away from the bone.");
        }

        if (free < MinFreePinMm)
        {
            return new(pointers.To($"clamps/{number}"), FaultCodes.OutOfReach, $"The body of clamp {clamp.Id}, {Text(clamp.BodyLengthMm)} mm long with its middle {Text(above)} mm from the bone, leaves no free pin {pin.Id}.", $"A middle at least {Text((clamp.BodyLengthMm / 2) + MinFreePinMm)} mm from the bone's surface.", "Move the rod away from the bone, or use a shorter clamp.");
        }

        double tail = at.AlongMemberMm + (clamp.BodyLengthMm / 2) - placed.TipMm;
        return pin.LengthMm < tail
            ? new(pointers.To($"clamps/{number}"), FaultCodes.OutOfReach, $"Pin {pin.Id}, {Text(pin.LengthMm.Value)} mm long, ends before clamp {clamp.Id}.", $"At least {Text(tail)} mm.", "Use a longer pin or bring the rod closer.")
            : null;
    }

    // Whether any two seats of a part are too near each other, neighbours or not.
    private static bool AnyCrowded(List<Seat> seats)
    {
        for (int i = 0; i < seats.Count; i++)
        {
            for (int j = 0; j < i; j++)
            {
                if (seats[i].OnPin == seats[j].OnPin && seats[i].Part == seats[j].Part && Math.Abs(seats[i].AtMm - seats[j].AtMm) < LeastApartMm(seats[i], seats[j]))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static double LeastApartMm(in Seat a, in Seat b) => Math.Max(MinClampSpacingMm, a.HalfBodyMm + b.HalfBodyMm > 0 ? a.HalfBodyMm + b.HalfBodyMm + MinFreePinMm : 0);

    private static IEnumerable<Fault> Crowded(List<Seat> seats, Pointers pointers)
    {
        foreach (IGrouping<(bool OnPin, string Id), Seat> part in seats.GroupBy(s => (s.OnPin, s.Part)))
        {
            Seat[] row = [.. part.OrderBy(s => s.AtMm)];
            for (int i = 1; i < row.Length; i++)
            {
                double apart = row[i].AtMm - row[i - 1].AtMm, least = LeastApartMm(row[i], row[i - 1]);
                if (apart < least)
                {
                    string meet = apart < MinClampSpacingMm ? "" : " and their bodies meet";
                    yield return new(pointers.To($"clamps/{row[i].Index}"), FaultCodes.Collision, $"Clamps {row[i - 1].Clamp} and {row[i].Clamp} sit {Text(apart)} mm apart on {(part.Key.OnPin ? "pin" : "rod")} {part.Key.Id}{meet}.", $"At least {Text(least)} mm.", row[i].HalfBodyMm + row[i - 1].HalfBodyMm > 0 ? "Move one of them, or use shorter clamps." : "Move one of them.");
                }
            }
        }
    }

    // Where a clamp sits on a pin or a rod, and how much of it its body takes up to either side.
    private readonly record struct Seat(bool OnPin, string Part, double AtMm, double HalfBodyMm, string Clamp, int Index);

    // Parts that a construct lays out have no place of their own in the file.
    private readonly record struct Pointers(string Root, bool NamesParts)
    {
        public string To(string part) => NamesParts ? $"{Root}/{part}" : Root;
    }

    private static string Text(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
