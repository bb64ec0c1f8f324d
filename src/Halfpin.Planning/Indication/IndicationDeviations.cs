using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Record = Halfpin.Domain.Cases.Indication;

namespace Halfpin.Planning.Indication;

/// <summary>Where what is recorded or planned differs from a usual or published rule. That is no contradiction: the surgeon may have reasons.</summary>
internal static class IndicationDeviations
{
    private const string Clean = "usual rule: no pin-site infection at conversion";

    // The rule's window for a nail.
    private const double NailWindowDays = 14;

    public static IEnumerable<IndicationNote> Of(Case value, Record record) => Nail(value, record).Concat(Times(record));

    private static IEnumerable<IndicationNote> Nail(Case value, Record record)
    {
        if (record.Conversion is not { To: ConversionTarget.Nail } plan)
        {
            yield break;
        }

        if ((plan.ToDay ?? plan.FromDay) is double day && day > NailWindowDays)
        {
            yield return new("conversion", $"A nail is planned as late as day {N(day)}; the usual rule is within 14 days of an uninfected frame.", "usual rule (Bhandari 2005, not seen)", "MEMORY");
        }

        if (value.Progress.PinSites == PinSiteState.Infected)
        {
            yield return new("conversion", "A nail is planned, but the pin sites are recorded as infected.", Clean, "MEMORY");
        }

        if (record.Infection == true)
        {
            yield return new("conversion", "A nail is planned, but infection of bone or wound is recorded.", Clean, "MEMORY");
        }
        else if (record.Reasons.Contains(FrameReason.Infection))
        {
            yield return new("conversion", "A nail is planned, but infection is a reason for the frame.", Clean, "MEMORY");
        }
    }

    private static IEnumerable<IndicationNote> Times(Record record)
    {
        const string source = "You DZ, Schneider PS. OTA Int 2020";
        if (record.AntibioticAfterMin > 60)
        {
            yield return new("antibiotic", $"First antibiotic after {N(record.AntibioticAfterMin.Value)} min; within 60 is published.", source, "READ");
        }

        if (record.OpenGrade is not null && record.DebridementAfterH > 24)
        {
            yield return new("debridement", $"Debridement after {N(record.DebridementAfterH.Value)} h; within 24 is published.", source, "READ");
        }

        if (record.CoverAfterDays > 7)
        {
            yield return new("cover", $"Cover after {N(record.CoverAfterDays.Value)} days; within 7 is published.", source, "READ");
        }
    }

    private static string N(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);
}
