using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Reports.Words;
using Halfpin.Studies.Uncertainty;

namespace Halfpin.Workbench.Comparing;

/// <summary>A result by which frames are compared.</summary>
/// <param name="Key">Its name for programs; its unit ends it.</param>
/// <param name="Label">Its name for people.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Of">Its value; null where there is none.</param>
/// <param name="Band">Its band; null where there is none.</param>
/// <param name="Text">A value in words, without the unit.</param>
/// <param name="Best">Whether more or less of it stands out, and by which word.</param>
internal sealed record ComparedValue(
    string Key, string Label, string Unit, Func<FrameAssessment, double?> Of, Func<FrameAssessment, Interval?> Band, Func<double, string> Text, Standout Best)
{
    /// <summary>The band of a frame: that of the study where there is one, else that of inputs at their worst together.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="study">Its bands of the study; null to take the others.</param>
    public BandOfValue? BandOf(FrameAssessment frame, FrameBands? study) =>
        study is null ? Band(frame) is Interval b ? new(b.Low, b.High, null) : null
        : Of(frame) is not null && study.Results.FirstOrDefault(r => r.Name == Key) is { P5: double low, P95: double high, Median: double median } ? new(low, high, median)
        : null;

    /// <summary>The four stiffnesses at the fracture, or in turn at each of several.</summary>
    public static ImmutableArray<ComparedValue> Stiffnesses(Case value) => value.Fractures.Length == 1
        ? FourAt(null)
        : [.. Enumerable.Range(0, value.Fractures.Length).SelectMany(i => FourAt(i).Select(v => v with { Label = ResultWords.AtFracture(i + 1, v.Label) }))];

    /// <summary>The stiffnesses by which frames are ranked, of several fractures at the one where a frame is least stiff.</summary>
    public static ImmutableArray<(string Key, string Label)> Ranked { get; } = [.. FourAt(null).Select(v => (v.Key, v.Label))];

    /// <summary>The results of a case by groups.</summary>
    public static ImmutableArray<(string Name, ImmutableArray<ComparedValue> Values)> Groups(Case value) =>
    [
        .. value.Fractures.Length == 1 ? At(value, null) : Enumerable.Range(0, value.Fractures.Length).SelectMany(i => At(value, i)),
        ("Limits and parts",
        [
            new("firstLimitKg", "First limit as axial load grows", "kg", f => f.FirstLimit?.LoadKg, f => f.Band?.FirstLimitKg, Numbers.Kg, Standout.Highest),
            .. value.Loading.IsChosen ? [Plain("worstUsedPercent", "Most used part of its limit, fatigue counted", "%", f => f.Utilisation.IsEmpty ? null : 100 * f.Utilisation.Max(u => u.Value), v => v < 1 ? "under 1" : Numbers.Kg(v), Standout.Least)] : Array.Empty<ComparedValue>(),
            Plain("parts", "Pins, rods and clamps", "", f => f.Kit.Pins + f.Kit.Rods + f.Kit.Clamps, Numbers.Kg, Standout.Fewest),
            Plain("checksFailed", "Checks that fail", "", f => f.Stiffness is null ? null : f.Checks.Count(c => c.Verdict == Verdict.Fail), Numbers.Kg, Standout.Fewest),
            Plain("cautions", "Cautions", "", f => f.Stiffness is null ? null : f.Checks.Count(c => c.Verdict == Verdict.Caution), Numbers.Kg, Standout.Fewest),
        ]),
    ];

    // At the only fracture, or at one of several by its number from 0.
    private static IEnumerable<(string Name, ImmutableArray<ComparedValue> Values)> At(Case value, int? fracture)
    {
        string which = fracture is int n ? string.Create(CultureInfo.InvariantCulture, $"fracture {n + 1}") : "the fracture";
        yield return ($"Stiffness at {which}", [.. FourAt(fracture), Plain(KeyAt("weakBendingNmPerDeg", fracture), "Bending, weakest direction", "N·m/°", f => RoseAt(f, fracture)?.WeakNmPerDeg, Numbers.Stiffness, Standout.Highest)]);
        if (value.Loading.IsChosen)
        {
            yield return ($"Movement {(fracture is null ? "" : $"of {which} ")}at {Answers.AnswerWriter.Load(value)}", MovementAt(fracture));
        }
    }

    private static ImmutableArray<ComparedValue> FourAt(int? fracture) =>
    [
        Stiffness("axialNPerMm", "Axial", "N/mm", s => s.AxialNPerMm, fracture),
        Stiffness("apBendingNmPerDeg", "AP bending", "N·m/°", s => s.ApBendingNmPerDeg, fracture),
        Stiffness("mlBendingNmPerDeg", "ML bending", "N·m/°", s => s.MlBendingNmPerDeg, fracture),
        Stiffness("torsionNmPerDeg", "Torsion", "N·m/°", s => s.TorsionNmPerDeg, fracture),
    ];

    private static ImmutableArray<ComparedValue> MovementAt(int? fracture) =>
    [
        new(KeyAt("axialMm", fracture), "Axial", "mm", f => MotionAt(f, fracture) is FractureMotion m ? Math.Abs(m.AxialMm) : null, f => HasBand(fracture) && f.Motion is not null ? f.Band?.AxialMm : null, Numbers.Motion, Standout.Least),
        new(KeyAt("shearMm", fracture), "Shear", "mm", f => MotionAt(f, fracture)?.ShearMm, f => HasBand(fracture) && f.Motion is not null ? f.Band?.ShearMm : null, Numbers.Motion, Standout.Least),
        Plain(KeyAt("tiltDeg", fracture), "Tilt", "°", f => MotionAt(f, fracture)?.TiltDeg, Numbers.Motion, Standout.Least),
        Plain(KeyAt("twistDeg", fracture), "Twist", "°", f => MotionAt(f, fracture) is FractureMotion m ? Math.Abs(m.TwistDeg) : null, Numbers.Motion, Standout.Least),
    ];

    private static ComparedValue Stiffness(string key, string label, string unit, Func<FourStiffnesses, double> of, int? fracture) => new(
        KeyAt(key, fracture), label, unit, f => FourAt(f, fracture) is FourStiffnesses four ? of(four) : null,
        f => !HasBand(fracture) || f.Band is null || f.Stiffness is null ? null : new(of(f.Band.Low), of(f.Band.High)), Numbers.Stiffness, Standout.Highest);

    private static string KeyAt(string quantity, int? fracture) => fracture is int n ? ResultNames.Of(quantity, n + 1) : quantity;

    // An assessment puts its bands about the first fracture.
    private static bool HasBand(int? fracture) => fracture is null or 0;

    private static FourStiffnesses? FourAt(FrameAssessment f, int? fracture) => fracture is not int n ? f.Stiffness?.AtFracture : f.Fractures.IsEmpty ? null : f.Fractures[n].AtFracture;

    private static BendingRose? RoseAt(FrameAssessment f, int? fracture) => fracture is not int n ? f.BendingRose : f.Fractures.IsEmpty ? null : f.Fractures[n].BendingRose;

    private static FractureMotion? MotionAt(FrameAssessment f, int? fracture) => fracture is not int n ? f.Motion : f.Fractures.IsEmpty ? null : f.Fractures[n].Motion;

    private static ComparedValue Plain(string key, string label, string unit, Func<FrameAssessment, double?> of, Func<double, string> text, Standout best) => new(key, label, unit, of, _ => null, text, best);
}

/// <summary>A band of a value.</summary>
/// <param name="Low">Where it begins.</param>
/// <param name="High">Where it ends.</param>
/// <param name="Median">Its median; null where it is no band of samples.</param>
internal sealed record BandOfValue(double Low, double High, double? Median)
{
    /// <summary>The band in words; a narrow column breaks them after the median only.</summary>
    public string Words(Func<double, string> text) => Median is double m ? $"median\u00a0{text(m)}, {text(Low)}\u00a0to\u00a0{text(High)}" : $"{text(Low)} to {text(High)}";
}

/// <summary>Which end of a row stands out.</summary>
internal enum Standout
{
    /// <summary>The highest value.</summary>
    Highest,

    /// <summary>The least value.</summary>
    Least,

    /// <summary>The least count.</summary>
    Fewest,
}
