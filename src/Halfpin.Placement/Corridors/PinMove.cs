using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;

namespace Halfpin.Placement.Corridors;

/// <summary>How a pin may be brought into a safe corridor.</summary>
/// <param name="AzimuthDeg">Its azimuth afterwards.</param>
/// <param name="AlongMm">How far it moves along the bone, distally positive; 0 when turning is enough.</param>
public readonly record struct PinMove(double AzimuthDeg, double AlongMm)
{
    private const int StepDeg = 5, StepMm = 2, FarthestMm = 60;

    // Where moving along the bone is needed, the middle of the preferred sectors is the direction to try.
    private const double MiddleDeg = 50;

    /// <summary>
    /// The nearest turn, in steps of 5°, to a preferred or else a safe place; where there is none at the level, the nearest place along the
    /// bone, at the pin's own azimuth or in the middle of the preferred sectors. Null when none is found within 60 mm.
    /// </summary>
    public static PinMove? For(BoneShape bone, Pin pin)
    {
        foreach (CorridorGrade grade in new[] { CorridorGrade.Preferred, CorridorGrade.Safe })
        {
            for (int d = 0; d <= 180; d += StepDeg)
            {
                foreach (double to in new[] { Rounded(pin.AzimuthDeg) - d, Rounded(pin.AzimuthDeg) + d })
                {
                    if (IsAtMost(bone, pin with { AzimuthDeg = Math.IEEERemainder(to, 360) }, grade))
                    {
                        return new(Math.IEEERemainder(to, 360), 0);
                    }
                }
            }
        }

        for (int d = StepMm; d <= FarthestMm; d += StepMm)
        {
            foreach (double azimuth in new[] { pin.AzimuthDeg, MiddleDeg })
            {
                foreach (int along in new[] { d, -d })
                {
                    if (IsAtMost(bone, pin with { LevelMm = pin.LevelMm + along, AzimuthDeg = azimuth }, CorridorGrade.Safe))
                    {
                        return new(azimuth, along);
                    }
                }
            }
        }

        return null;
    }

    private static double Rounded(double deg) => Math.Round(deg / StepDeg) * StepDeg;

    private static bool IsAtMost(BoneShape bone, Pin pin, CorridorGrade grade)
    {
        if (!(pin.LevelMm > 0 && pin.LevelMm < bone.LengthMm))
        {
            return false;
        }

        PlacedPin placed = PlacedPin.Place(bone, pin);
        return !double.IsNaN(placed.ChordMm) && PinPassage.Entry(bone, pin, placed) <= grade;
    }
}
