using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Materials;

namespace Halfpin.Domain.Validity;

/// <summary>What must hold in a case's search and requirements.</summary>
internal static class SearchRules
{
    public static IEnumerable<Fault> Check(Case value)
    {
        SearchSpace s = value.Search;
        return Within(s.NearMm, "nearMm", 3, 300, "mm").Concat(Within(s.FarMm, "farMm", 8, 400, "mm")).Concat(Within(s.AzimuthDeg, "azimuthDeg", -180, 180, "°"))
            .Concat(Within(s.StandoffMm, "standoffMm", 5, 250, "mm")).Concat(Whole(s.PinsPerFragment, "pinsPerFragment", 2, 5)).Concat(Within(s.RodSpacingMm, "rodSpacingMm", 5, 150, "mm"))
            .Concat(Within(s.PlaneAngleDeg, "planeAngleDeg", -180, 180, "°")).Concat(Whole(s.CrossLinks, "crossLinks", 0, 4)).Concat(Within(s.PinDiameterMm, "pinDiameterMm", 1.5, 8, "mm"))
            .Concat(Whole(s.MiddlePins, "middlePins", 1, 5)).Concat(Within(s.MiddleEdgeMm, "middleEdgeMm", 3, 200, "mm")).Concat(Rods(value)).Concat(Limits(value.Requirements));
    }

    private static IEnumerable<Fault> Within(ImmutableArray<double> values, string name, double least, double most, string unit)
    {
        for (int i = 0; i < values.Length; i++)
        {
            if (values[i] < least || values[i] > most)
            {
                yield return new($"/search/{name}/{i}", FaultCodes.Range, $"{CaseRules.Text(values[i])} {unit} is out of range.", $"{CaseRules.Text(least)} to {CaseRules.Text(most)} {unit}.", "Leave it out or change it.");
            }
        }
    }

    private static IEnumerable<Fault> Whole(ImmutableArray<double> values, string name, int least, int most) => Within(values, name, least, most, "")
        .Concat(values.Select((v, i) => (v, i)).Where(v => v.v >= least && v.v <= most && v.v != Math.Floor(v.v))
            .Select(v => new Fault($"/search/{name}/{v.i}", FaultCodes.Type, $"{CaseRules.Text(v.v)} is not a whole number.", $"Whole numbers from {least} to {most}.", "Round it.")));

    private static IEnumerable<Fault> Rods(Case value)
    {
        string[] known = [.. BuiltInMaterials.All.Select(m => m.Material.Id), .. value.Materials.Select(m => m.Id)];
        for (int i = 0; i < value.Search.Rods.Length; i++)
        {
            if (!known.Contains(value.Search.Rods[i].Material))
            {
                yield return new($"/search/rods/{i}/material", FaultCodes.Reference, $"There is no material \"{value.Search.Rods[i].Material}\".", $"One of {string.Join(", ", known)}.", "Name one of these, or add it under materials.");
            }

            if (value.Search.Rods[i].InnerDiameterMm >= value.Search.Rods[i].DiameterMm)
            {
                yield return new($"/search/rods/{i}/innerDiameterMm", FaultCodes.Inconsistent, "The inner diameter leaves no wall.", $"Less than {CaseRules.Text(value.Search.Rods[i].DiameterMm)} mm.", "Exchange the two, or leave it out for a solid rod.");
            }
        }
    }

    private static IEnumerable<Fault> Limits(Requirements r)
    {
        if (r.LeastAxialMm is double least && r.MostAxialMm is double most && least > most)
        {
            yield return new("/requirements/leastAxialMm", FaultCodes.Inconsistent, $"At least {CaseRules.Text(least)} and at most {CaseRules.Text(most)} mm of axial motion leave nothing.", $"At most {CaseRules.Text(most)} mm.", "Exchange the two, or lower this one.");
        }
    }
}
