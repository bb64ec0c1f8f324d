namespace Halfpin.Mechanics.Path;

/// <summary>Load factor and dislocations with everything that follows from them and from the bearing contacts; or the rates of these.</summary>
internal sealed class PathState
{
    // Rounding in M is of the size of the components' own stiffness: what a component's force is the difference of has at least
    // this share of it, so that the relative tolerances of this folder never ask for more than SingularShare allows.
    private const double OwnShare = 0.1;

    private readonly PathProblem _problem;
    private readonly double[] _freeMotion = new double[Six.Count];

    public PathState(PathProblem problem)
    {
        _problem = problem;
        Dislocation = new double[problem.Components];
        Force = new double[problem.Components];
        ForceSize = new double[problem.Components];
        OpeningMm = new double[problem.Contacts];
        OpeningSize = new double[problem.Contacts];
    }

    public double LoadFactor { get; set; }

    public double[] Dislocation { get; }

    /// <summary>Component forces.</summary>
    public double[] Force { get; }

    /// <summary>What each component force is the difference of.</summary>
    public double[] ForceSize { get; }

    public double[] SiteMotion { get; } = new double[Six.Count];

    /// <summary>Wrench of the contacts on the upper face.</summary>
    public double[] ContactWrench { get; } = new double[Six.Count];

    /// <summary>Distance of the faces along the normal; negative, by its compression, where a contact bears.</summary>
    public double[] OpeningMm { get; }

    /// <summary>What each opening is the difference of.</summary>
    public double[] OpeningSize { get; }

    public void Reset()
    {
        LoadFactor = 0;
        Array.Clear(Dislocation);
    }

    /// <summary>Fills everything from load factor and dislocations.</summary>
    public void Evaluate(SiteBearing bearing)
    {
        SetFreeMotion();
        bearing.Wrench(_freeMotion, ContactWrench);
        SetForces();
        SetOpenings(withGap: true);
    }

    /// <summary>The same with rates in place of values.</summary>
    public void EvaluateRates(SiteBearing bearing)
    {
        SetFreeMotion();
        bearing.WrenchRate(_freeMotion, ContactWrench);
        SetForces();
        SetOpenings(withGap: false);
    }

    private void SetFreeMotion()
    {
        Array.Clear(_freeMotion);
        Six.Add(LoadFactor, _problem.SitePerLoad, _freeMotion);
        for (int i = 0; i < Dislocation.Length; i++)
        {
            if (Dislocation[i] != 0)
            {
                Six.Add(Dislocation[i], _problem.SiteOf(i), _freeMotion);
            }
        }
    }

    private void SetForces()
    {
        double whole = 0;
        for (int i = 0; i < Dislocation.Length; i++)
        {
            whole += _problem.RootOwn[i] * Math.Abs(Dislocation[i]);
        }

        for (int i = 0; i < Force.Length; i++)
        {
            ReadOnlySpan<double> row = _problem.StiffnessRow(i);
            double force = (_problem.Drive[i] * LoadFactor) + Six.Dot(_problem.SiteOf(i), ContactWrench), size = 0;
            for (int j = 0; j < row.Length; j++)
            {
                double share = row[j] * Dislocation[j];
                force -= share;
                size += Math.Abs(share);
            }

            Force[i] = force;
            ForceSize[i] = size + (_problem.DriveSize[i] * Math.Abs(LoadFactor)) + Six.DotOfSizes(_problem.SiteOf(i), ContactWrench) + (OwnShare * _problem.RootOwn[i] * whole);
        }
    }

    private void SetOpenings(bool withGap)
    {
        _freeMotion.CopyTo(SiteMotion, 0);
        Six.AddProduct(_problem.SiteCompliance, ContactWrench, SiteMotion);
        for (int k = 0; k < OpeningMm.Length; k++)
        {
            double gap = withGap ? _problem.GapMm[k] : 0;
            OpeningMm[k] = gap + Six.Dot(_problem.NormalOf(k), SiteMotion);
            OpeningSize[k] = gap + Six.DotOfSizes(_problem.NormalOf(k), SiteMotion);
        }
    }
}
