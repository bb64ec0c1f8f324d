using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Planning.Alignment;
using Halfpin.Planning.Building;
using Halfpin.Planning.Kit;
using static Halfpin.Planning.Building.SizeWords;

namespace Halfpin.Planning.Steps;

/// <summary>Writes the steps of one frame. Each caution is told where it first matters.</summary>
internal sealed class StepWriter(Case value, FrameKit kit, bool holds, bool isClear)
{
    private readonly List<Step> _steps = [];
    private readonly HashSet<SourcedCaution> _told = [];
    private readonly Dictionary<PinTip, int> _firstOfTip = [];
    private readonly PartSentences _words = new(kit);
    private readonly BuildOrder _order = kit.Order;
    private readonly LimbRecord _record = new(value);
    private readonly PinVerdicts _verdicts = new(value, kit.Layout.Frame);

    /// <summary>All steps in their order.</summary>
    public ImmutableArray<Step> All()
    {
        Before();
        Build();
        Finish();
        After();
        return [.. _steps];
    }

    private void Before()
    {
        Tell(StepPhase.Before, "Examine and write down pulses, sensation and movement of the foot, and all compartments of the leg, before anything is put on.", [StepCautions.Compartments, StepCautions.CompartmentSigns, StepCautions.Vessel]);
        Limb();
        Tell(StepPhase.Before, $"Look at images in two views with knee and ankle. Mark on the skin the crest and both borders of the tibia, the joint lines, {Fractures()} and the level of each pin: {Levels()}.", [StepCautions.Anatomy]);
        Tell(StepPhase.Before, Access(), [StepCautions.Incisions]);
        if (_record.IsOpen)
        {
            string order = _record.NeedsFlow ? "in the order agreed with the vascular team" : "before the first pin";
            Tell(StepPhase.Before, $"Debride and wash the wound {order}, then change drapes and instruments for the frame. Reckon with a second look: the way to the wound stays free of pins and rods.", [StepCautions.Debridement]);
        }

        Reduction();
    }

    // What the record of the limb puts before anything else.
    private void Limb()
    {
        if (_record.NeedsFlow)
        {
            Tell(StepPhase.Before, "Agree with the vascular team on the order of flow, frame and repair, and where the artery is reached; keep pins and rods out of that way.", [StepCautions.Flow]);
        }

        if (_record.ThreatensCompartments)
        {
            Tell(StepPhase.Before, "Decide on fasciotomy now. Where it is done, its cuts come before the pins and stay free of them and of rods.", [StepCautions.Release]);
        }

        if (_record.IsOpen)
        {
            Tell(StepPhase.Before, $"Open fracture{_record.Grade}: see that the first intravenous antibiotic is in ({_record.Antibiotic}), cover the wound until it is debrided.", [StepCautions.Open]);
        }
    }

    // Pins in one plane let little be set at their clamps; partial frames let all be set.
    private void Reduction()
    {
        ImmutableArray<Rod> rods = kit.Layout.Parts.Rods;
        if (rods.IsEmpty)
        {
            Tell(StepPhase.Before, "Bring the limb to length, axis and rotation and have it held by other means: this frame has no rod, and nothing in it holds the reduction.", [StepCautions.Mechanism, StepCautions.Order]);
        }
        else if (HasHandles)
        {
            Tell(StepPhase.Before, "Bring the limb to rough length, axis and rotation by hand traction and have it held: each fragment gets a partial frame first, and these are the handles to reduce it by.", [StepCautions.Order, StepCautions.Handles]);
        }
        else
        {
            string why = IsFlat ? "the pins it is closed on stand in one plane, and rotation cannot be set in it" : "once it is closed on its pins little can be corrected";
            Tell(StepPhase.Before, $"Reduce the fracture{(value.Fractures.Length > 1 ? "s" : "")} to length, axis and rotation, against the other leg, and have all held until rod {FirstSpanning} is tight: {why}.", [.. rods.Length == 1 ? new[] { StepCautions.Aligned } : [], .. IsFlat ? new[] { StepCautions.OnePlane } : [], StepCautions.Order]);
        }
    }

    // Partial frames of two fragments or more.
    private bool HasHandles => _order.PartialRods.Length > 1;

    // Whether all pins that stand at alignment do so in one plane, as halfpin align takes it.
    private bool IsFlat => kit.Layout.InOnePlane(_order.PinsAtAlignment, FrameReduction.OnePlaneDeg);

    private string FirstSpanning => _order.SpanningRods.IsEmpty ? kit.Layout.Parts.Rods[0].Id : _order.SpanningRods[0];

    private string Fractures() => List([.. value.Fractures.Select(f => $"the fracture ({Level(f.LevelMm, value.Limb.LengthMm)})")]);

    private string Levels() => List([.. kit.Layout.Parts.Pins.OrderBy(p => p.LevelMm).Select(p => $"{Whole(p.LevelMm)}")]) + " mm below the knee joint line";

    private string Access()
    {
        string[] wounds = [.. value.Wounds.Select(w => $"the wound from {Whole(w.FromLevelMm)} to {Whole(w.ToLevelMm)} mm below the knee joint line ({Azimuth(w.FromAzimuthDeg)} to {Azimuth(w.ToAzimuthDeg)})")];
        string[] later = [.. value.PlannedIncisions.Select(i => $"the incision for a {i.For.ToString().ToLowerInvariant()} from {Whole(i.FromLevelMm)} to {Whole(i.ToLevelMm)} mm below the knee joint line ({Azimuth(i.FromAzimuthDeg)} to {Azimuth(i.ToAzimuthDeg)})")];
        string unknown = _record.LacksItsWound ? " The case has no place for the wound: no pin and no rod was checked against it. Mark it and judge them by eye." : "";
        return wounds.Length + later.Length == 0
            ? $"Agree on later incisions with whoever will operate next, and mark them, before the first pin. The case names none.{unknown}"
            : $"Keep clear of pins and rods: {List([.. wounds, .. later])}. Debride and later operate without taking the frame off.{unknown}";
    }

    private void Build()
    {
        for (int i = 0; i < _order.Acts.Length; i++)
        {
            switch (_order.Acts[i])
            {
                case InsertPin act:
                    Insert(act);
                    break;
                case MountRod act:
                    Mount(act);
                    break;
                case AddClamp act:
                    Tell(StepPhase.Build, _words.Add(act.Clamp), [StepCautions.OpenSide], act.Clamp);
                    break;
            }

            if (i == _order.JoinedAfter)
            {
                Align();
            }
        }

        if (_order.JoinedAfter < 0)
        {
            Tell(StepPhase.Align, "Nothing in this frame joins the first fragment to the last: alignment cannot be held by it.", [StepCautions.Mechanism, StepCautions.Targets]);
        }
    }

    private void Insert(InsertPin act)
    {
        Pin pin = kit.Layout.Pin(act.Pin);
        PinTip tip = _words.LengthOf(pin).Tip;
        string approach = act.Through is string clamp
            ? $"Put the sleeve into the pin opening of clamp {clamp}, already on its rod: the clamp guides the pin. {_words.Approach(pin, First(tip))}"
            : _words.Approach(pin, First(tip));
        _firstOfTip.TryAdd(tip, _steps.Count + 1);
        string plane = act.Through is null && SamePlane(pin) is Pin first ? $" Set it in the plane of pin {first.Id}." : "";
        string middle = kit.Layout.IsMiddle(kit.Layout.FragmentOf(pin)) ? $" Have the {kit.Layout.FragmentWords(kit.Layout.FragmentOf(pin))} held in line with the others while it is drilled." : "";
        string held = act.Through is string c ? $" Close clamp {c} by hand." : kit.Layout.OnPin(pin.Id).IsEmpty ? " No clamp of this frame holds it." : "";
        Tell(StepPhase.Build, $"{_words.Place(pin)}{plane}{middle} {approach} {_words.Insert(pin)}{held}",
            [
                .. _verdicts.Of(pin), .. _words.LengthOf(pin).ThreadThroughSkin ? new[] { StepCautions.ThreadInSkin } : [], .. middle.Length > 0 ? new[] { StepCautions.Middle } : [],
                StepCautions.Skin, StepCautions.Edges, StepCautions.Sleeve, StepCautions.Heat, StepCautions.Drilling, StepCautions.Plunging,
                tip == PinTip.SelfDrilling ? StepCautions.SelfDrillingDepth : StepCautions.DrilledDepth, .. act.Through is null ? Array.Empty<SourcedCaution>() : [StepCautions.Guided],
            ],
            pin.Id);
    }

    // A pin that already stands, goes to the same rod and points the same way.
    private Pin? SamePlane(Pin pin)
    {
        const double SameDeg = 1;
        HashSet<string> standing = [.. _steps.SelectMany(s => s.Places)], rods = [.. kit.Layout.OnPin(pin.Id).Select(c => c.Part.Rod)];
        return kit.Layout.Clamps.Where(c => rods.Contains(c.Part.Rod) && c.Part.Pin is string other && standing.Contains(other)).Select(c => kit.Layout.Pin(c.Part.Pin!))
            .FirstOrDefault(p => Math.Abs(Math.IEEERemainder(p.AzimuthDeg - pin.AzimuthDeg, 360)) < SameDeg);
    }

    private int? First(PinTip tip) => _firstOfTip.TryGetValue(tip, out int n) ? n : null;

    private void Mount(MountRod act)
    {
        bool partial = _order.PartialRods.Contains(act.Rod);
        string locked = partial ? " This is a partial frame: once its pins are in, tighten it, so that it can be held as a handle." : "";
        Tell(StepPhase.Build, _words.Mount(act) + locked, [StepCautions.Room, .. act.Joining.IsEmpty ? Array.Empty<SourcedCaution>() : [StepCautions.OpenSide], .. partial ? [StepCautions.Handles] : Array.Empty<SourcedCaution>()], [act.Rod, .. act.Loaded, .. act.Joining]);
    }

    private void Align()
    {
        for (int i = 0; i < value.Fractures.Length; i++)
        {
            string which = value.Fractures.Length > 1 ? $"Fracture {i + 1}, {Level(value.Fractures[i].LevelMm, value.Limb.LengthMm)}: " : "", how = HasHandles ? Reduce() : Trim(i + 1);
            string bare = string.Concat(new[] { i, i + 1 }.Where(f => !StandsIn(f).Any()).Select(f => $" No pin stands in the {kit.Layout.FragmentWords(f)}: hold it by other means."));
            Tell(StepPhase.Align, $"{which}{(which.Length > 0 ? how[..1].ToLowerInvariant() + how[1..] : how)}{bare} Look at both views, from joint to joint.",
                [StepCautions.Targets, StepCautions.Image, .. HasHandles || !IsFlat ? Array.Empty<SourcedCaution>() : [StepCautions.OnePlane]]);
        }

        Tell(StepPhase.Align, "Hold what is reduced and tighten the clamps that are closed so far, first stage, with two wrenches against each other. Look at both views again; if it has moved, loosen and repeat.", [StepCautions.TwoStages]);
    }

    private string Reduce() =>
        $"Reduce by the partial frames ({Named("rod", _order.PartialRods)}) as handles: length first by traction, then axis, then rotation against the other leg; a second pair of hands closes the clamps.";

    // The limb is reduced already; what pins and clamps still let be set, and what is to be done where that is not enough.
    private string Trim(int distal)
    {
        string reach = IsFlat ? "length, and angulation and shift in the plane of the pins" : "length, and what else the clamps follow without force";
        string[] again = [.. StandsIn(distal)];
        string seat = again.Length == 0 ? "the pins distal to it" : Named("pin", again);
        return $"Check length, axis and rotation while a second pair of hands holds the reduction. Trim at the clamps: {reach}. Do not force the rest: if rotation{(IsFlat ? " or the axis out of that plane" : "")} is off, reduce anew and reseat {seat} in another hole.";
    }

    // The pins of a fragment that stand when the frame is aligned.
    private IEnumerable<string> StandsIn(int fragment) => _order.PinsAtAlignment.Where(p => kit.Layout.FragmentOf(kit.Layout.Pin(p)) == fragment);

    private void Finish()
    {
        ImmutableArray<string> loose = _words.Clamps(ClampState.Loose), tight = _words.Clamps(ClampState.Tight);
        string slide = loose.IsEmpty ? "" : $" In this frame {Named("clamp", loose)} {(loose.Length == 1 ? "is" : "are")} loose, so that it slides as intended: tighten these too for now, and loosen them only when the surgeon decides that it is time.";
        Tell(StepPhase.Finish, $"Look at both views once more, then tighten every clamp, second stage, with counter-hold, so that the frame is not twisted: {List([.. kit.Layout.Clamps.Select(c => c.Part.Id)])}. Then try each one by hand.{slide}", [StepCautions.TwoStages]);
        Tell(StepPhase.Finish, "Last images: both views of the whole bone, and the tip of every pin.", [StepCautions.Image]);
        Tell(StepPhase.Finish, $"Examine vessels, nerves and compartments again. Cut skin that is tented at a pin. See that the swollen limb has room under {Rods(kit.Layout.Parts.Rods)}.{Nearest()}", [StepCautions.Room]);
        Tell(StepPhase.Finish, "Dress the pin sites with light pressure. Hold the ankle neutral with the heel off the bed.", [StepCautions.Ankle]);
        string mechanism = (holds ? "" : " This frame does not hold the fracture: it must be changed before the patient leaves.")
            + (isClear || !holds ? "" : " What failed at the head of this list: changed, or accepted by the surgeon and written down.");
        Tell(StepPhase.Finish, $"Before leaving theatre: foot warm and moving, compartments soft; {kit.Lengths.Length} pins through both cortices on the image; {tight.Length + loose.Length} clamps tight; axis, length and rotation seen; room under the rods; wound and later incisions within reach; plan for the first 24 h written down.{mechanism}", holds ? [] : [StepCautions.Mechanism]);
    }

    private static string Rods(IEnumerable<Rod> rods) => rods.Select(r => r.Id).ToArray() is { Length: > 0 } ids ? Named("rod", ids) : "the frame";

    private string Nearest()
    {
        LaidClamp? near = kit.Layout.Clamps.Where(c => c.Part.Pin is not null).MinBy(kit.Layout.StandoffMm);
        return near is null ? "" : $" The nearest rod axis is {Whole(kit.Layout.StandoffMm(near))} mm from the bone's surface, soft tissue included.";
    }

    private void After()
    {
        Tell(StepPhase.After, "Examine vessels, nerves and compartments often in the first days, and rod and skin again as swelling changes. Tighten every clamp again at the first visit and look at every pin for looseness.", [StepCautions.Retighten]);
        Tell(StepPhase.After, "Pin sites: clean and dress as local protocol says; know an infected one early.", [StepCautions.PinCare]);
        double kg = value.Loading.AxialKgFor(value.Limb.PatientMassKg);
        string load = value.Loading.IsChosen
            ? $"The load looked at in this case is {Fine(kg)} kg axial{(value.Loading.TorsionNm != 0 || value.Loading.ApBendingNm != 0 || value.Loading.MlBendingNm != 0 ? " with the moments that the case gives" : "")}; it permits nothing."
            : "No load is looked at in this case.";
        Tell(StepPhase.After, $"Loading: as the surgeon orders. {load}", [StepCautions.NoLoad]);
        if (value.Purpose == Purpose.Temporary)
        {
            Tell(StepPhase.After, "This frame is temporary: decide now when and to what it is to be changed.", [StepCautions.Conversion, StepCautions.ConversionRule]);
        }

        Tell(StepPhase.After, $"Removal: when the fracture is judged healed or is fixed otherwise, take off {Rods(kit.Layout.Parts.Rods.Reverse())}, test by hand and by image, then turn out the {kit.Lengths.Length} pins.", [StepCautions.Holes]);
    }

    private void Tell(StepPhase phase, string text, IEnumerable<SourcedCaution> cautions, params string[] places) => _steps.Add(new()
    {
        N = _steps.Count + 1,
        Phase = phase,
        Text = text,
        Places = [.. places],
        Cautions = [.. cautions.Where(_told.Add)],
    });
}
