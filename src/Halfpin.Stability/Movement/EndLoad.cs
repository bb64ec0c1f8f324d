using Halfpin.Domain.Cases;

namespace Halfpin.Stability.Movement;

/// <summary>The wrench on the proximal end in limb axes, N and N·mm.</summary>
/// <param name="Fx">Force, anterior.</param>
/// <param name="Fy">Force, medial.</param>
/// <param name="Fz">Force, proximal: compression is negative.</param>
/// <param name="Mx">Moment about x: bends in the frontal plane.</param>
/// <param name="My">Moment about y: bends in the sagittal plane.</param>
/// <param name="Mz">Moment about z: torsion.</param>
public readonly record struct EndLoad(double Fx, double Fy, double Fz, double Mx, double My, double Mz)
{
    /// <summary>A compression along the axis.</summary>
    public static EndLoad Compression(double loadN) => new(0, 0, -loadN, 0, 0, 0);

    /// <summary>The chosen load of a case.</summary>
    public static EndLoad Of(Case value) => Of(value.Loading, value.Loading.AxialKgFor(value.Limb.PatientMassKg));

    /// <summary>A loading with an axial load of its own.</summary>
    /// <remarks>A force (0, 0, −P) through (x, y) on the end is one through the axis with the moment (−yP, xP, 0).</remarks>
    public static EndLoad Of(Loading loading, double axialKg)
    {
        double axialN = axialKg * Loading.NewtonPerKg;
        return new(
            0, 0, -axialN,
            (loading.MlBendingNm * 1000) - (loading.LineOffsetMlMm * axialN),
            (loading.ApBendingNm * 1000) + (loading.LineOffsetApMm * axialN),
            loading.TorsionNm * 1000);
    }

    /// <summary>The load at a phase of gait.</summary>
    public static EndLoad Of(GaitPhase phase) => new(phase.FxN, phase.FyN, phase.FzN, phase.MxNm * 1000, phase.MyNm * 1000, phase.MzNm * 1000);

    /// <summary>The same with more compression.</summary>
    public EndLoad WithMoreCompression(double loadN) => this with { Fz = Fz - loadN };

    /// <summary>A multiple.</summary>
    public static EndLoad operator *(double s, in EndLoad w) => new(s * w.Fx, s * w.Fy, s * w.Fz, s * w.Mx, s * w.My, s * w.Mz);

    /// <summary>A component, 0–5.</summary>
    public double this[int i] => i switch { 0 => Fx, 1 => Fy, 2 => Fz, 3 => Mx, 4 => My, _ => Mz };
}
