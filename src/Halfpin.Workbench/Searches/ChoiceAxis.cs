using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Reports.Words;

namespace Halfpin.Workbench.Searches;

/// <summary>A number of the frames to choose from, as an axis of their plot and a column of their table.</summary>
/// <param name="Key">Its name for programs.</param>
/// <param name="Label">Its name for people.</param>
/// <param name="Unit">Its unit; empty for a count.</param>
/// <param name="Of">Its value; null when a choice has none.</param>
/// <param name="Text">A value in words, without the unit.</param>
public sealed record ChoiceAxis(string Key, string Label, string Unit, Func<Choice, double?> Of, Func<double, string> Text)
{
    /// <summary>Label and unit.</summary>
    public string Heading => Unit.Length == 0 ? Label : $"{Label}, {Unit}";

    // Only frames for several fractures have it.
    private static readonly ChoiceAxis _between = new("between", "Hold between", "N·m/°", c => c.Found.BetweenBendingNmPerDeg, Numbers.Stiffness);

    /// <summary>All axes that some of the choices have a value on.</summary>
    public static IEnumerable<ChoiceAxis> For(IEnumerable<Choice> choices) => All.Where(a => a != _between || choices.Any(c => a.Of(c) is not null));

    /// <summary>All axes.</summary>
    public static ImmutableArray<ChoiceAxis> All { get; } =
    [
        new("parts", "Parts", "", c => c.Parts, Whole),
        new("cost", "Relative cost", "points", c => c.Found.CostPoints, Whole),
        new("weak", "Weakest bending", "N·m/°", c => c.Found.WeakBendingNmPerDeg, Numbers.Stiffness),
        new("axial", "Axial stiffness", "N/mm", c => c.Found.AxialNPerMm, Numbers.Stiffness),
        new("torsion", "Torsion", "N·m/°", c => c.Found.TorsionNmPerDeg, Numbers.Stiffness),
        _between,
        new("margin", "Least margin", "%", c => double.IsFinite(c.Found.LeastMarginPercent) ? c.Found.LeastMarginPercent : null, Whole),
        new("motion", "Axial motion", "mm", c => Math.Abs(c.Found.AxialMm), Numbers.Motion),
        new("skin", "Rod to skin", "mm", c => c.Found.SkinRoomMm, Whole),
    ];

    /// <summary>The axis of a name, or another when there is none.</summary>
    public static ChoiceAxis Find(string? key, string otherwise) => All.FirstOrDefault(a => a.Key == key) ?? All.First(a => a.Key == otherwise);

    /// <summary>The value of a choice in words.</summary>
    public string TextOf(Choice choice) => Of(choice) is double value ? Text(value) : "–";

    private static string Whole(double value) => value.ToString("0", CultureInfo.InvariantCulture);
}
