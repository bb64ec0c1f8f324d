using Halfpin.Domain.Cases;

namespace Halfpin.Domain.Validity;

/// <summary>What must hold within a recorded indication. Contradictions of medicine are no faults: the indication aid tells them.</summary>
internal static class IndicationRules
{
    public static IEnumerable<Fault> Check(Indication? value)
    {
        if (value?.Conversion is { FromDay: double from, ToDay: double to } && from > to)
        {
            yield return new("/indication/conversion/toDay", FaultCodes.Inconsistent, $"The window ends on day {CaseRules.Text(to)}, before it begins on day {CaseRules.Text(from)}.", $"Day {CaseRules.Text(from)} or later.", "Exchange the two days.");
        }
    }
}
