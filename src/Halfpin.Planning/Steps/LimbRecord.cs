using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Planning.Indication;
using Record = Halfpin.Domain.Cases.Indication;

namespace Halfpin.Planning.Steps;

/// <summary>What a case records of the limb that argues against building now, or changes the order of it.</summary>
internal sealed class LimbRecord(Case value)
{
    private const string Memory = "From memory, no source seen";

    private readonly Record _record = value.Indication ?? new();

    /// <summary>True when the fracture is graded open, or the case has a wound.</summary>
    public bool IsOpen => _record.OpenGrade is not null || !value.Wounds.IsEmpty;

    /// <summary>True when the fracture is graded open and no wound is entered, so that nothing was checked against it.</summary>
    public bool LacksItsWound => _record.OpenGrade is not null && value.Wounds.IsEmpty;

    /// <summary>True when an artery is to be repaired.</summary>
    public bool NeedsFlow => _record.Vascular == VascularState.RepairPlanned
        || (_record.OpenGrade == OpenFractureGrade.IIIC && _record.Vascular != VascularState.Repaired);

    /// <summary>True when a compartment syndrome is suspected, or the pressure gap is at the alarm.</summary>
    public bool ThreatensCompartments => _record.Compartments == CompartmentState.Suspected
        || (IsGapAlarming && _record.Compartments != CompartmentState.Released);

    /// <summary>The grade of the open fracture in words; empty when none is recorded.</summary>
    public string Grade => _record.OpenGrade is OpenFractureGrade grade ? $", grade {grade}" : "";

    /// <summary>When the first antibiotic was given, in words.</summary>
    public string Antibiotic => _record.AntibioticAfterMin is double min ? $"recorded after {Number(min)} min" : "not recorded";

    // Under 30 mmHg: Schmidt AH 2017; Donaldson J 2014, READ.
    private bool IsGapAlarming => _record.PressureGapMmHg < 30;

    /// <summary>The warnings at the head of the steps, what stops first.</summary>
    public IEnumerable<SourcedCaution> Warnings()
    {
        foreach (FrameObjection o in _record.Against.Distinct())
        {
            yield return new($"Recorded against a frame: {IndicationFacts.Objection(o)}. {Consequence(o)}", "The case; usual lists of contraindications", "MEMORY");
        }

        if (NeedsFlow)
        {
            string why = _record.Vascular == VascularState.RepairPlanned ? "A repair of an artery is planned" : "Grade IIIC means an artery to repair";
            yield return new($"{why}: restoring flow comes before any frame, unless the vascular team decides otherwise.", Memory, "MEMORY");
        }

        if (ThreatensCompartments)
        {
            string why = IsGapAlarming ? $"The recorded pressure gap is {Number(_record.PressureGapMmHg!.Value)} mmHg, under the alarm at 30" : "A compartment syndrome is suspected";
            yield return new($"{why}: building the frame must not delay its release.", Memory, "MEMORY");
        }

        if (_record.NervesRecorded == false)
        {
            yield return new("The nerves of the limb are not recorded yet: do it before the first pin.", Memory, "MEMORY");
        }

        if (_record.Infection == true)
        {
            yield return new("Infection of bone or wound is recorded: no check here knows where it is. Keep every pin's path out of it.", Memory, "MEMORY");
        }

        if (value.Progress.PinSites == PinSiteState.Infected)
        {
            yield return new("Infected pin sites are recorded: no new pin beside them before they are settled.", Memory, "MEMORY");
        }
    }

    private static string Consequence(FrameObjection objection) => objection switch
    {
        FrameObjection.OpenPhysis => "No check here knows growth plates: see each pin's path on the image first, or choose another.",
        FrameObjection.PinPathInfected or FrameObjection.PinPathBurnt => "No check here knows where: choose another path for the pin.",
        FrameObjection.ImplantPath => "Move the pins or change the plan first.",
        _ => "Settle it before anything is built.",
    };

    private static string Number(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);
}
