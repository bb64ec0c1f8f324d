namespace Halfpin.Mechanics.Members;

/// <summary>
/// The four initial-parameter functions of a beam on a Winkler foundation at a distance x from its start, each over its value
/// without foundation: 1, x, x²/2 and x³/6. They follow from the power series in κ = kx⁴/EI, so nothing cancels in short spans.
/// </summary>
/// <remarks>
/// fⱼ = Σ (−κ)ⁿ j!/(4n+j)!, from EI w'''' = −k w term by term. Seven terms are exact to rounding up to κ = 64, λx = 2.
/// </remarks>
/// <param name="F0">Of the deflection at the start.</param>
/// <param name="F1">Of the slope.</param>
/// <param name="F2">Of the curvature.</param>
/// <param name="F3">Of its derivative.</param>
internal readonly record struct KrylovFunctions(double F0, double F1, double F2, double F3)
{
    /// <summary>Largest λx that the series serves.</summary>
    public const double MaxLambdaX = 2;

    /// <summary>The functions at κ = kx⁴/EI.</summary>
    public static KrylovFunctions At(double kappa) => new(
        Series(kappa, 1.0 / 24, 1.0 / 1680, 1.0 / 11_880, 1.0 / 43_680, 1.0 / 116_280, 1.0 / 255_024),
        Series(kappa, 1.0 / 120, 1.0 / 3024, 1.0 / 17_160, 1.0 / 57_120, 1.0 / 143_640, 1.0 / 303_600),
        Series(kappa, 1.0 / 360, 1.0 / 5040, 1.0 / 24_024, 1.0 / 73_440, 1.0 / 175_560, 1.0 / 358_800),
        Series(kappa, 1.0 / 840, 1.0 / 7920, 1.0 / 32_760, 1.0 / 93_024, 1.0 / 212_520, 1.0 / 421_200));

    // The ratio of a term to the one before is −κ over the product of four integers that follow each other, from j + 1 on.
    private static double Series(double kappa, double r1, double r2, double r3, double r4, double r5, double r6) =>
        1 - (kappa * r1 * (1 - (kappa * r2 * (1 - (kappa * r3 * (1 - (kappa * r4 * (1 - (kappa * r5 * (1 - (kappa * r6)))))))))));
}
