using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Bands;
using Halfpin.Stability.Demand;

namespace Halfpin.Stability.Checks;

/// <summary>How near parts are to their limits: under the chosen load, the overload case and full body weight.</summary>
internal static class LimitChecks
{
    // ASSUMED: from this share of a limit on, the spread of materials, placement and load leaves no room.
    private const double LittleRoom = 0.7;

    private static readonly Rule[] _rules =
    [
        new("pin-yield", "Highest pin stress", [Limit.PinYield], "Use a thicker pin, bring the rod closer or add a pin.",
            "Nominal von Mises stress against the yield stress of the pin's material", null),
        new("rod-yield", "Highest rod stress", [Limit.RodYield], "Use a thicker rod or a second one.", "Nominal stress against the limit of the rod's material", null),
        new("clamp-slip", "Nearest slip", [Limit.ClampSlipAboutPin, Limit.ClampSlipAboutRod, Limit.ClampPivot, Limit.ClampSlide],
            "Bring the rod closer, add a clamp, and measure the clamps' slip moment on a bench.",
            "Slip moment 8 of 3–15 N·m unless the case says otherwise; none published for rod clamps", "ASSUMED"),
        new("bone-bearing", "Highest pressure on bone", [Limit.BoneBearing], "Use a thicker pin, add a pin or bring the rod closer.",
            "Transverse compressive strength of cortical bone 133 MPa: Reilly and Burstein, J Biomech 1975. Bone at the edge of the hole is expected to yield earlier (MEMORY mid); that is not modelled", "MEMORY"),
    ];

    /// <summary>The verdicts alone.</summary>
    public static void Judge(CheckInput input, List<CheckVerdict> verdicts)
    {
        foreach (Rule rule in _rules)
        {
            if (Judge(rule, input) is Finding found)
            {
                verdicts.Add(new(rule.Id, found.Verdict));
            }
        }

        if (input.Frame.FirstLimit is not null || HasLimitedSlide(input))
        {
            verdicts.Add(new("full-weight", Verdict.Caution));
        }
    }

    public static IEnumerable<Check> Of(CheckInput input) =>
        [.. _rules.Select(r => Told(r, input)).OfType<Check>(), .. FullWeight(input)];

    private static Finding? Judge(Rule rule, CheckInput input)
    {
        DemandItem? chosen = input.HasChosenLoad ? Worst(rule, input.Loaded.Chosen) : null, over = Worst(rule, input.Loaded.Overload);
        if (chosen is null && over is null)
        {
            return null;
        }

        double most = MostWithin(rule, input);
        bool softer = most >= 1 && chosen is { Value: < 1 };
        return new(chosen, over, most, softer, chosen?.Value >= 1 ? Verdict.Fail
            : chosen?.Value >= LittleRoom || over?.Value >= 1 || softer ? Verdict.Caution
            : Verdict.Pass);
    }

    private static Check? Told(Rule rule, CheckInput input)
    {
        if (Judge(rule, input) is not var (chosen, over, most, softer, verdict) || (chosen ?? over) is not DemandItem named)
        {
            return null;
        }

        string at = string.Join(", ", new[]
        {
            chosen is DemandItem c ? $"{CheckInput.Percent(c.Value)} of its limit at {input.ChosenWords}" : null,
            over is DemandItem o ? $"{CheckInput.Percent(o.Value)} at {input.OverloadWords}" : null,
        }.OfType<string>());
        return new(rule.Id, verdict, $"{rule.What}: {DemandWords.Phrase(named, input.Data)}, {at}."
            + (softer ? $" {CheckInput.Percent(most)} at {input.ChosenWords} at the worse end of what is uncertain." : ""),
            verdict == Verdict.Pass ? "" : rule.Cure, rule.Source, rule.Tag ?? input.Materials.LimitTagOf(DemandWords.MaterialOf(named, input.Data)));
    }

    // The greatest demand under the chosen load at any end of the bands.
    private static double MostWithin(Rule rule, CheckInput input) => input.Ends is BandEnds ends && input.HasChosenLoad
        ? new[] { ends.Soft, ends.Stiff, ends.Gripless }.Max(end => Worst(rule, end.Loaded.Chosen)?.Value ?? 0)
        : 0;

    private static DemandItem? Worst(Rule rule, ImmutableArray<DemandItem> demand)
    {
        DemandItem? worst = null;
        foreach (DemandItem item in demand)
        {
            if (rule.Limits.Contains(item.Limit) && (worst is not DemandItem before || item.Value > before.Value))
            {
                worst = item;
            }
        }

        return worst;
    }

    private static bool HasLimitedSlide(CheckInput input)
    {
        foreach (Clamp clamp in input.Data.ClampParts)
        {
            if (clamp.IsLimitedSlide())
            {
                return true;
            }
        }

        return false;
    }

    private static IEnumerable<Check> FullWeight(CheckInput input)
    {
        if (input.Frame.FirstLimit is not FirstLimit first)
        {
            if (HasLimitedSlide(input))
            {
                yield return new("full-weight", Verdict.Caution, "Not for full weight: its loose clamps run under an axial load until bone or nothing stops them, or could not be followed.",
                    "Keep weight off until bone carries load.", "The first limit is found over an open gap, for frames that carry load by themselves", "DERIVED");
            }

            yield break; // It slides under an axial load: there is no open gap to speak of.
        }

        string weight = CheckInput.Kg(input.Case.Limb.PatientMassKg);
        string once = input.Loaded.FullWeight is DemandItem most
            ? $"{weight} once takes {DemandWords.Phrase(most, input.Data)} to {CheckInput.Percent(most.Value)} of its limit"
            : $"{weight} lie beyond what the model can tell, whose first limit comes at {CheckInput.Kg(first.LoadKg)}";
        string often = input.Frame.FatigueFrom is FirstLimit f ? $"; repeated steps pass the fatigue limit of pin {f.Part} from {CheckInput.Kg(f.LoadKg)}" : "";
        yield return new("full-weight", Verdict.Caution, $"Not for full weight over an open gap: {once}{often}.",
            "Keep weight off until bone carries load.", "Statics of the open gap with the limits above", "DERIVED");
    }

    // What a rule finds: the greatest demand under the chosen load and in the overload case, the greatest within the bands of what is uncertain.
    private readonly record struct Finding(DemandItem? Chosen, DemandItem? Over, double MostWithinBands_unitless, bool IsWorseWithinBands, Verdict Verdict);

    private sealed record Rule(string Id, string What, Limit[] Limits, string Cure, string Source, string? Tag);
}
