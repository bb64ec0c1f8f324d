using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Materials;
using Halfpin.Domain.Modelling;

namespace Halfpin.Stability.Idealisation;

/// <summary>Every modelling assumption in force for a case, for the report.</summary>
public static class Assumptions
{
    /// <summary>Name of the assumption about callus.</summary>
    internal const string Callus = "Callus";

    /// <summary>The assumptions of a case.</summary>
    public static ImmutableArray<Assumption> Of(Case value)
    {
        ModelOptions defaults = new();
        return
        [
            Bone(value.Limb),
            Ends(value),
            .. Friction(value),
            new(Callus, "None carries load unless healing is asked for", false, "Project convention, on the safe side for the frame's load", "ASSUMED"),
            Fixity(value.Model.PinFixity, value.Model.PinFixity != defaults.PinFixity),
            Clamp(value.Model.Clamp, value.Model.Clamp != defaults.Clamp),
            .. LooseSlides(value),
            new("Beam theory", value.Model.Beam == BeamChoice.Timoshenko
                ? "Timoshenko, shear coefficient 0.9, for pins outside the bone, rods and bone"
                : "Euler–Bernoulli throughout", value.Model.Beam != defaults.Beam, "Project convention", "ASSUMED"),
            new("Joints", "Clamps join the nearest points of the axes of their parts and have no length unless given one; pins are flexible up to the rod's axis", false, "Project convention", "ASSUMED"),
            new("Pin tips", "Flush with the far surface; pins held in both cortices and free across the canal", false, "Project convention", "ASSUMED"),
            .. UnknownCore(value),
            new("Fibula and soft tissue", "Left out; muscles and an intact fibula are not counted on", false, "Project convention, on the safe side for the frame's load", "ASSUMED"),
            .. Materials(value),
        ];
    }

    private static Assumption Bone(Limb limb) => limb.BoneModel is TubeBone tube
        ? new("Bone", Text($"Round tube {tube.OuterDiameterMm}/{tube.InnerDiameterMm} mm, E {tube.YoungsModulusMPa} MPa, ν {tube.PoissonRatio}"), true, "The case", "GIVEN")
        : new("Bone", Text($"Parametric tibia scaled to {limb.LengthMm} mm: outline measured on 8 bones of 6 adults, canal and wall a model from memory, cortical E 17.0 GPa, G 3.3 GPa, trabecular bone left out"), false,
            "Outline MEASURED on open CT and MRI surfaces; wall MODEL from MEMORY; moduli Reilly and Burstein, J Biomech 1975, MEMORY hi", "MEMORY");

    private static Assumption Ends(Case value) => value.Fractures.Any(f => f.Contact)
        ? new("Bone ends", Apart(value) + Text($"Bear on each other, in compression only, at 24 points of the cortical outline on the fracture plane once the gap is closed there, each with its share of E·A over {2 * value.Model.ContactLayerMm} mm"),
            value.Model.ContactLayerMm != ModelOptions.UsualContactLayerMm, "No test found; the stiffness is given to ±50 %", "ASSUMED")
        : new("Bone ends", "Never touch", true, "The case", "GIVEN");

    // Which of several fractures do not bear at all.
    private static string Apart(Case value)
    {
        int[] apart = [.. Enumerable.Range(0, value.Fractures.Length).Where(i => !value.Fractures[i].Contact)];
        return apart.Length == 0 ? "" : $"Never touch at fracture {string.Join(" and ", apart.Select(i => i + 1))}, as the case says; elsewhere: ";
    }

    private static IEnumerable<Assumption> Friction(Case value)
    {
        if (value.Fractures.Any(f => f.Contact))
        {
            double friction = value.Model.ContactFriction;
            yield return new("Friction of bone ends", friction == 0 ? "None" : Text($"Coulomb, coefficient {friction}"), friction != 0,
                "Project convention: without friction more load and shear fall to the frame", "ASSUMED");
        }
    }

    private static Assumption Fixity(PinFixity fixity, bool fromCase) => fixity is FoundationFixity f
        ? new("Pin in bone", Text($"Elastic foundation of {f.ModulusNPerMm2} N/mm² in each cortex, Euler–Bernoulli"), fromCase, "No test found; 0.04–0.9 of the transverse modulus of cortical bone", "ASSUMED")
        : new("Pin in bone", "Rigidly tied to the bone's cross-section from the surface inward: the stiff bound", fromCase, "The case", "ASSUMED");

    private static Assumption Clamp(ClampModel clamp, bool fromCase) => clamp is SpringClamp s
        ? new("Clamps", Text($"{s.RotationalNmPerRad} N·m/rad about each axis, {s.TranslationalNPerMm} N/mm along each; slip at {s.SlipMomentNm} N·m; a loose clamp slides and turns without friction"), fromCase,
            "None published for rod clamps; models with clamp springs match tests (Proc IMechE H 1994;208, READ)", "ASSUMED")
        : new("Clamps", "Rigid; slip is not judged", fromCase, "The case", "ASSUMED");

    private static IEnumerable<Assumption> LooseSlides(Case value)
    {
        if (value.Frames.Any(f => f.Parts?.Clamps.Any(c => c.SlideStopMm is not null || c.OneWay || c.SlideFrictionN > 0) == true) || value.Stages.Any(s => !s.Slides.IsEmpty))
        {
            yield return new("Slides of loose clamps", "As each clamp says: constant friction, for a load that grows once, and stops that hold at once; stiffness is that with the slide free", true,
                "Friction not published: 0 and 50 N are two bounds (MEMORY lo)", "ASSUMED");
        }
    }

    private static IEnumerable<Assumption> UnknownCore(Case value)
    {
        string[] frames = [.. value.Frames.Where(f => f.Construct is { Pin.CoreDiameterMm: null } || f.Parts?.Pins.Any(p => p.CoreDiameterMm is null) == true).Select(f => f.Id)];
        if (frames.Length > 0)
        {
            yield return new("Thread", $"Core diameter not given in {string.Join(", ", frames)}: thread bends with the shank's diameter, which is on the unsafe side", false, "Absent from the case", "ASSUMED");
        }
    }

    private static IEnumerable<Assumption> Materials(Case value)
    {
        HashSet<string> own = [.. value.Materials.Select(m => m.Id)];
        MaterialTable table = new(value.Materials);
        foreach (string id in value.Frames.SelectMany(Used).Distinct().Order(StringComparer.Ordinal))
        {
            Material m = table[id];
            BuiltInMaterial? builtIn = own.Contains(id) ? null : BuiltInMaterials.All.First(b => b.Material.Id == id);
            yield return new(
                $"Material {id}",
                Text($"E {m.YoungsModulusMPa} MPa, G {m.EffectiveShearModulusMPa():0} MPa, limit {m.YieldMPa} MPa") + (m.FatigueLimitMPa is double f ? Text($", fatigue {f} MPa") : ""),
                builtIn is null, builtIn?.Source ?? "The case", builtIn?.Tag ?? "GIVEN");
        }
    }

    private static IEnumerable<string> Used(Domain.Frames.Frame frame) => frame.Construct is { } c
        ? [c.Pin.Material, c.Rod.Material]
        : frame.Parts!.Pins.Select(p => p.Material).Concat(frame.Parts.Rods.Select(r => r.Material));

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
