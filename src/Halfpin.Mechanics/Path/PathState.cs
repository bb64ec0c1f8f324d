namespace Halfpin.Mechanics.Path;

/// <summary>Load factor and dislocations with everything that follows from them and from the bearing contacts; or the rates of these.</summary>
internal sealed class PathState
{
    // Rounding in M is of the size of the components' own stiffness: what a component's force is the difference of has at least
    // this share of it, so that the relative tolerances of this folder never ask for more than SingularShare allows.
    private const double OwnShare = 0.01;

    private readonly PathProblem _problem;
    private readonly double[] _freeMotion;

    public PathState(PathProblem problem)
    {
        _problem = problem;
        (_freeMotion, SiteMotion, ContactWrench) = (new double[problem.SiteFreedoms], new double[problem.SiteFreedoms], new double[problem.SiteFreedoms]);
        Dislocation = new double[problem.Components];
        Force = new double[problem.Components];
        ForceSize = new double[problem.Components];
        OpeningMm = new double[problem.Contacts];
        OpeningSize = new double[problem.Contacts];
    }

    public double LoadFactor { get; set; }

    /// <summary>The largest load factor of the path.</summary>
    public double WholeLoadFactor { get; private set; }

    public double[] Dislocation { get; }

    /// <summary>Component forces.</summary>
    public double[] Force { get; }

    /// <summary>What each component force is the difference of; for values the largest so far, and that under the whole load.</summary>
    public double[] ForceSize { get; }

    public double[] SiteMotion { get; }

    /// <summary>Wrench of the contacts on each upper face.</summary>
    public double[] ContactWrench { get; }

    /// <summary>Distance of the faces along the normal; negative, by its compression, where a contact bears.</summary>
    public double[] OpeningMm { get; }

    /// <summary>What each opening is the difference of; for values the largest so far, and that under the whole load.</summary>
    public double[] OpeningSize { get; }

    /// <summary>The largest of <see cref="OpeningSize"/>; 0 without contacts.</summary>
    public double LargestOpeningSize => OpeningSize.Length > 0 ? OpeningSize.Max() : 0;

    /// <summary>The unloaded start of a path.</summary>
    /// <param name="target">The largest load factor of the path: rounding is judged against its forces and motions.</param>
    public void Reset(double target)
    {
        (LoadFactor, WholeLoadFactor) = (0, target);
        Array.Clear(Dislocation);
        for (int i = 0; i < ForceSize.Length; i++)
        {
            ForceSize[i] = _problem.DriveSize[i] * target;
        }

        for (int k = 0; k < OpeningSize.Length; k++)
        {
            OpeningSize[k] = _problem.GapMm[k] + (target * Six.DotOfLengths(_problem.NormalOf(k), _problem.SitePerLoad));
        }
    }

    /// <summary>Takes over another state of the same problem.</summary>
    public void CopyFrom(PathState other)
    {
        (LoadFactor, WholeLoadFactor) = (other.LoadFactor, other.WholeLoadFactor);
        other.Dislocation.CopyTo(Dislocation, 0);
        other.Force.CopyTo(Force, 0);
        other.ForceSize.CopyTo(ForceSize, 0);
        other.SiteMotion.CopyTo(SiteMotion, 0);
        other.ContactWrench.CopyTo(ContactWrench, 0);
        other.OpeningMm.CopyTo(OpeningMm, 0);
        other.OpeningSize.CopyTo(OpeningSize, 0);
    }

    /// <summary>Fills everything from load factor and dislocations.</summary>
    public void Evaluate(SiteBearing bearing)
    {
        SetFreeMotion();
        bearing.Wrench(_freeMotion, ContactWrench);
        SetForces();
        SetOpenings(_problem.GapMm);
    }

    /// <summary>The same with rates in place of values.</summary>
    public void EvaluateRates(SiteBearing bearing)
    {
        Array.Clear(ForceSize);
        Array.Clear(OpeningSize);
        SetFreeMotion();
        bearing.WrenchRate(_freeMotion, ContactWrench);
        SetForces();
        SetOpenings(default);
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
            double force = (_problem.Drive[i] * LoadFactor) + Six.Dot(_problem.SiteOf(i), ContactWrench);
            double size = (_problem.DriveSize[i] * Math.Abs(LoadFactor)) + Six.DotOfSizes(_problem.SiteOf(i), ContactWrench) + (OwnShare * _problem.RootOwn[i] * whole);
            for (int j = 0; j < row.Length; j++)
            {
                double share = row[j] * Dislocation[j];
                force -= share;
                size += Math.Abs(share);
            }

            Force[i] = force;
            ForceSize[i] = Math.Max(ForceSize[i], size);
        }
    }

    private void SetOpenings(ReadOnlySpan<double> gapMm)
    {
        _freeMotion.CopyTo(SiteMotion, 0);
        Six.AddProduct(_problem.SiteCompliance, ContactWrench, SiteMotion);
        for (int k = 0; k < OpeningMm.Length; k++)
        {
            double gap = gapMm.IsEmpty ? 0 : gapMm[k];
            OpeningMm[k] = gap + Six.Dot(_problem.NormalOf(k), SiteMotion);
            OpeningSize[k] = Math.Max(OpeningSize[k], gap + Six.DotOfLengths(_problem.NormalOf(k), SiteMotion));
        }
    }
}
