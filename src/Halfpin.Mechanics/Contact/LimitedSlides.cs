using Halfpin.Mechanics.Condensation;

namespace Halfpin.Mechanics.Contact;

/// <summary>
/// Equilibrium of a <see cref="SiteEquilibrium"/> with slides of single members that resist with a constant force and run between stops.
/// </summary>
/// <remarks>
/// To the energy of the sites come ½pᵀMp − drive·p + Σ resistance·|p|, p between its stops: convex, so a state of all slides whose
/// conditions hold is the equilibrium, whichever way it was found. For a given state the slides that run are free ones with their
/// resistance taken from the drive, and the rest stay where they are: the problem of <see cref="SiteEquilibrium"/>. From the state of the
/// solution before, the worst broken condition is mended, one at a time; should a state come back, all others are tried (5ⁿ with n slides),
/// so that an equilibrium that exists is found. A run that nothing stops, neither stop nor touch, has none:
/// <see cref="ContactStatus.Unrestrained"/>. Forces are unique; how far slides run is not where the load is just their resistance or
/// nothing drives them. Resistance is taken in total form, for a load that grows once. A workspace: nothing is allocated after construction.
/// </remarks>
public sealed class LimitedSlides
{
    private const int States = 5;
    private const double ForceTolerance = 1e-8;
    private const double TravelTolerance = 1e-9;

    private readonly SiteEquilibrium _sites;
    private readonly int _count;
    private readonly SlideState[] _state;
    private readonly bool[] _tried;
    private readonly double[] _travel;
    private readonly double[] _force;
    private readonly double[] _free;
    private readonly int[] _running;
    private readonly SlideFreedom[] _slides = new SlideFreedom[SiteEquilibrium.MaxSlides + SiteEquilibrium.MaxStiffSlides];
    private readonly SquareMatrix[] _stiffness;
    private int _runs;
    private int _freeSlides;

    /// <summary>A workspace.</summary>
    /// <param name="sites">Solves what is left when the slides' states are given.</param>
    /// <param name="count">Number of limited slides, at most <see cref="SiteEquilibrium.MaxStiffSlides"/>.</param>
    public LimitedSlides(SiteEquilibrium sites, int count)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, SiteEquilibrium.MaxStiffSlides);
        (_sites, _count) = (sites, count);
        _state = new SlideState[count];
        _running = new int[count];
        (_travel, _force, _free) = (new double[count], new double[count], new double[6 * sites.Sites]);
        _tried = new bool[(int)Math.Pow(States, count)];
        _stiffness = [.. Enumerable.Range(0, _slides.Length + 1).Select(n => new SquareMatrix(n))];
    }

    /// <summary>How far each slide has run, mm.</summary>
    public ReadOnlySpan<double> TravelMm => _travel;

    /// <summary>Force along each slide, N.</summary>
    public ReadOnlySpan<double> ForceN => _force;

    /// <summary>Finds the equilibrium; the sites' part of it is in the workspace given.</summary>
    /// <param name="siteStiffness">K of the sites with all limited slides held.</param>
    /// <param name="freeMotion">t, likewise.</param>
    /// <param name="layer">Elastic layers between the faces, or null.</param>
    /// <param name="slides">Slides that nothing resists.</param>
    /// <param name="friction">Coulomb coefficient of the contacts.</param>
    /// <param name="limited">The limited slides: motion of the sites and drive of the load per mm.</param>
    /// <param name="stiffness">M of the limited slides.</param>
    /// <param name="laws">What limits each.</param>
    public ContactStatus Solve(
        SquareMatrix siteStiffness, ReadOnlySpan<double> freeMotion, SquareMatrix? layer, ReadOnlySpan<SlideFreedom> slides, double friction,
        ReadOnlySpan<SlideFreedom> limited, SquareMatrix stiffness, ReadOnlySpan<SlideLaw> laws)
    {
        Array.Clear(_tried);
        slides.CopyTo(_slides);
        _freeSlides = slides.Length;
        bool unrestrained = false;
        while (!_tried[Index()])
        {
            _tried[Index()] = true;
            ContactStatus status = Try(siteStiffness, freeMotion, layer, friction, limited, stiffness, laws);
            bool changed = status switch
            {
                ContactStatus.Solved => Mend(laws),
                ContactStatus.Unrestrained => Stop(laws),
                _ => false,
            };
            if (!changed)
            {
                return status;
            }
        }

        // A state has come back: any state whose conditions hold will do.
        for (int i = 0; i < _tried.Length; i++)
        {
            if (!_tried[i] && Take(i, laws))
            {
                ContactStatus status = Try(siteStiffness, freeMotion, layer, friction, limited, stiffness, laws);
                if (status == ContactStatus.Solved && !Mend(laws))
                {
                    return status;
                }

                unrestrained |= status == ContactStatus.Unrestrained && !Stop(laws);
            }
        }

        Array.Clear(_state);
        return unrestrained ? ContactStatus.Unrestrained : ContactStatus.NotConverged;
    }

    private ContactStatus Try(
        SquareMatrix siteStiffness, ReadOnlySpan<double> freeMotion, SquareMatrix? layer, double friction,
        ReadOnlySpan<SlideFreedom> limited, SquareMatrix stiffness, ReadOnlySpan<SlideLaw> laws)
    {
        freeMotion.CopyTo(_free);
        _runs = 0;
        for (int i = 0; i < _count; i++)
        {
            _travel[i] = _state[i] switch { SlideState.AtMost => laws[i].MostMm, SlideState.AtLeast => laws[i].LeastMm, _ => 0 };
            for (int c = 0; c < _free.Length; c++)
            {
                _free[c] += _travel[i] * limited[i].SiteMotion[c];
            }

            if (_state[i] is SlideState.Forward or SlideState.Backward)
            {
                _running[_runs++] = i;
            }
        }

        SquareMatrix among = _stiffness[_freeSlides + _runs];
        for (int r = 0; r < _runs; r++)
        {
            int i = _running[r];
            double drive = limited[i].Drive - (_state[i] == SlideState.Forward ? laws[i].ResistanceN : -laws[i].ResistanceN);
            for (int k = 0; k < _count; k++)
            {
                drive -= stiffness[i, k] * _travel[k];
            }

            _slides[_freeSlides + r] = new(limited[i].SiteMotion, drive);
            for (int q = 0; q < _runs; q++)
            {
                among[_freeSlides + r, _freeSlides + q] = stiffness[i, _running[q]];
            }
        }

        ContactStatus status = _sites.Solve(
            siteStiffness, _free, layer, _slides.AsSpan(0, _freeSlides + _runs), friction, _runs > 0 ? among : null);
        if (status != ContactStatus.NotConverged && _runs > 0)
        {
            for (int r = 0; r < _runs; r++)
            {
                _travel[_running[r]] = _sites.SlideTravel[_freeSlides + r];
            }
        }

        if (status == ContactStatus.Solved)
        {
            Forces(limited, stiffness);
        }

        return status;
    }

    // Q = drive + D·f − M·p.
    private void Forces(ReadOnlySpan<SlideFreedom> limited, SquareMatrix stiffness)
    {
        for (int i = 0; i < _count; i++)
        {
            double force = limited[i].Drive;
            for (int s = 0; s < _sites.Sites; s++)
            {
                Solution.Wrench f = _sites.WrenchOnUpperFace(s);
                ReadOnlySpan<double> d = limited[i].SiteMotion.AsSpan(6 * s, 6);
                force += (d[0] * f.ForceN.X) + (d[1] * f.ForceN.Y) + (d[2] * f.ForceN.Z) + (d[3] * f.MomentNmm.X) + (d[4] * f.MomentNmm.Y) + (d[5] * f.MomentNmm.Z);
            }

            for (int k = 0; k < _count; k++)
            {
                force -= stiffness[i, k] * _travel[k];
            }

            _force[i] = force;
        }
    }

    // Changes the state of the slide whose condition is broken worst; false when none is.
    private bool Mend(ReadOnlySpan<SlideLaw> laws)
    {
        int worst = -1;
        double most = 1;
        SlideState next = default;
        for (int i = 0; i < _count; i++)
        {
            SlideLaw law = laws[i];
            double allowedN = ForceTolerance * (1 + law.ResistanceN + Math.Abs(_force[i])), p = _travel[i], q = _force[i];
            (double beyond, SlideState to) = _state[i] switch
            {
                SlideState.Stuck => (
                    (Math.Abs(q) - law.ResistanceN) / allowedN,
                    q > 0 ? law.MostMm > 0 ? SlideState.Forward : SlideState.AtMost : law.LeastMm < 0 ? SlideState.Backward : SlideState.AtLeast),
                SlideState.Forward => p < 0 ? (-p / TravelTolerance, SlideState.Stuck) : ((p - law.MostMm) / TravelTolerance, SlideState.AtMost),
                SlideState.Backward => p > 0 ? (p / TravelTolerance, SlideState.Stuck) : ((law.LeastMm - p) / TravelTolerance, SlideState.AtLeast),
                SlideState.AtMost => ((law.ResistanceN - q) / allowedN, law.MostMm > 0 ? SlideState.Forward : SlideState.Stuck),
                _ => ((law.ResistanceN + q) / allowedN, law.LeastMm < 0 ? SlideState.Backward : SlideState.Stuck),
            };
            (worst, most, next) = beyond > most ? (i, beyond, to) : (worst, most, next);
        }

        if (worst >= 0)
        {
            _state[worst] = next;
        }

        return worst >= 0;
    }

    // The slide that first meets its stop, or turns, as all run away; false when none does.
    private bool Stop(ReadOnlySpan<SlideLaw> laws)
    {
        int first = -1;
        double shortest = double.PositiveInfinity;
        SlideState next = default;
        for (int r = 0; r < _runs; r++)
        {
            int i = _running[r];
            double rate = _sites.RunAway[_freeSlides + r];
            if (rate == 0)
            {
                continue;
            }

            bool forward = _state[i] == SlideState.Forward;
            (double to, SlideState then) = forward == rate > 0
                ? forward ? (laws[i].MostMm, SlideState.AtMost) : (laws[i].LeastMm, SlideState.AtLeast)
                : (0, SlideState.Stuck);
            double way = Math.Max(0, (to - _travel[i]) / rate);
            (first, shortest, next) = way < shortest ? (i, way, then) : (first, shortest, next);
        }

        if (first >= 0)
        {
            _state[first] = next;
        }

        return first >= 0;
    }

    private int Index()
    {
        int index = 0;
        foreach (SlideState s in _state)
        {
            index = (States * index) + (int)s;
        }

        return index;
    }

    // The state of a number; false when a slide cannot be in it.
    private bool Take(int index, ReadOnlySpan<SlideLaw> laws)
    {
        bool possible = true;
        for (int i = _count - 1; i >= 0; i--, index /= States)
        {
            _state[i] = (SlideState)(index % States);
            possible &= _state[i] switch
            {
                SlideState.Forward => laws[i].MostMm > 0,
                SlideState.Backward => laws[i].LeastMm < 0,
                SlideState.AtMost => double.IsFinite(laws[i].MostMm),
                SlideState.AtLeast => double.IsFinite(laws[i].LeastMm),
                _ => true,
            };
        }

        return possible;
    }
}
