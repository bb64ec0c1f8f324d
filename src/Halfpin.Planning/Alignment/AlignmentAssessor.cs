using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Planning.Alignment;

/// <summary>Answers a measurement of alignment: true size and plane, published limits, and what to turn.</summary>
public static class AlignmentAssessor
{
    private const string Formula = "tan² A = tan² AP + tan² lateral; tan P = tan lateral / tan AP (orthopedicreviews 120302, READ).";

    /// <summary>The report on a question without faults.</summary>
    public static AlignmentReport Assess(AlignmentQuestion question, ProgramStamp program, string? caseSha256)
    {
        AlignmentMeasurement m = question.Measured;
        MeasurementError error = new(m);
        AngularDeformity exact = AngularDeformity.From(m.ApDeg, m.LateralDeg), small = AngularDeformity.BySmallAngles(m.ApDeg, m.LateralDeg);
        bool hasPlane = error.ApexAzimuth is not null;
        Side? side = question.Case?.Limb.Side ?? question.Side;
        ImmutableArray<AlignmentLimit> limits = AlignmentLimits.Acceptable(m, error, Width(question)), indicated = AlignmentLimits.Indicated(m, error);
        ImmutableArray<AlignmentCorrection> corrections = Corrections(question, error.Certain(m), side);
        string plane = PlaneWords(exact, error);
        return new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = question.Case?.Title,
            SafetyNote = Safety.Note,
            Side = side,
            Measured = m,
            Findings = [.. AlignmentFindings.Of(m, exact, error, plane, limits, indicated, corrections)],
            TrueAngleDeg = exact.AngleDeg,
            TrueAngleRange = error.TrueAngleDeg,
            PlaneAzimuthDeg = hasPlane ? exact.ApexAzimuthDeg : null,
            PlaneAzimuthRange = error.ApexAzimuth,
            PlaneFromFrontalDeg = hasPlane ? exact.PlaneDeg : null,
            PlaneWords = plane,
            SmallAngleRule = new(
                small.AngleDeg, hasPlane ? small.PlaneDeg : null, small.AngleDeg - exact.AngleDeg,
                hasPlane ? Math.IEEERemainder(small.PlaneDeg - exact.PlaneDeg, 360) : null),
            Shift = Shift(m, error),
            Limits = limits,
            CorrectionIndicated = indicated,
            Corrections = corrections,
            Method = $"{Formula} Error: each reading may lie anywhere within its bound; the extremes of the rectangle of both readings are taken, which is exact. An interval is no probability.",
            Assumptions = Assumptions(m, question.Case is not null),
            Cautions =
            [
                "The two views must be at right angles and true to the limb; a rotated view shows another angle.",
                "Rotation and length are not seen on two views of the fracture: compare with the other leg.",
                "Imaging in two views decides, before and after each clamp is tightened; vessels, nerves and compartments are checked again after a reduction.",
            ],
        };
    }

    private static string PlaneWords(AngularDeformity exact, MeasurementError error) => error.ApexAzimuth is DirectionRange sector
        ? string.Create(CultureInfo.InvariantCulture, $"apex {AlignmentWords.Azimuth(exact.ApexAzimuthDeg)}, from {sector.FromDeg:0}° to {sector.ToDeg:0}° with its error")
        : "no plane: both angles may be nothing within the error of measurement";

    private static AlignmentShift? Shift(AlignmentMeasurement m, MeasurementError error) => error.Shift is MeasuredVector shift
        ? new(
            double.Hypot(m.ApShiftMm!.Value, m.LateralShiftMm!.Value), shift.Size,
            shift.Azimuth is null ? null : Math.Atan2(m.ApShiftMm.Value, m.LateralShiftMm.Value) * 180 / Math.PI, shift.Azimuth)
        : null;

    // Width of the bone through its axis, along the shift.
    private static double? Width(AlignmentQuestion question)
    {
        if (question.Case is not Case value || question.Measured is not { ApShiftMm: double ap, LateralShiftMm: double lateral })
        {
            return null;
        }

        BoneShape bone = BoneShape.For(value.Limb);
        double azimuth = Math.Atan2(ap, lateral) * 180 / Math.PI, level = value.Fractures[question.Fracture - 1].LevelMm;
        return bone.OuterRadiusMm(level, azimuth) + bone.OuterRadiusMm(level, azimuth > 0 ? azimuth - 180 : azimuth + 180);
    }

    private static ImmutableArray<AlignmentCorrection> Corrections(AlignmentQuestion question, AlignmentMeasurement certain, Side? side)
    {
        RigidMotion deformity = LimbDeformity.Of(certain, default);
        AngularDeformity angulation = AngularDeformity.From(certain.ApDeg, certain.LateralDeg);
        string[] words = [.. AlignmentWords.Correction(certain, side)];
        bool nothing = words.Length == 0;
        AlignmentCorrection movement = new()
        {
            // About an axis across the bone the foot end goes a quarter turn ahead of it, by the right hand: axis = apex × z.
            AxisAzimuthDeg = angulation.AngleDeg > 0 ? Math.IEEERemainder(angulation.ApexAzimuthDeg - 90, 360) : null,
            AngleDeg = angulation.AngleDeg,
            WholeTurnDeg = deformity.AngleDeg,
            Words = nothing ? ["Nothing to correct beyond the error of measurement."] : [.. words],
        };
        if (question.Case is not Case value)
        {
            return [movement];
        }

        BoneShape bone = BoneShape.For(value.Limb);
        Fracture fracture = value.Fractures[question.Fracture - 1];
        return [.. value.Frames.Where(f => question.FrameId is null || f.Id == question.FrameId).Select(f =>
        {
            FrameReduction reduction = new(bone, fracture, f.Parts ?? ConstructBuilder.Build(f.Construct!, value.Fractures));
            return movement with
            {
                Frame = f.Id,
                Name = f.DisplayName,
                FractureLevelMm = fracture.LevelMm,
                CannotCorrect = nothing ? [] : [.. reduction.CannotCorrect(certain)],
                Ways = nothing ? [] : reduction.Ways(certain),
            };
        })];
    }

    private static ImmutableArray<Assumption> Assumptions(AlignmentMeasurement m, bool withCase)
    {
        List<Assumption> all =
        [
            new("error of an angle", string.Create(CultureInfo.InvariantCulture, $"± {m.ErrorDeg:0.##}°"), m.ErrorDeg != AlignmentMeasurement.UsualErrorDeg, "no source", "ASSUMED"),
            new("error of a length", string.Create(CultureInfo.InvariantCulture, $"± {m.ErrorMm:0.##} mm"), m.ErrorMm != AlignmentMeasurement.UsualErrorMm, "no source", "ASSUMED"),
            new("what lies within its error", "is not corrected", false, "the program's rule", "ASSUMED"),
        ];
        if (withCase)
        {
            all.AddRange(
            [
                new("places of the frame", "as the case has them, on a straight bone; fragments rigid with their pins", false, "modelling choice", "ASSUMED"),
                new("a loosened clamp", "slides along and turns about both members and hinges; keeps their distance", false, "modelling choice", "ASSUMED"),
                new("misfit taken up by play", $"{FrameReduction.PlayMm} mm", false, "no source", "ASSUMED"),
                new("misfit taken up by bending pins", $"{FrameReduction.BendMm} mm", false, "no source", "ASSUMED"),
                new("pins of one plane", $"within {FrameReduction.OnePlaneDeg}°", false, "no source", "ASSUMED"),
            ]);
        }

        return [.. all];
    }
}
