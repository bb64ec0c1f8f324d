using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Placement;
using Halfpin.Stability.Healing;

namespace Halfpin.Stability;

/// <summary>Everything that must hold in a case before it can be assessed, beyond the range of each number.</summary>
public static class CaseValidity
{
    /// <summary>The rules, each giving all its faults.</summary>
    public static IReadOnlyList<Func<Case, IEnumerable<Fault>>> Rules { get; } = [CaseRules.Check, PlacementRules.Check, HealingRules.Check];
}
