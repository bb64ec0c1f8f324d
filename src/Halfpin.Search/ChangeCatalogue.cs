using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Search;

/// <summary>A change to a frame.</summary>
/// <param name="Subject">What it changes; two changes of one subject exclude each other.</param>
/// <param name="Size">How large it is beside others. ASSUMED: a step of 5 mm of a rod, of 10 mm of pins or of 10° counts one, thicker parts 4, a pin more in each fragment or pins between fractures 6, a second rod 8, a second plane 12.</param>
/// <param name="Words">The change in words.</param>
/// <param name="Apply">The changed frame.</param>
/// <param name="WordsOn">The change in words on a frame that was changed before, where that alters them.</param>
internal sealed record FrameChange(string Subject, double Size, string Words, Func<Frame, Frame> Apply, Func<Frame, string>? WordsOn = null);

/// <summary>The changes that are tried on a frame that does not pass; <see cref="PinsBetween"/> has those that give a free fragment its pins.</summary>
internal static class ChangeCatalogue
{
    private const double MostMiddleMoveMm = 20;
    private const double MostMoveMm = 40;
    private const double MostTurnDeg = 60;
    private const double ThickestPinMm = 6;
    private const double UsualSpacingMm = 30;
    private const double UsualPlaneDeg = 55;
    private const int MostPins = 3;
    private const double LeastStandoffMm = 15;

    /// <summary>Single changes, smallest first; none of them sets pins where there are none.</summary>
    public static ImmutableArray<FrameChange> Of(Case value, Frame frame, CandidateSet candidates) => [.. (frame.Construct is Construct c ? OfConstruct(value, c, candidates) : OfParts(frame.Parts!).Concat(MoveBetween(value, frame.Parts!)))
        .OrderBy(x => x.Size).ThenBy(x => x.Words, StringComparer.Ordinal)];

    private static IEnumerable<FrameChange> OfConstruct(Case value, Construct c, CandidateSet candidates)
    {
        FrameChange Change(string subject, double size, string words, Func<Construct, Construct> apply) => new(subject, size, words, f => f with { Construct = apply(f.Construct!) });
        for (double d = 1; d <= MostMoveMm; d++)
        {
            foreach (double to in new[] { c.StandoffMm - d, c.StandoffMm + d }.Where(s => s >= LeastStandoffMm))
            {
                yield return Change("rod", d / 5, $"{(to < c.StandoffMm ? "bring the rod in" : "move the rod out")} from {N(c.StandoffMm)} to {N(to)} mm", x => x with { StandoffMm = to });
            }
        }

        for (double d = 5; d <= MostMoveMm; d += 5)
        {
            foreach (double to in new[] { c.FarMm - d, c.FarMm + d }.Where(f => f > (c.NearMm ?? 0) + 10 && f < value.Limb.LengthMm))
            {
                yield return Change("far", d / 10, $"move the far pins from {N(c.FarMm)} to {N(to)} mm from the fracture", x => x with { FarMm = to });
            }

            foreach (double to in c.NearMm is double near ? new[] { near - d, near + d }.Where(n => n >= 5 && n < c.FarMm - 10) : [])
            {
                yield return Change("near", d / 10, $"move the near pins from {N(c.NearMm!.Value)} to {N(to)} mm from the fracture", x => x with { NearMm = to });
            }
        }

        for (double d = 5; d <= MostTurnDeg; d += 5)
        {
            foreach (double to in new[] { c.AzimuthDeg - d, c.AzimuthDeg + d }.Select(a => Math.IEEERemainder(a, 360)))
            {
                yield return Change("plane", d / 10, $"turn the pins from {N(c.AzimuthDeg)}° to {N(to)}°", x => x with { AzimuthDeg = to });
            }
        }

        foreach (PinSpec pin in candidates.Families.Select(f => f.Pin).Distinct().Where(p => p.DiameterMm > c.Pin.DiameterMm && p.DiameterMm <= ThickestPinMm))
        {
            yield return Change("pins", 4, $"use {N(pin.DiameterMm)} mm {pin.Material} pins in place of {N(c.Pin.DiameterMm)} mm", x => x with { Pin = pin });
        }

        foreach (RodSpec rod in candidates.Families.Select(f => f.Rod).Distinct().Where(r => r != c.Rod))
        {
            yield return Change("rods", 4, $"use {N(rod.DiameterMm)} mm {rod.Material} rods in place of {N(c.Rod.DiameterMm)} mm {c.Rod.Material}", x => x with { Rod = rod });
        }

        if (c.PinsPerFragment < MostPins)
        {
            yield return Change("count", 6, "add a pin in each fragment", x => x with { PinsPerFragment = x.PinsPerFragment + 1 });
        }

        if (c is SingleRod)
        {
            yield return Change("construct", 8, $"add a second rod {N(UsualSpacingMm)} mm outside the first", x => new DoubleRod { Placement = x.Placement, PinsPerFragment = x.PinsPerFragment, NearMm = x.NearMm, FarMm = x.FarMm, AzimuthDeg = x.AzimuthDeg, StandoffMm = x.StandoffMm, Pin = x.Pin, Rod = x.Rod, RodSpacingMm = UsualSpacingMm });
            foreach (double turn in new[] { UsualPlaneDeg, -UsualPlaneDeg })
            {
                double second = Math.IEEERemainder(c.AzimuthDeg + turn, 360);
                yield return Change("construct", 12, $"add a second plane of pins at {N(second)}° with two cross-links", x => new TwoPlane { Placement = x.Placement, PinsPerFragment = x.PinsPerFragment, NearMm = x.NearMm, FarMm = x.FarMm, AzimuthDeg = x.AzimuthDeg, StandoffMm = x.StandoffMm, Pin = x.Pin, Rod = x.Rod, SecondAzimuthDeg = second, CrossLinks = 2 });
            }
        }
    }

    private static IEnumerable<FrameChange> OfParts(Parts parts)
    {
        for (double d = 1; d <= MostMoveMm; d++)
        {
            foreach (double by in new[] { -d, d })
            {
                yield return new("rod", d / 5, $"{(by < 0 ? "bring all rods in" : "move all rods out")} by {N(d)} mm", f => f with { Parts = f.Parts! with { Rods = [.. f.Parts!.Rods.Select(r => r with { From = Moved(r.From, by), To = Moved(r.To, by) })] } });
            }
        }

        foreach (double thicker in new[] { 5, ThickestPinMm }.Where(t => parts.Pins.Any(p => p.DiameterMm < t)))
        {
            yield return new("pins", 4, $"use {N(thicker)} mm pins in place of thinner ones", f => f with { Parts = f.Parts! with { Pins = [.. f.Parts!.Pins.Select(p => p.DiameterMm < thicker ? p with { DiameterMm = thicker, CoreDiameterMm = p.CoreDiameterMm * thicker / p.DiameterMm } : p)] } });
        }
    }

    private static IEnumerable<FrameChange> MoveBetween(Case value, Parts parts)
    {
        foreach (Pin pin in parts.Pins.Where(p => p.LevelMm > value.Fractures[0].LevelMm && p.LevelMm < value.Fractures[^1].LevelMm))
        {
            for (double d = 5; d <= MostMiddleMoveMm; d += 5)
            {
                foreach (double to in new[] { pin.LevelMm - d, pin.LevelMm + d })
                {
                    yield return new($"pin {pin.Id}", d / 10, $"move pin {pin.Id} from {N(pin.LevelMm)} to {N(to)} mm", f => f with { Parts = f.Parts! with { Pins = [.. f.Parts!.Pins.Select(p => p.Id == pin.Id ? p with { LevelMm = to } : p)] } });
                }
            }
        }
    }

    private static RodPoint Moved(RodPoint point, double byMm) => point.StandoffMm is double s ? point with { StandoffMm = Math.Max(0, s + byMm) } : point with { RadiusMm = Math.Max(0, point.RadiusMm!.Value + byMm) };

    private static string N(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
}
