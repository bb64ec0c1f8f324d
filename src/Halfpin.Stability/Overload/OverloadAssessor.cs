using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Path;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.FreeMotions;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Overload;

/// <summary>Follows a frame of a valid case under an axial load that grows from nothing and is taken off again.</summary>
public sealed class OverloadAssessor(Case value)
{
    /// <summary>The greatest axial load that can be asked for.</summary>
    public const double MostN = LoadedFrame.MostN;

    // A share of the load far below what matters and far above rounding.
    private const double Below = 1e-6;

    /// <summary>Follows a frame.</summary>
    /// <param name="frame">A frame of the case.</param>
    /// <param name="toN">The greatest axial load, more than 0.</param>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    public OverloadReport Assess(Frame frame, double toN, ProgramStamp program, string caseSha256)
    {
        OverloadReport bare = new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = value.Title,
            SafetyNote = Safety.Note,
            Frame = frame.Id,
            Name = frame.DisplayName,
            Status = FrameStatus.Ok,
            ToN = toN,
            Assumptions = Assumptions(),
        };
        Parts parts = new Assessor(value).PartsOf(frame);
        string[] stopped = [.. parts.Clamps.Where(c => c.IsLimitedSlide() && (c.SlideStopMm is not null || c.OneWay)).Select(c => c.Id)];
        if (stopped.Length > 0)
        {
            Diagnosis stops = new(
                "An overload path does not follow stops and one-way slides of loose clamps.", [.. stopped],
                "Leave slideStopMm and oneWay out, or look at the frame's assessment, which follows them.");
            return bare with { Status = FrameStatus.Invalid, Diagnosis = stops, Ended = stops.Message };
        }

        BoneShape bone = BoneShape.For(value.Limb);
        FrameAnalyser analyser = new(bone, value.Fractures, value.Model, new(value.Materials), new(bone, FrameAnalyser.TheoryOf(value.Model)));
        analyser.Analyse(parts);
        if (FrameDiagnosis.Of(analyser) is (FrameStatus status, Diagnosis diagnosis))
        {
            return bare with { Status = status, Diagnosis = diagnosis, Ended = diagnosis.Message };
        }

        LoadedFrame loaded = new(analyser);
        OverloadPath path = new(analyser, loaded);
        if (!path.Follow(toN))
        {
            return Unsolved(bare);
        }

        OverloadReport report = Read(bare, path, loaded, new(path, analyser.Data));
        return report.Complete || report.Path[^1].LoadN == 0
            ? report
            : report with { SetBefore = SetBelow(EndOfModelN(report), new(analyser, loaded), analyser.Data) };
    }

    // The set after a path that turns back just below a load, so that nothing has yielded or left the range; null when something still does.
    private static OverloadSet? SetBelow(double endN, OverloadPath path, FrameData data)
    {
        double belowN = endN * (1 - Below);
        OverloadEvents words = new(path, data);
        if (!path.Follow(belowN) || !IsWhole(path) || path.FirstReach(path.LargestRotationDeg, MotionReadout.MaxRotationDeg) is not null
            || words.InOrder().Any(e => IsLimit(e.Event)))
        {
            return null;
        }

        string left = string.Join(" and ", Enumerable.Range(0, path.Fractures).Select(f =>
            string.Create(CultureInfo.InvariantCulture, $"{SetMm(path, f):0.00} mm between the faces of {(path.Fractures == 1 ? "the " : "")}{words.Fracture(f)}")));
        return new(belowN, GreatestSetMm(path), $"Taken off just below {OverloadEvents.Load(endN)}, the load leaves {left}, by slip of clamps alone.");
    }

    // Events are in their order, so the first on the way up is at the least load.
    private static double EndOfModelN(OverloadReport report) =>
        report.Events.FirstOrDefault(e => IsLimit(e) && !e.OnWayBack)?.LoadN ?? report.Path.Max(p => p.LoadN);

    private static bool IsLimit(OverloadEvent e) => e.Kind is OverloadEventKind.Yield or OverloadEventKind.Bearing;

    private static OverloadReport Unsolved(OverloadReport bare)
    {
        Diagnosis diagnosis = new(
            "The frame with its clamps held cannot be solved to the accuracy that results need.", [], "Look for a part with an absurd size or stiffness.");
        return bare with { Status = FrameStatus.Invalid, Diagnosis = diagnosis, Ended = diagnosis.Message };
    }

    private OverloadReport Read(OverloadReport bare, OverloadPath path, LoadedFrame loaded, OverloadEvents words)
    {
        double? beyond = path.FirstReach(path.LargestRotationDeg, MotionReadout.MaxRotationDeg);
        double end = beyond ?? path.LastCorner;
        (double Position, OverloadEvent Event)[] found = [.. words.InOrder().Where(e => e.Position <= end)];
        (double at, OverloadEvent? passed) = found.FirstOrDefault(e => IsLimit(e.Event));
        string? ended = Ended(path, words, beyond);

        // What yields keeps a bend that an elastic way back would not show.
        double wayBack = Math.Max(at, path.Turn);
        if (passed is not null && wayBack < end)
        {
            end = wayBack;
            ended = $"The way back is left out: {passed.Part} passes a limit, and what stays bent or crushed is not followed. So no set is given for this load.";
        }

        return bare with
        {
            Status = beyond <= end ? FrameStatus.OutOfRange : FrameStatus.Ok,
            Events = [.. found.Where(e => e.Position <= end).Select(e => e.Event)],
            Path = [.. Places(end).Select(p => Point(path, loaded, p))],
            Complete = ended is null,
            Ended = ended,
            SetMm = ended is null ? GreatestSetMm(path) : null,
            Fractures = path.Fractures == 1 ? [] : [.. Enumerable.Range(0, path.Fractures).Select(f => new OverloadFracture(
                value.Fractures[f].LevelMm, [.. Places(end).Select(p => Point(path, loaded, p, f))], ended is null ? SetMm(path, f) : null))],
        };
    }

    private static bool IsWhole(OverloadPath path) => path.Left(0) is not null;

    private static double SetMm(OverloadPath path, int fracture) => path.Left(fracture)!.Value.TranslationMm.Length;

    private static double GreatestSetMm(OverloadPath path) => Enumerable.Range(0, path.Fractures).Max(f => SetMm(path, f));

    private static string? Ended(OverloadPath path, OverloadEvents words, double? beyond)
    {
        if (beyond is double at)
        {
            return string.Create(CultureInfo.InvariantCulture,
                $"At {OverloadEvents.Load(path.LoadN(at))} a part has turned {MotionReadout.MaxRotationDeg:0.#}°; beyond that small-displacement results do not hold.");
        }

        string reached = OverloadEvents.Load(path.LoadN(path.LastCorner));
        return path.Status switch
        {
            PathStatus.Complete => null,
            PathStatus.GivesWay => $"At {reached} the frame gives way and nothing stops it: {words.Giving()}. What it carried up to there is shown.",
            _ => $"The path could not be followed reliably beyond {reached}; what was found up to there is shown.",
        };
    }

    // The corners up to the end, and the end.
    private static IEnumerable<double> Places(double end)
    {
        for (int corner = 0; corner < end; corner++)
        {
            yield return corner;
        }

        yield return end;
    }

    private static OverloadPoint Point(OverloadPath path, LoadedFrame loaded, double position, int fracture = 0)
    {
        FractureMotion m = loaded.Motions[fracture].Of(path.At(position));
        return new(m.LoadN, m.AxialMm, m.ShearMm, m.TiltDeg, m.TwistDeg, m.FrameShare);
    }

    private ImmutableArray<string> Assumptions()
    {
        List<string> all =
        [
            "The load acts along the bone's axis alone, is applied once and taken off again.",
            "A clamp holds each of its moments and its grip along the rod up to a limit of its own and slips at that limit with the same force (elastic–perfectly plastic); limits do not influence each other. ASSUMED.",
            "Pins, rods and bone stay elastic beyond their limits; after the first yield or bearing event the true motion is larger.",
        ];
        if (value.Fractures.Any(f => f.Contact) && value.Model.ContactFriction != 0)
        {
            all.Add("The bone ends bear without friction here, although the case gives a coefficient.");
        }

        return [.. all];
    }
}
