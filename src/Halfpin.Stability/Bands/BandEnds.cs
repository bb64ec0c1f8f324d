using Halfpin.Domain.Assessments;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Bands;

/// <summary>A frame at one end of the bands.</summary>
/// <param name="AtFracture">Stiffness at the fracture.</param>
/// <param name="Loaded">Results under the loads of the case.</param>
internal sealed record BandEnd(FourStiffnesses AtFracture, LoadedResults Loaded);

/// <summary>A frame at the ends of the bands.</summary>
/// <param name="Soft">All inputs at their soft end.</param>
/// <param name="Stiff">All at their stiff end.</param>
/// <param name="Gripless">Stiff, but with the least slip moment: the most moment on the least grip.</param>
/// <param name="Inputs">Which inputs, and their bands.</param>
internal sealed record BandEnds(BandEnd Soft, BandEnd Stiff, BandEnd Gripless, string Inputs)
{
    /// <summary>The band about a frame's own results.</summary>
    public ResultBand Around(FrameAssessment frame) => new()
    {
        Low = Soft.AtFracture,
        High = Stiff.AtFracture,
        AxialMm = frame.Motion is { LoadN: > 0 } ? Span(frame.Motion, m => m is null ? null : Math.Abs(m.AxialMm)) : null,
        ShearMm = frame.Motion is { LoadN: > 0 } ? Span(frame.Motion, m => m?.ShearMm) : null,
        FirstLimitKg = Span(frame.FirstLimit?.LoadKg, Soft.Loaded.FirstLimit?.LoadKg, Stiff.Loaded.FirstLimit?.LoadKg, Gripless.Loaded.FirstLimit?.LoadKg),
        Inputs = Inputs,
    };

    /// <summary>Size of the axial motion at a fracture under the chosen load, with its own.</summary>
    public Interval? AxialMm(FractureMotion own, int fracture) =>
        Span(Math.Abs(own.AxialMm), Size(Soft.Loaded.MotionAt(fracture)), Size(Stiff.Loaded.MotionAt(fracture)));

    private static double? Size(FractureMotion? motion) => motion is null ? null : Math.Abs(motion.AxialMm);

    private Interval? Span(FractureMotion? own, Func<FractureMotion?, double?> of) => Span(of(own), of(Soft.Loaded.Motion), of(Stiff.Loaded.Motion));

    // Null when one of them is missing.
    private static Interval? Span(params double?[] values) =>
        values.All(v => v is not null) ? new(values.Min()!.Value, values.Max()!.Value) : null;
}
