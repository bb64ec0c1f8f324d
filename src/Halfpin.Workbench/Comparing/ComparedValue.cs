using System.Collections.Immutable;
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

    /// <summary>The four stiffnesses at the fracture.</summary>
    public static ImmutableArray<ComparedValue> Stiffnesses { get; } =
    [
        Stiffness("axialNPerMm", "Axial", "N/mm", s => s.AxialNPerMm),
        Stiffness("apBendingNmPerDeg", "AP bending", "N·m/°", s => s.ApBendingNmPerDeg),
        Stiffness("mlBendingNmPerDeg", "ML bending", "N·m/°", s => s.MlBendingNmPerDeg),
        Stiffness("torsionNmPerDeg", "Torsion", "N·m/°", s => s.TorsionNmPerDeg),
    ];

    /// <summary>The results of a case by groups.</summary>
    public static ImmutableArray<(string Name, ImmutableArray<ComparedValue> Values)> Groups(Case value) =>
    [
        ("Stiffness at the fracture", [.. Stiffnesses, Plain("weakBendingNmPerDeg", "Bending, weakest direction", "N·m/°", f => f.BendingRose?.WeakNmPerDeg, Numbers.Stiffness, Standout.Highest)]),
        .. value.Loading.IsChosen ? [($"Movement at {Answers.AnswerWriter.Load(value)}", Movement)] : Array.Empty<(string, ImmutableArray<ComparedValue>)>(),
        ("Limits and parts",
        [
            new("firstLimitKg", "First limit as axial load grows", "kg", f => f.FirstLimit?.LoadKg, f => f.Band?.FirstLimitKg, Numbers.Kg, Standout.Highest),
            .. value.Loading.IsChosen ? [Plain("worstUsedPercent", "Most used part of its limit, fatigue counted", "%", f => f.Utilisation.IsEmpty ? null : 100 * f.Utilisation.Max(u => u.Value), v => v < 1 ? "under 1" : Numbers.Kg(v), Standout.Least)] : Array.Empty<ComparedValue>(),
            Plain("parts", "Pins, rods and clamps", "", f => f.Kit.Pins + f.Kit.Rods + f.Kit.Clamps, Numbers.Kg, Standout.Fewest),
            Plain("checksFailed", "Checks that fail", "", f => f.Stiffness is null ? null : f.Checks.Count(c => c.Verdict == Verdict.Fail), Numbers.Kg, Standout.Fewest),
            Plain("cautions", "Cautions", "", f => f.Stiffness is null ? null : f.Checks.Count(c => c.Verdict == Verdict.Caution), Numbers.Kg, Standout.Fewest),
        ]),
    ];

    private static ImmutableArray<ComparedValue> Movement { get; } =
    [
        new("axialMm", "Axial", "mm", f => f.Motion is FractureMotion m ? Math.Abs(m.AxialMm) : null, f => f.Motion is null ? null : f.Band?.AxialMm, Numbers.Motion, Standout.Least),
        new("shearMm", "Shear", "mm", f => f.Motion?.ShearMm, f => f.Motion is null ? null : f.Band?.ShearMm, Numbers.Motion, Standout.Least),
        Plain("tiltDeg", "Tilt", "°", f => f.Motion?.TiltDeg, Numbers.Motion, Standout.Least),
        Plain("twistDeg", "Twist", "°", f => f.Motion is FractureMotion m ? Math.Abs(m.TwistDeg) : null, Numbers.Motion, Standout.Least),
    ];

    private static ComparedValue Stiffness(string key, string label, string unit, Func<FourStiffnesses, double> of) => new(
        key, label, unit, f => f.Stiffness is null ? null : of(f.Stiffness.AtFracture), f => f.Band is null || f.Stiffness is null ? null : new(of(f.Band.Low), of(f.Band.High)), Numbers.Stiffness, Standout.Highest);

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
