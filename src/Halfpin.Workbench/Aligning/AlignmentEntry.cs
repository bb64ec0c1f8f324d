using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Planning.Alignment;

namespace Halfpin.Workbench.Aligning;

/// <summary>A measured value of alignment as it is entered: a size and one of two directions.</summary>
/// <param name="Key">Its name in addresses.</param>
/// <param name="Option">How the rules of measurement name it.</param>
/// <param name="Label">Its name for people.</param>
/// <param name="Unit">° or mm.</param>
/// <param name="Positive">Direction of a positive value; empty for an error, which has none.</param>
/// <param name="Negative">Direction of a negative one.</param>
/// <param name="Most">Largest size.</param>
/// <param name="IsNeeded">True when there is no answer without it.</param>
/// <param name="Of">Its value in a measurement.</param>
/// <param name="With">A measurement with another value.</param>
public sealed record AlignmentField(
    string Key, string Option, string Label, string Unit, string Positive, string Negative, double Most, bool IsNeeded,
    Func<AlignmentMeasurement, double?> Of, Func<AlignmentMeasurement, double, AlignmentMeasurement> With);

/// <summary>A measurement of alignment under entry: the values given so far by key.</summary>
/// <param name="Values">The values.</param>
public sealed record AlignmentEntry(ImmutableDictionary<string, double> Values)
{
    /// <summary>The fields in the order in which they are asked.</summary>
    public static ImmutableArray<AlignmentField> Fields { get; } =
    [
        new("ap", "--ap", "Angulation on the AP view", "°", "varus", "valgus", MeasurementRules.MostAngleDeg, true, m => m.ApDeg, (m, v) => m with { ApDeg = v }),
        new("lat", "--lat", "Angulation on the lateral view", "°", "procurvatum", "recurvatum", MeasurementRules.MostAngleDeg, true, m => m.LateralDeg, (m, v) => m with { LateralDeg = v }),
        new("rotation", "--rotation", "Rotation of the distal fragment", "°", "external", "internal", MeasurementRules.MostRotationDeg, false, m => m.RotationDeg, (m, v) => m with { RotationDeg = v }),
        new("ap-shift", "--ap-shift", "Shift of the distal end on the AP view", "mm", "medial", "lateral", MeasurementRules.MostLengthMm, false, m => m.ApShiftMm, (m, v) => m with { ApShiftMm = v }),
        new("lat-shift", "--lat-shift", "Shift of the distal end on the lateral view", "mm", "anterior", "posterior", MeasurementRules.MostLengthMm, false, m => m.LateralShiftMm, (m, v) => m with { LateralShiftMm = v }),
        new("length", "--length", "Length at the fracture", "mm", "distraction", "shortening", MeasurementRules.MostLengthMm, false, m => m.LengthMm, (m, v) => m with { LengthMm = v }),
        new("error-deg", "--error-deg", "Error of every angle, either way", "°", "", "", MeasurementRules.MostErrorDeg, false, m => m.ErrorDeg, (m, v) => m with { ErrorDeg = v }),
        new("error-mm", "--error-mm", "Error of every length, either way", "mm", "", "", MeasurementRules.MostErrorMm, false, m => m.ErrorMm, (m, v) => m with { ErrorMm = v }),
    ];

    /// <summary>Nothing entered.</summary>
    public static AlignmentEntry Empty { get; } = new(ImmutableDictionary<string, double>.Empty);

    /// <summary>The fields that are still wanted before there is an answer.</summary>
    public ImmutableArray<AlignmentField> Missing => [.. Fields.Where(f => f.IsNeeded && !Values.ContainsKey(f.Key))];

    /// <summary>The entry with a value, or without it.</summary>
    public AlignmentEntry With(string key, double? value) => new(value is double v ? Values.SetItem(key, v) : Values.Remove(key));

    /// <summary>The measurement; null while a needed value is missing.</summary>
    public AlignmentMeasurement? Measurement => Missing.IsEmpty
        ? Fields.Where(f => Values.ContainsKey(f.Key)).Aggregate(new AlignmentMeasurement { ApDeg = 0, LateralDeg = 0 }, (m, f) => f.With(m, Values[f.Key]))
        : null;

    /// <summary>The question about one frame; null while a needed value is missing.</summary>
    public AlignmentQuestion? Question(Case value, string frameId, int fracture) =>
        Measurement is AlignmentMeasurement measured ? new(measured, null, value, frameId, fracture) : null;

    /// <summary>Everything that is wrong with a question, with the fields' names for people in place of options.</summary>
    public static ImmutableArray<Fault> FaultsOf(AlignmentQuestion question) => [.. question.Faults().Select(f => f with
    {
        Pointer = Named(f.Pointer),
        Message = Named(f.Message),
        Try = Named(f.Try),
    })];

    // Longest options first, since one may begin another.
    private static string Named(string text) => Fields.OrderByDescending(f => f.Option.Length)
        .Aggregate(text, (t, f) => t.Replace(f.Option, f.Label, StringComparison.Ordinal)).Replace("--fracture", "Fracture", StringComparison.Ordinal);
}
