using System.Globalization;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Analysis;

/// <summary>
/// How far the two least certain inputs move a frame's stiffness: clamp stiffness and the hold of the bone on the pins, both at
/// the soft and both at the stiff end of their bands. Inputs that the case sets itself are left as they are.
/// </summary>
/// <remarks>
/// Softer springs never raise a stiffness at the load point, so the ends of the bands bound it; at the fracture the same
/// holds but for a slight exchange between bone and frame. Placement and material spread are not in this band.
/// </remarks>
internal sealed class BandAnalysis(BoneShape bone, Fracture fracture, ModelOptions model, MaterialTable materials, BoneFlexibility flexibility)
{
    // Bands for uncertainty: ASSUMED, as the defaults they surround.
    private const double SoftClampNmPerRad = 50;
    private const double StiffClampNmPerRad = 1000;
    private const double LooseCortexNPerMm2 = 500;
    private const double HardCortexNPerMm2 = 10_000;

    /// <summary>The band of a frame that can be analysed; null when the case leaves neither input at its default.</summary>
    public StiffnessBand? Of(Parts parts)
    {
        bool clamps = model.Clamp == new SpringClamp(), cortex = model.PinFixity == new FoundationFixity();
        if (!clamps && !cortex)
        {
            return null;
        }

        FourStiffnesses? low = At(parts, clamps ? SoftClampNmPerRad : null, cortex ? LooseCortexNPerMm2 : null);
        FourStiffnesses? high = At(parts, clamps ? StiffClampNmPerRad : null, cortex ? HardCortexNPerMm2 : null);
        return low is null || high is null ? null : new(low, high, string.Join("; ", Inputs(clamps, cortex)));
    }

    private static IEnumerable<string> Inputs(bool clamps, bool cortex)
    {
        if (clamps)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"clamp stiffness {SoftClampNmPerRad}–{StiffClampNmPerRad} N·m/rad");
        }

        if (cortex)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"pin–bone foundation {LooseCortexNPerMm2}–{HardCortexNPerMm2} N/mm²");
        }
    }

    private FourStiffnesses? At(Parts parts, double? clampNmPerRad, double? cortexNPerMm2)
    {
        ModelOptions varied = model with
        {
            Clamp = clampNmPerRad is double c ? new SpringClamp { RotationalNmPerRad = c } : model.Clamp,
            PinFixity = cortexNPerMm2 is double k ? new FoundationFixity { ModulusNPerMm2 = k } : model.PinFixity,
        };
        FrameAnalyser analyser = new(bone, fracture, varied, materials, flexibility);
        return analyser.Analyse(parts) == AnalysisStatus.Ok ? StiffnessReadout.AtFracture(analyser) : null;
    }
}
