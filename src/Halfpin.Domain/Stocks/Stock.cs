using System.Collections.Immutable;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Stocks;

/// <summary>A user's own catalogue of parts, with how many there are.</summary>
public sealed record Stock
{
    /// <summary>The word that marks a stock file.</summary>
    public const string FormatName = "halfpin-stock";

    /// <summary>The version of the format this program writes and the newest it reads.</summary>
    public const int CurrentFormatVersion = 1;

    [Field("Marks the file as a Halfpin stock; always halfpin-stock.")]
    public required string Format { get; init; }

    [Field("Version of the stock format.", Min = 1, Max = CurrentFormatVersion)]
    public required int FormatVersion { get; init; }

    [Field("A title for lists.", Max = 200)]
    public required string Title { get; init; }

    [Field("What there is, a line for each kind of part.", Min = 1, Max = 2000)]
    public required ImmutableArray<StockItem> Items { get; init; }
}

/// <summary>A line of a stock.</summary>
public abstract record StockItem
{
    [Field("The user's own name of the item.", Max = 120)]
    public required string Name { get; init; }

    [Field("How many there are.", Min = 0, Max = 10_000)]
    public required int Quantity { get; init; }
}

/// <summary>A half-pin of one size.</summary>
public sealed record StockPin : StockItem
{
    [Field("Shank diameter.", Min = 1.5, Max = 8)]
    public required double DiameterMm { get; init; }

    [Field("Whole length.", Min = 30, Max = 400)]
    public required double LengthMm { get; init; }

    [Field("Length of the thread from the tip.", Min = 5, Max = 200)]
    public required double ThreadLengthMm { get; init; }

    [Field("Core diameter of the thread, where it is known.", Min = 1, Max = 8)]
    public double? CoreDiameterMm { get; init; }

    [Field("Kind of tip.")]
    public required PinTip Tip { get; init; }

    [Field("Material, as a case names it.", IsId = true)]
    public required string Material { get; init; }
}

/// <summary>A rod of one size.</summary>
public sealed record StockRod : StockItem
{
    [Field("Outer diameter.", Min = 3, Max = 20)]
    public required double DiameterMm { get; init; }

    [Field("Inner diameter of a hollow rod.", Min = 0, Max = 19)]
    public double InnerDiameterMm { get; init; }

    [Field("Whole length.", Min = 20, Max = 700)]
    public required double LengthMm { get; init; }

    [Field("Material, as a case names it.", IsId = true)]
    public required string Material { get; init; }
}

/// <summary>A clamp and what it takes.</summary>
public sealed record StockClamp : StockItem
{
    [Field("What it joins.")]
    public required ClampJoint Joins { get; init; }

    [Field("Least diameter of the pin, or of the second rod, that it holds.", Min = 1.5, Max = 20)]
    public required double FromDiameterMm { get; init; }

    [Field("Greatest diameter of the pin, or of the second rod, that it holds.", Min = 1.5, Max = 20)]
    public required double ToDiameterMm { get; init; }

    [Field("Diameter of the rod that it holds.", Min = 3, Max = 20)]
    public required double RodDiameterMm { get; init; }

    [Field("Whether it can be put on a rod that is already mounted.")]
    public bool OpenSided { get; init; }
}

/// <summary>What a clamp joins.</summary>
public enum ClampJoint
{
    PinToRod,
    RodToRod,
}

/// <summary>A tool.</summary>
public sealed record StockTool : StockItem
{
    [Field("Kind of tool.")]
    public required ToolKind Tool { get; init; }

    [Field("Diameter that it is for: a drill's own, a sleeve's or trocar's that of what passes or fits.", Min = 1, Max = 20)]
    public double? DiameterMm { get; init; }
}

/// <summary>A kind of tool.</summary>
public enum ToolKind
{
    PowerDriver,
    HandChuck,
    Trocar,
    DrillSleeve,
    PinSleeve,
    Drill,
    Wrench,
}
