using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Contact;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Movement;

/// <summary>Stops, one way and friction of a loose clamp as a law of its slide.</summary>
internal static class SlideLimits
{
    /// <summary>The law of a clamp; its slide is positive when the rod moves along its own direction against the pin.</summary>
    public static SlideLaw Of(FrameData data, int clamp)
    {
        Clamp part = data.ClampParts[clamp];
        double stop = part.SlideStopMm ?? double.PositiveInfinity;
        int shortens = part.OneWay ? Shortening(data, clamp) : 0;
        return new(part.SlideFrictionN, shortens > 0 ? 0 : -stop, shortens < 0 ? 0 : stop);
    }

    /// <summary>What is left of a law as loads grow without end: stops are then as near as nothing, and friction holds nothing.</summary>
    public static SlideLaw AtLength(SlideLaw law) =>
        new(0, double.IsFinite(law.LeastMm) ? 0 : law.LeastMm, double.IsFinite(law.MostMm) ? 0 : law.MostMm);

    // A pin of the first fragment comes nearer to the fracture as its rod moves proximally against it, one of the last as it moves distally.
    private static int Shortening(FrameData data, int clamp)
    {
        double up = data.PlacedRods[data.Clamps[clamp].Rod].Along.Z;
        return Math.Sign(data.FragmentOf(data.Clamps[clamp].Pin) == 0 ? up : -up);
    }
}
