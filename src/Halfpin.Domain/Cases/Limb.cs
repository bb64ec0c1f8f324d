using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>The injured limb.</summary>
public sealed record Limb
{
    [Field("The bone. This version knows the tibia.")]
    public required BoneName Bone { get; init; }

    [Field("Side of the body. Azimuths read alike on both: + is medial.")]
    public required Side Side { get; init; }

    [Field("Length of the bone from the proximal to the distal joint line along its axis.", Min = 150, Max = 600)]
    public required double LengthMm { get; init; }

    [Field("Mass of the patient, for loads in terms of body weight.", Min = 20, Max = 300)]
    public required double PatientMassKg { get; init; }

    [Field("State of the fibula. Recorded; its share of the load is left out of the model.")]
    public Fibula Fibula { get; init; } = Fibula.Intact;

    [Field("Soft tissue over the bone.")]
    public SoftTissueCover SoftTissue { get; init; } = new();

    [Field("How the bone is modelled.")]
    public required BoneModel BoneModel { get; init; }
}

/// <summary>A bone.</summary>
public enum BoneName
{
    Tibia,
}

/// <summary>A side of the body.</summary>
public enum Side
{
    Left,
    Right,
}

/// <summary>State of the fibula.</summary>
public enum Fibula
{
    Intact,
    Fractured,
}

/// <summary>How the bone is modelled.</summary>
public abstract record BoneModel;

/// <summary>The parametric bone of the anatomy, scaled by its length.</summary>
public sealed record AnatomicalBone : BoneModel
{
    /// <summary>Least and greatest multiple of its wall that a study may take. ASSUMED: within, the wall is closed all round and leaves a canal at every level.</summary>
    public const double LeastWallShare = 0.6, MostWallShare = 1.4;
}

/// <summary>A uniform round tube, to rebuild a bench test.</summary>
public sealed record TubeBone : BoneModel
{
    [Field("Outer diameter.", Min = 8, Max = 80)]
    public required double OuterDiameterMm { get; init; }

    [Field("Inner diameter; 0 for a solid bar.", Min = 0, Max = 79)]
    public required double InnerDiameterMm { get; init; }

    [Field("Young's modulus.", Min = 10, Max = 250_000)]
    public required double YoungsModulusMPa { get; init; }

    [Field("Poisson's ratio.", Min = 0, Max = 0.499)]
    public required double PoissonRatio { get; init; }

    [Field("Shear modulus; E/2(1+ν) when left out.", Min = 3, Max = 100_000)]
    public double? ShearModulusMPa { get; init; }
}
