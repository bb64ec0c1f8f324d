using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using static Halfpin.Placement.Checks.CheckWords;

namespace Halfpin.Placement.Checks;

/// <summary>Rods against their pins, the joints, the image and the other leg.</summary>
internal static class RodChecks
{
    // All ASSUMED: the trade gives rules, not numbers.
    private const double LeastOverhangMm = 10;
    private const double PlaneToleranceDeg = 10;
    private const double PlaneToleranceMm = 25;
    private const double OtherLegMm = 100;
    private const double TailMm = 25;
    private const double JointMarginMm = 10;
    private const double LeastPlaneDeg = 40, MostPlaneDeg = 120;

    // Built-in materials that X-rays pass.
    private const string Radiolucent = "carbon";

    // The anteroposterior view, and the lateral one.
    private static readonly bool[] _views = [true, false];

    public static readonly ImmutableArray<PlacementRule> Rules =
    [
        new("one-plane", JudgePlane, Plane),
        new("plane-angle", JudgeAngle, Angle),
        new("rod-ends", JudgeEnds, Ends),
        new("rod-joint", JudgeJoints, Joints),
        new("image", JudgeImage, Image),
        new("other-leg", JudgeOtherLeg, OtherLeg),
    ];

    private static Verdict? JudgePlane(PlacedFrame frame) =>
        !BearsAny(frame) ? null : MostSpread(frame).Deg > PlaneToleranceDeg || Farthest(frame).Mm > PlaneToleranceMm ? Verdict.Caution : Verdict.Pass;

    private static Telling Plane(PlacedFrame frame, Verdict verdict)
    {
        const string Rule = "Pins of a straight rod stand in one plane within the clamps' reach: common practice, numbers ASSUMED";
        if (verdict == Verdict.Pass)
        {
            return new("Pins of each rod stand in one plane and within reach of it.", "", Rule, "ASSUMED");
        }

        (int rod, double spreadDeg) = MostSpread(frame);
        (int clamp, double reachMm) = Farthest(frame);
        return spreadDeg > PlaneToleranceDeg
            ? new($"Pins on {frame.Parts.Rods[rod].Id} differ by {Deg(spreadDeg)} in direction.", $"Bring them within {Deg(PlaneToleranceDeg)}, or give them rods of their own.", Rule, "ASSUMED")
            : new($"{frame.Parts.Clamps[clamp].Rod} passes {frame.Parts.Clamps[clamp].Pin} at {Mm(reachMm)}.", "See that the clamp can reach, or move the pin to the rod.", Rule, "ASSUMED");
    }

    private static Verdict? JudgeAngle(PlacedFrame frame) =>
        BetweenPlanesDeg(frame) is not (double angle and > PlaneToleranceDeg) ? null : angle is >= LeastPlaneDeg and <= MostPlaneDeg ? Verdict.Pass : Verdict.Caution;

    private static Telling Angle(PlacedFrame frame, Verdict verdict) => new(
        $"The planes of pins stand at {Deg(BetweenPlanesDeg(frame))}.", verdict == Verdict.Pass ? "" : $"{Deg(LeastPlaneDeg)} to {Deg(MostPlaneDeg)} stiffen both directions.", NoSource, "ASSUMED");

    private static Verdict? JudgeEnds(PlacedFrame frame) => !BearsAny(frame) ? null : ShortestEnd(frame).Mm < LeastOverhangMm ? Verdict.Caution : Verdict.Pass;

    private static Telling Ends(PlacedFrame frame, Verdict verdict)
    {
        (int rod, double mm) = ShortestEnd(frame);
        const string Rule = "Rods run on beyond their last clamp: common practice, number ASSUMED";
        return verdict == Verdict.Caution
            ? new($"{frame.Parts.Rods[rod].Id} ends {Text(mm)} mm beyond the middle of its last clamp.", $"Use a rod that runs on {Mm(LeastOverhangMm)} or more.", Rule, "ASSUMED")
            : new($"Rods run on at least {Text(mm)} mm beyond their last clamps.", "", Rule, "ASSUMED");
    }

    private static Verdict? JudgeJoints(PlacedFrame frame) => !BearsAny(frame) ? null : NearestJoint(frame).Mm < JointMarginMm ? Verdict.Caution : Verdict.Pass;

    private static Telling Joints(PlacedFrame frame, Verdict verdict)
    {
        (int rod, double mm, string joint) = NearestJoint(frame);
        string id = frame.Parts.Rods[rod].Id;
        return verdict == Verdict.Caution
            ? new(mm < 0 ? $"{id} runs {Mm(-mm)} past the {joint} joint line, into the way of its motion." : $"{id} ends {Mm(mm)} before the {joint} joint line.", "Use a shorter rod or move it along the bone.", NoSource, "ASSUMED")
            : new($"Rods end before the joint lines; nearest {id}, {Mm(mm)} from the {joint}.", "", NoSource, "ASSUMED");
    }

    // A rod hides the fracture on a view when it lies within the bone's shadow there.
    private static Verdict? JudgeImage(PlacedFrame frame)
    {
        if (!BearsAny(frame))
        {
            return null;
        }

        bool hides = false;
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            foreach (Fracture fracture in frame.Case.Fractures)
            {
                hides |= Hides(frame, r, fracture, anteroposterior: true) || Hides(frame, r, fracture, anteroposterior: false);
            }
        }

        return hides ? Verdict.Caution : Verdict.Pass;
    }

    private static Telling Image(PlacedFrame frame, Verdict verdict)
    {
        if (verdict == Verdict.Pass)
        {
            return new("No rod that shows on X-rays hides the fracture on the AP or the lateral view.", "", "Common practice; shadows by geometry", "DERIVED");
        }

        IEnumerable<string> hidden = frame.Parts.Rods.SelectMany((rod, r) => frame.Case.Fractures.SelectMany(fracture => _views
            .Where(ap => Hides(frame, r, fracture, ap)).Select(ap => $"{rod.Id} on the {(ap ? "AP" : "lateral")} view")));
        return new($"The fracture lies behind {List(hidden)}.", "Use carbon rods, which X-rays pass, turn the plane, or take oblique views.", "Common practice; shadows by geometry", "DERIVED");
    }

    private static bool Hides(PlacedFrame frame, int rod, Fracture fracture, bool anteroposterior)
    {
        Rod part = frame.Parts.Rods[rod];
        return part.Material != Radiolucent && AtLevel(frame.Rods[rod], fracture.LevelMm) is Vec3 at
            && Math.Abs(anteroposterior ? at.Y : at.X) < HalfWidthMm(frame.Bone, fracture.LevelMm, anteroposterior ? 90 : 0) + (part.DiameterMm / 2);
    }

    private static Verdict? JudgeOtherLeg(PlacedFrame frame) => frame.Skin is null || !BearsAny(frame) ? null : MostMedial(frame).Mm > OtherLegMm ? Verdict.Caution : Verdict.Pass;

    private static Telling OtherLeg(PlacedFrame frame, Verdict verdict)
    {
        (string part, double mm) = MostMedial(frame);
        const string Rule = "Frame clear of the other leg: common practice, 100 mm from the bone's axis ASSUMED; half a clamp and the pin's tail are 25 mm (MEMORY)";
        return verdict == Verdict.Caution
            ? new($"{part} reaches {Mm(mm)} to the medial side of the bone's axis, where the other leg is.", "Turn the plane forward, bring the rod nearer or cut the pins shorter.", Rule, "ASSUMED")
            : new($"The frame reaches {Mm(Math.Max(0, mm))} to the medial side, clear of the other leg.", "", Rule, "ASSUMED");
    }

    private static bool BearsAny(PlacedFrame frame)
    {
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            if (!frame.IsLink(r))
            {
                return true;
            }
        }

        return false;
    }

    // The rod whose pins differ most in direction.
    private static (int Rod, double Deg) MostSpread(PlacedFrame frame)
    {
        (int Rod, double Deg) most = (0, double.NegativeInfinity);
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            double spread = 0;
            for (int c = 0; c < frame.Clamps.Length; c++)
            {
                for (int d = 0; d < c; d++)
                {
                    spread = Holds(frame, c, r) && Holds(frame, d, r) ? Math.Max(spread, BetweenDeg(PinOf(frame, c), PinOf(frame, d))) : spread;
                }
            }

            most = !frame.IsLink(r) && spread > most.Deg ? (r, spread) : most;
        }

        return most;
    }

    // The clamp whose pin and rod pass each other farthest off.
    private static (int Clamp, double Mm) Farthest(PlacedFrame frame)
    {
        (int Clamp, double Mm) most = (0, double.NegativeInfinity);
        for (int c = 0; c < frame.Clamps.Length; c++)
        {
            most = frame.IsOn(c) && frame.Members(c).Pin >= 0 && frame.Clamps[c].EccentricityMm > most.Mm ? (c, frame.Clamps[c].EccentricityMm) : most;
        }

        return most;
    }

    // The widest angle between the planes of two rods, each that of its first pin.
    private static double BetweenPlanesDeg(PlacedFrame frame)
    {
        double widest = 0;
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            for (int q = 0; q < r; q++)
            {
                widest = FirstPin(frame, r) is Pin a && FirstPin(frame, q) is Pin b ? Math.Max(widest, BetweenDeg(a, b)) : widest;
            }
        }

        return widest;
    }

    private static Pin? FirstPin(PlacedFrame frame, int rod)
    {
        for (int c = 0; c < frame.Clamps.Length; c++)
        {
            if (Holds(frame, c, rod))
            {
                return PinOf(frame, c);
            }
        }

        return null;
    }

    private static bool Holds(PlacedFrame frame, int clamp, int rod) => frame.IsOn(clamp) && frame.Members(clamp).Pin >= 0 && frame.Members(clamp).Rod == rod;

    private static Pin PinOf(PlacedFrame frame, int clamp) => frame.Parts.Pins[frame.Members(clamp).Pin];

    private static double BetweenDeg(Pin a, Pin b) => Math.Abs(Math.IEEERemainder(a.AzimuthDeg - b.AzimuthDeg, 360));

    // The rod that runs on least beyond a last clamp, of those too in which it is the other rod.
    private static (int Rod, double Mm) ShortestEnd(PlacedFrame frame)
    {
        (int Rod, double Mm) least = (0, double.PositiveInfinity);
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            double end = double.PositiveInfinity;
            for (int c = 0; c < frame.Clamps.Length; c++)
            {
                if (frame.IsOn(c) && (frame.Members(c).Rod == r || frame.Members(c).OtherRod == r))
                {
                    double at = frame.Members(c).Rod == r ? frame.Clamps[c].AlongRodMm : frame.Clamps[c].AlongMemberMm;
                    end = Math.Min(end, Math.Min(at, frame.Rods[r].SpanMm - at));
                }
            }

            least = end + frame.Rods[r].OverhangMm < least.Mm ? (r, end + frame.Rods[r].OverhangMm) : least;
        }

        return least;
    }

    private static (int Rod, double Mm, string Joint) NearestJoint(PlacedFrame frame)
    {
        (int Rod, double Mm, string Joint) nearest = (0, double.PositiveInfinity, "knee");
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            PlacedRod rod = frame.Rods[r];
            double a = -(rod.FromMm - (rod.OverhangMm * rod.Along)).Z, b = -(rod.ToMm + (rod.OverhangMm * rod.Along)).Z;
            double knee = Math.Min(a, b), ankle = frame.Bone.LengthMm - Math.Max(a, b);
            if (!frame.IsLink(r) && Math.Min(knee, ankle) < nearest.Mm)
            {
                nearest = knee <= ankle ? (r, knee, "knee") : (r, ankle, "ankle");
            }
        }

        return nearest;
    }

    // How far rods and the tails of clamped pins reach to the medial side.
    private static (string Part, double Mm) MostMedial(PlacedFrame frame)
    {
        (string Part, double Mm) most = ("", double.NegativeInfinity);
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            double mm = Math.Max(frame.Rods[r].FromMm.Y, frame.Rods[r].ToMm.Y) + (frame.Parts.Rods[r].DiameterMm / 2);
            most = mm > most.Mm ? (frame.Parts.Rods[r].Id, mm) : most;
        }

        for (int c = 0; c < frame.Clamps.Length; c++)
        {
            if (frame.IsOn(c) && frame.Members(c).Pin is int pin and >= 0)
            {
                double mm = frame.Pins[pin].At(frame.Clamps[c].AlongMemberMm + TailMm).Y;
                most = mm > most.Mm ? (frame.Parts.Pins[pin].Id, mm) : most;
            }
        }

        return most;
    }

    private static Vec3? AtLevel(PlacedRod rod, double levelMm)
    {
        double rise = rod.ToMm.Z - rod.FromMm.Z;
        if (Math.Abs(rise) < 1e-6)
        {
            return null;
        }

        double along = (-levelMm - rod.FromMm.Z) / rise * rod.SpanMm;
        return along < -rod.OverhangMm || along > rod.SpanMm + rod.OverhangMm ? null : rod.FromMm + (along * rod.Along);
    }

    private static double HalfWidthMm(BoneShape bone, double levelMm, double azimuthDeg) =>
        Math.Max(bone.OuterRadiusMm(levelMm, azimuthDeg), bone.OuterRadiusMm(levelMm, azimuthDeg + 180));
}
