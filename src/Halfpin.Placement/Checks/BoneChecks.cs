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
        (string Id, double Share)[] pins = [.. frame.Parts.Pins.Select(p => (p.Id, Share: p.DiameterMm / AcrossMm(frame, p))).OrderByDescending(p => p.Share)];
        Verdict verdict = pins[0].Share >= WidestShareOfBone ? Verdict.Fail : pins[0].Share > GoodShareOfBone ? Verdict.Caution : Verdict.Pass;
        string wide = List((verdict == Verdict.Pass ? pins.Take(1) : pins.Where(p => p.Share > GoodShareOfBone)).Select(p => $"{p.Id} takes {Text(100 * p.Share)} %"));
        string rule = verdict == Verdict.Caution ? "A quarter of the bone's width or less is good: common practice" : "Pin under a third of the bone's diameter: Wheeless' Textbook of Orthopaedics";
        return new("pin-width", verdict, $"{(verdict == Verdict.Pass ? "Widest hole" : "Wide holes")}: {wide} of the bone's width across it.",
            verdict == Verdict.Pass ? "" : "Use a thinner pin or a level where the bone is wider.", rule, verdict == Verdict.Caution ? "MEMORY" : "READ");
    }

    private static Check Fracture(PlacedFrame frame)
    {
        (string Id, int Fracture, double Mm)[] pins = [.. frame.Parts.Pins.SelectMany((p, i) => frame.Case.Fractures
            .Select((f, n) => (p.Id, Fracture: n, Mm: FracturePlane.ClearanceMm(f, frame.Pins[i])))).OrderBy(p => p.Mm)];
        string Edge(int fracture) => frame.Case.Fractures.Length == 1 ? "the fracture's edge" : $"the edge of fracture {fracture + 1}";
        bool clear = pins[0].Mm >= NearestToFractureMm;
        string which = string.Join("; ", (clear ? pins.Take(1) : pins.Where(p => p.Mm < NearestToFractureMm)).Select(p => $"{p.Id} passes {Text(p.Mm)} mm from {Edge(p.Fracture)}"));
        return new("pin-to-fracture", clear ? Verdict.Pass : Verdict.Caution, clear ? $"Nearest pin {which}." : $"Near the fracture: {which}.",
            clear ? "" : "Move them at least a fingerbreadth (20 mm) away, out of the haematoma.",
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
                (p.Id, length + at.Z - (p.DiameterMm / 2), lateral ? SyndesmosisMm : AnkleMm, lateral ? "ankle joint line beside the syndesmosis" : "ankle joint line"),
            };
        })).OrderBy(e => e.Item2 - e.Item3)];
        (string Id, double Mm, double Needed, string Joint)[] near = [.. ends.Where(e => e.Mm < e.Needed).GroupBy(e => (e.Id, Knee: e.Joint[0] == 'k')).Select(g => g.First())];
        if (near.Length > 0)
        {
            return new("joint", Verdict.Fail, $"{Capital(string.Join("; ", near.Select(e => $"{e.Id} comes within {Mm(Math.Max(0, e.Mm))} of the {e.Joint}, where {Mm(e.Needed)} keep clear of its capsule")))}.", $"Move {List(near.Select(e => e.Id))} away from the joint.", Rule, "DERIVED");
        }

        (string Id, double Mm, double Needed, string Joint)[] ankle = [.. ends.Where(e => e.Joint[0] == 'a').OrderBy(e => e.Mm).DistinctBy(e => e.Id)];
        return ankle[0].Mm < FingersMm
            ? new("joint", Verdict.Caution, $"{List(ankle.Where(e => e.Mm < FingersMm).Select(e => $"{e.Id} passes {Mm(e.Mm)}"))} above the ankle joint line.", "Two fingerbreadths or more are usual.", "Two or more fingerbreadths (open tibia training module, READ in part); 30 mm ours", "ASSUMED")
            : new("joint", Verdict.Pass, $"All pins keep clear of the joints' capsules; nearest to the ankle {ankle[0].Id}, {Mm(ankle[0].Mm)}.", "", Rule, "DERIVED");
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
        string[] skin = [.. pins.Where(p => frame.Skin is not null && p.OutMm > frame.SkinMm(frame.PinIndex(p.Pin.Id)) - frame.Pins[frame.PinIndex(p.Pin.Id)].SurfaceMm).Select(p => p.Pin.Id)];
        string through = skin.Length > 0 ? $" It comes through the skin at {List(skin)}." : "";
        return shortMm > 0 ? new("thread", Verdict.Caution, $"The thread of {List(pins.Where(p => p.ShortMm > 0).Select(p => p.Pin.Id))} ends before it holds the near cortex.", $"Use a thread at least {Mm(few.ThreadLengthMm!.Value + shortMm + 1)} long.", Rule, "MEMORY")
            : outMm > ExposedThreadMm ? new("thread", Verdict.Caution, $"Up to {Mm(outMm)} of thread, at {many.Id}, stand outside the bone and bend there with their core.{through}", $"A thread of {Mm(many.ThreadLengthMm!.Value - outMm + ExposedThreadMm)} will do at {many.Id}.", Rule, "MEMORY")
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
        int[] counts = [.. Enumerable.Range(0, frame.Case.Fractures.Length + 1).Select(f => held.Count(p => frame.FragmentOf(p) == f))];
        string Words(int fragment) => $"the {frame.FragmentWords(fragment)} is held by {(counts[fragment] == 0 ? "no pin" : "one pin")}";
        int[] few = [.. Enumerable.Range(0, counts.Length).Where(f => counts[f] < LeastPins)];

        // A short fragment between two fractures may have to do with one pin.
        bool fails = few.Any(f => counts[f] == 0 || f == 0 || f == counts.Length - 1);
        const string Rule = "Two pins a fragment in the tibia: common practice";
        return few.Length == 0
            ? new("pin-count", Verdict.Pass, $"Each fragment is held by {LeastPins} pins or more.", "", Rule, "MEMORY")
            : new("pin-count", fails ? Verdict.Fail : Verdict.Caution, $"{Capital(List(few.Select(Words)))}.", "Two clamped pins a fragment are the least.", Rule, "MEMORY");
    }

    // Width of the bone at right angles to the pin, at its level.
    private static double AcrossMm(PlacedFrame frame, Pin pin) =>
        frame.Bone.OuterRadiusMm(pin.LevelMm, pin.AzimuthDeg + 90) + frame.Bone.OuterRadiusMm(pin.LevelMm, pin.AzimuthDeg - 90);
}
