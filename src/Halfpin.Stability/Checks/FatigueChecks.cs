using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Fatigue;

namespace Halfpin.Stability.Checks;

/// <summary>Whether pins stand the chosen load step after step.</summary>
internal static class FatigueChecks
{
    // ASSUMED, as for single loads.
    private const double LittleRoom = 0.7;

    // ASSUMED: a busy day on two legs.
    private const double StepsADay = 5000;

    // ASSUMED: about six months of walking, longer than any temporary frame stays.
    private const double TemporarySteps = 1e6;

    /// <summary>The verdicts alone.</summary>
    public static void Judge(CheckInput input, List<CheckVerdict> verdicts)
    {
        if (input.HasChosenLoad && input.Frame.Fatigue is FatigueLife life)
        {
            verdicts.Add(new("pin-fatigue", Judge(input, life.Pins[0])));
        }

        foreach (Pin pin in input.Data.Pins)
        {
            if (input.Materials[pin.Material].FatigueLimitMPa is null)
            {
                verdicts.Add(new("no-fatigue-limit", Verdict.Caution));
                return;
            }
        }
    }

    public static IEnumerable<Check> Of(CheckInput input)
    {
        if (input.HasChosenLoad && input.Frame.Fatigue is FatigueLife life)
        {
            yield return Told(input, life);
        }

        string[] without = [.. input.Data.Pins.ToArray().Select(p => p.Material).Distinct().Where(m => input.Materials[m].FatigueLimitMPa is null)];
        if (without.Length > 0)
        {
            yield return new("no-fatigue-limit", Verdict.Caution, $"Repeated steps are not judged: {string.Join(", ", without)} has no fatigue limit in this case.",
                "Give the material a fatigueLimitMPa.", "Nothing to judge by", "GIVEN");
        }
    }

    // Ten million steps are years: without steps of its own a temporary frame is only held to what breaks pins within months.
    private static Verdict Judge(CheckInput input, PinLife first) => input.Case is { Purpose: Purpose.Temporary, Loading.Steps: null }
        ? first.FewestSteps < TemporarySteps ? Verdict.Caution : Verdict.Pass
        : first.Value >= 1 ? Verdict.Fail : first.Value >= LittleRoom || first.Value / SnLine.WeakShare >= 1 ? Verdict.Caution : Verdict.Pass;

    private static Check Told(CheckInput input, FatigueLife life)
    {
        PinLife first = life.Pins[0];
        double weak = first.Value / SnLine.WeakShare;
        Verdict verdict = Judge(input, first);
        string scatter = verdict == Verdict.Caution ? $", {CheckInput.Percent(weak)} at the weak end of the material's scatter" : "";
        string endured = first.FewestSteps is double fewest && (verdict != Verdict.Pass || weak >= 1)
            ? $" It may break after {(fewest == 0 ? "fewer than a thousand" : Count(fewest))} steps{Years(fewest)}."
            : "";
        return new("pin-fatigue", verdict,
            $"First to tire: pin {first.Part}, {first.Place}, {CheckInput.Percent(first.Value)} of its limit at {input.ChosenWords} in {Planned(input, life)}{scatter}.{endured}",
            verdict == Verdict.Pass ? "" : "Use a thicker pin, bring the rod closer, add a pin or keep the load down.",
            "S–N line from 0.9 of the tensile strength at 1000 steps to the fatigue limit at ten million, scatter 0.6–1.5 of it, thread factor 2 (MEMORY mid); the peak is taken as the amplitude, on the safe side",
            "MEMORY");
    }

    private static string Years(double steps) => steps < StepsADay * 365 ? "" : $", {CheckInput.Text(steps / (StepsADay * 365), "0.#")} years at {Count(StepsADay)} a day";

    private static string Planned(CheckInput input, FatigueLife life) => input.Case.Loading.Steps is null
        ? "ten million steps"
        : $"{Count(life.Steps)} steps ({CheckInput.Text(input.Case.Loading.StepsPerDay!.Value, "0")} a day for {CheckInput.Text(input.Case.Loading.Weeks!.Value, "0.#")} weeks)";

    // Two figures: the scatter leaves no more.
    private static string Count(double steps)
    {
        double unit = Math.Pow(10, Math.Max(0, Math.Floor(Math.Log10(steps)) - 1));
        return (Math.Round(steps / unit) * unit).ToString("#,0", CultureInfo.InvariantCulture).Replace(',', ' ');
    }
}
