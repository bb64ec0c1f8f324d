using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Modelling;

/// <summary>The modelling assumptions that a case may override.</summary>
public sealed record ModelOptions
{
    [Field("How pins are held in the bone.")]
    public PinFixity PinFixity { get; init; } = new FoundationFixity();

    [Field("How clamps yield.")]
    public ClampModel Clamp { get; init; } = new SpringClamp();

    [Field("Beam theory for pins outside the bone, rods and bone.")]
    public BeamChoice Beam { get; init; } = BeamChoice.Timoshenko;

    /// <summary>Depth of bone that gives way under a bearing point, on each side. ASSUMED, with a band of ±50 % on the stiffness.</summary>
    public const double UsualContactLayerMm = 5;

    [Field("Coulomb friction between bone ends that bear on each other. 0 leaves it out.", Min = 0, Max = 1)]
    public double ContactFriction { get; init; }

    [Field("Depth of cortical bone on each side that gives way where the ends bear.", Min = 0.1, Max = 100)]
    public double ContactLayerMm { get; init; } = UsualContactLayerMm;
}

/// <summary>Beam theory.</summary>
public enum BeamChoice
{
    Timoshenko,
    EulerBernoulli,
}

/// <summary>How a pin is held in the bone.</summary>
public abstract record PinFixity;

/// <summary>Each cortex holds the pin as an elastic foundation.</summary>
public sealed record FoundationFixity : PinFixity
{
    /// <summary>Sound cortex, N/mm per mm. ASSUMED: 0.04–0.9 of the transverse modulus of cortical bone; no test found.</summary>
    public const double SoundCortexNPerMm2 = 5000;

    [Field("Foundation modulus: force per length of pin and deflection.", Min = 1, Max = 1_000_000)]
    public double ModulusNPerMm2 { get; init; } = SoundCortexNPerMm2;
}

/// <summary>The pin is rigidly tied to the bone's cross-section from the surface inward: the stiff bound.</summary>
public sealed record FixedAtSurface : PinFixity;

/// <summary>How a clamp yields.</summary>
public abstract record ClampModel;

/// <summary>A clamp that yields elastically in every direction.</summary>
public sealed record SpringClamp : ClampModel
{
    /// <summary>Rotational stiffness about each axis. ASSUMED: none published for rod clamps.</summary>
    public const double UsualRotationalNmPerRad = 200;

    /// <summary>Translational stiffness along each axis. ASSUMED, near rigid.</summary>
    public const double UsualTranslationalNPerMm = 100_000;

    /// <summary>Slip moment about each axis. ASSUMED from MEMORY lo 5–15; to be replaced by a bench test.</summary>
    public const double UsualSlipMomentNm = 8;

    [Field("Rotational stiffness about each axis.", Min = 0.1, Max = 1_000_000)]
    public double RotationalNmPerRad { get; init; } = UsualRotationalNmPerRad;

    [Field("Translational stiffness along each axis.", Min = 10, Max = 10_000_000)]
    public double TranslationalNPerMm { get; init; } = UsualTranslationalNPerMm;

    [Field("Moment at which the clamp slips, about each axis.", Min = 0.1, Max = 200)]
    public double SlipMomentNm { get; init; } = UsualSlipMomentNm;
}

/// <summary>A clamp that does not yield.</summary>
public sealed record RigidClamp : ClampModel;
