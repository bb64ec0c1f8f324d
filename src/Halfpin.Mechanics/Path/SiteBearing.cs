namespace Halfpin.Mechanics.Path;

/// <summary>
/// What a given set of bearing contacts makes of the site: with P = Σκbbᵀ and q = Σκ·gap·b over them, and the free motion d₀ that
/// load and dislocations cause without contact, their wrench on the upper face is F = −(P̃d₀ + o), P̃ = Λ(I + ΛᵀCΛ)⁻¹Λᵀ, P = ΛΛᵀ.
/// </summary>
/// <remarks>
/// The factors Λ and I + ΛᵀCΛ ≥ I keep P̃ free of cancellation however stiff the contacts are against the frame, and P̃ is positive
/// semidefinite by construction. P has rank 3 when all normals agree, so its Cholesky factor is pivoted and stops at its rank.
/// </remarks>
internal sealed class SiteBearing
{
    private const int N = Six.Count;

    // Pivots of P below this share of their diagonal are rounding.
    private const double RankShare = 1e-13;

    private readonly double[] _p = new double[N * N];
    private readonly double[] _q = new double[N];
    private readonly double[] _lambda = new double[N * N];
    private readonly double[] _image = new double[N * N];
    private readonly double[] _h = new double[N * N];
    private readonly double[] _w = new double[N * N];
    private readonly double[] _stiffness = new double[N * N];
    private readonly double[] _offset = new double[N];
    private readonly double[] _y = new double[N];
    private readonly int[] _pivot = new int[N];

    /// <summary>P̃, row by row.</summary>
    public ReadOnlySpan<double> Stiffness => _stiffness;

    /// <summary>False when nothing bears.</summary>
    public bool Bears { get; private set; }

    public void Set(PathProblem problem, ReadOnlySpan<bool> closed)
    {
        Array.Clear(_p);
        Array.Clear(_q);
        Bears = false;
        for (int k = 0; k < closed.Length; k++)
        {
            if (closed[k])
            {
                Bears = true;
                ReadOnlySpan<double> b = problem.NormalOf(k);
                double stiffness = problem.ContactNPerMm[k];
                for (int i = 0; i < N; i++)
                {
                    Six.Add(stiffness * b[i], b, _p.AsSpan(N * i));
                }

                Six.Add(stiffness * problem.GapMm[k], b, _q);
            }
        }

        Array.Clear(_stiffness);
        Array.Clear(_offset);
        if (Bears)
        {
            Condense(Decompose(), problem.SiteCompliance);
        }
    }

    /// <summary>The wrench of the contacts on the upper face under a free motion.</summary>
    public void Wrench(ReadOnlySpan<double> freeMotion, Span<double> wrench)
    {
        WrenchRate(freeMotion, wrench);
        Six.Add(-1, _offset, wrench);
    }

    /// <summary>The rate of that wrench with the same contacts bearing.</summary>
    public void WrenchRate(ReadOnlySpan<double> freeMotionRate, Span<double> rate)
    {
        rate[..N].Clear();
        if (Bears)
        {
            Six.AddProduct(_stiffness, freeMotionRate, rate);
            for (int i = 0; i < N; i++)
            {
                rate[i] = -rate[i];
            }
        }
    }

    // P = ΛΛᵀ with Λ six by the rank; the pivot is always the row with the largest share of its diagonal left.
    private int Decompose()
    {
        Array.Clear(_lambda);
        int taken = 0, rank = 0;
        for (; rank < N; rank++)
        {
            int best = -1;
            double most = RankShare, left = 0;
            for (int i = 0; i < N; i++)
            {
                double rest = _p[(N * i) + i];
                if (rest > 0 && (taken >> i & 1) == 0)
                {
                    for (int c = 0; c < rank; c++)
                    {
                        rest -= _lambda[(N * i) + c] * _lambda[(N * i) + c];
                    }

                    if (rest / _p[(N * i) + i] > most)
                    {
                        (best, most, left) = (i, rest / _p[(N * i) + i], rest);
                    }
                }
            }

            if (best < 0)
            {
                break;
            }

            taken |= 1 << best;
            _pivot[rank] = best;
            double root = Math.Sqrt(left);
            for (int i = 0; i < N; i++)
            {
                if (i == best)
                {
                    _lambda[(N * i) + rank] = root;
                }
                else if ((taken >> i & 1) == 0)
                {
                    double sum = _p[(N * i) + best];
                    for (int c = 0; c < rank; c++)
                    {
                        sum -= _lambda[(N * i) + c] * _lambda[(N * best) + c];
                    }

                    _lambda[(N * i) + rank] = sum / root;
                }
            }
        }

        return rank;
    }

    private void Condense(int rank, ReadOnlySpan<double> compliance)
    {
        // The columns of CΛ, then the lower half of I + ΛᵀCΛ and its Cholesky factor.
        for (int c = 0; c < rank; c++)
        {
            for (int i = 0; i < N; i++)
            {
                double sum = 0;
                for (int j = 0; j < N; j++)
                {
                    sum += compliance[(N * i) + j] * _lambda[(N * j) + c];
                }

                _image[(N * i) + c] = sum;
            }
        }

        for (int c = 0; c < rank; c++)
        {
            for (int r = c; r < rank; r++)
            {
                double sum = r == c ? 1 : 0;
                for (int i = 0; i < N; i++)
                {
                    sum += _lambda[(N * i) + r] * _image[(N * i) + c];
                }

                for (int k = 0; k < c; k++)
                {
                    sum -= _h[(N * r) + k] * _h[(N * c) + k];
                }

                _h[(N * r) + c] = r == c ? Math.Sqrt(sum) : sum / _h[(N * c) + c];
            }
        }

        // Λy = q has a solution, since q is made of the same vectors as P; its pivot rows are triangular.
        for (int r = 0; r < rank; r++)
        {
            double sum = _q[_pivot[r]];
            for (int c = 0; c < r; c++)
            {
                sum -= _lambda[(N * _pivot[r]) + c] * _y[c];
            }

            _y[r] = sum / _lambda[(N * _pivot[r]) + r];
        }

        SolveLower(_y, rank);
        for (int i = 0; i < N; i++)
        {
            Span<double> row = _w.AsSpan(N * i, rank);
            _lambda.AsSpan(N * i, rank).CopyTo(row);
            SolveLower(row, rank);
        }

        for (int i = 0; i < N; i++)
        {
            for (int c = 0; c < rank; c++)
            {
                _offset[i] += _w[(N * i) + c] * _y[c];
                for (int j = 0; j < N; j++)
                {
                    _stiffness[(N * i) + j] += _w[(N * i) + c] * _w[(N * j) + c];
                }
            }
        }
    }

    private void SolveLower(Span<double> x, int rank)
    {
        for (int r = 0; r < rank; r++)
        {
            double sum = x[r];
            for (int c = 0; c < r; c++)
            {
                sum -= _h[(N * r) + c] * x[c];
            }

            x[r] = sum / _h[(N * r) + r];
        }
    }
}
