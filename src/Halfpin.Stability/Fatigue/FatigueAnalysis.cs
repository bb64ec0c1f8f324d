using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Materials;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Fatigue;

/// <summary>Reads the life of the pins from their demand under one step.</summary>
internal static class FatigueAnalysis
{
    /// <summary>Life of the pins whose material has a fatigue limit; null when none has.</summary>
    /// <param name="demand">Demand under the load of a step.</param>
    /// <param name="steps">How often it comes; null for the ten million of the fatigue limit.</param>
    /// <param name="data">The parts.</param>
    /// <param name="materials">Their materials.</param>
    public static FatigueLife? Of(ImmutableArray<DemandItem> demand, double? steps, FrameData data, MaterialTable materials)
    {
        double planned = steps ?? SnLine.LimitSteps;
        PinLife[] pins = [.. demand.Where(d => d.Limit == Limit.PinFatigue).Select(d => Life(d, planned, data, materials)).OrderByDescending(p => p.Value)];
        return pins.Length == 0 ? null : new(planned, [.. pins]);
    }

    /// <summary>Demand of repeated steps on a pin against what its material endures as often; 1 at the limit.</summary>
    /// <param name="item">Demand on the fatigue limit.</param>
    /// <param name="steps">How often; null for the ten million of the fatigue limit.</param>
    /// <param name="data">The parts.</param>
    /// <param name="materials">Their materials.</param>
    public static double UsedBy(in DemandItem item, double? steps, FrameData data, MaterialTable materials)
    {
        Material material = materials[data.Pins[item.Part].Material];
        return StressMPa(item, material) / SnLine.StrengthMPa(material, steps ?? SnLine.LimitSteps);
    }

    // Demand is stress times thread factor over the fatigue limit.
    private static double StressMPa(in DemandItem item, Material material) => item.Value * material.FatigueLimitMPa!.Value;

    private static PinLife Life(DemandItem item, double steps, FrameData data, MaterialTable materials)
    {
        Material material = materials[data.Pins[item.Part].Material];
        double stress = StressMPa(item, material);
        return new(
            DemandWords.Part(item, data), DemandWords.Place(item, data), stress, UsedBy(item, steps, data, materials),
            SnLine.StepsAt(material, stress), SnLine.StepsAt(material, stress / SnLine.WeakShare), SnLine.StepsAt(material, stress / SnLine.StrongShare));
    }
}
