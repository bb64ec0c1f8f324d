using Halfpin.Domain.Cases;
using Halfpin.Domain.Modelling;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Edits;

/// <summary>Changes of the kind of a model; its numbers are fields of their own.</summary>
public static class ModelEdits
{
    // A tube to begin from: that of the bench example.
    private static readonly TubeBone _tube = new() { OuterDiameterMm = 28, InnerDiameterMm = 14, YoungsModulusMPa = 16_000, PoissonRatio = 0.3 };

    /// <summary>The bone as it grows, or a bench tube.</summary>
    public static CaseEdit Bone(bool tube) =>
        new(tube ? "bench tube for the bone" : "anatomical bone", v => v with { Limb = v.Limb with { BoneModel = !tube ? new AnatomicalBone() : v.Limb.BoneModel as TubeBone ?? _tube } });

    /// <summary>Pins held by an elastic cortex, or rigidly at the surface.</summary>
    public static CaseEdit Fixity(bool rigid) =>
        new(rigid ? "pins rigid at the bone's surface" : "pins in an elastic cortex", v => v with { Model = v.Model with { PinFixity = rigid ? new FixedAtSurface() : v.Model.PinFixity as FoundationFixity ?? new() } });

    /// <summary>Clamps that yield, or rigid ones.</summary>
    public static CaseEdit Clamp(bool rigid) =>
        new(rigid ? "rigid clamps" : "clamps that yield", v => v with { Model = v.Model with { Clamp = rigid ? new RigidClamp() : v.Model.Clamp as SpringClamp ?? new() } });

    /// <summary>All modelling assumptions as they are without the case's.</summary>
    public static CaseEdit Usual() => new("usual modelling assumptions", v => v with { Model = new() });
}
