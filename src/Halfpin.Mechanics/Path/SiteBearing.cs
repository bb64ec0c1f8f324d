namespace Halfpin.Mechanics.Path;

/// <summary>
/// What a given set of bearing contacts makes of all sites together: with P = Σκbbᵀ and q = Σκ·gap·b over them, and the free motion d₀ that
/// load and dislocations cause without contact, their wrenches on the upper faces are F = −(P̃d₀ + o), P̃ = Λ(I + ΛᵀCΛ)⁻¹Λᵀ, P = ΛΛᵀ.
/// </summary>
/// <remarks>
/// The factors Λ and I + ΛᵀCΛ ≥ I keep P̃ free of cancellation however stiff the contacts are against the frame, and P̃ is positive
/// semidefinite by construction. P has rank 3 a site when all its normals agree, so its Cholesky factor is pivoted and stops at its rank.
/// </remarks>
internal sealed class SiteBearing(int freedoms)
{

    // Pivots of P below this share of their diagonal are rounding.
    private const double RankShare = 1e-13;

    private readonly double[] _p = new double[freedoms * freedoms];
    private readonly double[] _q = new double[freedoms];
    private readonly double[] _lambda = new double[freedoms * freedoms];
    private readonly double[] _image = new double[freedoms * freedoms];
    private readonly double[] _h = new double[freedoms * freedoms];
    private readonly double[] _w = new double[freedoms * freedoms];
    private readonly double[] _stiffness = new double[freedoms * freedoms];
    private readonly double[] _offset = new double[freedoms];
    private readonly double[] _y = new double[freedoms];
    private readonly int[] _pivot = new int[freedoms];

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
                for (int i = 0; i < freedoms; i++)
                {
                    Six.Add(stiffness * b[i], b, _p.AsSpan(freedoms * i));
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
        rate[..freedoms].Clear();
        if (Bears)
        {
            Six.AddProduct(_stiffness, freeMotionRate, rate);
            for (int i = 0; i < freedoms; i++)
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
        for (; rank < freedoms; rank++)
        {
            int best = -1;
            double most = RankShare, left = 0;
            for (int i = 0; i < freedoms; i++)
            {
                double rest = _p[(freedoms * i) + i];
                if (rest > 0 && (taken >> i & 1) == 0)
                {
                    for (int c = 0; c < rank; c++)
                    {
                        rest -= _lambda[(freedoms * i) + c] * _lambda[(freedoms * i) + c];
                    }

                    if (rest / _p[(freedoms * i) + i] > most)
                    {
                        (best, most, left) = (i, rest / _p[(freedoms * i) + i], rest);
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
            for (int i = 0; i < freedoms; i++)
            {
                if (i == best)
                {
                    _lambda[(freedoms * i) + rank] = root;
                }
                else if ((taken >> i & 1) == 0)
                {
                    double sum = _p[(freedoms * i) + best];
                    for (int c = 0; c < rank; c++)
                    {
                        sum -= _lambda[(freedoms * i) + c] * _lambda[(freedoms * best) + c];
                    }

                    _lambda[(freedoms * i) + rank] = sum / root;
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
            for (int i = 0; i < freedoms; i++)
            {
                double sum = 0;
                for (int j = 0; j < freedoms; j++)
                {
                    sum += compliance[(freedoms * i) + j] * _lambda[(freedoms * j) + c];
                }

                _image[(freedoms * i) + c] = sum;
            }
        }

        for (int c = 0; c < rank; c++)
        {
            for (int r = c; r < rank; r++)
            {
                double sum = r == c ? 1 : 0;
                for (int i = 0; i < freedoms; i++)
                {
                    sum += _lambda[(freedoms * i) + r] * _image[(freedoms * i) + c];
                }

                for (int k = 0; k < c; k++)
                {
                    sum -= _h[(freedoms * r) + k] * _h[(freedoms * c) + k];
                }

                _h[(freedoms * r) + c] = r == c ? Math.Sqrt(sum) : sum / _h[(freedoms * c) + c];
            }
        }

        // Λy = q has a solution, since q is made of the same vectors as P; its pivot rows are triangular.
        for (int r = 0; r < rank; r++)
        {
            double sum = _q[_pivot[r]];
            for (int c = 0; c < r; c++)
            {
                sum -= _lambda[(freedoms * _pivot[r]) + c] * _y[c];
            }

            _y[r] = sum / _lambda[(freedoms * _pivot[r]) + r];
        }

        SolveLower(_y, rank);
        for (int i = 0; i < freedoms; i++)
        {
            Span<double> row = _w.AsSpan(freedoms * i, rank);
            _lambda.AsSpan(freedoms * i, rank).CopyTo(row);
            SolveLower(row, rank);
        }

        for (int i = 0; i < freedoms; i++)
        {
            for (int c = 0; c < rank; c++)
            {
                _offset[i] += _w[(freedoms * i) + c] * _y[c];
                for (int j = 0; j < freedoms; j++)
                {
                    _stiffness[(freedoms * i) + j] += _w[(freedoms * i) + c] * _w[(freedoms * j) + c];
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
                sum -= _h[(freedoms * r) + c] * x[c];
            }

            x[r] = sum / _h[(freedoms * r) + r];
        }
    }
}
