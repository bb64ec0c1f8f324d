using Halfpin.Domain.Frames;

namespace Halfpin.Search;

/// <summary>Relative cost of parts. ASSUMED: no prices are known; a pin is one point, a clamp and a carbon rod two, any other rod one.</summary>
internal static class CostPoints
{
    public const string Words = "pin 1, clamp 2, carbon rod 2, other rod 1";

    private const string Carbon = "carbon";

    public static double Of(Parts parts) =>
        parts.Pins.Length + parts.Rods.Sum(r => r.Material == Carbon ? 2.0 : 1.0) + (2.0 * parts.Clamps.Count(c => c.State != ClampState.Off));

    /// <summary>Pins, rods and clamps that are on.</summary>
    public static int Count(Parts parts) => parts.Pins.Length + parts.Rods.Length + parts.Clamps.Count(c => c.State != ClampState.Off);
}
