using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>Stiffness of a frame, by place and end condition.</summary>
public sealed record FrameStiffness
{
    /// <summary>Load on the proximal end against the relative motion of the fracture's faces.</summary>
    public required FourStiffnesses AtFracture { get; init; }

    /// <summary>Load on the proximal end against the motion of that end.</summary>
    public required LoadPointStiffness AtLoad { get; init; }
}

/// <summary>Axial, bending and torsional stiffness. A value of 0 stands for an intended freedom.</summary>
public sealed record FourStiffnesses(double AxialNPerMm, double ApBendingNmPerDeg, double MlBendingNmPerDeg, double TorsionNmPerDeg);

/// <summary>Stiffness at the loaded end for each kind of ends.</summary>
/// <param name="Ball">Both ends free to rotate about x and y.</param>
/// <param name="Potted">Distal end held in six freedoms, proximal end free.</param>
/// <param name="Guided">No rotation at either end.</param>
public sealed record LoadPointStiffness(FourStiffnesses Ball, FourStiffnesses Potted, GuidedStiffness Guided);

/// <summary>Stiffness between ends that cannot rotate.</summary>
public sealed record GuidedStiffness(double AxialNPerMm);

/// <summary>K_site: opposite wrenches on the two faces against their relative motion at the middle of the gap.</summary>
/// <param name="Order">Order of rows and columns.</param>
/// <param name="NMmRad">Six rows; N, N·mm, mm and rad.</param>
public sealed record SiteStiffness(ImmutableArray<string> Order, ImmutableArray<ImmutableArray<double>> NMmRad);

/// <summary>Bending stiffness at the fracture by direction.</summary>
/// <param name="WeakAzimuthDeg">Azimuth of the weakest bending plane, in (−90, 90].</param>
/// <param name="WeakNmPerDeg">Stiffness there.</param>
/// <param name="StrongNmPerDeg">Stiffness in the strongest plane, at right angles to it.</param>
/// <param name="NmPerDegEvery5Deg">Stiffness of the bending planes at 0, 5 … 175°.</param>
public sealed record BendingRose(double WeakAzimuthDeg, double WeakNmPerDeg, double StrongNmPerDeg, ImmutableArray<double> NmPerDegEvery5Deg);
