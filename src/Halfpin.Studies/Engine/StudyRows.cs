using System.Collections.Immutable;
using Halfpin.Studies.Sampling;

namespace Halfpin.Studies.Engine;

/// <summary>What a row of a study asks for.</summary>
/// <param name="IsAgainst">True for the other frame.</param>
/// <param name="BasePoint">The base point; −1 for the case as it is.</param>
/// <param name="Role">0 for A, 1 for B, 2 + i for A with input i from B; −1 on a grid or for the case as it is.</param>
public readonly record struct RowPlace(bool IsAgainst, long BasePoint, int Role);

/// <summary>The rows of a study by number. Immutable.</summary>
/// <remarks>
/// Sampled: first the case as it is, of each frame; then for each base point the rows of its design, and A and B of the other frame. Grid: one row
/// for each combination.
/// </remarks>
public sealed class StudyRows
{
    private readonly Study _study;
    private readonly SaltelliDesign? _design;

    /// <summary>The rows of a study.</summary>
    public StudyRows(Study study)
    {
        _study = study;
        Frames = study.Against is null ? 1 : 2;
        if (study.Grid.IsEmpty)
        {
            _design = new(study.Inputs.Length, study.Seed);
            PerPoint = _design.RowsPerPoint + (2 * (Frames - 1));
            Count = Frames + (study.BasePoints * PerPoint);
        }
        else
        {
            (PerPoint, Count) = (1, study.Grid.Aggregate(1L, (n, axis) => n * axis.Length));
        }
    }

    /// <summary>Number of frames.</summary>
    public int Frames { get; }

    /// <summary>Rows of each base point.</summary>
    public int PerPoint { get; }

    /// <summary>Number of rows.</summary>
    public long Count { get; }

    /// <summary>What a row asks for.</summary>
    public RowPlace PlaceOf(long row)
    {
        if (_design is null)
        {
            return new(false, row, -1);
        }

        if (row < Frames)
        {
            return new(row == 1, -1, -1);
        }

        (long point, long at) = Math.DivRem(row - Frames, PerPoint);
        return at < _design.RowsPerPoint ? new(false, point, (int)at) : new(true, point, (int)at - _design.RowsPerPoint);
    }

    /// <summary>The inputs' values in a row.</summary>
    public void Values(long row, Span<double> values)
    {
        RowPlace place = PlaceOf(row);
        if (_design is null)
        {
            for (int i = values.Length - 1; i >= 0; i--)
            {
                (row, long at) = Math.DivRem(row, _study.Grid[i].Length);
                values[i] = _study.Grid[i][(int)at];
            }

            return;
        }

        ImmutableArray<Inputs.StudyInput> inputs = _study.Inputs;
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = place.BasePoint < 0 ? inputs[i].Nominal : inputs[i].Spread.Quantile(_design.At(place.BasePoint, place.Role, i));
        }
    }
}
