using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Checks;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Fatigue;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Variants;

/// <summary>Reads the numbers that choices are made by from a solved frame; of several fractures the worst.</summary>
internal static class RatingReadout
{
    /// <summary>The rating of the analyser's last frame.</summary>
    /// <param name="value">The case whose loads count.</param>
    /// <param name="analyser">The analyser, whose last analysis went well.</param>
    /// <param name="frame">The same frame under loads; null when its limited slides leave no answer.</param>
    public static FrameRating Of(Case value, FrameAnalyser analyser, LoadedFrame? frame)
    {
        FrameRating stiffness = Stiffness(value, analyser);
        if (frame is null)
        {
            return stiffness;
        }

        SiteState chosen = frame.Contact.Under(EndLoad.Of(value)), overload = frame.Contact.Under(OverloadCase.Of(value));
        return frame.ReasonToWithhold(chosen) is not null || frame.ReasonToWithhold(overload) is not null ? stiffness : Loaded(value, stiffness, analyser, frame, chosen, overload);
    }

    private static FrameRating Stiffness(Case value, FrameAnalyser analyser)
    {
        double axial = double.PositiveInfinity, weak = double.PositiveInfinity, torsion = double.PositiveInfinity;
        for (int site = 0; site < value.Fractures.Length; site++)
        {
            FourStiffnesses four = StiffnessReadout.AtFracture(analyser, site);
            axial = Math.Min(axial, four.AxialNPerMm);
            torsion = Math.Min(torsion, four.TorsionNmPerDeg);
            weak = Math.Min(weak, StiffnessReadout.WeakBending(analyser, site)?.NmPerDeg ?? 0);
        }

        return FrameRating.NotHeld with { Status = RatingStatus.OutOfRange, AxialNPerMm = axial, WeakBendingNmPerDeg = weak, TorsionNmPerDeg = torsion, BetweenBendingNmPerDeg = StiffnessReadout.BetweenBending(analyser) ?? double.NaN };
    }

    private static FrameRating Loaded(Case value, in FrameRating stiffness, FrameAnalyser analyser, LoadedFrame frame, in SiteState chosen, in SiteState overload)
    {
        double axial = 0, shear = 0, overAxial = 0, overShear = 0, overTilt = 0, overTwist = 0;
        for (int site = 0; site < frame.Motions.Length; site++)
        {
            FractureMotion m = frame.Motions[site].Of(chosen), o = frame.Motions[site].Of(overload);
            axial = Math.Max(axial, Math.Abs(m.AxialMm));
            shear = Math.Max(shear, m.ShearMm);
            overAxial = Math.Max(overAxial, Math.Abs(o.AxialMm));
            overShear = Math.Max(overShear, o.ShearMm);
            overTilt = Math.Max(overTilt, o.TiltDeg);
            overTwist = Math.Max(overTwist, Math.Abs(o.TwistDeg));
        }

        double used = 0, fatigue = 0;
        if (value.Loading.IsChosen)
        {
            ReadOnlySpan<DemandItem> demand = frame.Demand.Under(chosen.Load);
            used = Greatest(demand);
            foreach (DemandItem item in demand)
            {
                fatigue = item.Limit == Limit.PinFatigue ? Math.Max(fatigue, FatigueAnalysis.UsedBy(item, value.Loading.Steps, analyser.Data, analyser.Materials)) : fatigue;
            }
        }

        return stiffness with
        {
            Status = RatingStatus.Ok,
            AxialMm = axial,
            ShearMm = shear,
            OverloadAxialMm = overAxial,
            OverloadShearMm = overShear,
            OverloadTiltDeg = overTilt,
            OverloadTwistDeg = overTwist,
            UsedPercent = 100 * used,
            OverloadUsedPercent = 100 * Greatest(frame.Demand.Under(overload.Load)),
            FatiguePercent = 100 * fatigue,
        };
    }

    /// <summary>The greatest demand of a single load on any part; fatigue is left out.</summary>
    public static double Greatest(ReadOnlySpan<DemandItem> demand)
    {
        double most = 0;
        foreach (DemandItem item in demand)
        {
            most = item.Limit == Limit.PinFatigue ? most : Math.Max(most, item.Value);
        }

        return most;
    }
}
