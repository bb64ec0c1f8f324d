using Halfpin.Anatomy.Sections;
using Halfpin.Domain.Cases;

namespace Halfpin.Anatomy.Bones;

/// <summary>The parametric tibia, scaled by its length: lengths by L/350, areas by its square, second moments by its fourth power.</summary>
/// <remarks>
/// Read from a table of the closed-form outlines at every half per cent of the length and every two degrees, made once: a pin
/// is placed in some nanoseconds, within 0.01 mm of the closed form. Another wall makes the canal of a level larger or smaller without
/// changing its form, see <see cref="WallTable"/>, so that a bone with it costs no new table.
/// </remarks>
public sealed class TibiaShape : BoneShape
{
    private const int Levels = 201;
    private const int Azimuths = 180;
    private const double LevelStepPercent = 0.5;
    private const double AzimuthStepDeg = 360.0 / Azimuths;

    private static readonly Lazy<Table> _table = new(() => new Table());

    private readonly double _scale;
    private readonly double _wallShare;

    /// <summary>A tibia of a length.</summary>
    /// <param name="lengthMm">Length.</param>
    /// <param name="wallShare">Thickness of its wall as a multiple of the model's, within the bounds of <see cref="AnatomicalBone"/>.</param>
    public TibiaShape(double lengthMm, double wallShare = 1)
    {
        if (!(wallShare >= AnatomicalBone.LeastWallShare && wallShare <= AnatomicalBone.MostWallShare))
        {
            throw new ArgumentOutOfRangeException(nameof(wallShare), wallShare, $"The wall is between {AnatomicalBone.LeastWallShare} and {AnatomicalBone.MostWallShare} of the model's.");
        }

        (LengthMm, _wallShare) = (lengthMm, wallShare);
        _scale = lengthMm / TibiaLevels.ReferenceLengthMm;
    }

    /// <inheritdoc/>
    public override double LengthMm { get; }

    /// <inheritdoc/>
    public override BoneTissue Tissue => BoneTissue.Cortical;

    /// <inheritdoc/>
    public override bool IsUniform => false;

    /// <inheritdoc/>
    public override double OuterRadiusMm(double levelMm, double azimuthDeg)
    {
        (int row, double t) = Row(levelMm);
        (double above, double below) = Around(_table.Value.OuterMm, row, azimuthDeg);
        return _scale * (above + (t * (below - above)));
    }

    /// <inheritdoc/>
    public override double CanalRadiusMm(double levelMm, double azimuthDeg)
    {
        (int row, double t) = Row(levelMm);
        (double above, double below) = Around(_table.Value.CanalMm, row, azimuthDeg);
        above *= _table.Value.Walls.CanalScale(row, _wallShare);
        below *= _table.Value.Walls.CanalScale(row + 1, _wallShare);
        return _scale * (above + (t * (below - above)));
    }

    /// <inheritdoc/>
    public override BoneSection SectionAt(double levelMm)
    {
        (int row, double t) = Row(levelMm);
        BoneSection a = _table.Value.Walls.SectionAt(row, _wallShare), b = _table.Value.Walls.SectionAt(row + 1, _wallShare);
        double s2 = _scale * _scale, s4 = s2 * s2;
        double Between(double p, double q, double s) => s * (p + (t * (q - p)));
        return new(
            Between(a.AreaMm2, b.AreaMm2, s2), Between(a.XxMm4, b.XxMm4, s4), Between(a.YyMm4, b.YyMm4, s4),
            Between(a.XyMm4, b.XyMm4, s4), Between(a.TorsionMm4, b.TorsionMm4, s4));
    }

    private (int Row, double Fraction) Row(double levelMm)
    {
        double x = Math.Clamp(levelMm / LengthMm, 0, 1) * 100 / LevelStepPercent;
        int row = Math.Min((int)x, Levels - 2);
        return (row, x - row);
    }

    // In the rows above and below.
    private static (double AboveMm, double BelowMm) Around(double[] table, int row, double azimuthDeg)
    {
        double a = azimuthDeg / AzimuthStepDeg;
        double floor = Math.Floor(a);
        int column = (int)floor % Azimuths;
        column = column < 0 ? column + Azimuths : column;
        int next = column + 1 == Azimuths ? 0 : column + 1;
        double s = a - floor;
        int upper = row * Azimuths, lower = upper + Azimuths;
        return (
            table[upper + column] + (s * (table[upper + next] - table[upper + column])),
            table[lower + column] + (s * (table[lower + next] - table[lower + column])));
    }

    /// <summary>Outlines and sections of a tibia of 350 mm.</summary>
    private sealed class Table
    {
        public Table()
        {
            double[] wall = new double[Levels];
            for (int row = 0; row < Levels; row++)
            {
                Span<double> outer = OuterMm.AsSpan(row * Azimuths, Azimuths), canal = CanalMm.AsSpan(row * Azimuths, Azimuths);
                wall[row] = TibiaOutline.Fill(row * LevelStepPercent, outer, canal);
            }

            Walls = new(wall, OuterMm, CanalMm);
        }

        public double[] OuterMm { get; } = new double[Levels * Azimuths];

        public double[] CanalMm { get; } = new double[Levels * Azimuths];

        public WallTable Walls { get; }
    }
}
