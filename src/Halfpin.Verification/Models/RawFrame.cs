using System.Collections.Immutable;

namespace Halfpin.Verification.Models;

/// <summary>A frame at the level of the mechanics: nodes, beams, springs, supports and loads in any one consistent system of units.</summary>
public sealed record RawFrame
{
    /// <summary>For the reader, such as "kip, in, rad".</summary>
    public required string Units { get; init; }

    /// <summary>Coordinates by node.</summary>
    public required ImmutableSortedDictionary<string, ImmutableArray<double>> Nodes { get; init; }

    public ImmutableArray<RawBeam> Beams { get; init; } = [];

    public ImmutableArray<RawSpring> Springs { get; init; } = [];

    /// <summary>Embedded round bars on an elastic foundation, seen from one end.</summary>
    public ImmutableArray<RawEmbeddedBar> EmbeddedBars { get; init; } = [];

    /// <summary>Two nodes that can bear on each other, if any.</summary>
    public RawContact? Contact { get; init; }

    /// <summary>Held freedoms by node, of ux uy uz rx ry rz.</summary>
    public required ImmutableSortedDictionary<string, ImmutableArray<string>> Supports { get; init; }

    public required ImmutableArray<RawLoad> Loads { get; init; }
}

/// <summary>A prismatic beam. Bending stiffnesses belong to axes 2 and 3; axis 2 lies in the plane of the beam and <c>Towards2</c>.</summary>
public sealed record RawBeam
{
    public required string Id { get; init; }

    public required string A { get; init; }

    public required string B { get; init; }

    public required double E { get; init; }

    public required double G { get; init; }

    public required double Area { get; init; }

    /// <summary>∫x₂²dA: deflection along axis 2.</summary>
    public required double I22 { get; init; }

    /// <summary>∫x₃²dA: deflection along axis 3.</summary>
    public required double I33 { get; init; }

    public double I23 { get; init; }

    public required double Torsion { get; init; }

    /// <summary>Shear area over area; absent leaves shear deformation out.</summary>
    public double? ShearCoefficient { get; init; }

    /// <summary>A direction that fixes axis 2.</summary>
    public ImmutableArray<double> Towards2 { get; init; } = [0, 0, 1];
}

/// <summary>A spring between two nodes, or a node and the ground (B absent), acting at A's place along the global axes.</summary>
public sealed record RawSpring(string Id, string A, string? B, ImmutableArray<double> Translation, ImmutableArray<double> Rotation);

/// <summary>A round bar from a node into ground that does not move, on elastic foundation in some spans.</summary>
public sealed record RawEmbeddedBar(
    string Id, string Node, ImmutableArray<double> Direction, double BendingStiffness, double AxialStiffness, double TorsionStiffness, double Diameter,
    ImmutableArray<RawSpan> Spans);

/// <summary>A span of an embedded bar: length and foundation modulus, force per length and deflection.</summary>
public sealed record RawSpan(double Length, double Foundation);

/// <summary>A force and moment on a node, in a load case.</summary>
public sealed record RawLoad(string Case, string Node, ImmutableArray<double> Force, ImmutableArray<double> Moment);

/// <summary>
/// Two nodes that bear on each other once their gap is closed: one-sided, along a normal that points from the lower to the upper one, at
/// the middle between them. Loads then act on one node only.
/// </summary>
public sealed record RawContact(string Upper, string Lower, ImmutableArray<double> Normal, double Gap, double Stiffness);
