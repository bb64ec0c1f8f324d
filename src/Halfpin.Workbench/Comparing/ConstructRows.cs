using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Workbench.Handles;

namespace Halfpin.Workbench.Comparing;

/// <summary>How frames are made, value by value, against the first of them.</summary>
internal static class ConstructRows
{
    private const string PartByPart = "part by part";

    public static ImmutableArray<ComparedRow> Of(Case value, ImmutableArray<Frame> frames)
    {
        List<ComparedRow> rows =
        [
            Row("layout", "Layout", "", frames, f => Layout(f.Construct)),
            Row("placement", "Pins stand", "", frames, f => f.Construct is Construct c ? Placement(c.Placement) : PartByPart),
        ];
        ImmutableArray<Handle>[] handles = [.. frames.Select(f => f.Construct is null ? [] : FrameHandles.Of(value, f.Id))];
        foreach (Handle handle in handles.SelectMany(h => h).DistinctBy(h => h.Key))
        {
            rows.Add(Row(handle.Key, handle.Label, handle.Unit, frames, f =>
                handles[frames.IndexOf(f)].FirstOrDefault(h => h.Key == handle.Key) is Handle own ? own.Value.ToString("0.##", CultureInfo.InvariantCulture) : "–"));
        }

        rows.Add(Row("pinMaterial", "Pins of", "", frames, f => Materials(f.Construct?.Pin.Material, f.Parts?.Pins.Select(p => p.Material))));
        rows.Add(Row("rodMaterial", "Rods of", "", frames, f => Materials(f.Construct?.Rod.Material, f.Parts?.Rods.Select(r => r.Material))));
        if (frames.Any(f => f.Construct is DoubleRod))
        {
            rows.Add(Row("dynamised", "Dynamised", "", frames, f => f.Construct is DoubleRod twin ? twin.Dynamised ? "yes" : "no" : "–"));
        }

        return [.. rows.OrderByDescending(r => r.Differs)];
    }

    private static ComparedRow Row(string key, string label, string unit, ImmutableArray<Frame> frames, Func<Frame, string> of)
    {
        string[] texts = [.. frames.Select(of)];
        return new(key, label, unit, [.. texts.Select((t, i) => new ComparedCell(t, "", "", "", i > 0 && t != texts[0]))]);
    }

    private static string Materials(string? construct, IEnumerable<string>? parts) => construct ?? string.Join(", ", parts!.Distinct());

    private static string Layout(Construct? construct) => construct switch { SingleRod => "one rod", DoubleRod => "two rods", TwoPlane => "V of two planes", _ => PartByPart };

    private static string Placement(PinPlacement placement) => placement switch { PinPlacement.FarFar => "far-far", PinPlacement.NearFar => "near-far", _ => "evenly" };
}
