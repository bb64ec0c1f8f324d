namespace Halfpin.Anatomy.Corridors;

/// <summary>A range of azimuths that does not pass ±180°; empty when its ends meet.</summary>
/// <param name="FromDeg">Lateral end.</param>
/// <param name="ToDeg">Medial end.</param>
internal readonly record struct AzimuthRange(double FromDeg, double ToDeg)
{
    /// <summary>No azimuth, shrunk to where a range will open.</summary>
    public static AzimuthRange None(double aboutDeg) => new(aboutDeg, aboutDeg);

    public bool IsEmpty => ToDeg <= FromDeg;

    public bool Holds(double azimuthDeg) => !IsEmpty && azimuthDeg >= FromDeg && azimuthDeg <= ToDeg;

    /// <summary>What two ranges share; where they share nothing, the point midway between them.</summary>
    public AzimuthRange And(AzimuthRange other)
    {
        double from = Math.Max(FromDeg, other.FromDeg), to = Math.Min(ToDeg, other.ToDeg);
        return from <= to ? new(from, to) : None((from + to) / 2);
    }

    /// <summary>This range with its ends a margin inside those of another.</summary>
    public AzimuthRange Within(AzimuthRange outer, double marginDeg) => And(new(outer.FromDeg + marginDeg, outer.ToDeg - marginDeg));

    /// <summary>From this range to another as the share grows from 0 to 1.</summary>
    public AzimuthRange Toward(AzimuthRange other, double share) =>
        new(FromDeg + (share * (other.FromDeg - FromDeg)), ToDeg + (share * (other.ToDeg - ToDeg)));
}
