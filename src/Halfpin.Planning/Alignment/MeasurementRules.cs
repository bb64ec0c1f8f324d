using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Validity;

namespace Halfpin.Planning.Alignment;

/// <summary>Which measurements can be answered.</summary>
public static class MeasurementRules
{
    /// <summary>Largest angle on a view, either way. ASSUMED: beyond it two views do not show the fragments' axes.</summary>
    public const double MostAngleDeg = 60;

    /// <summary>Largest rotation, either way.</summary>
    public const double MostRotationDeg = 60;

    /// <summary>Largest shift or change of length, either way.</summary>
    public const double MostLengthMm = 100;

    /// <summary>Largest error of an angle.</summary>
    public const double MostErrorDeg = 15;

    /// <summary>Largest error of a length.</summary>
    public const double MostErrorMm = 20;

    /// <summary>All faults of a measurement; the pointers are the options that give it.</summary>
    public static IEnumerable<Fault> Check(AlignmentMeasurement m)
    {
        IEnumerable<Fault?> each =
        [
            Within("--ap", m.ApDeg, MostAngleDeg, "°"), Within("--lat", m.LateralDeg, MostAngleDeg, "°"),
            Within("--rotation", m.RotationDeg, MostRotationDeg, "°"), Within("--ap-shift", m.ApShiftMm, MostLengthMm, " mm"),
            Within("--lat-shift", m.LateralShiftMm, MostLengthMm, " mm"), Within("--length", m.LengthMm, MostLengthMm, " mm"),
            Error("--error-deg", m.ErrorDeg, MostErrorDeg, "°"), Error("--error-mm", m.ErrorMm, MostErrorMm, " mm"),
        ];
        foreach (Fault fault in each.OfType<Fault>())
        {
            yield return fault;
        }

        if (m.ApShiftMm is null != m.LateralShiftMm is null)
        {
            string missing = m.ApShiftMm is null ? "--ap-shift" : "--lat-shift";
            yield return new(missing, FaultCodes.Missing, "Shift is given on one view only; its true size and direction need both.", "Both views or neither.", $"Give {missing} too; 0 when the ends stand in line there.");
        }
    }

    private static Fault? Within(string option, double? value, double most, string unit) => value is not double v || Math.Abs(v) <= most
        ? null
        : new(option, FaultCodes.Range, $"{option} is {Text(v)}{unit}.", $"{Text(-most)} to {Text(most)}{unit}.", "Check the reading and its unit.");

    private static Fault? Error(string option, double value, double most, string unit) => value >= 0 && value <= most
        ? null
        : new(option, FaultCodes.Range, $"{option} is {Text(value)}{unit}.", $"0 to {Text(most)}{unit}.", "Give how far a reading may be off, either way.");

    private static string Text(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);
}
