using System.Collections.Immutable;
using Halfpin.Domain.Assessments;

namespace Halfpin.Placement.Checks;

/// <summary>Good practice in where the parts of a frame stand: every rule, with what would mend it. Holds for frames that cannot be analysed too.</summary>
public static class PlacementChecks
{
    private static readonly ImmutableArray<PlacementRule> _ofPins = [.. CorridorChecks.Rules, .. BoneChecks.Rules, .. SkinChecks.OfPins];
    private static readonly ImmutableArray<PlacementRule> _ofRods = [.. SkinChecks.OfRods, .. RodChecks.Rules];

    /// <summary>All rules that apply, each once, in the order of the job: bone, soft tissue, rods. On a synthetic bone those of anatomy are left out.</summary>
    public static ImmutableArray<Check> Of(PlacedFrame frame) => [.. Told(_ofPins, frame), .. Told(_ofRods, frame)];

    /// <summary>The verdicts of the same rules in the same order.</summary>
    public static ImmutableArray<CheckVerdict> VerdictsOf(PlacedFrame frame) => Judged([_ofPins, _ofRods], frame);

    /// <summary>Verdicts of the rules that depend on the pins alone.</summary>
    public static ImmutableArray<CheckVerdict> VerdictsOfPins(PlacedFrame frame) => Judged([_ofPins], frame);

    /// <summary>Verdicts of the rules that depend on rods, their clamps and the planes that they make.</summary>
    public static ImmutableArray<CheckVerdict> VerdictsOfRods(PlacedFrame frame) => Judged([_ofRods], frame);

    private static IEnumerable<Check> Told(ImmutableArray<PlacementRule> rules, PlacedFrame frame) => rules.Select(r => r.Of(frame)).OfType<Check>();

    private static ImmutableArray<CheckVerdict> Judged(ReadOnlySpan<ImmutableArray<PlacementRule>> groups, PlacedFrame frame)
    {
        ImmutableArray<CheckVerdict>.Builder verdicts = ImmutableArray.CreateBuilder<CheckVerdict>(_ofPins.Length + _ofRods.Length);
        foreach (ImmutableArray<PlacementRule> rules in groups)
        {
            foreach (PlacementRule rule in rules)
            {
                if (rule.Judge(frame) is Verdict verdict)
                {
                    verdicts.Add(new(rule.Id, verdict));
                }
            }
        }

        return verdicts.DrainToImmutable();
    }
}
