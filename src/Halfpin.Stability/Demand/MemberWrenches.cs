using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Demand;

/// <summary>What the members of a frame carry, wherever that comes from.</summary>
internal interface IMemberWrenches
{
    /// <summary>Wrench on a member from its second end, about a point in limb axes; N and N·mm.</summary>
    Wrench About(int member, Vec3 pointMm);
}

/// <summary>Wrenches of the analyser's last frame under a load, by superposition of its unit cases. A workspace: set the load, then read, as long as the frame is the same.</summary>
internal sealed class StateWrenches(FrameAnalyser analyser) : IMemberWrenches
{
    // The unit cases of the load that are not nil, and how much of each.
    private (int Column, double Factor_unitless)[] _cases = [];
    private int _count;
    private LoadState _load;

    /// <summary>Sets what loads the frame.</summary>
    public void Set(in LoadState load)
    {
        int sites = analyser.Plan.Sites.Length;
        if (_cases.Length < 6 * (1 + sites))
        {
            _cases = new (int, double)[6 * (1 + sites)];
        }

        (_load, _count) = (load, 0);
        for (int c = 0; c < 6; c++)
        {
            Add(SiteAnalysis.EndColumn(c), load.End[c]);
            for (int s = 0; s < sites; s++)
            {
                Add(SiteAnalysis.SiteColumn(s, c), load.OnFace(s, c));
            }
        }
    }

    public Wrench About(int member, Vec3 pointMm)
    {
        Wrench sum = default;
        for (int i = 0; i < _count; i++)
        {
            sum += _cases[i].Factor_unitless * analyser.System.WrenchOn(member, _cases[i].Column);
        }

        for (int k = 0; k < analyser.LimitedClamps.Length; k++)
        {
            sum += _load.SlideMm(k) * analyser.Site.Slides.WrenchOn(member, k);
        }

        return sum.About(pointMm - analyser.System.Member(member).AtMm);
    }

    private void Add(int column, double factor)
    {
        if (factor != 0)
        {
            _cases[_count++] = (column, factor);
        }
    }
}
