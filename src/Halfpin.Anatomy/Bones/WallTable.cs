using Halfpin.Anatomy.Sections;
using Halfpin.Domain.Cases;

namespace Halfpin.Anatomy.Bones;

/// <summary>Hollow sections of the tabulated tibia by row of its table, for any thickness of its wall.</summary>
/// <remarks>
/// The canal is r = k·[(1 − w)r(θ) + w·r_eq] with k = 1 − s·t/r_eq and s the wall's thickness as a multiple of the model's, so another s
/// scales the canal of a level by q = (1 − s·t/r_eq)/(1 − t/r_eq): what it encloses follows with q² and q⁴, without error. The torsion
/// constant does not; it is interpolated in s by the polynomial through seven walls, within 1e-4 of itself.
/// </remarks>
internal sealed class WallTable
{
    // Walls at which the torsion constant is worked out, less that of the model, which is the middle one of seven Chebyshev nodes: bounds lie alike on both sides.
    private static readonly double[] _nodes = [.. new[] { 0, 1, 2, 4, 5, 6 }.Select(k => (AnatomicalBone.LeastWallShare - 1) * Math.Cos(Math.PI * ((2 * k) + 1) / 14))];

    private readonly Level[] _levels;

    /// <summary>The sections of a table.</summary>
    /// <param name="wall">The model's wall by row, of the radius of a circle as large as the outline.</param>
    /// <param name="outerMm">Outer radii, row after row, at evenly spaced azimuths.</param>
    /// <param name="canalMm">Radii of the model's canal; alike.</param>
    public WallTable(double[] wall, double[] outerMm, double[] canalMm)
    {
        int azimuths = outerMm.Length / wall.Length;
        _levels = [.. wall.Select((share, row) =>
        {
            ArraySegment<double> outline = new(outerMm, row * azimuths, azimuths), model = new(canalMm, row * azimuths, azimuths);
            (PolygonProperties outer, PolygonProperties canal, double torsionMm4) = TibiaOutline.OutlinesOf(outline, model);
            return new Level(share / (1 - share), outer, canal, torsionMm4, new(() => Differences(row, outline, model)));
        })];
    }

    /// <summary>The canal's radii with another wall, of those of the model.</summary>
    public double CanalScale(int row, double wallShare) => 1 + ((1 - wallShare) * _levels[row].WallOfCanal);

    /// <summary>The section of a row.</summary>
    public BoneSection SectionAt(int row, double wallShare)
    {
        Level level = _levels[row];
        (PolygonProperties o, PolygonProperties c) = (level.Outer, level.Canal);
        double q = CanalScale(row, wallShare), q2 = q * q, q4 = q2 * q2;
        return new(
            o.AreaMm2 - (q2 * c.AreaMm2), o.XxMm4 - (q4 * c.XxMm4), o.YyMm4 - (q4 * c.YyMm4), o.XyMm4 - (q4 * c.XyMm4),
            wallShare == 1 ? level.TorsionMm4 : level.TorsionMm4 + Change(level.Torsion.Value, wallShare - 1));
    }

    // Divided differences of (J(s) − J(1))/(s − 1).
    private double[] Differences(int row, ArraySegment<double> outerMm, ArraySegment<double> canalMm)
    {
        double[] d = [.. _nodes.Select(x =>
        {
            double scale = CanalScale(row, 1 + x);
            return (TibiaOutline.OutlinesOf(outerMm, [.. canalMm.Select(r => scale * r)]).TorsionMm4 - _levels[row].TorsionMm4) / x;
        })];
        for (int order = 1; order < d.Length; order++)
        {
            for (int i = d.Length - 1; i >= order; i--)
            {
                d[i] = (d[i] - d[i - 1]) / (_nodes[i] - _nodes[i - order]);
            }
        }

        return d;
    }

    private static double Change(double[] d, double x)
    {
        double sum = 0;
        for (int i = d.Length - 1; i >= 0; i--)
        {
            sum = d[i] + ((x - _nodes[i]) * sum);
        }

        return x * sum;
    }

    /// <param name="WallOfCanal">t/(r_eq − t).</param>
    /// <param name="Outer">What the outline encloses.</param>
    /// <param name="Canal">What the model's canal encloses.</param>
    /// <param name="TorsionMm4">Torsion constant with the model's wall.</param>
    /// <param name="Torsion">Its change with the wall.</param>
    private sealed record Level(double WallOfCanal, PolygonProperties Outer, PolygonProperties Canal, double TorsionMm4, Lazy<double[]> Torsion);
}
