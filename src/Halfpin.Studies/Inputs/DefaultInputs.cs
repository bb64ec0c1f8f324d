using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Materials;
using Halfpin.Domain.Modelling;

namespace Halfpin.Studies.Inputs;

/// <summary>
/// The inputs of a study of frames: those that the case leaves at their defaults with the bands of these, errors of placing by hand, and what the
/// case itself calls uncertain, which takes the place of a default of the same name.
/// </summary>
/// <remarks>
/// A band is spread evenly where its middle is near the default, with a top at the default where it is not, and evenly in the logarithm for clamps,
/// whose band says so. Those shapes are ASSUMED. The wall of the parametric tibia, no member of a case, has the sweep that its source asks for.
/// </remarks>
public static class DefaultInputs
{
    private const string Ours = "Band of the default";

    /// <summary>Errors of a hand-held drill, each way. ASSUMED.</summary>
    private const double LevelErrorMm = 3, AzimuthErrorDeg = 5, StandoffErrorMm = 5;

    /// <summary>The inputs of frames of a case, each once.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frames">Parts of the frames studied together.</param>
    public static ImmutableArray<StudyInput> Of(Case value, ImmutableArray<Parts> frames)
    {
        List<StudyInput> inputs = [.. OfModel(value), .. OfMaterials(value, frames)];
        foreach (string pin in frames.SelectMany(f => f.Pins).Select(p => p.Id).Distinct())
        {
            inputs.Add(Error($"{UncertainInputs.PinLevel}:{pin}", LevelErrorMm));
            inputs.Add(Error($"{UncertainInputs.PinAzimuth}:{pin}", AzimuthErrorDeg));
        }

        foreach (string rod in frames.SelectMany(RodsOnPins).Distinct())
        {
            inputs.Add(Error($"{UncertainInputs.RodStandoff}:{rod}", StandoffErrorMm));
        }

        foreach (UncertainInput own in value.Uncertainty)
        {
            Put(inputs, own, value, frames);
        }

        return [.. inputs];
    }

    // Cross-links follow the rods they join.
    private static IEnumerable<string> RodsOnPins(Parts parts) =>
        parts.Rods.Select(r => r.Id).Where(r => parts.Clamps.Any(c => c.Pin is not null && c.Rod == r));

    private static IEnumerable<StudyInput> OfModel(Case value)
    {
        if (value.Model.Clamp is SpringClamp clamp)
        {
            if (clamp.RotationalNmPerRad == SpringClamp.UsualRotationalNmPerRad)
            {
                yield return new(UncertainInputs.ClampRotational, clamp.RotationalNmPerRad, LogUniform(50, 1000), $"{Ours}; none published for rod clamps", "ASSUMED");
            }

            if (clamp.SlipMomentNm == SpringClamp.UsualSlipMomentNm)
            {
                yield return new(UncertainInputs.SlipMoment, clamp.SlipMomentNm, Uniform(3, 15), Ours, "ASSUMED");
            }
        }

        if (value.Model.PinFixity is FoundationFixity { ModulusNPerMm2: FoundationFixity.SoundCortexNPerMm2 } foundation)
        {
            yield return new(UncertainInputs.Foundation, foundation.ModulusNPerMm2, Uniform(500, 10_000), $"{Ours}: loosening to hard; no test found", "ASSUMED");
        }

        if (value.Limb.BoneModel is AnatomicalBone)
        {
            yield return new(UncertainInputs.BoneModuli, 1, Uniform(0.8, 1.2), "Cortical bone ± 20 % (Reilly and Burstein, J Biomech 1975)", "MEMORY");
            yield return new(UncertainInputs.BoneWall, 1, Uniform(0.7, 1.3), "Canal and wall are a model from memory; swept ± 30 %, evenly as ASSUMED", "MEMORY");
        }

        if (value.Fractures.Any(f => f.Contact) && value.Model.ContactLayerMm == ModelOptions.UsualContactLayerMm)
        {
            yield return new(UncertainInputs.ContactStiffness, 1, Uniform(0.5, 1.5), $"{Ours} of bone ends that bear: ± 50 %", "ASSUMED");
        }
    }

    private static IEnumerable<StudyInput> OfMaterials(Case value, ImmutableArray<Parts> frames)
    {
        HashSet<string> used = [.. frames.SelectMany(f => f.Pins.Select(p => p.Material).Concat(f.Rods.Select(r => r.Material)))];
        bool Default(string id) => used.Contains(id) && value.Materials.All(m => m.Id != id);
        if (Default("steel"))
        {
            yield return new(UncertainInputs.SteelModulus, 193_000, Uniform(187_000, 200_000), Ours, "READ");
            if (value.Loading.IsChosen)
            {
                yield return new(UncertainInputs.SteelFatigue, 300, Uniform(180, 450), Ours, "MEMORY");
            }
        }

        if (Default("carbon"))
        {
            yield return new(UncertainInputs.CarbonModulus, 110_000, Triangular(60_000, 110_000, 130_000), Ours, "MEMORY");
            yield return new(UncertainInputs.CarbonShear, 5000, Triangular(4000, 5000, 15_000), Ours, "READ");
        }
    }

    // What the case says stands in the place of the default; of all pins or rods where it names none.
    private static void Put(List<StudyInput> inputs, UncertainInput own, Case value, ImmutableArray<Parts> frames)
    {
        string? named = UncertainInputs.OfFrame.FirstOrDefault(n => UncertainInputs.PointerOf(n) == own.Input);
        string name = named ?? own.Input;
        if (UncertainInputs.OfParts.Contains(name))
        {
            for (int i = 0; i < inputs.Count; i++)
            {
                inputs[i] = inputs[i].Name.StartsWith($"{name}:", StringComparison.Ordinal) ? inputs[i] with { Spread = own, Source = "The case", Tag = "GIVEN" } : inputs[i];
            }

            return;
        }

        bool ofPart = name.Contains(':', StringComparison.Ordinal) && !name.StartsWith('/');
        if (ofPart && !frames.Any(f => f.Pins.Any(p => name.EndsWith($":{p.Id}", StringComparison.Ordinal)) || f.Rods.Any(r => name.EndsWith($":{r.Id}", StringComparison.Ordinal))))
        {
            return; // A part of a frame that is not studied.
        }

        StudyInput given = new(name, NominalOf(name, value), own, "The case", "GIVEN");
        int at = inputs.FindIndex(i => i.Name == name);
        if (at < 0)
        {
            inputs.Add(given);
        }
        else
        {
            inputs[at] = given;
        }
    }

    private static double NominalOf(string name, Case value) => name switch
    {
        UncertainInputs.BoneModuli or UncertainInputs.BoneWall or UncertainInputs.ContactStiffness => 1,
        UncertainInputs.SteelModulus => MaterialOf("steel", value).YoungsModulusMPa,
        UncertainInputs.SteelFatigue => MaterialOf("steel", value).FatigueLimitMPa ?? double.NaN,
        UncertainInputs.CarbonModulus => MaterialOf("carbon", value).YoungsModulusMPa,
        UncertainInputs.CarbonShear => MaterialOf("carbon", value).EffectiveShearModulusMPa(),
        _ => CaseNumber.Find(value, UncertainInputs.PointerOf(name) ?? name)?.Of(value) ?? 0,
    };

    /// <summary>A material of a case by its id: its own, or the built-in one.</summary>
    internal static Material MaterialOf(string id, Case value) =>
        value.Materials.FirstOrDefault(m => m.Id == id) ?? BuiltInMaterials.All.First(b => b.Material.Id == id).Material;

    private static StudyInput Error(string name, double each) => new(name, 0, Uniform(-each, each), "Placing by a hand-held drill", "ASSUMED");

    private static UncertainInput Uniform(double low, double high) => new() { Input = "", Distribution = Spread.Uniform, Low = low, High = high };

    private static UncertainInput LogUniform(double low, double high) => new() { Input = "", Distribution = Spread.LogUniform, Low = low, High = high };

    private static UncertainInput Triangular(double low, double mode, double high) => new() { Input = "", Distribution = Spread.Triangular, Low = low, Mode = mode, High = high };
}
