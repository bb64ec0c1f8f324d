using System.Collections.Immutable;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>An input of halfpin uncertainty with the values it may take, in the unit of its name or member.</summary>
public sealed record UncertainInput
{
    [Field("Name of an input, one of a part as name:part, or a JSON Pointer to a number of this case.", Max = 200)]
    public required string Input { get; init; }

    [Field("How its values are spread.")]
    public required Spread Distribution { get; init; }

    [Field("Least value; for a normal spread, values below are taken at it.")]
    public double? Low { get; init; }

    [Field("Greatest value; for a normal spread, values above are taken at it.")]
    public double? High { get; init; }

    [Field("Most likely value of a triangular spread.")]
    public double? Mode { get; init; }

    [Field("Mean of a normal spread.")]
    public double? Mean { get; init; }

    [Field("Standard deviation of a normal spread.")]
    public double? StandardDeviation { get; init; }
}

/// <summary>How the values of an input are spread.</summary>
public enum Spread
{
    /// <summary>Evenly from low to high.</summary>
    Uniform,

    /// <summary>About a mean.</summary>
    Normal,

    /// <summary>Evenly in the logarithm from low to high.</summary>
    LogUniform,

    /// <summary>From low to high with a top at the mode.</summary>
    Triangular,
}

/// <summary>The inputs that halfpin uncertainty knows by name.</summary>
public static class UncertainInputs
{
    public const string ClampRotational = "clampRotationalNmPerRad";
    public const string SlipMoment = "slipMomentNm";
    public const string Foundation = "foundationNPerMm2";
    public const string BoneModuli = "boneModuliShare";

    /// <summary>Thickness of the anatomical bone's wall, of the model's; the outer shape stays and the canal changes.</summary>
    public const string BoneWall = "boneWallShare";

    public const string ContactStiffness = "contactStiffnessShare";
    public const string SteelModulus = "steelYoungsModulusMPa";
    public const string SteelFatigue = "steelFatigueLimitMPa";
    public const string CarbonModulus = "carbonYoungsModulusMPa";
    public const string CarbonShear = "carbonShearModulusMPa";

    /// <summary>What a pin's level is off by; of one pin as pinLevelErrorMm:p1.</summary>
    public const string PinLevel = "pinLevelErrorMm";

    /// <summary>What a pin's azimuth is off by.</summary>
    public const string PinAzimuth = "pinAzimuthErrorDeg";

    /// <summary>What a rod's distance from the bone is off by.</summary>
    public const string RodStandoff = "rodStandoffErrorMm";

    /// <summary>Inputs of the whole frame.</summary>
    public static ImmutableArray<string> OfFrame { get; } =
        [ClampRotational, SlipMoment, Foundation, BoneModuli, BoneWall, ContactStiffness, SteelModulus, SteelFatigue, CarbonModulus, CarbonShear];

    /// <summary>Inputs that each pin or rod has for itself.</summary>
    public static ImmutableArray<string> OfParts { get; } = [PinLevel, PinAzimuth, RodStandoff];

    /// <summary>The member that an input of the whole frame is, where it is one; null otherwise.</summary>
    public static string? PointerOf(string input) => input switch
    {
        ClampRotational => "/model/clamp/rotationalNmPerRad",
        SlipMoment => "/model/clamp/slipMomentNm",
        Foundation => "/model/pinFixity/modulusNPerMm2",
        _ => null,
    };
}
