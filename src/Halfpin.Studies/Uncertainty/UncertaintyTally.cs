using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Indices;

namespace Halfpin.Studies.Uncertainty;

/// <summary>Gathers the rows of a sampled study in their order: bands, shares, variance and ranks. A workspace whose memory grows with two values an output and base point only.</summary>
internal sealed class UncertaintyTally
{
    private const int LeastForConvergence = 64;

    private readonly RowFormat _format;
    private readonly StudyRows _rows;
    private readonly int _design;
    private readonly VarianceSums[] _variance;
    private readonly List<double>[] _values;
    private readonly double[] _nominal;
    private readonly long[,] _verdicts;
    private readonly long[] _stiffer;
    private readonly long[] _pairs;
    private readonly long[,] _ends = new long[2, 4];
    private readonly long[,] _firstRows = new long[2, 4];
    private readonly long[] _held = new long[2];
    private readonly double[] _pointRows;
    private readonly double[] _otherRows;

    public UncertaintyTally(Study study, RowFormat format)
    {
        (_format, _rows, _design) = (format, new(study), study.Inputs.Length + 2);
        int outputs = format.Outputs.Length;
        _variance = [.. format.Outputs.Select(_ => new VarianceSums(study.Inputs.Length, study.BasePoints))];
        _values = [.. format.Outputs.Select(_ => new List<double>())];
        _nominal = [.. Enumerable.Repeat(double.NaN, outputs)];
        _verdicts = new long[format.Checks.Length, 3];
        Ranked = RankedStiffness.Of(format.Outputs);
        (_stiffer, _pairs) = (new long[Ranked.Length], new long[Ranked.Length]);
        (_pointRows, _otherRows) = (new double[outputs * _design], new double[outputs * 2]);
        NominalVerdicts = [.. format.Checks.Select(_ => (Verdict?)null)];
    }

    /// <summary>The stiffnesses by which frames are ranked.</summary>
    public ImmutableArray<RankedStiffness> Ranked { get; }

    /// <summary>Rows taken so far.</summary>
    public long Rows { get; private set; }

    /// <summary>Whole base points taken so far.</summary>
    public long BasePoints => Math.Max(0, Rows - _rows.Frames) / _rows.PerPoint;

    /// <summary>Verdicts in the case as it is.</summary>
    public Verdict?[] NominalVerdicts { get; }

    /// <summary>The first row of a frame that ended so; only asked where one did.</summary>
    public long FirstRowOf(bool against, FrameStatus status) => _firstRows[against ? 1 : 0, (int)status];

    /// <summary>Samples, of two a base point, in which a frame can be built and holds.</summary>
    public long Held(bool against) => _held[against ? 1 : 0];

    /// <summary>Takes rows that follow those taken.</summary>
    public void Take(ReadOnlySpan<byte> rows)
    {
        for (int at = 0; at < rows.Length; at += _format.Bytes)
        {
            TakeRow(rows.Slice(at, _format.Bytes));
        }
    }

    public double Nominal(int output) => _nominal[output];

    /// <summary>Evaluations of a frame that ended so.</summary>
    public long Ended(bool against, FrameStatus status) => _ends[against ? 1 : 0, (int)status];

    /// <summary>The values of an output in A and B, sorted.</summary>
    public double[] Sorted(int output)
    {
        double[] sorted = [.. _values[output].Where(double.IsFinite)];
        Array.Sort(sorted);
        return sorted;
    }

    public IndexEstimate[]? Indices(int output, ulong seed) => _variance[output].Estimate(seed);

    public long Verdicts(int check, Verdict verdict) => _verdicts[check, (int)verdict];

    /// <summary>Samples in which the frame is stiffer than the other, and samples with both, by number of the ranked stiffness.</summary>
    public (long Stiffer, long Pairs) Stiffer(int ranked) => (_stiffer[ranked], _pairs[ranked]);

    /// <summary>
    /// The widest 95 % interval of a band's ends, half of it as a share of the median, with the output that has it. Outputs without a median, or with one of nil, have none.
    /// </summary>
    public (double Share, int Output)? Widest()
    {
        (double Share, int Output)? widest = null;
        for (int o = 0; BasePoints >= LeastForConvergence && o < _values.Length; o++)
        {
            double[] sorted = Sorted(o);
            double median = sorted.Length == 0 ? 0 : Math.Abs(Quantiles.OfSorted(sorted, 0.5));
            if (median > 0)
            {
                (double low5, double high5) = Quantiles.IntervalOf(sorted, 0.05);
                (double low95, double high95) = Quantiles.IntervalOf(sorted, 0.95);
                double share = Math.Max(high5 - low5, high95 - low95) / 2 / median;
                widest = widest is null || share > widest.Value.Share ? (share, o) : widest;
            }
        }

        return widest;
    }

    private void TakeRow(ReadOnlySpan<byte> row)
    {
        RowPlace place = _rows.PlaceOf(Rows);
        FrameStatus status = _format.Status(row);
        int frame = place.IsAgainst ? 1 : 0;
        if (_ends[frame, (int)status]++ == 0)
        {
            _firstRows[frame, (int)status] = Rows;
        }

        if (place is { BasePoint: >= 0, Role: < 2 } && status is not (FrameStatus.Mechanism or FrameStatus.Invalid))
        {
            _held[frame]++;
        }

        if (place.BasePoint < 0)
        {
            TakeNominal(row, place);
        }
        else
        {
            TakeSample(row, place);
        }

        Rows++;
        if (place.BasePoint >= 0 && (Rows - _rows.Frames) % _rows.PerPoint == 0)
        {
            FinishPoint(place.BasePoint);
        }
    }

    private void TakeNominal(ReadOnlySpan<byte> row, RowPlace place)
    {
        for (int o = 0; !place.IsAgainst && o < _nominal.Length; o++)
        {
            _nominal[o] = RowFormat.Number(row, o);
        }

        for (int c = 0; !place.IsAgainst && c < NominalVerdicts.Length; c++)
        {
            NominalVerdicts[c] = _format.Verdict(row, c);
        }
    }

    private void TakeSample(ReadOnlySpan<byte> row, RowPlace place)
    {
        for (int o = 0; o < _nominal.Length; o++)
        {
            if (place.IsAgainst)
            {
                _otherRows[(2 * o) + place.Role] = RowFormat.Number(row, o);
            }
            else
            {
                _pointRows[(_design * o) + place.Role] = RowFormat.Number(row, o);
            }
        }

        for (int c = 0; place is { IsAgainst: false, Role: < 2 } && c < _format.Checks.Length; c++)
        {
            if (_format.Verdict(row, c) is Verdict verdict)
            {
                _verdicts[c, (int)verdict]++;
            }
        }
    }

    private void FinishPoint(long basePoint)
    {
        for (int o = 0; o < _nominal.Length; o++)
        {
            ReadOnlySpan<double> own = _pointRows.AsSpan(_design * o, _design);
            _variance[o].Add(basePoint, own);
            _values[o].Add(own[0]);
            _values[o].Add(own[1]);
        }

        for (int r = 0; _rows.Frames > 1 && r < Ranked.Length; r++)
        {
            for (int role = 0; role < 2; role++)
            {
                double own = Ranked[r].Least(o => _pointRows[(_design * o) + role]), other = Ranked[r].Least(o => _otherRows[(2 * o) + role]);
                if (double.IsFinite(own) && double.IsFinite(other))
                {
                    _pairs[r]++;
                    _stiffer[r] += own > other ? 1 : 0;
                }
            }
        }
    }
}
