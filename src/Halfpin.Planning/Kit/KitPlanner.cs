using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Building;
using Halfpin.Stability;
using static Halfpin.Planning.Building.SizeWords;

namespace Halfpin.Planning.Kit;

/// <summary>From a frame of a valid case to what it takes to build it.</summary>
/// <param name="value">The case.</param>
public sealed class KitPlanner(Case value)
{
    private readonly Assessor _assessor = new(value);

    /// <summary>True when a stock has every pin, rod and clamp of a case's parts; tools do not count.</summary>
    public static bool Supplies(Case value, Parts parts, Stock stock) => FrameKit.Of(value, parts, stock).Shortages.All(s => s.Kind is not (KitKind.Pin or KitKind.Rod or KitKind.Clamp));

    /// <summary>The kit of a frame.</summary>
    /// <param name="frame">The frame, of this case.</param>
    /// <param name="stock">The stock to take it from; null for sizes only.</param>
    /// <param name="stockSha256">Hash of the stock file.</param>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    public KitReport Plan(Frame frame, Stock? stock, string? stockSha256, ProgramStamp program, string caseSha256)
    {
        Parts parts = _assessor.PartsOf(frame);
        FrameKit kit = FrameKit.Of(value, parts, stock);
        FrameAssessment assessed = _assessor.Assess(frame.Id, program, caseSha256).Frames[0];
        return new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = value.Title,
            SafetyNote = Safety.Note,
            Frame = frame.Id,
            Name = frame.DisplayName,
            Status = assessed.Status,
            Diagnosis = assessed.Diagnosis,
            Warning = FrameWarning.Of(assessed, kit.Layout.Frame),
            Stock = stock?.Title,
            StockSha256 = stockSha256,
            Items = kit.Items,
            PinLengths = kit.Lengths,
            Shortages = kit.Shortages,
            Proposal = kit.Shortages.IsEmpty ? null : new ProposalSearch(value, frame, assessed, stock!, kit.Shortages).Find(),
            Cautions = [.. Cautions(parts, kit)],
            Assumptions = KitAllowances.All(stock is not null),
        };
    }

    private static IEnumerable<SourcedCaution> Cautions(Parts parts, FrameKit kit)
    {
        yield return new("The image decides how deep a pin stands and whether its length is right, not this list.", "Image where possible: online reference, READ; not by counting turns: MEMORY", "MEMORY");
        foreach (PinLength p in kit.Lengths.Where(p => parts.Pins.First(q => q.Id == p.Pin) is { LengthMm: double own } && own < p.NeededMm - 1e-9 && p.LengthMm != own))
        {
            yield return new($"The case gives pin {p.Pin} {Fine(parts.Pins.First(q => q.Id == p.Pin).LengthMm!.Value)} mm, which does not reach through its outermost clamp: {Fine(Math.Ceiling(p.NeededMm))} mm are wanted.", "Sum of the pin's lengths", "DERIVED");
        }

        foreach (Pin pin in parts.Pins.Where(p => kit.Layout.OnPin(p.Id).IsEmpty))
        {
            yield return new($"No clamp holds pin {pin.Id}: its length leaves out standoff and clamp.", "The case", "GIVEN");
        }

        string[] odd = [.. kit.Lengths.Where(p => kit.Pins.TryGetValue(p.Pin, out StockPin? item) && Differs(parts.Pins.First(q => q.Id == p.Pin), item)).Select(p => p.Pin)];
        if (odd.Length > 0)
        {
            yield return new($"The stock's thread is not the one that the case reckons with at {List(odd)}: enter its length and core in the case and assess again.", "Thread bends with its core", "DERIVED");
        }

        if (kit.Lengths.Any(p => p.ExposedThreadMm > 0.05) && parts.Pins.Any(p => p.CoreDiameterMm is null && !kit.Pins.ContainsKey(p.Id)))
        {
            yield return new("Thread stands outside bone, and the case gives no core: the assessment takes the whole shank there, on the unsafe side.", "Project convention", "ASSUMED");
        }

        foreach (Rod rod in parts.Rods)
        {
            foreach (string joint in BeyondJoint(rod, kit))
            {
                yield return new($"Rod {rod.Id} would pass the {joint} joint line with its spare length shared by both ends: leave that at the other end, or take a shorter rod.", "Rod not beyond the joint: common practice, no source", "common practice");
            }
        }

        yield return new("Have spare: a pin of each kind, the next longer ones, a rod, two open-sided clamps for a pin that has to be moved.", "Common practice, no source", "common practice");
        yield return new("Parts of different makes may not fit each other: the device's instructions decide.", "Common practice, no source", "common practice");
    }

    // The rod as taken, its surplus shared by both ends.
    private static IEnumerable<string> BeyondJoint(Rod rod, FrameKit kit)
    {
        (double from, double to) = kit.Layout.Extent(rod);
        double taken = kit.Items.First(i => i.Kind == KitKind.Rod && i.Parts.Contains(rod.Id)).LengthMm!.Value, surplus = Math.Max(0, taken - (to - from)) / 2;
        var placed = kit.Layout.Placed(rod);
        double[] levels = [.. new[] { from - surplus, to + surplus }.Select(along => -(placed.FromMm + (along * placed.Along)).Z)];
        if (levels.Min() < 0)
        {
            yield return "knee";
        }

        if (levels.Max() > kit.Layout.BoneLengthMm)
        {
            yield return "ankle";
        }
    }

    private static bool Differs(Pin pin, StockPin item) =>
        pin.ThreadLengthMm is double thread && (thread != item.ThreadLengthMm || (item.CoreDiameterMm is double core && core != pin.CoreDiameterMm));
}
