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

    public static IEnumerable<Check> Of(PlacedFrame frame)
    {
        int[] bearing = [.. Enumerable.Range(0, frame.Rods.Length).Where(r => !frame.IsLink(r))];
        if (bearing.Length == 0)
        {
            yield break;
        }

        yield return Plane(frame, bearing);
        if (Angle(frame, bearing) is Check angle)
        {
            yield return angle;
        }

        yield return Ends(frame);
        yield return Joints(frame, bearing);
        yield return Image(frame);
        if (frame.Skin is not null)
        {
            yield return OtherLeg(frame);
        }
    }

    private static Check Plane(PlacedFrame frame, int[] rods)
    {
        (string Rod, double SpreadDeg)[] spreads = [.. rods.Select(r => (frame.Parts.Rods[r].Id, SpreadDeg(PinsOn(frame, r)))).OrderByDescending(s => s.Item2)];
        int far = frame.ClampsOn().Where(c => frame.Parts.Clamps[c].Pin is not null).MaxBy(c => frame.Clamps[c].EccentricityMm);
        double reach = frame.Clamps[far].EccentricityMm;
        const string Rule = "Pins of a straight rod stand in one plane within the clamps' reach: common practice, numbers ASSUMED";
        return spreads[0].SpreadDeg > PlaneToleranceDeg
            ? new("one-plane", Verdict.Caution, $"Pins on {spreads[0].Rod} differ by {Deg(spreads[0].SpreadDeg)} in direction.", $"Bring them within {Deg(PlaneToleranceDeg)}, or give them rods of their own.", Rule, "ASSUMED")
            : reach > PlaneToleranceMm
                ? new("one-plane", Verdict.Caution, $"{frame.Parts.Clamps[far].Rod} passes {frame.Parts.Clamps[far].Pin} at {Mm(reach)}.", "See that the clamp can reach, or move the pin to the rod.", Rule, "ASSUMED")
                : new("one-plane", Verdict.Pass, "Pins of each rod stand in one plane and within reach of it.", "", Rule, "ASSUMED");
    }

    private static Check? Angle(PlacedFrame frame, int[] rods)
    {
        double[] planes = [.. rods.Select(r => PinsOn(frame, r)).Where(p => p.Length > 0).Select(p => p[0].AzimuthDeg)];
        double angle = planes.SelectMany(a => planes.Select(b => Math.Abs(Math.IEEERemainder(a - b, 360)))).DefaultIfEmpty(0).Max();
        if (angle <= PlaneToleranceDeg)
        {
            return null;
        }

        bool good = angle is >= LeastPlaneDeg and <= MostPlaneDeg;
        return new("plane-angle", good ? Verdict.Pass : Verdict.Caution, $"The planes of pins stand at {Deg(angle)}.", good ? "" : $"{Deg(LeastPlaneDeg)} to {Deg(MostPlaneDeg)} stiffen both directions.", NoSource, "ASSUMED");
    }

    private static Check Ends(PlacedFrame frame)
    {
        (string Rod, double Mm) least = Enumerable.Range(0, frame.Rods.Length).Select(r =>
        {
            PlacedRod rod = frame.Rods[r];
            double[] at = [.. Seats(frame, r)];
            return (frame.Parts.Rods[r].Id, at.Length == 0 ? double.PositiveInfinity : Math.Min(at.Min(), rod.SpanMm - at.Max()) + rod.OverhangMm);
        }).MinBy(r => r.Item2);
        const string Rule = "Rods run on beyond their last clamp: common practice, number ASSUMED";
        return least.Mm < LeastOverhangMm
            ? new("rod-ends", Verdict.Caution, $"{least.Rod} ends {Text(least.Mm)} mm beyond the middle of its last clamp.", $"Use a rod that runs on {Mm(LeastOverhangMm)} or more.", Rule, "ASSUMED")
            : new("rod-ends", Verdict.Pass, $"Rods run on at least {Text(least.Mm)} mm beyond their last clamps.", "", Rule, "ASSUMED");
    }

    private static Check Joints(PlacedFrame frame, int[] rods)
    {
        (string Rod, double Mm, string Joint) worst = rods.SelectMany(r =>
        {
            PlacedRod rod = frame.Rods[r];
            double a = -(rod.FromMm - (rod.OverhangMm * rod.Along)).Z, b = -(rod.ToMm + (rod.OverhangMm * rod.Along)).Z;
            return new[] { (frame.Parts.Rods[r].Id, Math.Min(a, b), "knee"), (frame.Parts.Rods[r].Id, frame.Bone.LengthMm - Math.Max(a, b), "ankle") };
        }).MinBy(r => r.Item2);
        return worst.Mm < JointMarginMm
            ? new("rod-joint", Verdict.Caution, worst.Mm < 0 ? $"{worst.Rod} runs {Mm(-worst.Mm)} past the {worst.Joint} joint line, into the way of its motion." : $"{worst.Rod} ends {Mm(worst.Mm)} before the {worst.Joint} joint line.", "Use a shorter rod or move it along the bone.", NoSource, "ASSUMED")
            : new("rod-joint", Verdict.Pass, $"Rods end before the joint lines; nearest {worst.Rod}, {Mm(worst.Mm)} from the {worst.Joint}.", "", NoSource, "ASSUMED");
    }

    // A rod hides the fracture on a view when it lies within the bone's shadow there.
    private static Check Image(PlacedFrame frame)
    {
        List<string> hidden = [];
        for (int r = 0; r < frame.Rods.Length; r++)
        {
            Rod part = frame.Parts.Rods[r];
            foreach (Fracture fracture in part.Material == Radiolucent ? [] : frame.Case.Fractures.AsEnumerable())
            {
                if (AtLevel(frame.Rods[r], fracture.LevelMm) is Vec3 at)
                {
                    if (Math.Abs(at.Y) < HalfWidthMm(frame.Bone, fracture.LevelMm, 90) + (part.DiameterMm / 2))
                    {
                        hidden.Add($"{part.Id} on the AP view");
                    }

                    if (Math.Abs(at.X) < HalfWidthMm(frame.Bone, fracture.LevelMm, 0) + (part.DiameterMm / 2))
                    {
                        hidden.Add($"{part.Id} on the lateral view");
                    }
                }
            }
        }

        return hidden.Count > 0
            ? new("image", Verdict.Caution, $"The fracture lies behind {List(hidden)}.", "Use carbon rods, which X-rays pass, turn the plane, or take oblique views.", "Common practice; shadows by geometry", "DERIVED")
            : new("image", Verdict.Pass, "No rod that shows on X-rays hides the fracture on the AP or the lateral view.", "", "Common practice; shadows by geometry", "DERIVED");
    }

    private static Check OtherLeg(PlacedFrame frame)
    {
        IEnumerable<(string Id, double Mm)> rods = frame.Parts.Rods.Select((r, i) => (r.Id, Math.Max(frame.Rods[i].FromMm.Y, frame.Rods[i].ToMm.Y) + (r.DiameterMm / 2)));
        IEnumerable<(string Id, double Mm)> tails = frame.ClampsOn().Where(c => frame.Parts.Clamps[c].Pin is not null)
            .Select(c => (frame.Parts.Clamps[c].Pin!, frame.Pins[frame.PinIndex(frame.Parts.Clamps[c].Pin)].At(frame.Clamps[c].AlongMemberMm + TailMm).Y));
        (string Rod, double Mm) most = rods.Concat(tails).MaxBy(r => r.Mm);
        const string Rule = "Frame clear of the other leg: common practice, 100 mm from the bone's axis ASSUMED; half a clamp and the pin's tail are 25 mm (MEMORY)";
        return most.Mm > OtherLegMm
            ? new("other-leg", Verdict.Caution, $"{most.Rod} reaches {Mm(most.Mm)} to the medial side of the bone's axis, where the other leg is.", "Turn the plane forward, bring the rod nearer or cut the pins shorter.", Rule, "ASSUMED")
            : new("other-leg", Verdict.Pass, $"The frame reaches {Mm(Math.Max(0, most.Mm))} to the medial side, clear of the other leg.", "", Rule, "ASSUMED");
    }

    private static Pin[] PinsOn(PlacedFrame frame, int rod) =>
        [.. frame.ClampsOn().Where(c => frame.Parts.Clamps[c].Rod == frame.Parts.Rods[rod].Id && frame.Parts.Clamps[c].Pin is not null).Select(c => frame.Parts.Pins[frame.PinIndex(frame.Parts.Clamps[c].Pin)])];

    private static double SpreadDeg(Pin[] pins) =>
        pins.SelectMany(a => pins.Select(b => Math.Abs(Math.IEEERemainder(a.AzimuthDeg - b.AzimuthDeg, 360)))).DefaultIfEmpty(0).Max();

    // Places of a rod's clamps, of those too in which it is the other rod.
    private static IEnumerable<double> Seats(PlacedFrame frame, int rod) => frame.ClampsOn().SelectMany(c =>
        frame.Parts.Clamps[c].Rod == frame.Parts.Rods[rod].Id ? [frame.Clamps[c].AlongRodMm]
        : frame.Parts.Clamps[c].OtherRod == frame.Parts.Rods[rod].Id ? new[] { frame.Clamps[c].AlongMemberMm } : []);

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
