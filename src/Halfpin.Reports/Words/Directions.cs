using Halfpin.Domain.Cases;

namespace Halfpin.Reports.Words;

/// <summary>Azimuths and views in the words of anatomy.</summary>
public static class Directions
{
    private static readonly string[] _eighths =
        ["anterior", "anteromedial", "medial", "posteromedial", "posterior", "posterolateral", "lateral", "anterolateral"];

    // Within this of an axis a plane is called by the axis.
    private const double OnAxisDeg = 15;

    /// <summary>The direction nearest an azimuth, of eight.</summary>
    public static string Of(double azimuthDeg) => _eighths[(int)Math.Round(Wrapped(azimuthDeg) / 45) % 8];

    /// <summary>A plane through the bone's axis, by one of its azimuths.</summary>
    public static string Plane(double azimuthDeg)
    {
        double half = Wrapped(azimuthDeg) % 180;
        return half is <= OnAxisDeg or >= 180 - OnAxisDeg ? "anterior–posterior"
            : Math.Abs(half - 90) <= OnAxisDeg ? "medial–lateral"
            : half < 90 ? "anteromedial–posterolateral"
            : "anterolateral–posteromedial";
    }

    /// <summary>The limb, for the captions of figures.</summary>
    public static string Leg(Side side) => side == Side.Left ? "left leg" : "right leg";

    private static double Wrapped(double azimuthDeg) => ((azimuthDeg % 360) + 360) % 360;
}
