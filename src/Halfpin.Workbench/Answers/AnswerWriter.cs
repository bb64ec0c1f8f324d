using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;

namespace Halfpin.Workbench.Answers;

/// <summary>Puts an assessment of one frame into the words and bars of a screen.</summary>
public static class AnswerWriter
{
    /// <summary>The answer.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frame">The frame's assessment.</param>
    /// <param name="drawing">The frame's parts, for their names.</param>
    /// <param name="scales">Ends of the bars.</param>
    public static FrameAnswer Of(Case value, FrameAssessment frame, FrameDrawing drawing, StiffnessScales scales)
    {
        int failed = frame.Checks.Count(c => c.Verdict == Verdict.Fail), cautions = frame.Checks.Count(c => c.Verdict == Verdict.Caution);
        (Verdict verdict, string headline) = frame.Status switch
        {
            FrameStatus.Mechanism => (Verdict.Fail, "Does not hold the fracture."),
            FrameStatus.Invalid => (Verdict.Fail, "Cannot be worked out."),
            FrameStatus.OutOfRange => (Verdict.Fail, $"No answer at {Load(value)}: beyond what the model describes."),
            _ when failed > 0 => (Verdict.Fail, $"Not as it stands: {Count(failed, "check fails", "checks fail")}."),
            _ when cautions > 0 => (Verdict.Caution, $"Holds the fracture, with {Count(cautions, "caution", "cautions")}."),
            _ => (Verdict.Pass, "Holds the fracture; every check passes."),
        };
        return new()
        {
            Assessment = frame,
            Verdict = verdict,
            Headline = headline,
            Detail = Detail(value, frame),
            Bars = frame.Stiffness is null ? [] : Bars(value, frame, scales),
            Motion = frame.Motion is FractureMotion motion ? Motion(motion) : [],
            Limits = Limits(value, frame, drawing),
        };
    }

    /// <summary>The chosen load in words.</summary>
    public static string Load(Case value)
    {
        double kg = value.Loading.AxialKgFor(value.Limb.PatientMassKg);
        return kg > 0 ? Text($"{kg:0.#} kg") : value.Loading.IsChosen ? "the chosen load" : "no load";
    }

    private static string Detail(Case value, FrameAssessment frame)
    {
        if (frame.Diagnosis is Diagnosis diagnosis)
        {
            return $"{diagnosis.Message} {diagnosis.Try}";
        }

        List<string> sentences = [.. frame.Checks.Where(c => c.Verdict == Verdict.Fail).Take(1).Select(c => c.Message)];
        if (frame.Motion is { LoadN: > 0 } m)
        {
            string ends = m.EndsTouch ? " and the bone ends bear" : "";
            sentences.Add(Text($"At the {Load(value)} you entered the gap {(m.AxialMm <= 0 ? "closes" : "opens")} by {Numbers.Motion(m.AxialMm)} mm{ends}."));
        }

        if (frame.BendingRose is BendingRose rose)
        {
            sentences.Add($"Weakest against bending in the {Directions.Plane(rose.WeakAzimuthDeg)} plane, {Numbers.Stiffness(rose.WeakNmPerDeg)} N·m/°.");
        }

        sentences.Add("Not for full weight over an open gap.");
        return string.Join(' ', sentences);
    }

    private static ImmutableArray<StiffnessBar> Bars(Case value, FrameAssessment frame, StiffnessScales scales)
    {
        FourStiffnesses at = frame.Stiffness!.AtFracture;
        (double? from, double? to) = AxialWindow(value);
        double? weak = value.Requirements.LeastWeakBendingNmPerDeg;
        return
        [
            Bar("axial", "Axial", "N/mm", scales.Axial, frame, at, s => s.AxialNPerMm, from, to),
            Bar("ap", "AP bending", "N·m/°", scales.Ap, frame, at, s => s.ApBendingNmPerDeg, weak, null),
            Bar("ml", "ML bending", "N·m/°", scales.Ml, frame, at, s => s.MlBendingNmPerDeg, weak, null),
            Bar("torsion", "Torsion", "N·m/°", scales.Torsion, frame, at, s => s.TorsionNmPerDeg, null, null),
        ];
    }

    // DERIVED from the motion that is wanted: over an open gap the axial load over the least and the most of it. No stiffness window is published.
    private static (double? From, double? To) AxialWindow(Case value)
    {
        double loadN = value.Loading.AxialKgFor(value.Limb.PatientMassKg) * Loading.NewtonPerKg;
        Requirements own = value.Requirements;
        double most = own.MostAxialMm ?? 1;
        double? least = own.LeastAxialMm ?? (value.Purpose == Purpose.Definitive ? 0.2 : null);
        double from = Math.Max(own.LeastAxialNPerMm ?? 0, most > 0 ? loadN / most : 0);
        return (from > 0 ? from : null, least is > 0 && loadN > 0 ? loadN / least : null);
    }

    private static StiffnessBar Bar(string key, string label, string unit, double scale, FrameAssessment frame, FourStiffnesses at, Func<FourStiffnesses, double> of, double? from, double? to)
    {
        double now = of(at);
        double Share(double x) => Math.Clamp(x / scale, 0, 1);
        (double Low, double High)? band = frame.Band is ResultBand b ? (of(b.Low), of(b.High)) : null;
        return new(
            key, label, Numbers.Stiffness(now), now == 0 ? "" : unit, Share(now),
            band is null ? null : Share(band.Value.Low), band is null ? null : Share(band.Value.High),
            band is null ? "" : $"{Numbers.Stiffness(band.Value.Low)} to {Numbers.Stiffness(band.Value.High)}",
            from is null && to is null ? null : Share(from ?? 0), from is null && to is null ? null : Share(to ?? scale),
            now < from || now > to);
    }

    private static ImmutableArray<NamedText> Motion(FractureMotion m) =>
    [
        new("motion.axial", m.AxialMm <= 0 ? "axial, closing" : "axial, opening", $"{Numbers.Motion(m.AxialMm)} mm"),
        new("motion.near", m.ClosingNearMm >= 0 ? "cortex near the rods, closing" : "cortex near the rods, opening", $"{Numbers.Motion(m.ClosingNearMm)} mm"),
        new("motion.far", m.ClosingFarMm >= 0 ? "opposite cortex, closing" : "opposite cortex, opening", $"{Numbers.Motion(m.ClosingFarMm)} mm"),
        new("motion.shear", "shear in the fracture", $"{Numbers.Motion(m.ShearMm)} mm"),
        new("motion.tilt", "tilt", $"{Numbers.Motion(m.TiltDeg)}°"),
        new("motion.twist", "twist", $"{Numbers.Motion(m.TwistDeg)}°"),
    ];

    private static ImmutableArray<NamedText> Limits(Case value, FrameAssessment frame, FrameDrawing drawing)
    {
        List<NamedText> lines = [];
        if (frame.FirstLimit is FirstLimit first)
        {
            string band = frame.Band?.FirstLimitKg is Interval kg ? $", {Numbers.Kg(kg.Low)} to {Numbers.Kg(kg.High)} kg by parts and placement" : "";
            lines.Add(new("limit.first", $"First: {LimitWords.Of(first, drawing)}", $"near {Numbers.Kg(first.LoadKg)} kg, once{band}"));
        }

        foreach (UtilisationEntry u in frame.Utilisation.OrderByDescending(u => u.Value).Take(2).Where(u => u.Value > 0))
        {
            lines.Add(new($"limit.{lines.Count}", Capital(LimitWords.Of(u.Part, u.Check, u.Place, drawing)), $"{Numbers.Percent(u.Value)} of its limit at {Load(value)}"));
        }

        return [.. lines];
    }

    private static string Count(int n, string one, string many) => Text($"{n} {(n == 1 ? one : many)}");

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
