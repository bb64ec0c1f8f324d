using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Placement;
using Halfpin.Placement.Checks;
using Halfpin.Placement.Corridors;
using static Halfpin.Planning.Building.SizeWords;

namespace Halfpin.Planning.Steps;

/// <summary>What the checks of placing say of each pin, and what lies behind its tip.</summary>
internal sealed class PinVerdicts(Case value, PlacedFrame frame)
{
    // Checks that judge pins one by one; in a frame of one pin each of them speaks of that pin. The others judge the frame.
    private static readonly ImmutableHashSet<string> _ofAPin =
        ["corridor", "way-in", "tip", "pin-width", "pin-to-fracture", "joint", "thread", "wound", "incision"];

    private const string BetweenPins = "pin-spacing";

    private readonly ImmutableArray<Check> _all = PlacementChecks.Of(frame);

    /// <summary>What a pin's step has to say of its place: what fails first, then what raises caution, then what lies behind.</summary>
    public IEnumerable<SourcedCaution> Of(Pin pin)
    {
        foreach (Check c in Checks(pin).Where(c => c.Verdict != Verdict.Pass).OrderByDescending(c => c.Verdict))
        {
            yield return new($"{(c.Verdict == Verdict.Fail ? "FAILS: " : "")}{c.Message} {c.Cure}", c.Source, c.Tag);
        }

        if (frame.Skin is not null && PinPassage.Behind(frame.Bone, frame.Pins[frame.PinIndex(pin.Id)]) is { Length: > 0 } behind)
        {
            yield return new($"Behind the tip of {pin.Id}: {List(behind)}. Go no deeper.", "Pin's direction and courses on measured bone", "ESTIMATE");
        }
    }

    private IEnumerable<Check> Checks(Pin pin)
    {
        Parts alone = frame.Parts with { Pins = [pin], Clamps = [.. frame.Parts.Clamps.Where(c => c.Pin is null || c.Pin == pin.Id)] };
        return PlacementChecks.Of(PlacedFrame.Of(value, alone, frame.Bone)).Where(c => _ofAPin.Contains(c.Id))
            .Concat(_all.Where(c => c.Id == BetweenPins && Regex.IsMatch(c.Message, $@"(?<!\w){Regex.Escape(pin.Id)}(?!\w)")));
    }
}
