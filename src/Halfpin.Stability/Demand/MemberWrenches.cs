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

/// <summary>Wrenches of the analyser's last frame under a load, by superposition of its unit cases. A workspace: set the load, then read.</summary>
internal sealed class StateWrenches(FrameAnalyser analyser) : IMemberWrenches
{
    /// <summary>What loads the frame.</summary>
    public LoadState Load { get; set; }

    public Wrench About(int member, Vec3 pointMm)
    {
        Wrench sum = default;
        for (int c = 0; c < 6; c++)
        {
            if (Load.End[c] != 0)
            {
                sum += Load.End[c] * analyser.System.WrenchOn(member, SiteAnalysis.EndColumn(c));
            }

            for (int s = 0; s < analyser.Plan.Sites.Length; s++)
            {
                if (Load.OnFace(s, c) != 0)
                {
                    sum += Load.OnFace(s, c) * analyser.System.WrenchOn(member, SiteAnalysis.SiteColumn(s, c));
                }
            }
        }

        for (int k = 0; k < analyser.LimitedClamps.Length; k++)
        {
            sum += Load.SlideMm(k) * analyser.Site.Slides.WrenchOn(member, k);
        }

        return sum.About(pointMm - analyser.System.Member(member).AtMm);
    }
}
