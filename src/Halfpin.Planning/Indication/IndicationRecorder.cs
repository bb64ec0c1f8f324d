using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Record = Halfpin.Domain.Cases.Indication;

namespace Halfpin.Planning.Indication;

/// <summary>Sets out what a case records of its indication and what it leaves open. It decides nothing.</summary>
public static class IndicationRecorder
{
    /// <summary>The report on a case, with or without a recorded indication.</summary>
    public static IndicationReport Report(Case value, ProgramStamp program, string caseSha256)
    {
        Record record = value.Indication ?? new();
        (string Item, string Pointer, string? Value)[] items = [.. Items(value, record)];
        return new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = value.Title,
            SafetyNote = Safety.Note,
            Against = IndicationFacts.Against(record),
            Contradictions = [.. IndicationContradictions.Of(value, record)],
            Deviations = [.. IndicationDeviations.Of(value, record)],
            Recorded = [.. items.Where(i => i.Value is not null).Select(i => new RecordedItem(i.Item, i.Value!))],
            Missing = [.. items.Where(i => i.Value is null).Select(i => new MissingItem(i.Item, $"/indication/{i.Pointer}"))],
            Physiology = [.. PhysiologyGrades.Of(record.Physiology)],
            Facts = [.. IndicationFacts.Of(record)],
            Reminders = IndicationFacts.Reminders(record),
        };
    }

    /// <summary>A choice of the record in plain words.</summary>
    public static string Word(Enum choice) => choice is FrameObjection objection ? IndicationFacts.Objection(objection) : Words.Of(choice);

    private static IEnumerable<(string Item, string Pointer, string? Value)> Items(Case value, Record r)
    {
        bool closed = r.ClosedGrade is not null && r.OpenGrade is null;
        yield return ("why a frame now", "reasons", r.Reasons.IsEmpty ? null : string.Join(", ", r.Reasons.Select(x => Words.Of(x))));
        yield return (closed ? "closed soft-tissue grade" : "open-fracture grade", closed ? "closedGrade" : "openGrade", closed ? Word(r.ClosedGrade) : Word(r.OpenGrade));
        if (r is { OpenGrade: not null, ClosedGrade: not null })
        {
            yield return ("closed soft-tissue grade", "closedGrade", Word(r.ClosedGrade));
        }

        yield return ("arteries", "vascular", Word(r.Vascular));
        yield return ("compartments", "compartments", Word(r.Compartments));
        yield return ("nerves recorded", "nervesRecorded", YesNo(r.NervesRecorded));
        if (!closed)
        {
            yield return ("first antibiotic", "antibioticAfterMin", N(r.AntibioticAfterMin, "min"));
            yield return ("debridement", "debridementAfterH", N(r.DebridementAfterH, "h after injury"));
            yield return ("cover", "coverAfterDays", N(r.CoverAfterDays, "days after injury"));
        }

        if (r.PressureGapMmHg is not null || r.Compartments == CompartmentState.Suspected)
        {
            yield return ("pressure gap of the compartments", "pressureGapMmHg", N(r.PressureGapMmHg, "mmHg"));
        }

        yield return ("joint", "joint", Word(r.Joint));
        yield return ("bone loss", "boneLossMm", N(r.BoneLossMm, "mm"));
        yield return ("infection", "infection", YesNo(r.Infection));
        yield return ("non-union", "nonUnion", YesNo(r.NonUnion));
        yield return ("damage-control grade", "damageControl", Word(r.DamageControl));
        if (r.Reasons.Contains(FrameReason.Physiology) || r.Physiology != new Physiology())
        {
            yield return ("figures of physiology", "physiology", r.Physiology == new Physiology() ? null : "listed below");
            yield return ("injury severity score", "physiology/injurySeverityScore", N(r.Physiology.InjurySeverityScore, ""));
            yield return ("base deficit", "physiology/baseDeficitMmolPerL", N(r.Physiology.BaseDeficitMmolPerL, "mmol/L"));
        }

        yield return ("thrombosis plan", "thrombosisPlan", YesNo(r.ThrombosisPlan));
        yield return ("what argues against", "against", r.Against.IsEmpty ? null : $"{r.Against.Length} recorded, listed below");
        yield return ("planned conversion", "conversion", Word(r.Conversion?.To));
        if (r.Conversion is { To: not ConversionTarget.None } plan)
        {
            yield return ("window of the conversion", "conversion/toDay", plan is { FromDay: null, ToDay: null } ? null : $"day {N(plan.FromDay, "") ?? "0"} to {N(plan.ToDay, "") ?? "open"} of the frame");
        }

        yield return ("purpose of the frame", "", Words.Of(value.Purpose));
    }

    private static string? Word<T>(T? choice)
        where T : struct, Enum => choice is T c ? Words.Of(c) : null;

    private static string? YesNo(bool? value) => value is bool v ? (v ? "yes" : "no") : null;

    private static string? N(double? value, string unit) => value is double v ? (v.ToString("0.#", CultureInfo.InvariantCulture) + " " + unit).TrimEnd() : null;
}
