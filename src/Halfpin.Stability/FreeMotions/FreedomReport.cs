using System.Collections.Immutable;

namespace Halfpin.Stability.FreeMotions;

/// <summary>A part of a frame that can move by itself, and how.</summary>
/// <param name="Parts">Ids of the parts concerned: those that move and the clamps that let them.</param>
/// <param name="Message">What moves and why, in a plain sentence.</param>
/// <param name="Try">What would hold it.</param>
public sealed record LooseMotion(ImmutableArray<string> Parts, string Message, string Try);

/// <summary>An intended slide: motions per unit of it, ux, uy, uz (mm), rx, ry, rz (rad), in limb axes.</summary>
/// <param name="EndMotion">Of the proximal end.</param>
/// <param name="SiteMotion">Of each proximal face against its distal one, at the middle of the gap, fracture after fracture.</param>
public sealed record IntendedSlide(ImmutableArray<double> EndMotion, ImmutableArray<double> SiteMotion);

/// <summary>The free motions of a frame, sorted into intended ones and faults.</summary>
/// <param name="Motions">Motions that should not be free; empty for a usable frame.</param>
/// <param name="Freed">
/// For each intended slide, its direction as the motion of the proximal end (mm and rad at 100 mm), in limb axes.
/// </param>
/// <param name="HeldClamps">A loose clamp for each intended slide, whose hold removes it.</param>
/// <param name="Slides">The same slides at end and fracture, to one scale.</param>
public sealed record FreedomReport(
    ImmutableArray<LooseMotion> Motions, ImmutableArray<ImmutableArray<double>> Freed, ImmutableArray<int> HeldClamps, ImmutableArray<IntendedSlide> Slides)
{
    /// <summary>A frame that is held in every way.</summary>
    public static FreedomReport None { get; } = new([], [], [], []);

    /// <summary>True when something moves that should not.</summary>
    public bool IsMechanism => !Motions.IsEmpty;

    /// <summary>True when a load component at the proximal end works on an intended slide.</summary>
    /// <param name="component">0–5: forces along x, y, z and moments about them.</param>
    public bool WorksOn(int component) => Freed.Any(f => Math.Abs(f[component]) > WorkShare);

    /// <summary>Names of the load directions in which the frame gives way as intended.</summary>
    /// <remarks>
    /// All whose stiffness reads 0. Shear, of which no stiffness is reported, is named only when it is more than the slight share of a
    /// slide along a rod that does not quite follow the bone.
    /// </remarks>
    public ImmutableArray<string> Names =>
        [.. _names.Where((name, i) => name == Shear ? Freed.Any(f => Math.Abs(f[i]) > NamedShare) : WorksOn(i)).Distinct()];

    // A load works on a slide when its component of the slide's unit motion is more than rounding and tiny misalignment.
    private const double WorkShare = 1e-6;

    // ASSUMED: a tenth of the slide's largest component.
    private const double NamedShare = 0.1;

    private const string Shear = "shear";

    private static readonly ImmutableArray<string> _names = [Shear, Shear, "axial", "mlBending", "apBending", "torsion"];
}
