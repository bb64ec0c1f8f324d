using Halfpin.Domain.Assessments;

namespace Halfpin.Stability.Checks;

/// <summary>Loads under which the model has no answer to give: that is a finding about the frame, not a gap in the table.</summary>
internal static class RangeChecks
{
    private const string Source = "Small displacements of a frame that holds: project convention";

    /// <summary>The verdicts alone.</summary>
    public static void Judge(CheckInput input, List<CheckVerdict> verdicts)
    {
        if (input.Loaded.Withheld is not null)
        {
            verdicts.Add(new("range", Verdict.Fail));
        }
        else if (input.Loaded.OverloadWithheld is not null)
        {
            verdicts.Add(new("overload-range", Verdict.Caution));
        }
    }

    public static IEnumerable<Check> Of(CheckInput input)
    {
        if (input.Loaded.Withheld is Diagnosis chosen)
        {
            yield return new("range", Verdict.Fail, $"No result at {input.ChosenWords}: {chosen.Message}", chosen.Try, Source, "ASSUMED");
        }

        if (input.Loaded is { Withheld: null, OverloadWithheld: Diagnosis overload })
        {
            yield return new("overload-range", Verdict.Caution, $"No result at {input.OverloadWords}: {overload.Message}", overload.Try, Source, "ASSUMED");
        }
    }
}
