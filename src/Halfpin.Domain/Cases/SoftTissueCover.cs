using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>Skin, fat and swelling over the bone.</summary>
public sealed record SoftTissueCover
{
    /// <summary>ASSUMED: the middle of 10–20 mm for a fresh injury, which is from memory.</summary>
    public const double UsualSwellingMm = 15;

    [Field("Build, for the thickness over the bone where none is given.")]
    public Habitus Habitus { get; init; } = Habitus.Usual;

    [Field("Thickness from bone to skin over the medial face, when measured.", Min = 1, Max = 80)]
    public double? ThicknessMm { get; init; }

    [Field("Room to keep for swelling still to come.", Min = 0, Max = 60)]
    public double SwellingMm { get; init; } = UsualSwellingMm;
}

/// <summary>Build.</summary>
public enum Habitus
{
    Usual,
    Obese,
}
