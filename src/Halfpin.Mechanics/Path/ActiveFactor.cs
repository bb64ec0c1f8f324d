namespace Halfpin.Mechanics.Path;

/// <summary>
/// Cholesky factor of G = M + DᵀP̃D over the components that yield, with its null vectors: a pivot that is lost names a component
/// whose dislocation depends on those before it.
/// </summary>
/// <remarks>Golub and Van Loan, Matrix Computations, 4th ed., sect. 4.2.7–4.2.8 (semidefinite matrices); MEMORY for the section.</remarks>
internal sealed class ActiveFactor(PathProblem problem)
{
    // Pivots above this share of the component's own stiffness are not lost, however far the others move with it.
    private const double SuspectShare = 1e-3;

    // Below this share there is nothing but rounding even where traces of stiffness are kept.
    private const double TraceShare = 1e-15;

    private readonly int[] _order = new int[problem.Components];
    private readonly bool[] _dependent = new bool[problem.Components];
    private readonly double[] _l = new double[problem.Components * problem.Components];
    private readonly double[] _bearing = new double[problem.Components * problem.SiteFreedoms];
    private readonly double[] _x = new double[problem.Components];
    private int _count;

    /// <summary>The components, in the order of the factor.</summary>
    public ReadOnlySpan<int> Order => _order.AsSpan(0, _count);

    /// <summary>True when pivots too small to be told from rounding are to be taken as they are, as long as they are any.</summary>
    public bool KeepsTraces { get; set; }

    /// <summary>Number of lost pivots.</summary>
    public int Lost { get; private set; }

    /// <summary>True where the pivot of that place in the order was lost.</summary>
    public bool IsDependent(int place) => _dependent[place];

    /// <summary>Factorises for the components that may yield.</summary>
    public void Set(SiteBearing bearing, PathSets sets)
    {
        _count = 0;
        Lost = 0;
        for (int i = 0; i < problem.Components; i++)
        {
            if (sets.MayYield(i))
            {
                _order[_count++] = i;
            }
        }

        for (int r = 0; r < _count; r++)
        {
            AddRow(bearing, r);
        }
    }

    /// <summary>Solves G x = right over the components that yield; lost ones stay at 0. Indexed by component.</summary>
    public void Solve(ReadOnlySpan<double> right, Span<double> x)
    {
        for (int r = 0; r < _count; r++)
        {
            ReadOnlySpan<double> row = Row(r);
            double sum = right[_order[r]];
            for (int k = 0; k < r; k++)
            {
                sum -= row[k] * _x[k];
            }

            _x[r] = _dependent[r] ? 0 : sum / row[r];
        }

        SolveTransposed(_count);
        x.Clear();
        for (int r = 0; r < _count; r++)
        {
            x[_order[r]] = _x[r];
        }
    }

    /// <summary>The null vector of a lost pivot: its own component moves by 1, those before it as they must. Indexed by component.</summary>
    public void NullVector(int place, Span<double> z)
    {
        Follow(place);
        z.Clear();
        for (int k = 0; k < place; k++)
        {
            z[_order[k]] = _x[k];
        }

        z[_order[place]] = 1;
    }

    private void AddRow(SiteBearing bearing, int r)
    {
        int component = _order[r];
        Span<double> row = Row(r), image = _bearing.AsSpan(problem.SiteFreedoms * r, problem.SiteFreedoms);
        ReadOnlySpan<double> stiffness = problem.StiffnessRow(component);
        image.Clear();
        if (bearing.Bears)
        {
            Six.AddProduct(bearing.Stiffness, problem.SiteOf(component), image);
        }

        for (int c = 0; c <= r; c++)
        {
            ReadOnlySpan<double> other = Row(c);
            double sum = stiffness[_order[c]] + (bearing.Bears ? Six.Dot(image, problem.SiteOf(_order[c])) : 0);
            for (int k = 0; k < c; k++)
            {
                sum -= row[k] * other[k];
            }

            if (c < r)
            {
                row[c] = _dependent[c] ? 0 : sum / other[c];
            }
            else
            {
                _dependent[r] = IsLost(r, sum);
                row[r] = _dependent[r] ? 0 : Math.Sqrt(sum);
                Lost += _dependent[r] ? 1 : 0;
            }
        }
    }

    // How the components before a place follow it without force of their own.
    private void Follow(int place)
    {
        ReadOnlySpan<double> row = Row(place);
        for (int k = 0; k < place; k++)
        {
            _x[k] = _dependent[k] ? 0 : -row[k];
        }

        SolveTransposed(place);
    }

    // A pivot is the energy zᵀGz of the vector z in which its component moves by 1 and those before it follow. It is lost when that is
    // nothing against Σ own·z², what the same dislocations would meet in their members alone.
    private bool IsLost(int place, double pivot)
    {
        double own = Squared(problem.RootOwn[_order[place]]);
        if (pivot > SuspectShare * own)
        {
            return false;
        }

        Follow(place);
        for (int k = 0; k < place; k++)
        {
            own += Squared(problem.RootOwn[_order[k]] * _x[k]);
        }

        return !(pivot > (KeepsTraces ? TraceShare : PathProblem.SingularShare) * own);
    }

    // Lᵀx = x over the first places, in place.
    private void SolveTransposed(int places)
    {
        for (int r = places - 1; r >= 0; r--)
        {
            ReadOnlySpan<double> row = Row(r);
            _x[r] = _dependent[r] ? 0 : _x[r] / row[r];
            for (int k = 0; k < r; k++)
            {
                _x[k] -= row[k] * _x[r];
            }
        }
    }

    private static double Squared(double v) => v * v;

    private Span<double> Row(int r) => _l.AsSpan(problem.Components * r, problem.Components);
}
