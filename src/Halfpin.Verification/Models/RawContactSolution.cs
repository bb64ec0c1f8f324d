using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Verification.Models;

/// <summary>A raw frame two of whose nodes bear on each other once their gap is closed, under multiples of one load.</summary>
internal sealed class RawContactSolution
{
    private readonly FrameSystem _system;
    private readonly SiteAnalysis _site;
    private readonly SiteEquilibrium _equilibrium = new(1);
    private readonly Wrench _load;

    /// <param name="system">The frame, factorised, with room for <see cref="Columns"/> load cases.</param>
    /// <param name="upper">The node that the normal points to.</param>
    /// <param name="lower">The other.</param>
    /// <param name="normal">Unit vector.</param>
    /// <param name="gap">Distance of the nodes' faces along it.</param>
    /// <param name="stiffness">Of the contact.</param>
    /// <param name="loadedNode">Where the load acts.</param>
    /// <param name="load">The load.</param>
    public RawContactSolution(
        FrameSystem system, int upper, int lower, Vec3 normal, double gap, double stiffness, int loadedNode, Wrench load)
    {
        (_system, _load) = (system, load);
        Vec3 middle = 0.5 * (system.Node(upper) + system.Node(lower));
        _site = new(system, loadedNode, [new(upper, lower)]);
        _site.Run(system.Node(loadedNode), [middle], (system.Node(loadedNode) - middle).Length);
        _equilibrium.SetPoints([new(default, normal, gap, stiffness)]);
    }

    public static int Columns => SiteAnalysis.ColumnsFor(1);

    /// <summary>The multiple from which on the contact bears: where its force, linear beyond the touch, is nil.</summary>
    public double Touch()
    {
        double low = 1;
        while (Force(low) <= 0)
        {
            low *= 2;
        }

        double a = Force(low), b = Force(2 * low);
        return low - (a * low / (b - a));
    }

    /// <summary>How much a node moves as the load grows from one multiple to another.</summary>
    public Motion Step(int node, double from, double to) => At(node, to) - At(node, from);

    private double Force(double multiple)
    {
        Solve(multiple);
        return _equilibrium.NormalForcesN[0];
    }

    private Motion At(int node, double multiple)
    {
        Solve(multiple);
        Wrench pair = _equilibrium.WrenchOnUpperFace();
        Motion sum = default;
        for (int c = 0; c < 6; c++)
        {
            sum += (multiple * Component(_load, c) * _system.MotionOf(node, SiteAnalysis.EndColumn(c)))
                + (Component(pair, c) * _system.MotionOf(node, SiteAnalysis.SiteColumn(0, c)));
        }

        return sum;
    }

    private void Solve(double multiple)
    {
        Span<double> free = stackalloc double[6];
        for (int r = 0; r < 6; r++)
        {
            free[r] = 0;
            for (int c = 0; c < 6; c++)
            {
                free[r] += multiple * _site.EndToSite[0][r, c] * Component(_load, c);
            }
        }

        if (_equilibrium.Solve(_site.SiteStiffness, free, null, [], 0) != ContactStatus.Solved)
        {
            throw new InvalidOperationException("No equilibrium with contact was found.");
        }
    }

    private static double Component(in Wrench w, int i) => i switch
    {
        0 => w.ForceN.X,
        1 => w.ForceN.Y,
        2 => w.ForceN.Z,
        3 => w.MomentNmm.X,
        4 => w.MomentNmm.Y,
        _ => w.MomentNmm.Z,
    };
}
