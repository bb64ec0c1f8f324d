using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;

namespace Halfpin.Planning.Alignment;

/// <summary>Published limits of alignment of the adult tibial shaft. They contradict each other in places: all are shown.</summary>
internal static class AlignmentLimits
{
    private const string Wheeless = "Wheeless' Textbook of Orthopaedics";
    private const string Surgical = "surgical criteria as listed at scilit";
    private const string Clinical = "BMC Musculoskelet Disord 2021, s12891-021-04452-w";
    private const string Targets = "usual targets of reduction";

    /// <summary>The limits of acceptable alignment.</summary>
    /// <param name="m">What was measured.</param>
    /// <param name="error">What its error leaves.</param>
    /// <param name="boneWidthMm">Width of the bone at the fracture along the shift; null when unknown.</param>
    public static ImmutableArray<AlignmentLimit> Acceptable(AlignmentMeasurement m, MeasurementError error, double? boneWidthMm)
    {
        Reading varus = Reading.Magnitude(m.ApDeg, error.ApDeg), sagittal = Reading.Magnitude(m.LateralDeg, error.LateralDeg);
        Reading rotation = Reading.Magnitude(m.RotationDeg, error.RotationDeg);
        Reading shortening = Reading.Less(m.LengthMm, error.LengthMm), distraction = Reading.More(m.LengthMm, error.LengthMm);
        return
        [
            Below("varus or valgus", "°", 5, varus, $"{Wheeless}; {Surgical}"),
            Below("angulation on the lateral view", "°", 10, sagittal, $"{Wheeless}; {Surgical}"),
            UpTo("rotation, bound to operate", "°", 5, rotation, Surgical),
            Below("rotation", "°", 10, rotation, Wheeless),
            Below("rotation, clinically relevant from", "°", 15, rotation, Clinical),
            Below("shortening", "mm", 10, shortening, Wheeless),
            UpTo("distraction, none wanted", "mm", 0, distraction, Wheeless),
            UpTo("distraction, may lengthen healing beyond", "mm", 1.6, distraction, Wheeless),
            Below("distraction, 8 to 12 months to heal at", "mm", 5, distraction, Wheeless),
            Apposition(error.Shift, m, boneWidthMm),
            UpTo("varus or valgus, target of reduction", "°", 5, varus, Targets, "MEMORY"),
            UpTo("angulation on the lateral view, target of reduction", "°", 10, sagittal, Targets, "MEMORY"),
            UpTo("rotation, target of reduction", "°", 10, rotation, Targets, "MEMORY"),
            UpTo("shortening, target of reduction", "mm", 10, shortening, Targets, "MEMORY"),
        ];
    }

    /// <summary>The bounds from which correction is indicated.</summary>
    public static ImmutableArray<AlignmentLimit> Indicated(AlignmentMeasurement m, MeasurementError error) =>
    [
        Between("valgus", "°", 10, 12, Reading.Less(m.ApDeg, error.ApDeg)),
        Between("varus", "°", 6, 10, Reading.More(m.ApDeg, error.ApDeg)),
        Between("external rotation", "°", 15, 20, Reading.More(m.RotationDeg, error.RotationDeg)),
        Between("internal rotation", "°", 10, 15, Reading.Less(m.RotationDeg, error.RotationDeg)),
        Between("shortening", "mm", 20, null, Reading.Less(m.LengthMm, error.LengthMm)),
    ];

    private static AlignmentLimit Below(string name, string unit, double limit, Reading r, string source) =>
        Judge(name, unit, limit, r, v => v >= limit, "less than", source, "READ");

    private static AlignmentLimit UpTo(string name, string unit, double limit, Reading r, string source, string tag = "READ") =>
        Judge(name, unit, limit, r, v => v > limit, "at most", source, tag);

    private static AlignmentLimit Judge(string name, string unit, double limit, Reading r, Func<double, bool> beyond, string word, string source, string tag)
    {
        if (r is not { Value: double value, Range: MeasuredRange range })
        {
            return new(name, unit, limit, null, null, null, null, "Not measured.", source, tag);
        }

        Verdict verdict = beyond(value) ? Verdict.Fail : beyond(range.High) ? Verdict.Caution : Verdict.Pass;
        string error = range.High > range.Low ? $", {Text(range.Low)} to {Text(range.High)} with its error" : "";
        return new(name, unit, limit, null, value, range, verdict, $"{With(value, unit)}{error}; {word} {With(limit, unit)}.", source, tag);
    }

    private static AlignmentLimit Between(string name, string unit, double from, double? to, Reading r)
    {
        string bound = to is double t ? $"{Text(from)} to {With(t, unit)}" : With(from, unit);
        if (r is not { Value: double value, Range: MeasuredRange range })
        {
            return new(name, unit, from, to, null, null, null, $"Not measured; correction from more than {bound}.", Wheeless, "READ");
        }

        Verdict verdict = value > (to ?? from) ? Verdict.Fail : range.High > from ? Verdict.Caution : Verdict.Pass;
        string error = range.High > range.Low ? $", {Text(range.Low)} to {Text(range.High)} with its error" : "";
        return new(name, unit, from, to, value, range, verdict, $"{With(value, unit)}{error}; correction from more than {bound}.", Wheeless, "READ");
    }

    // The share of the bone's width, along the shift, that still stands over bone.
    private static AlignmentLimit Apposition(MeasuredVector? shift, AlignmentMeasurement m, double? widthMm)
    {
        const string name = "apposition";
        if (shift is null || widthMm is not double width)
        {
            string why = shift is null ? "Not measured." : "Not judged: the bone's width is known from a case only.";
            return new(name, "%", 50, null, null, null, null, why, Wheeless, "READ");
        }

        double Share(double shiftMm) => 100 * Math.Max(0, 1 - (shiftMm / width));
        double value = Share(double.Hypot(m.ApShiftMm ?? 0, m.LateralShiftMm ?? 0));
        MeasuredRange range = new(Share(shift.Size.High), Share(shift.Size.Low));
        Verdict verdict = value <= 50 ? Verdict.Fail : range.Low <= 50 ? Verdict.Caution : Verdict.Pass;
        return new(name, "%", 50, null, value, range, verdict, $"{Text(value)} % of {Text(width)} mm along the shift, {Text(range.Low)} to {Text(range.High)} % with its error; more than 50 %.", Wheeless, "READ");
    }

    private static string With(double number, string unit) => unit == "°" ? Text(number) + unit : $"{Text(number)} {unit}";

    private static string Text(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>A quantity that counts one way only, or whichever way it goes.</summary>
    private sealed record Reading(double? Value, MeasuredRange? Range)
    {
        public static Reading Magnitude(double? value, MeasuredRange? r) => value is double v && r is not null
            ? new(Math.Abs(v), new(r.Low > 0 ? r.Low : r.High < 0 ? -r.High : 0, Math.Max(Math.Abs(r.Low), Math.Abs(r.High))))
            : new(null, null);

        public static Reading More(double? value, MeasuredRange? r) => value is double v && r is not null
            ? new(Math.Max(0, v), new(Math.Max(0, r.Low), Math.Max(0, r.High)))
            : new(null, null);

        public static Reading Less(double? value, MeasuredRange? r) => value is double v && r is not null
            ? More(-v, new(-r.High, -r.Low))
            : new(null, null);
    }
}
