using System.Globalization;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Stocks;

/// <summary>What must hold within a stock, beyond the range of each number.</summary>
public static class StockRules
{
    /// <summary>All faults of one item.</summary>
    /// <param name="item">The item.</param>
    /// <param name="at">Its pointer.</param>
    public static IEnumerable<Fault> Check(StockItem item, string at) => item switch
    {
        StockPin pin => Pin(pin, at),
        StockRod rod when rod.InnerDiameterMm >= rod.DiameterMm =>
            [new($"{at}/innerDiameterMm", FaultCodes.Inconsistent, $"The inner diameter {Text(rod.InnerDiameterMm)} mm leaves no wall.", $"Less than {Text(rod.DiameterMm)} mm.", "Exchange the two, or leave it out for a solid rod.")],
        StockClamp clamp when clamp.FromDiameterMm > clamp.ToDiameterMm =>
            [new($"{at}/fromDiameterMm", FaultCodes.Inconsistent, $"The least diameter, {Text(clamp.FromDiameterMm)} mm, is above the greatest, {Text(clamp.ToDiameterMm)} mm.", $"At most {Text(clamp.ToDiameterMm)} mm.", "Exchange the two.")],
        StockTool { DiameterMm: null, Tool: ToolKind.Trocar or ToolKind.DrillSleeve or ToolKind.PinSleeve or ToolKind.Drill } =>
            [new($"{at}/diameterMm", FaultCodes.Missing, "\"diameterMm\" is missing.", "The diameter that the trocar, sleeve or drill is for.", "Add it.")],
        _ => [],
    };

    private static IEnumerable<Fault> Pin(StockPin pin, string at)
    {
        if (pin.ThreadLengthMm > pin.LengthMm)
        {
            yield return new($"{at}/threadLengthMm", FaultCodes.Inconsistent, $"The thread, {Text(pin.ThreadLengthMm)} mm, is longer than the pin, {Text(pin.LengthMm)} mm.", $"At most {Text(pin.LengthMm)} mm.", "Exchange the two.");
        }

        if (pin.CoreDiameterMm >= pin.DiameterMm)
        {
            yield return new($"{at}/coreDiameterMm", FaultCodes.Inconsistent, $"The core, {Text(pin.CoreDiameterMm.Value)} mm, is not thinner than the pin, {Text(pin.DiameterMm)} mm.", $"Less than {Text(pin.DiameterMm)} mm.", "Exchange the two, or leave the core out.");
        }
    }

    private static string Text(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
