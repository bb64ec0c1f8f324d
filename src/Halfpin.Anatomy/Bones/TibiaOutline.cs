using Halfpin.Anatomy.Sections;

namespace Halfpin.Anatomy.Bones;

/// <summary>
/// Outline and canal of a tibia of 350 mm by level, as closed forms: r(θ) = [Σ max(0, cos(θ − ψᵢ)/hᵢ)^m]^(−1/m) over six sides.
/// </summary>
/// <remarks>
/// 1/r is a norm of non-negative linear functionals, so every outline is convex and star-shaped about the centroid. Parameters
/// follow the level by monotone cubics; below 3 % and above 95 % the outline stays that of the last level. Canal:
/// r = k[(1 − w)r(θ) + w·r_eq] with r_eq = √(A/π) and k = 1 − t/r_eq: a model from memory, as its table says.
/// </remarks>
internal static class TibiaOutline
{
    private const int Sides = 6;

    private static readonly MonotoneCubic[] _normal = [.. Enumerable.Range(0, Sides).Select(i => Curve(l => l.NormalDeg[i]))];
    private static readonly MonotoneCubic[] _distance = [.. Enumerable.Range(0, Sides).Select(i => Curve(l => l.DistanceMm[i]))];
    private static readonly MonotoneCubic _sharpness = Curve(l => l.Sharpness);
    private static readonly MonotoneCubic _wall =
        new(TibiaLevels.Wall.Select(w => w.LevelPercent), TibiaLevels.Wall.Select(w => w.WallMm));

    private static readonly MonotoneCubic _roundness =
        new(TibiaLevels.CanalRoundness.Select(c => c.LevelPercent), TibiaLevels.CanalRoundness.Select(c => c.Share));

    /// <summary>Fills outer and canal radii at evenly spaced azimuths from 0° on.</summary>
    /// <param name="levelPercent">Level.</param>
    /// <param name="outerMm">Receives the outer radii.</param>
    /// <param name="canalMm">Receives the canal's radii; same length.</param>
    /// <param name="wallShare">Thickness of the wall as a multiple of the model's.</param>
    /// <returns>The model's wall thickness as a share of the radius of a circle as large as the outline: t/r_eq.</returns>
    public static double Fill(double levelPercent, Span<double> outerMm, Span<double> canalMm, double wallShare = 1)
    {
        Span<double> psi = stackalloc double[Sides], h = stackalloc double[Sides];
        for (int i = 0; i < Sides; i++)
        {
            psi[i] = _normal[i].At(levelPercent) * (Math.PI / 180);
            h[i] = _distance[i].At(levelPercent);
        }

        double m = _sharpness.At(levelPercent), step = 2 * Math.PI / outerMm.Length, areaMm2 = 0;
        for (int a = 0; a < outerMm.Length; a++)
        {
            double sum = 0;
            for (int i = 0; i < Sides; i++)
            {
                double c = Math.Cos((a * step) - psi[i]) / h[i];
                sum += c > 0 ? Math.Pow(c, m) : 0;
            }

            outerMm[a] = Math.Pow(sum, -1 / m);
            areaMm2 += step / 2 * outerMm[a] * outerMm[a];
        }

        double equivalent = Math.Sqrt(areaMm2 / Math.PI);
        double wall = _wall.At(levelPercent) / equivalent, k = 1 - (wallShare * wall), w = _roundness.At(levelPercent);
        for (int a = 0; a < outerMm.Length; a++)
        {
            canalMm[a] = k * (((1 - w) * outerMm[a]) + (w * equivalent));
        }

        return wall;
    }

    /// <summary>What outer and canal enclose, and the torsion constant of the section between them.</summary>
    public static (PolygonProperties Outer, PolygonProperties Canal, double TorsionMm4) OutlinesOf(ReadOnlySpan<double> outerMm, ReadOnlySpan<double> canalMm)
    {
        int n = outerMm.Length;
        double[] ox = new double[n], oy = new double[n], cx = new double[n], cy = new double[n];
        for (int a = 0; a < n; a++)
        {
            (double sin, double cos) = Math.SinCos(a * 2 * Math.PI / n);
            (ox[a], oy[a], cx[a], cy[a]) = (outerMm[a] * cos, outerMm[a] * sin, canalMm[a] * cos, canalMm[a] * sin);
        }

        return (OutlineIntegration.Polygon(ox, oy), OutlineIntegration.Polygon(cx, cy), OutlineIntegration.Torsion(ox, oy, cx, cy));
    }

    private static MonotoneCubic Curve(Func<TibiaLevel, double> of) =>
        new(TibiaLevels.All.Select(l => l.LevelPercent), TibiaLevels.All.Select(of));
}
