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
    public static KrylovFunctions At(double kappa) => new(Series(kappa, 0), Series(kappa, 1), Series(kappa, 2), Series(kappa, 3));

    private static double Series(double kappa, int j)
    {
        double sum = 1;
        for (int n = 6; n > 0; n--)
        {
            int top = (4 * n) + j;
            sum = 1 - (kappa * sum / (top * (top - 1) * (top - 2) * (top - 3)));
        }

        return sum;
    }
}
