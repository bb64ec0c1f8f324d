using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Bands;
using Halfpin.Stability.Checks;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Fatigue;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Rating;

/// <summary>
/// Rates frames of one case one after the other: the solution and loads of an assessment without its words, bands and limits along a
/// growing load. Keeps its plan while the construct's counts stay. Not thread-safe.
/// </summary>
public sealed class FrameRater
{
    private readonly Case _case;
    private readonly MaterialTable _materials;
    private readonly FrameAnalyser _analyser;

    /// <summary>A rater for the frames of a valid case.</summary>
    /// <param name="value">The case.</param>
    /// <param name="flexibility">The bone's flexibility, which raters may share.</param>
    public FrameRater(Case value, BoneFlexibility flexibility)
    {
        _case = value;
        _materials = new(value.Materials);
        _analyser = new(BoneShape.For(value.Limb), value.Fractures, value.Model, _materials, flexibility);
    }

    /// <summary>The bone's flexibility for a case's model, to be shared by raters.</summary>
    public static BoneFlexibility FlexibilityOf(Case value) => new(BoneShape.For(value.Limb), FrameAnalyser.TheoryOf(value.Model));

    /// <summary>The case with clamps, slip and hold in bone at the soft ends of their bands; null when it sets them all itself.</summary>
    public static Case? SoftEndOf(Case value) => new BandAnalysis(value.Model).Soft is ModelOptions soft ? value with { Model = soft } : null;

    /// <summary>Rates a frame.</summary>
    /// <param name="parts">Its parts, valid for the case.</param>
    public FrameRating Rate(Parts parts)
    {
        if (_analyser.Analyse(parts) != AnalysisStatus.Ok)
        {
            return FrameRating.NotHeld;
        }

        double axial = double.PositiveInfinity, weak = double.PositiveInfinity, torsion = double.PositiveInfinity;
        for (int site = 0; site < _case.Fractures.Length; site++)
        {
            FourStiffnesses four = StiffnessReadout.AtFracture(_analyser, site);
            axial = Math.Min(axial, four.AxialNPerMm);
            torsion = Math.Min(torsion, four.TorsionNmPerDeg);
            weak = Math.Min(weak, StiffnessReadout.WeakBending(_analyser, site)?.NmPerDeg ?? 0);
        }

        FrameRating stiffness = FrameRating.NotHeld with { Status = RatingStatus.OutOfRange, AxialNPerMm = axial, WeakBendingNmPerDeg = weak, TorsionNmPerDeg = torsion };
        if (LoadedFrame.Of(_analyser, parts) is not LoadedFrame frame)
        {
            return stiffness;
        }

        SiteState chosen = frame.Contact.Under(EndLoad.Of(_case)), overload = frame.Contact.Under(OverloadCase.Of(_case));
        return frame.ReasonToWithhold(chosen) is not null || frame.ReasonToWithhold(overload) is not null ? stiffness : Loaded(stiffness, frame, chosen, overload);
    }

    private FrameRating Loaded(in FrameRating stiffness, LoadedFrame frame, in SiteState chosen, in SiteState overload)
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
        if (_case.Loading.IsChosen)
        {
            foreach (DemandItem item in frame.Demand.Under(chosen.Load))
            {
                used = item.Limit == Limit.PinFatigue ? used : Math.Max(used, item.Value);
                fatigue = item.Limit == Limit.PinFatigue ? Math.Max(fatigue, FatigueAnalysis.UsedBy(item, _case.Loading.Steps, _analyser.Data, _materials)) : fatigue;
            }
        }

        double overUsed = 0;
        foreach (DemandItem item in frame.Demand.Under(overload.Load))
        {
            overUsed = item.Limit == Limit.PinFatigue ? overUsed : Math.Max(overUsed, item.Value);
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
            OverloadUsedPercent = 100 * overUsed,
            FatiguePercent = 100 * fatigue,
        };
    }
}
