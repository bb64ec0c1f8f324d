using System.Globalization;
using Halfpin.Domain.Modelling;

namespace Halfpin.Stability.Bands;

/// <summary>
/// How far the least certain inputs move a frame's results: clamp stiffness with slip moment, and the hold of the bone on the pins,
/// all at the soft and all at the stiff end of their bands, and stiff with the
/// least grip. Inputs that the case sets itself are left as they are.
/// </summary>
/// <remarks>
/// Softer springs never raise a stiffness at the load point, so the ends of the bands bound it; at the fracture the same
/// holds but for a slight exchange between bone and frame. How load is shared between parts may be most uneven in between.
/// Placement and material spread are not in this band.
/// </remarks>
internal sealed class BandAnalysis(ModelOptions model)
{
    // Bands for uncertainty: ASSUMED, as the defaults they surround.
    private const double SoftClampNmPerRad = 50;
    private const double StiffClampNmPerRad = 1000;
    private const double LeastSlipNm = 3;
    private const double MostSlipNm = 15;
    private const double LooseCortexNPerMm2 = 500;
    private const double HardCortexNPerMm2 = 10_000;

    private readonly SpringClamp? _clamp = model.Clamp as SpringClamp;
    private readonly bool _cortex = model.PinFixity == new FoundationFixity();

    private bool Clamps => _clamp is { RotationalNmPerRad: SpringClamp.UsualRotationalNmPerRad };

    private bool Slip => _clamp is { SlipMomentNm: SpringClamp.UsualSlipMomentNm };

    /// <summary>The ends; null when the case leaves no uncertain input at its default or an end cannot be analysed.</summary>
    /// <param name="analyse">Analyses the frame under other modelling assumptions; null when it cannot.</param>
    public BandEnds? Ends(Func<ModelOptions, BandEnd?> analyse) =>
        (Clamps || Slip || _cortex)
        && analyse(Soft!) is BandEnd soft
        && analyse(At(StiffClampNmPerRad, MostSlipNm, HardCortexNPerMm2)) is BandEnd stiff
        && analyse(At(StiffClampNmPerRad, LeastSlipNm, HardCortexNPerMm2)) is BandEnd gripless
            ? new(soft, stiff, gripless, string.Join("; ", Inputs()))
            : null;

    /// <summary>The model with all uncertain inputs at their soft ends; null when the case leaves none at its default.</summary>
    public ModelOptions? Soft => Clamps || Slip || _cortex ? At(SoftClampNmPerRad, LeastSlipNm, LooseCortexNPerMm2) : null;

    private ModelOptions At(double clampNmPerRad, double slipNm, double cortexNPerMm2) => model with
    {
        Clamp = _clamp is null ? model.Clamp : _clamp with
        {
            RotationalNmPerRad = Clamps ? clampNmPerRad : _clamp.RotationalNmPerRad,
            SlipMomentNm = Slip ? slipNm : _clamp.SlipMomentNm,
        },
        PinFixity = _cortex ? new FoundationFixity { ModulusNPerMm2 = cortexNPerMm2 } : model.PinFixity,
    };

    private IEnumerable<string> Inputs()
    {
        if (Clamps)
        {
            yield return Text($"clamp stiffness {SoftClampNmPerRad}–{StiffClampNmPerRad} N·m/rad");
        }

        if (Slip)
        {
            yield return Text($"slip moment {LeastSlipNm}–{MostSlipNm} N·m");
        }

        if (_cortex)
        {
            yield return Text($"pin–bone foundation {LooseCortexNPerMm2}–{HardCortexNPerMm2} N/mm²");
        }
    }

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
