using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Record = Halfpin.Domain.Cases.Indication;

namespace Halfpin.Planning.Indication;

/// <summary>Where a record contradicts itself, its case or the meaning of a grade. The surgeon decides which of the two is wrong.</summary>
internal static class IndicationContradictions
{
    private const string Own = "the record itself";

    public static IEnumerable<IndicationNote> Of(Case value, Record record) =>
        Wound(value, record).Concat(Vessels(value, record)).Concat(Plan(value, record)).Concat(Bone(value, record)).Concat(Body(record));

    private static IEnumerable<IndicationNote> Wound(Case value, Record record)
    {
        if (record is { OpenGrade: OpenFractureGrade open, ClosedGrade: not null })
        {
            yield return Self("soft tissue", $"Graded open ({open}) and closed at once.");
        }

        if (record.OpenGrade is null && record.ClosedGrade is not null && !value.Wounds.IsEmpty)
        {
            yield return Self("soft tissue", "Graded closed, but the case has wounds.");
        }

        if (record.OpenGrade is OpenFractureGrade grade && value.Wounds.IsEmpty)
        {
            yield return Self("soft tissue", $"Open, grade {grade}, but the case has no wound: its place is needed to judge pins and rods.");
        }

        if (record.OpenGrade is OpenFractureGrade.IIIB && record.CoverAfterDays is null && value.PlannedIncisions.All(i => i.For != IncisionPurpose.Flap))
        {
            yield return Self("soft tissue", "Grade IIIB needs a flap, but no cover is planned and no flap entered.");
        }
    }

    private static IEnumerable<IndicationNote> Vessels(Case value, Record record)
    {
        bool repair = record.Vascular is VascularState.RepairPlanned or VascularState.Repaired;
        if (record.OpenGrade == OpenFractureGrade.IIIC && !repair)
        {
            yield return new("arteries", "Grade IIIC means an artery to repair, but no vascular repair is recorded.", "definition of the grade", "READ");
        }

        if (record.Reasons.Contains(FrameReason.VascularRepair) && record.Vascular == VascularState.Intact)
        {
            yield return Self("arteries", "Vascular repair is a reason for the frame, but the arteries are recorded as intact.");
        }

        if (repair && record.OpenGrade is OpenFractureGrade grade and not OpenFractureGrade.IIIC)
        {
            yield return new("arteries", $"An artery is repaired, but the open fracture is graded {grade}, not IIIC.", "definition of the grade", "READ");
        }

        if (record.PressureGapMmHg < 30 && record.Compartments == CompartmentState.NotSuspected)
        {
            yield return new("compartments", $"The pressure gap is {N(record.PressureGapMmHg.Value)} mmHg, under the alarm at 30, but no compartment syndrome is suspected.", "Schmidt AH 2017; Donaldson J 2014", "READ");
        }

        if (record.Compartments == CompartmentState.Suspected && value.PlannedIncisions.All(i => i.For != IncisionPurpose.Fasciotomy))
        {
            yield return Self("compartments", "A compartment syndrome is suspected, but no fasciotomy is entered among the planned incisions.");
        }
    }

    private static IEnumerable<IndicationNote> Plan(Case value, Record record)
    {
        if (record.Conversion is not PlannedConversion plan)
        {
            yield break;
        }

        if (plan.To == ConversionTarget.None && value.Purpose == Purpose.Temporary)
        {
            yield return Self("conversion", "The frame is temporary, but no conversion is planned.");
        }

        if (plan.To is ConversionTarget.Nail or ConversionTarget.Plate && value.Purpose == Purpose.Definitive)
        {
            yield return Self("conversion", $"The frame is definitive, but a {Words.Of(plan.To)} is planned.");
        }
    }

    private static IEnumerable<IndicationNote> Bone(Case value, Record record)
    {
        double gap = value.Fractures.Max(f => f.GapMm);
        if (record.BoneLossMm > gap)
        {
            yield return Self("bone loss", $"{N(record.BoneLossMm.Value)} mm of bone are missing, but the widest gap of the case is {N(gap)} mm: right only when the limb was shortened.");
        }

        if (record.Reasons.Contains(FrameReason.BoneLoss) && record.BoneLossMm == 0)
        {
            yield return Self("bone loss", "Bone loss is a reason for the frame, but 0 mm are missing.");
        }

        if (record.BoneLossMm > 0 && value.Progress.BoneLoss == false)
        {
            yield return Self("bone loss", "Bone is missing here, but not in the case's progress.");
        }

        foreach ((FrameReason reason, bool? state, string word) in new[] { (FrameReason.Infection, record.Infection, "Infection"), (FrameReason.NonUnion, record.NonUnion, "Non-union") })
        {
            if (record.Reasons.Contains(reason) && state == false)
            {
                yield return Self(Words.Of(reason), $"{word} is a reason for the frame, but recorded as absent.");
            }
        }

        if (record.Reasons.Contains(FrameReason.JointFracture) && record.Joint == JointInvolvement.None)
        {
            yield return Self("joint", "A joint fracture is a reason for the frame, but no joint is involved.");
        }
    }

    private static IEnumerable<IndicationNote> Body(Record record)
    {
        if (record.Reasons.Contains(FrameReason.Physiology) && record.DamageControl == DamageControlGrade.Stable)
        {
            yield return Self("physiology", "Physiology is a reason for the frame, but its grade is stable.");
        }

        if (record.DamageControl is DamageControlGrade grade && PhysiologyGrades.WorseThan(grade, record.Physiology).ToArray() is { Length: > 0 } worse)
        {
            yield return new("physiology", $"Graded {Words.Of(grade)}, but worse by: {string.Join(", ", worse)}.", PhysiologyGrades.Source, "READ");
        }
    }

    private static IndicationNote Self(string topic, string text) => new(topic, text, Own, "DERIVED");

    private static string N(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);
}
