using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Words;
using Halfpin.Stability.Comparison;
using Halfpin.Studies.Uncertainty;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Plots;

namespace Halfpin.Workbench.Comparing;

/// <summary>Puts assessed frames side by side.</summary>
public static class ComparisonWriter
{
    /// <summary>Most frames of a comparison.</summary>
    public const int MostFrames = 8;

    // ASSUMED: values within this share of the best stand out with it; less than any band of the inputs.
    private const double Alike = 0.05;

    /// <summary>The frames that an address asks for: those that there are, in the case's order, at most eight; the first eight when it asks for none.</summary>
    /// <param name="value">The case.</param>
    /// <param name="asked">Ids with commas between; null for none.</param>
    public static ImmutableArray<Frame> Chosen(Case value, string? asked)
    {
        string[] ids = asked?.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries) ?? [];
        Frame[] chosen = [.. value.Frames.Where(f => ids.Contains(f.Id))];
        return [.. (chosen.Length > 0 ? chosen : value.Frames.AsEnumerable()).Take(MostFrames)];
    }

    /// <summary>The comparison of frames of a case.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frames">At least one of its frames.</param>
    /// <param name="answers">Assesses them.</param>
    /// <param name="study">Bands that were worked out for all of them; null, or of other frames, to show those of inputs at their worst together.</param>
    public static ComparisonView Of(Case value, ImmutableArray<Frame> frames, FrameAnswers answers, SharedReport? study = null)
    {
        study = study is not null && SharedBandsWriter.CoversAll(study, frames) ? study : null;
        ImmutableArray<FrameAssessment> assessed = [.. frames.Select(f => answers.Assess(value, f))];
        StiffnessScales scales = StiffnessScales.Of(assessed);
        return new()
        {
            Findings = KeyFindings.Of(value, assessed),
            Sentences = FrameComparison.Sentences(value, assessed),
            Frames = [.. frames.Zip(assessed).Select(f => Compared(value, f.First, f.Second, scales))],
            Results = [.. ComparedValue.Groups(value).Select(g => new ComparedGroup(g.Name, [.. g.Values.Select(v => Row(v, assessed, study))]))],
            Construction = ConstructRows.Of(value, frames),
            Panels = [.. ComparedValue.Stiffnesses(value).Select(v => Panel(v, assessed, study))],
            BandWords = study is not null ? "" : assessed.Select(f => f.Band?.Inputs).FirstOrDefault(i => i is not null) is string inputs ? $"Bands of inputs at their worst together{(value.Fractures.Length > 1 ? ", at the first fracture" : "")}: softest to stiffest that {inputs} may make it." : "",
            HasStudyBands = study is not null,
        };
    }

    /// <summary>Why a frame has no value of a kind.</summary>
    internal static string Missing(FrameAssessment frame, string key) =>
        frame.Stiffness is null ? frame.Status == FrameStatus.Mechanism ? "does not hold" : "cannot be worked out"
        : key == "firstLimitKg" ? frame.Freedoms.IsEmpty ? "not worked out" : "slides as intended"
        : frame.Status == FrameStatus.OutOfRange ? "withheld"
        : "–";

    private static ComparedFrame Compared(Case value, Frame frame, FrameAssessment assessment, StiffnessScales scales)
    {
        FrameAnswer answer = AnswerWriter.Of(value, assessment, FrameAnswers.Drawing(value, frame), scales);
        return new(frame, answer.Verdict, answer.Headline, assessment);
    }

    private static ComparedRow Row(ComparedValue of, ImmutableArray<FrameAssessment> frames, SharedReport? study)
    {
        double?[] values = [.. frames.Select(of.Of)];
        double[] known = [.. values.OfType<double>().Where(v => of.Best != Standout.Highest || v > 0)];
        return new(of.Key, of.Label, of.Unit, [.. frames.Select((f, i) =>
        {
            if (values[i] is not double value)
            {
                return new ComparedCell(Missing(f, of.Key), "", "", "", i > 0 && values[0] is not null);
            }

            string band = value != 0 && of.BandOf(f, study?.Of(f.Id)) is BandOfValue b ? b.Words(of.Text) : "";
            string against = i > 0 && values[0] is double first ? Against(of, first, value) : "";
            return new ComparedCell(of.Text(value), band, known.Length > 1 && of.Text(known.Max()) != of.Text(known.Min()) ? Mark(of, value, known) : "", against, against.Length > 0);
        })]);
    }

    // What reads the same as the best stands out with it.
    private static string Mark(ComparedValue of, double value, double[] known) => of.Best switch
    {
        Standout.Highest => value > 0 && (value >= (1 - Alike) * known.Max() || of.Text(value) == of.Text(known.Max())) ? "highest" : "",
        Standout.Least => value <= (1 + Alike) * known.Min() || of.Text(value) == of.Text(known.Min()) ? "least" : "",
        _ => value == known.Min() ? "fewest" : "",
    };

    // Stiffnesses by a factor, the rest by a difference; what reads the same does not differ.
    private static string Against(ComparedValue of, double first, double value)
    {
        if (of.Text(first) == of.Text(value))
        {
            return "";
        }

        if (of.Unit is "N/mm" or "N·m/°")
        {
            return first == 0 ? "held" : value == 0 ? "freed" : $"×{(value / first).ToString(value / first < 1 ? "0.00" : "0.0#", CultureInfo.InvariantCulture)}";
        }

        double by = value - first;
        string size = of.Unit is "mm" or "°" ? Numbers.Motion(by) : Numbers.Kg(Math.Abs(by));
        return size.Trim('0', '.').Length == 0 ? "" : $"{(by < 0 ? "−" : "+")}{size}";
    }

    private static StiffnessPanel Panel(ComparedValue of, ImmutableArray<FrameAssessment> frames, SharedReport? study)
    {
        BandOfValue?[] bands = [.. frames.Select(f => of.BandOf(f, study?.Of(f.Id)))];
        PlotScale scale = PlotScale.Of(frames.Select(of.Of).Concat(bands.Select(b => b?.High)).OfType<double>(), fromZero: true);
        return new(of.Key, of.Label, of.Unit, scale, [.. frames.Zip(bands).Select(fb =>
        {
            (FrameAssessment f, BandOfValue? band) = fb;
            double? value = of.Of(f);
            return new StiffnessPanelBar(f.Name, value is double v ? of.Text(v) : Missing(f, of.Key), value is double s ? scale.At(s) : null, band is null ? null : scale.At(band.Low), band is null ? null : scale.At(band.High), band?.Median is double m ? scale.At(m) : null, band is null || value is 0 ? "" : band.Words(of.Text));
        })]);
    }
}
