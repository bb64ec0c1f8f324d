using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Studies.Inputs;

namespace Halfpin.Studies.Uncertainty;

/// <summary>The inputs of a study as a report lists them.</summary>
public static class SpreadWords
{
    /// <summary>Where results of several fractures are told.</summary>
    public const string EachFracture = "Results are told at each fracture, counted from proximal, in files by @ and its number; use and first limit are of the whole frame.";

    /// <summary>How frames of several fractures are ranked.</summary>
    public const string RankedByTheWorst = "Frames are ranked in each stiffness by the fracture where each is least stiff, which may be another in one than in the other.";

    /// <summary>What the stiffnesses of several fractures leave out.</summary>
    public const string LoadedAtTheEnd = "Stiffness at each fracture is against loads on the end of the bone; how a fragment between is held against loads of its own is not in it and stands in the assessment as siteStiffness.";

    /// <summary>A result's name within a sentence.</summary>
    public static string Result(string name) => ResultNames.Read(name) is (string quantity, int fracture) ? Text($"{quantity} at fracture {fracture}") : name;

    /// <summary>The inputs with their spreads in words.</summary>
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
