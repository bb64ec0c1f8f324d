using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Demand;

namespace Halfpin.Stability.Checks;

/// <summary>How near parts are to their limits: under the chosen load, the overload case and full body weight.</summary>
internal static class LimitChecks
{
    // ASSUMED: from this share of a limit on, the spread of materials, placement and load leaves no room.
    private const double LittleRoom = 0.7;

    private static readonly Rule[] _rules =
    [
        new("pin-yield", "pin", [Limit.PinYield], "Use a thicker pin, bring the rod closer or add a pin.",
            "Yield ≥ 690 MPa for cold-worked implant steel (textbook table after ASTM F138), or the case's material", "READ"),
        new("pin-fatigue", "pin under repeated load", [Limit.PinFatigue], "Use a thicker pin, bring the rod closer, add a pin or keep the load down.",
            "Smooth fatigue limit 300 of 180–450 MPa over a thread factor of 2; the peak is taken as the amplitude, on the safe side", "MEMORY"),
        new("rod-yield", "rod", [Limit.RodYield], "Use a thicker rod or a second one.", "Limit stress of the rod's material", "MEMORY"),
        new("clamp-slip", "clamp", [Limit.ClampSlipAboutPin, Limit.ClampSlipAboutRod, Limit.ClampPivot, Limit.ClampSlide],
            "Bring the rod closer, add a clamp, and measure the clamps' slip moment on a bench.",
            "Slip moment 8 of 3–15 N·m unless the case says otherwise; none published for rod clamps", "ASSUMED"),
        new("bone-bearing", "bone at the pins", [Limit.BoneBearing], "Use a thicker pin, add a pin or bring the rod closer.",
            "Transverse compressive strength of cortical bone 133 MPa: Reilly and Burstein, J Biomech 1975", "MEMORY"),
    ];

    public static IEnumerable<Check> Of(CheckInput input) =>
        input.Case.Loading == new Loading() ? FullWeight(input) : [.. _rules.Select(r => Judge(r, input)).OfType<Check>(), .. FullWeight(input)];

    private static Check? Judge(Rule rule, CheckInput input)
    {
        DemandItem[] chosen = [.. input.Chosen.Where(d => rule.Limits.Contains(d.Limit))];
        if (chosen.Length == 0)
        {
            return null;
        }

        DemandItem worst = chosen.MaxBy(d => d.Value);
        DemandItem over = input.Overload.Where(d => rule.Limits.Contains(d.Limit)).DefaultIfEmpty().MaxBy(d => d.Value);
        string message = $"Most used {rule.What}: {Name(worst, input)} at {Percent(worst)} of its limit under the chosen load"
            + (input.Overload.IsEmpty ? "." : $", {Percent(over)} if the patient puts on {CheckInput.Text(input.OverloadN / Loading.NewtonPerKg, "0")} kg.");
        Verdict verdict = worst.Value >= 1 ? Verdict.Fail
            : worst.Value >= LittleRoom || over.Value >= 1 ? Verdict.Caution
            : Verdict.Pass;
        return new(rule.Id, verdict, message, verdict == Verdict.Pass ? "" : rule.Cure, rule.Source, rule.Tag);
    }

    private static IEnumerable<Check> FullWeight(CheckInput input)
    {
        if (input.FullWeight is not DemandItem most)
        {
            yield break;
        }

        double massKg = input.Case.Limb.PatientMassKg;
        yield return most.Value >= 1
            ? new(
                "full-weight", Verdict.Caution,
                $"Not for full weight over an open gap: at {CheckInput.Text(massKg, "0")} kg {Name(most, input)} would be at {Percent(most)} of its limit.",
                "Keep weight off until bone carries load.", "Statics of the open gap with the limits above", "DERIVED")
            : new(
                "full-weight", Verdict.Pass,
                $"One application of {CheckInput.Text(massKg, "0")} kg over an open gap takes {Name(most, input)} to {Percent(most)} of its limit. This is no permission to bear weight.",
                "", "Statics of the open gap with the limits above", "DERIVED");
    }

    private static string Name(DemandItem item, CheckInput input) =>
        $"{DemandWords.Part(item, input.Data)} ({DemandWords.Check(item.Limit)}, {DemandWords.Place(item, input.Data)})";

    private static string Percent(DemandItem item) => $"{CheckInput.Text(100 * item.Value, "0")} %";

    private sealed record Rule(string Id, string What, Limit[] Limits, string Cure, string Source, string Tag);
}
