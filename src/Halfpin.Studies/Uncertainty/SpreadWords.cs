using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Studies.Inputs;

namespace Halfpin.Studies.Uncertainty;

/// <summary>The inputs of a study as a report lists them.</summary>
internal static class SpreadWords
{
    public static ImmutableArray<InputSpread> Of(ImmutableArray<StudyInput> inputs) => [.. inputs.Select(i => new InputSpread(i.Name, Words(i), i.Nominal, i.Source, i.Tag))];

    private static string Words(StudyInput input) => input.Spread switch
    {
        { Distribution: Spread.Uniform } s => Text($"uniform {s.Low:0.####}–{s.High:0.####}"),
        { Distribution: Spread.LogUniform } s => Text($"log-uniform {s.Low:0.####}–{s.High:0.####}"),
        { Distribution: Spread.Triangular } s => Text($"triangular {s.Low:0.####}–{s.Mode:0.####}–{s.High:0.####}"),
        var s => Text($"normal {s.Mean:0.####} ± {s.StandardDeviation:0.####}") + (s.Low is null && s.High is null ? "" : Text($", kept to {s.Low:0.####}–{s.High:0.####}")),
    };

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
