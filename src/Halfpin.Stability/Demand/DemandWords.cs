using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Demand;

/// <summary>Puts demand items into the words of an assessment.</summary>
internal static class DemandWords
{
    public static string Check(Limit limit) => limit switch
    {
        Limit.PinYield or Limit.RodYield => "yield",
        Limit.PinFatigue => "fatigue",
        Limit.ClampSlipAboutPin => "slip about pin",
        Limit.ClampSlipAboutRod => "slip about rod",
        Limit.ClampPivot => "pivot",
        Limit.ClampSlide => "slide",
        _ => "bearing",
    };

    public static string Part(DemandItem item, FrameData data) => item.Limit switch
    {
        Limit.RodYield => data.Rods[item.Part].Id,
        Limit.ClampSlipAboutPin or Limit.ClampSlipAboutRod or Limit.ClampPivot or Limit.ClampSlide => data.ClampParts[item.Part].Id,
        _ => data.Pins[item.Part].Id,
    };

    // A clamp's place is named by the part it holds: the clamp itself is the part that gives way.
    public static string Place(DemandItem item, FrameData data) => item.Place switch
    {
        DemandPlace.BoneSurface => "bone surface",
        DemandPlace.InBone => "within the bone",
        DemandPlace.ThreadEnd => "end of thread",
        DemandPlace.NearCortex => "near cortex",
        DemandPlace.FarCortex => "far cortex",
        _ => item.Limit is Limit.PinYield or Limit.PinFatigue or Limit.RodYield
            ? $"clamp {data.ClampParts[item.Clamp].Id}"
            : $"on {data.ClampParts[item.Clamp].Pin ?? data.ClampParts[item.Clamp].OtherRod} and {data.ClampParts[item.Clamp].Rod}",
    };

    /// <summary>The part and place for a sentence, and for a clamp how it would give way.</summary>
    public static string Phrase(DemandItem item, FrameData data)
    {
        string part = Part(item, data), place = Place(item, data);
        return item.Limit switch
        {
            Limit.PinYield or Limit.PinFatigue => $"pin {part} {Preposition(item.Place)}{place}",
            Limit.RodYield => $"rod {part} at {place}",
            Limit.ClampSlipAboutPin => $"clamp {part} turning on {data.ClampParts[item.Clamp].Pin ?? data.ClampParts[item.Clamp].OtherRod}",
            Limit.ClampSlipAboutRod => $"clamp {part} turning on {data.ClampParts[item.Clamp].Rod}",
            Limit.ClampPivot => $"clamp {part}, {data.ClampParts[item.Clamp].Pin ?? data.ClampParts[item.Clamp].OtherRod} tilting on {data.ClampParts[item.Clamp].Rod}",
            Limit.ClampSlide => $"clamp {part} sliding on {data.ClampParts[item.Clamp].Rod}",
            _ => $"{place} at pin {part}",
        };
    }

    /// <summary>Material of the pin or rod whose limit it is.</summary>
    public static string MaterialOf(DemandItem item, FrameData data) =>
        item.Limit == Limit.RodYield ? data.Rods[item.Part].Material : data.Pins[item.Part].Material;

    private static string Preposition(DemandPlace place) => place switch
    {
        DemandPlace.InBone => "",
        DemandPlace.BoneSurface => "at the ",
        _ => "at ",
    };

    public static UtilisationEntry Entry(DemandItem item, FrameData data) =>
        new(Part(item, data), Check(item.Limit), Place(item, data), item.Value);

    public static ImmutableArray<UtilisationEntry> Entries(ReadOnlySpan<DemandItem> items, FrameData data)
    {
        List<UtilisationEntry> entries = [];
        foreach (DemandItem item in items)
        {
            entries.Add(Entry(item, data));
        }

        return [.. entries.OrderByDescending(e => e.Value)];
    }
}
