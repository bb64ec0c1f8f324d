using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
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
    // ASSUMED: a pin put this much nearer than the room allows is still as wide as is safe.
    private const double RoomSlackMm = 5;
    // ASSUMED: pins nearer to each other than this hold a fragment almost like one.
    private const double LeastLeverMm = 20;
    // ASSUMED: less bone than the width of a pin between two holes is no bridge to rely on.
    private const double BridgeDiameters = 1;
    private const double ExposedThreadMm = 5;
    private const int LeastPins = 2;

    // Where a pin enters the bone, and where it leaves it.
    private static readonly bool[] _ends = [false, true];

    public static readonly ImmutableArray<PlacementRule> Rules =
    [
        new("pin-width", JudgeWidth, Width),
        new("pin-to-fracture", JudgeFracture, Fracture),
        new("joint", JudgeJoints, Joints),
        new("thread", JudgeThread, Thread),
        new("pin-spacing", JudgeSpacing, Spacing),
        new("pin-spread", JudgeSpread, Spread),
        new("pin-count", JudgeCount, Count),
    ];

    private static Verdict? JudgeWidth(PlacedFrame frame)
    {
        double widest = 0;
        for (int p = 0; p < frame.Pins.Length; p++)
        {
            widest = Math.Max(widest, ShareOfBone(frame, p));
        }

        return widest >= WidestShareOfBone ? Verdict.Fail : widest > GoodShareOfBone ? Verdict.Caution : Verdict.Pass;
    }

    private static Telling Width(PlacedFrame frame, Verdict verdict)
    {
        (string Id, double Share)[] pins = [.. frame.Parts.Pins.Select((p, i) => (p.Id, Share: ShareOfBone(frame, i))).OrderByDescending(p => p.Share)];
        string wide = List((verdict == Verdict.Pass ? pins.Take(1) : pins.Where(p => p.Share > GoodShareOfBone)).Select(p => $"{p.Id} takes {Text(100 * p.Share)} %"));
        string rule = verdict == Verdict.Caution ? "A quarter of the bone's width or less is good: common practice" : "Pin under a third of the bone's diameter: Wheeless' Textbook of Orthopaedics";
        return new($"{(verdict == Verdict.Pass ? "Widest hole" : "Wide holes")}: {wide} of the bone's width across it.",
            verdict == Verdict.Pass ? "" : "Use a thinner pin or a level where the bone is wider.", rule, verdict == Verdict.Caution ? "MEMORY" : "READ");
    }

    private static Verdict? JudgeFracture(PlacedFrame frame)
    {
        double least = double.PositiveInfinity;
        foreach (PlacedPin pin in frame.Pins)
        {
            foreach (Fracture fracture in frame.Case.Fractures)
            {
                least = Math.Min(least, FracturePlane.ClearanceMm(fracture, pin));
            }
        }

        return least >= NearestToFractureMm ? Verdict.Pass : Verdict.Caution;
    }

    private static Telling Fracture(PlacedFrame frame, Verdict verdict)
    {
        (string Id, int Fracture, double Mm)[] pins = [.. frame.Parts.Pins.SelectMany((p, i) => frame.Case.Fractures
            .Select((f, n) => (p.Id, Fracture: n, Mm: FracturePlane.ClearanceMm(f, frame.Pins[i])))).OrderBy(p => p.Mm)];
        string Edge(int fracture) => frame.Case.Fractures.Length == 1 ? "the fracture's edge" : $"the edge of fracture {fracture + 1}";
        bool clear = verdict == Verdict.Pass;
        string which = string.Join("; ", (clear ? pins.Take(1) : pins.Where(p => p.Mm < NearestToFractureMm)).Select(p => $"{p.Id} passes {Text(p.Mm)} mm from {Edge(p.Fracture)}"));
        return new(clear ? $"Nearest pin {which}." : $"Near the fracture: {which}.", clear ? "" : "Move them at least a fingerbreadth (20 mm) away, out of the haematoma.",
            "At least 20 mm, outside haematoma and damaged skin: open tibia training module", "READ");
    }

    private static Verdict? JudgeJoints(PlacedFrame frame)
    {
        if (frame.Skin is null)
        {
            return null;
        }

        bool meets = false;
        double ankle = double.PositiveInfinity;
        for (int p = 0; p < frame.Pins.Length; p++)
        {
            foreach (bool far in _ends)
            {
                JointRoom room = RoomAt(frame, p, far);
                meets |= room.KneeMm < KneeMm || room.AnkleMm < room.AnkleNeededMm;
                ankle = Math.Min(ankle, room.AnkleMm);
            }
        }

        return meets ? Verdict.Fail : ankle < FingersMm ? Verdict.Caution : Verdict.Pass;
    }

    private static Telling Joints(PlacedFrame frame, Verdict verdict)
    {
        const string Rule = "Knee capsule reaches 14 mm (DeCoster et al., READ), ankle 12 mm, 24 mm at the syndesmosis (Vora et al.; MRI series, READ); limits with a margin";
        (string Id, double Mm, double Needed, string Joint)[] ends = [.. frame.Parts.Pins.SelectMany((p, i) => _ends.SelectMany(far =>
        {
            JointRoom room = RoomAt(frame, i, far);
            return new[]
            {
                (p.Id, room.KneeMm, KneeMm, "knee joint line"),
                (p.Id, room.AnkleMm, room.AnkleNeededMm, room.AnkleNeededMm == SyndesmosisMm ? "ankle joint line beside the syndesmosis" : "ankle joint line"),
            };
        })).OrderBy(e => e.Item2 - e.Item3)];
        if (verdict == Verdict.Fail)
        {
            (string Id, double Mm, double Needed, string Joint)[] near = [.. ends.Where(e => e.Mm < e.Needed).GroupBy(e => (e.Id, Knee: e.Joint[0] == 'k')).Select(g => g.First())];
            return new($"{Capital(string.Join("; ", near.Select(e => $"{e.Id} comes within {Mm(Math.Max(0, e.Mm))} of the {e.Joint}, where {Mm(e.Needed)} keep clear of its capsule")))}.", $"Move {List(near.Select(e => e.Id))} away from the joint.", Rule, "DERIVED");
        }

        (string Id, double Mm, double Needed, string Joint)[] ankle = [.. ends.Where(e => e.Joint[0] == 'a').OrderBy(e => e.Mm).DistinctBy(e => e.Id)];
        return verdict == Verdict.Caution
            ? new($"{List(ankle.Where(e => e.Mm < FingersMm).Select(e => $"{e.Id} passes {Mm(e.Mm)}"))} above the ankle joint line.", "Two fingerbreadths or more are usual.", "Two or more fingerbreadths (open tibia training module, READ in part); 30 mm ours", "ASSUMED")
            : new($"All pins keep clear of the joints' capsules; nearest to the ankle {ankle[0].Id}, {Mm(ankle[0].Mm)}.", "", Rule, "DERIVED");
    }

    // Room between a pin's edge and the joint lines where it enters or leaves the bone.
    private static JointRoom RoomAt(PlacedFrame frame, int pin, bool far)
    {
        Vec3 at = frame.Pins[pin].At(far ? frame.Pins[pin].FarSurfaceMm : frame.Pins[pin].SurfaceMm);
        double azimuth = Math.Atan2(at.Y, at.X) * 180 / Math.PI, half = frame.Parts.Pins[pin].DiameterMm / 2;
        return new(-at.Z - half, frame.Bone.LengthMm + at.Z - half, azimuth is > LateralFromDeg and < LateralToDeg ? SyndesmosisMm : AnkleMm);
    }

    // Of pins with known thread: whether it holds the near cortex, and how much of it stands in soft tissue.
    private static Verdict? JudgeThread(PlacedFrame frame)
    {
        bool known = false, wrong = false;
        for (int p = 0; p < frame.Pins.Length; p++)
        {
            if (ThreadOf(frame, p) is ThreadEnd end)
            {
                known = true;
                wrong |= end.ShortMm > 0 || end.OutMm > ExposedThreadMm;
            }
        }

        return !known ? null : wrong ? Verdict.Caution : Verdict.Pass;
    }

    private static Telling Thread(PlacedFrame frame, Verdict verdict)
    {
        const string Rule = "Thread in both cortices and not in the skin";
        if (verdict == Verdict.Pass)
        {
            return new("Threads hold both cortices and end near the bone's surface.", "", Rule, "MEMORY");
        }

        (Pin Pin, ThreadEnd End, int Index)[] pins = [.. frame.Parts.Pins.Select((p, i) => (p, ThreadOf(frame, i), i)).Where(p => p.Item2 is not null).Select(p => (p.p, p.Item2!.Value, p.i))];
        (Pin few, ThreadEnd shortest, _) = pins.MaxBy(p => p.End.ShortMm);
        if (shortest.ShortMm > 0)
        {
            return new($"The thread of {List(pins.Where(p => p.End.ShortMm > 0).Select(p => p.Pin.Id))} ends before it holds the near cortex.", $"Use a thread at least {Mm(few.ThreadLengthMm!.Value + shortest.ShortMm + 1)} long.", Rule, "MEMORY");
        }

        (Pin many, ThreadEnd longest, _) = pins.MaxBy(p => p.End.OutMm);
        string[] skin = [.. pins.Where(p => frame.Skin is not null && p.End.OutMm > frame.SkinMm(p.Index) - frame.Pins[p.Index].SurfaceMm).Select(p => p.Pin.Id)];
        string through = skin.Length > 0 ? $" It comes through the skin at {List(skin)}." : "";
        return new($"Up to {Mm(longest.OutMm)} of thread, at {many.Id}, stand outside the bone and bend there with their core.{through}", $"A thread of {Mm(many.ThreadLengthMm!.Value - longest.OutMm + ExposedThreadMm)} will do at {many.Id}.", Rule, "MEMORY");
    }

    private static ThreadEnd? ThreadOf(PlacedFrame frame, int pin)
    {
        if (frame.Parts.Pins[pin].ThreadLengthMm is not double length)
        {
            return null;
        }

        PlacedPin at = frame.Pins[pin];
        double end = at.TipMm + length;
        return new((at.NearCanalMm > 0 ? (at.SurfaceMm + at.NearCanalMm) / 2 : at.SurfaceMm) - end, end - at.SurfaceMm);
    }

    private static Verdict? JudgeSpacing(PlacedFrame frame) => Nearest(frame) is not PinPair pair || pair.WallMm >= pair.NeededMm - 1e-9 ? Verdict.Pass
        : pair.WallMm < pair.BridgeMm - 1e-9 ? Verdict.Fail : Verdict.Caution;

    private static Telling Spacing(PlacedFrame frame, Verdict verdict)
    {
        const string Rule = "At least three pin diameters of bone between holes: common practice (MEMORY); under one it fails (ASSUMED)";
        if (Nearest(frame) is not PinPair pair)
        {
            return new("One pin only.", "", Rule, "MEMORY");
        }

        (string first, string second) = (frame.Parts.Pins[pair.First].Id, frame.Parts.Pins[pair.Second].Id);
        return new($"Least bone between two holes: {Text(pair.WallMm)} mm, {first} to {second}.", verdict == Verdict.Pass ? "" : $"Keep at least {Mm(pair.NeededMm)} between {first} and {second}.", Rule, "MEMORY");
    }

    // The two pins with the least bone between them.
    private static PinPair? Nearest(PlacedFrame frame)
    {
        PinPair? nearest = null;
        for (int i = 0; i < frame.Pins.Length; i++)
        {
            for (int j = i + 1; j < frame.Pins.Length; j++)
            {
                double a = frame.Parts.Pins[i].DiameterMm, b = frame.Parts.Pins[j].DiameterMm;
                double wall = PlacedPin.DistanceInBoneMm(frame.Pins[i], frame.Pins[j]) - ((a + b) / 2);
                if (nearest is not PinPair best || wall < best.WallMm)
                {
                    nearest = new(i, j, wall, Math.Max(a, b));
                }
            }
        }

        return nearest;
    }

    private static Verdict? JudgeSpread(PlacedFrame frame)
    {
        bool any = false, narrow = false;
        for (int fragment = 0; fragment <= frame.Case.Fractures.Length; fragment++)
        {
            if (SpanOf(frame, fragment) is PinSpan span)
            {
                any = true;
                narrow |= span.Mm < span.NeededMm;
            }
        }

        return !any || narrow ? Verdict.Caution : Verdict.Pass;
    }

    private static Telling Spread(PlacedFrame frame, Verdict verdict)
    {
        (int Fragment, PinSpan Span)[] spans = [.. Enumerable.Range(0, frame.Case.Fractures.Length + 1).Select(f => (f, SpanOf(frame, f))).Where(s => s.Item2 is not null).Select(s => (s.f, s.Item2!.Value))];
        string rule = "Pins of a fragment as wide apart as is safe (online surgical reference, READ), at least 40 mm (MEMORY)"
            + (spans.Any(s => s.Span.NeededMm < LeastSpanMm) ? "; between two fractures all that 20 mm to either leave, to within 5 mm, but never under 20 mm (ASSUMED)" : "");
        string all = List(spans.Select(s => $"{Text(s.Span.Mm)} mm in the {frame.FragmentWords(s.Fragment)}{(s.Span.NeededMm < LeastSpanMm ? $" (room for {Mm(Math.Max(0, s.Span.RoomMm))})" : "")}"));
        if (spans.Length == 0)
        {
            return new("No fragment has two pins.", "Hold each fragment with two pins or more, wide apart.", rule, "MEMORY");
        }

        (int narrowest, PinSpan lacking) = spans.MinBy(s => s.Span.Mm - s.Span.NeededMm);
        string cure = lacking.RoomMm < lacking.NeededMm ? $"The {frame.FragmentWords(narrowest)} has room for {Mm(Math.Floor(Math.Max(0, lacking.RoomMm)))} at most: it is held poorly against bending of its own."
            : $"Spread those of the {frame.FragmentWords(narrowest)} over at least {Mm(Math.Ceiling(lacking.NeededMm))}.";
        return new($"Pins span {all}.", verdict == Verdict.Pass ? "" : cure, rule, spans.Any(s => s.Span.NeededMm < LeastSpanMm) ? "ASSUMED" : "MEMORY");
    }

    // Levels that the pins of a fragment span; null for fewer than two.
    private static PinSpan? SpanOf(PlacedFrame frame, int fragment)
    {
        int first = -1, last = -1, pins = 0;
        for (int p = 0; p < frame.Pins.Length; p++)
        {
            if (frame.FragmentOf(p) == fragment)
            {
                first = first < 0 || frame.Parts.Pins[p].LevelMm < frame.Parts.Pins[first].LevelMm ? p : first;
                last = last < 0 || frame.Parts.Pins[p].LevelMm > frame.Parts.Pins[last].LevelMm ? p : last;
                pins++;
            }
        }

        if (pins < 2)
        {
            return null;
        }

        double span = frame.Parts.Pins[last].LevelMm - frame.Parts.Pins[first].LevelMm;
        bool between = fragment > 0 && fragment < frame.Case.Fractures.Length;
        return new(span, !between ? double.PositiveInfinity
            : span + FracturePlane.ClearanceMm(frame.Case.Fractures[fragment - 1], frame.Pins[first]) + FracturePlane.ClearanceMm(frame.Case.Fractures[fragment], frame.Pins[last]) - (2 * NearestToFractureMm));
    }

    private static Verdict? JudgeCount(PlacedFrame frame)
    {
        Verdict verdict = Verdict.Pass;
        for (int fragment = 0; fragment <= frame.Case.Fractures.Length; fragment++)
        {
            int held = HeldBy(frame, fragment);
            if (held < LeastPins)
            {
                // A short fragment between two fractures may have to do with one pin.
                bool fails = held == 0 || fragment == 0 || fragment == frame.Case.Fractures.Length;
                verdict = fails || verdict == Verdict.Fail ? Verdict.Fail : Verdict.Caution;
            }
        }

        return verdict;
    }

    private static Telling Count(PlacedFrame frame, Verdict verdict)
    {
        string Words(int fragment) => $"the {frame.FragmentWords(fragment)} is held by {(HeldBy(frame, fragment) == 0 ? "no pin" : "one pin")}";
        const string Rule = "Two pins a fragment in the tibia: common practice";
        return verdict == Verdict.Pass
            ? new($"Each fragment is held by {LeastPins} pins or more.", "", Rule, "MEMORY")
            : new($"{Capital(List(Enumerable.Range(0, frame.Case.Fractures.Length + 1).Where(f => HeldBy(frame, f) < LeastPins).Select(Words)))}.", "Two clamped pins a fragment are the least.", Rule, "MEMORY");
    }

    // Clamped pins of a fragment.
    private static int HeldBy(PlacedFrame frame, int fragment)
    {
        int held = 0;
        for (int p = 0; p < frame.Pins.Length; p++)
        {
            held += frame.FragmentOf(p) == fragment && frame.IsHeld(p) ? 1 : 0;
        }

        return held;
    }

    // A pin's diameter as a share of the bone's width at right angles to it, at its level.
    private static double ShareOfBone(PlacedFrame frame, int pin)
    {
        Pin part = frame.Parts.Pins[pin];
        return part.DiameterMm / (frame.Bone.OuterRadiusMm(part.LevelMm, part.AzimuthDeg + 90) + frame.Bone.OuterRadiusMm(part.LevelMm, part.AzimuthDeg - 90));
    }

    // What the pins of a fragment span, and what it has room for beside two fractures.
    private readonly record struct PinSpan(double Mm, double RoomMm)
    {
        public double NeededMm => Math.Clamp(RoomMm - RoomSlackMm, LeastLeverMm, LeastSpanMm);
    }

    private readonly record struct JointRoom(double KneeMm, double AnkleMm, double AnkleNeededMm);

    private readonly record struct ThreadEnd(double ShortMm, double OutMm);

    private readonly record struct PinPair(int First, int Second, double WallMm, double DiameterMm)
    {
        public double NeededMm => LeastWallDiameters * DiameterMm;

        public double BridgeMm => BridgeDiameters * DiameterMm;
    }
}
