using System.Globalization;
using Halfpin.Domain.Cases;

namespace Halfpin.Stability.Checks;

/// <summary>The chosen load of a case in a word or two.</summary>
internal static class ChosenLoadWords
{
    public static string Of(Case value)
    {
        Loading l = value.Loading;
        double kg = l.AxialKgFor(value.Limb.PatientMassKg);
        bool axialAlone = l is { TorsionNm: 0, ApBendingNm: 0, MlBendingNm: 0, LineOffsetApMm: 0, LineOffsetMlMm: 0 };
        return kg > 0 && axialAlone ? kg.ToString(kg < 10 ? "0.#" : "0", CultureInfo.InvariantCulture) + " kg" : "the chosen load";
    }
}
