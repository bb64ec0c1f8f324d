using Halfpin.Domain.Cases;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Checks;

/// <summary>The load to expect when a patient exceeds the one that was ordered.</summary>
public static class OverloadCase
{
    /// <summary>Mean excess over an ordered partial load, as a share of body weight.</summary>
    public const double ShareOfBodyWeight = 0.353;

    /// <summary>Where the share comes from. READ.</summary>
    public const string Source =
        "21 of 23 patients exceeded an ordered partial load, by a mean of 35.3 % of body weight: Dabke et al., CORR 2004;421:282";

    /// <summary>Axial load of the overload case as it reads on a scale, kg.</summary>
    public static double Kg(Case value) =>
        value.Loading.AxialKgFor(value.Limb.PatientMassKg) + (ShareOfBodyWeight * value.Limb.PatientMassKg);

    /// <summary>The case's loading with that excess, along the same line.</summary>
    public static EndLoad Of(Case value) => EndLoad.Of(value.Loading, Kg(value));
}
