using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Workbench.Handles;

/// <summary>The values of a frame that can be changed by hand.</summary>
public static class FrameHandles
{
    private const double MostStandoffMm = 150;
    private const double LeastStandoffMm = 10;

    /// <summary>The handles of a frame of a case, in the order in which they are shown.</summary>
    public static ImmutableArray<Handle> Of(Case value, string frameId)
    {
        Frame frame = value.Frames.First(f => f.Id == frameId);
        return [.. frame.Construct is Construct c ? OfConstruct(value, frameId, c) : OfParts(value, frameId, frame.Parts!)];
    }

    private static IEnumerable<Handle> OfConstruct(Case value, string id, Construct c)
    {
        Parts parts = ConstructBuilder.Build(c, value.Fractures);
        int planes = c is TwoPlane ? 2 : 1, perPlane = parts.Pins.Length / planes;
        Handle Make(string key, string label, string unit, double now, double min, double max, double step, string help, Func<Construct, double, Construct> with, params HandleGrip[] grips) =>
            new(key, label, unit, now, min, max, step, help, (x, v) => WithConstruct(x, id, k => with(k, v))) { Grips = grips };
        string[] mainRods = c is TwoPlane ? ["r1", "r2"] : ["r1"];
        yield return Make("standoff", "Rod to bone", "mm", c.StandoffMm, LeastStandoffMm, MostStandoffMm, 1, "From the bone's surface to the rod's axis along the outermost pins.",
            (k, v) => k with { StandoffMm = v }, [.. mainRods.Select(r => new HandleGrip(r, HandleMotion.Out, 1))]);
        if (c is DoubleRod twin)
        {
            yield return Make("rodSpacing", "Outer rod beyond inner", "mm", twin.RodSpacingMm, 10, 100, 1, "Between the axes of the two rods along the pins.",
                (k, v) => ((DoubleRod)k) with { RodSpacingMm = v }, new HandleGrip("r2", HandleMotion.Out, 1));
        }

        double room = Math.Max(value.Fractures[0].LevelMm, value.Limb.LengthMm - value.Fractures[^1].LevelMm) - 5;
        if (c.Placement != PinPlacement.FarFar)
        {
            yield return Make("near", "Near pins", "mm", c.NearMm ?? 0, 10, Math.Min(150, c.FarMm - 10), 1, "From the fracture's edge along the bone.",
                (k, v) => k with { NearMm = v }, [.. Grips(perPlane, planes, nearest: true, 1)]);
        }

        yield return Make("far", "Far pins", "mm", c.FarMm, Math.Max(20, (c.NearMm is double n && c.Placement != PinPlacement.FarFar ? n : 0) + 10), Math.Max(30, Math.Floor(room)), 1, "From the fracture's edge along the bone.",
            (k, v) => k with { FarMm = v }, [.. Grips(perPlane, planes, nearest: false, 1), .. c.Placement == PinPlacement.FarFar ? Grips(perPlane, planes, nearest: true, 2) : []]);
        yield return Make("azimuth", "Direction", "°", c.AzimuthDeg, -180, 180, 5, "In which the pins leave the bone: 0 anterior, positive toward medial.",
            (k, v) => k with { AzimuthDeg = v }, [.. parts.Pins.Take(perPlane).Select(p => new HandleGrip(p.Id, HandleMotion.Round, 1))]);
        if (c is TwoPlane v2)
        {
            yield return Make("secondAzimuth", "Second direction", "°", v2.SecondAzimuthDeg, -180, 180, 5, "Of the second plane of pins.",
                (k, v) => ((TwoPlane)k) with { SecondAzimuthDeg = v }, [.. parts.Pins.Skip(perPlane).Select(p => new HandleGrip(p.Id, HandleMotion.Round, 1))]);
            yield return Make("secondShift", "Second plane farther by", "mm", v2.SecondPlaneShiftMm, -60, 60, 1, "How much farther from the fracture the second plane's pins stand, so that pins do not meet in the bone.",
                (k, v) => ((TwoPlane)k) with { SecondPlaneShiftMm = v });
            yield return Make("crossLinks", "Cross-links", "", v2.CrossLinks, 0, 4, 1, "Rods that tie the two planes.",
                (k, v) => ((TwoPlane)k) with { CrossLinks = (int)Math.Round(v), CrossLinkLevelsMm = [] });
            foreach (Handle link in Links(value, id, v2, parts))
            {
                yield return link;
            }
        }

        yield return Make("pinsPerFragment", "Pins a side", "", c.PinsPerFragment, 2, 5, 1, "In each fragment and plane.", (k, v) => k with { PinsPerFragment = (int)Math.Round(v) });
        yield return Make("pinDiameter", "Pin diameter", "mm", c.Pin.DiameterMm, 3, 7, 0.5, "Of the shank. The core of its thread keeps its share.",
            (k, v) => k with { Pin = k.Pin with { DiameterMm = v, CoreDiameterMm = k.Pin.CoreDiameterMm * v / k.Pin.DiameterMm } });
        if (c.Pin.ThreadLengthMm is double thread)
        {
            yield return Make("threadLength", "Thread length", "mm", thread, 10, 80, 1, "From the tip. Thread bends with its core and should end before the skin.",
                (k, v) => k with { Pin = k.Pin with { ThreadLengthMm = v } });
        }

        yield return Make("rodDiameter", "Rod diameter", "mm", c.Rod.DiameterMm, 6, 15, 0.5, "Of every rod.", (k, v) => k with { Rod = k.Rod with { DiameterMm = v } });
    }

    // A link stands where both rods run. The others keep the levels they have, as soon as one is moved.
    private static IEnumerable<Handle> Links(Case value, string id, TwoPlane v, Parts parts)
    {
        Rod[] rods = [.. parts.Rods.Take(2)];
        double min = Math.Ceiling(rods.Max(r => r.From.LevelMm)), max = Math.Floor(rods.Min(r => r.To.LevelMm));
        double[] LevelsMm(TwoPlane of, Case within) => [.. ConstructBuilder.Build(of, within.Fractures).Rods.Skip(2).Select(l => l.From.LevelMm)];
        double[] now = LevelsMm(v, value);
        for (int i = 0; i < now.Length; i++)
        {
            int at = i;
            string name = now.Length == 1 ? "Cross-link level" : string.Create(CultureInfo.InvariantCulture, $"Cross-link {i + 1} level");
            yield return new(string.Create(CultureInfo.InvariantCulture, $"crossLink{i + 1}"), name, "mm", now[i], min, max, 1, "Of the rod that ties the two planes, from the knee's joint line. Where the rods have most room unless it is moved.",
                (c, to) => WithConstruct(c, id, k => LevelsMm((TwoPlane)k, c) is var levels && levels[at] == to ? k : ((TwoPlane)k) with { CrossLinkLevelsMm = [.. levels[..at], to, .. levels[(at + 1)..]] }))
            { Grips = [new(string.Create(CultureInfo.InvariantCulture, $"l{i + 1}"), HandleMotion.Along, 1)] };
        }
    }

    // The pins of a construct, proximal fragment first: the far one of the proximal fragment is the first, the near one the last of its half.
    private static IEnumerable<HandleGrip> Grips(int perPlane, int planes, bool nearest, double factor)
    {
        int half = perPlane / 2;
        for (int plane = 0; plane < planes; plane++)
        {
            int first = (plane * perPlane) + 1;
            yield return new(Pin(nearest ? first + half - 1 : first), HandleMotion.Along, -factor);
            yield return new(Pin(nearest ? first + half : first + perPlane - 1), HandleMotion.Along, factor);
        }
    }

    private static string Pin(int number) => string.Create(CultureInfo.InvariantCulture, $"p{number}");

    private static IEnumerable<Handle> OfParts(Case value, string id, Parts parts)
    {
        for (int i = 0; i < parts.Pins.Length; i++)
        {
            int at = i;
            Pin pin = parts.Pins[i];
            yield return new($"{pin.Id}.level", $"{pin.Id} level", "mm", pin.LevelMm, 5, value.Limb.LengthMm - 5, 1, "Where its axis crosses the bone's, from the knee's joint line.",
                (c, v) => WithPin(c, id, at, p => p with { LevelMm = v }))
            { Grips = [new(pin.Id, HandleMotion.Along, 1)] };
            yield return new($"{pin.Id}.azimuth", $"{pin.Id} direction", "°", pin.AzimuthDeg, -180, 180, 5, "In which it leaves the bone: 0 anterior, positive toward medial.",
                (c, v) => WithPin(c, id, at, p => p with { AzimuthDeg = v }))
            { Grips = [new(pin.Id, HandleMotion.Round, 1)] };
        }

        for (int i = 0; i < parts.Rods.Length; i++)
        {
            int at = i;
            Rod rod = parts.Rods[i];
            bool byRadius = rod.From.RadiusMm is not null && rod.To.RadiusMm is not null;
            double now = byRadius ? rod.From.RadiusMm!.Value : rod.From.StandoffMm ?? rod.From.RadiusMm!.Value;
            yield return new($"{rod.Id}.out", byRadius ? $"{rod.Id} to bone's axis" : $"{rod.Id} to bone", "mm", now, byRadius ? 20 : LeastStandoffMm, MostStandoffMm, 1,
                byRadius ? "From the bone's axis to the rod's, at its proximal point; the other end moves alike." : "From the bone's surface to the rod's axis, at its proximal point; the other end moves alike.",
                (c, v) => WithRod(c, id, at, r => Moved(r, v - Distance(r.From))))
            { Grips = [new(rod.Id, HandleMotion.Out, 1)] };
            if (IsLink(parts, rod))
            {
                yield return new($"{rod.Id}.level", $"{rod.Id} level", "mm", rod.From.LevelMm, 5, value.Limb.LengthMm - 5, 1, "Of its first end, from the knee's joint line; the other end moves alike.",
                    (c, v) => WithRod(c, id, at, r => r with { From = r.From with { LevelMm = v }, To = r.To with { LevelMm = r.To.LevelMm + v - r.From.LevelMm } }))
                { Grips = [new(rod.Id, HandleMotion.Along, 1)] };
            }
        }
    }

    // A rod that holds other rods and no pin.
    private static bool IsLink(Parts parts, Rod rod) =>
        parts.Clamps.Any(c => c.OtherRod == rod.Id || (c.Rod == rod.Id && c.OtherRod is not null)) && parts.Clamps.All(c => c.Rod != rod.Id || c.Pin is null);

    private static double Distance(RodPoint point) => point.StandoffMm ?? point.RadiusMm!.Value;

    private static Rod Moved(Rod rod, double byMm) => rod with { From = Moved(rod.From, byMm), To = Moved(rod.To, byMm) };

    private static RodPoint Moved(RodPoint point, double byMm) =>
        point.StandoffMm is double s ? point with { StandoffMm = Math.Max(0, s + byMm) } : point with { RadiusMm = Math.Max(0, point.RadiusMm!.Value + byMm) };

    private static Case WithPin(Case value, string id, int at, Func<Pin, Pin> change) =>
        FrameEdits.WithFrame(value, id, f => f with { Parts = f.Parts! with { Pins = f.Parts.Pins.SetItem(at, change(f.Parts.Pins[at])) } });

    private static Case WithRod(Case value, string id, int at, Func<Rod, Rod> change) =>
        FrameEdits.WithFrame(value, id, f => f with { Parts = f.Parts! with { Rods = f.Parts.Rods.SetItem(at, change(f.Parts.Rods[at])) } });

    private static Case WithConstruct(Case value, string id, Func<Construct, Construct> change) =>
        FrameEdits.WithFrame(value, id, f => f with { Construct = change(f.Construct!) });
}
