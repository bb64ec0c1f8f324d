using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using static Halfpin.Placement.Checks.CheckWords;

namespace Halfpin.Placement.Checks;

/// <summary>Pins against the bone: width, cortices, fracture, joints, each other, and whether there are enough.</summary>
internal static class BoneChecks
{
    private const double WidestShareOfBone = 1.0 / 3;
    private const double GoodShareOfBone = 0.25;
    private const double NearestToFractureMm = 20;
    private const double KneeMm = 15, AnkleMm = 15, SyndesmosisMm = 25, FingersMm = 30;
    private const double LateralFromDeg = -160, LateralToDeg = -20;
    private const double LeastSpanMm = 40, LeastWallDiameters = 3;
    private const double ExposedThreadMm = 5;
    private const int LeastPins = 2;

    public static IEnumerable<Check> Of(PlacedFrame frame)
    {
        yield return Width(frame);
        yield return Fracture(frame);
        if (frame.Skin is not null)
        {
            yield return Joints(frame);
        }

        if (Thread(frame) is Check thread)
        {
            yield return thread;
        }

        yield return Spacing(frame);
        yield return Spread(frame);
        yield return Count(frame);
    }

    private static Check Width(PlacedFrame frame)
    {
        (string Id, double Share) worst = frame.Parts.Pins.Select(p => (p.Id, Share: p.DiameterMm / AcrossMm(frame, p))).MaxBy(p => p.Share);
        Verdict verdict = worst.Share >= WidestShareOfBone ? Verdict.Fail : worst.Share > GoodShareOfBone ? Verdict.Caution : Verdict.Pass;
        string rule = verdict == Verdict.Caution ? "A quarter of the bone's width or less is good: common practice" : "Pin under a third of the bone's diameter: Wheeless' Textbook of Orthopaedics";
        return new("pin-width", verdict, $"The hole of pin {worst.Id} takes {Text(100 * worst.Share)} % of the bone's width there.",
            verdict == Verdict.Pass ? "" : "Use a thinner pin or a level where the bone is wider.", rule, verdict == Verdict.Caution ? "MEMORY" : "READ");
    }

    private static Check Fracture(PlacedFrame frame)
    {
        (Pin Pin, int Fracture, double Mm) nearest = frame.Parts.Pins.SelectMany((p, i) => frame.Case.Fractures
            .Select((f, n) => (Pin: p, Fracture: n, Mm: FracturePlane.ClearanceMm(f, frame.Pins[i])))).MinBy(p => p.Mm);
        string edge = frame.Case.Fractures.Length == 1 ? "the fracture's edge" : $"the edge of fracture {nearest.Fracture + 1}";
        bool clear = nearest.Mm >= NearestToFractureMm;
        return new("pin-to-fracture", clear ? Verdict.Pass : Verdict.Caution,
            $"Nearest pin {nearest.Pin.Id} passes {Text(nearest.Mm)} mm from {edge}.",
            clear ? "" : "Move it at least a fingerbreadth (20 mm) away, out of the haematoma.",
            "At least 20 mm, outside haematoma and damaged skin: open tibia training module", "READ");
    }

    private static Check Joints(PlacedFrame frame)
    {
        const string Rule = "Knee capsule reaches 14 mm (DeCoster et al., READ), ankle 12 mm, 24 mm at the syndesmosis (Vora et al.; MRI series, READ); limits with a margin";
        double length = frame.Bone.LengthMm;
        (string Id, double Mm, double Needed, string Joint)[] ends = [.. frame.Parts.Pins.SelectMany((p, i) => new[] { frame.Pins[i].SurfaceMm, frame.Pins[i].FarSurfaceMm }.SelectMany(s =>
        {
            Vec3 at = frame.Pins[i].At(s);
            double azimuth = Math.Atan2(at.Y, at.X) * 180 / Math.PI;
            bool lateral = azimuth is > LateralFromDeg and < LateralToDeg;
            return new[]
            {
                (p.Id, -at.Z - (p.DiameterMm / 2), KneeMm, "knee joint line"),
                (p.Id, length + at.Z - (p.DiameterMm / 2), lateral ? SyndesmosisMm : AnkleMm, lateral ? "ankle joint line, beside the syndesmosis" : "ankle joint line"),
            };
        })).OrderBy(e => e.Item2 - e.Item3)];
        (string id, double mm, double needed, string joint) = ends[0];
        if (mm < needed)
        {
            return new("joint", Verdict.Fail, $"{id} comes within {Mm(Math.Max(0, mm))} of the {joint}: it may open the joint's capsule.", $"Keep at least {Mm(needed)}.", Rule, "DERIVED");
        }

        (string ankleId, double ankleMm, _, _) = ends.Where(e => e.Joint.StartsWith("ankle", StringComparison.Ordinal)).MinBy(e => e.Mm);
        return ankleMm < FingersMm
            ? new("joint", Verdict.Caution, $"{ankleId} passes {Mm(ankleMm)} above the ankle joint line.", "Two fingerbreadths (30 mm) or more are usual.", "Open tibia training module", "READ")
            : new("joint", Verdict.Pass, $"All pins keep clear of the joints' capsules; nearest to the ankle {ankleId}, {Mm(ankleMm)}.", "", Rule, "DERIVED");
    }

    // Of pins with known thread: whether it holds the near cortex, and how much of it stands in soft tissue.
    private static Check? Thread(PlacedFrame frame)
    {
        (Pin Pin, double ShortMm, double OutMm)[] pins = [.. frame.Parts.Pins.Select((p, i) => (p, i)).Where(p => p.p.ThreadLengthMm is not null).Select(p =>
        {
            PlacedPin at = frame.Pins[p.i];
            double end = at.TipMm + p.p.ThreadLengthMm!.Value;
            return (p.p, (at.NearCanalMm > 0 ? (at.SurfaceMm + at.NearCanalMm) / 2 : at.SurfaceMm) - end, end - at.SurfaceMm);
        })];
        if (pins.Length == 0)
        {
            return null;
        }

        (Pin few, double shortMm, _) = pins.MaxBy(p => p.ShortMm);
        (Pin many, _, double outMm) = pins.MaxBy(p => p.OutMm);
        const string Rule = "Thread in both cortices and not in the skin";
        return shortMm > 0 ? new("thread", Verdict.Caution, $"The thread of {few.Id} ends before it holds the near cortex.", $"Use a thread at least {Mm(few.ThreadLengthMm!.Value + shortMm + 1)} long.", Rule, "MEMORY")
            : outMm > ExposedThreadMm ? new("thread", Verdict.Caution, $"{Mm(outMm)} of {many.Id}'s thread stand outside the bone: it bends there with its core, and soft tissue meets thread.", $"A thread of {Mm(many.ThreadLengthMm!.Value - outMm + ExposedThreadMm)} will do.", Rule, "MEMORY")
            : new("thread", Verdict.Pass, "Threads hold both cortices and end near the bone's surface.", "", Rule, "MEMORY");
    }

    private static Check Spacing(PlacedFrame frame)
    {
        (string A, string B, double WallMm, double Needed)[] pairs = [.. from i in Enumerable.Range(0, frame.Pins.Length)
            from j in Enumerable.Range(i + 1, frame.Pins.Length - i - 1)
            let a = frame.Parts.Pins[i]
            let b = frame.Parts.Pins[j]
            let wall = PlacedPin.DistanceInBoneMm(frame.Pins[i], frame.Pins[j]) - ((a.DiameterMm + b.DiameterMm) / 2)
            orderby wall
            select (a.Id, b.Id, wall, LeastWallDiameters * Math.Max(a.DiameterMm, b.DiameterMm))];
        const string Rule = "At least three pin diameters of bone between holes: common practice";
        if (pairs.Length == 0)
        {
            return new("pin-spacing", Verdict.Pass, "One pin only.", "", Rule, "MEMORY");
        }

        (string first, string second, double mm, double needed) = pairs[0];
        bool wide = mm >= needed - 1e-9;
        return new("pin-spacing", wide ? Verdict.Pass : Verdict.Caution, $"Least bone between two holes: {Text(mm)} mm, {first} to {second}.",
            wide ? "" : $"Keep at least {Mm(needed)} between {first} and {second}.", Rule, "MEMORY");
    }

    private static Check Spread(PlacedFrame frame)
    {
        (int Fragment, double Mm)[] spans = [.. Enumerable.Range(0, frame.Pins.Length).GroupBy(frame.FragmentOf).Where(g => g.Count() > 1)
            .Select(g => (g.Key, g.Max(p => frame.Parts.Pins[p].LevelMm) - g.Min(p => frame.Parts.Pins[p].LevelMm))).OrderBy(s => s.Item2)];
        const string Rule = "Pins of a fragment as wide apart as is safe (online surgical reference, READ), at least 40 mm (MEMORY)";
        string all = List(spans.OrderBy(s => s.Fragment).Select(s => $"{Text(s.Mm)} mm in the {frame.FragmentWords(s.Fragment)}"));
        return spans.Length == 0 ? new("pin-spread", Verdict.Caution, "No fragment has two pins.", "Hold each fragment with two pins or more, wide apart.", Rule, "MEMORY")
            : spans[0].Mm < LeastSpanMm ? new("pin-spread", Verdict.Caution, $"Pins span {all}.", $"Spread those of the {frame.FragmentWords(spans[0].Fragment)} over at least {Mm(LeastSpanMm)}.", Rule, "MEMORY")
            : new("pin-spread", Verdict.Pass, $"Pins span {all}.", "", Rule, "MEMORY");
    }

    private static Check Count(PlacedFrame frame)
    {
        int[] held = [.. Enumerable.Range(0, frame.Pins.Length).Where(p => frame.ClampsOn().Any(c => frame.Parts.Clamps[c].Pin == frame.Parts.Pins[p].Id))];
        (int Fragment, int Pins)[] few = [.. new[] { 0, frame.Case.Fractures.Length }.Select(f => (f, held.Count(p => frame.FragmentOf(p) == f))).Where(f => f.Item2 < LeastPins)];
        return few.Length > 0
            ? new("pin-count", Verdict.Fail, $"{List(few.Select(f => $"the {frame.FragmentWords(f.Fragment)} is held by {(f.Pins == 0 ? "no pin" : "one pin")}"))}.", "Two clamped pins a fragment are the least.", "Two pins a fragment in the tibia: common practice", "MEMORY")
            : new("pin-count", Verdict.Pass, $"Both end fragments are held by {LeastPins} pins or more.", "", "Two pins a fragment in the tibia: common practice", "MEMORY");
    }

    // Width of the bone at right angles to the pin, at its level.
    private static double AcrossMm(PlacedFrame frame, Pin pin) =>
        frame.Bone.OuterRadiusMm(pin.LevelMm, pin.AzimuthDeg + 90) + frame.Bone.OuterRadiusMm(pin.LevelMm, pin.AzimuthDeg - 90);
}
