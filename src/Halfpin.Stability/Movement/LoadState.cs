using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Stability.Movement;

/// <summary>Everything that loads a frame.</summary>
/// <param name="End">The wrench on the proximal end.</param>
/// <param name="OnFaces">
/// What contact and callus exert on the proximal face, about the middle of the gap; the distal face takes the opposite. Nil over an
/// open gap.
/// </param>
internal readonly record struct LoadState(EndLoad End, Wrench OnFaces)
{
    /// <summary>A load over an open gap.</summary>
    public static implicit operator LoadState(EndLoad end) => new(end, default);

    /// <summary>A component of the wrench on the faces, 0–5.</summary>
    public double OnFace(int i) => i switch
    {
        0 => OnFaces.ForceN.X,
        1 => OnFaces.ForceN.Y,
        2 => OnFaces.ForceN.Z,
        3 => OnFaces.MomentNmm.X,
        4 => OnFaces.MomentNmm.Y,
        _ => OnFaces.MomentNmm.Z,
    };

    /// <summary>
    /// The share of an axial load that passes through the frame at the fracture; null without axial load. A frame that pulls the bone
    /// ends together carries less than none.
    /// </summary>
    public double? FrameShare => End.Fz == 0 ? null : 1 + (OnFaces.ForceN.Z / End.Fz);
}

/// <summary>The equilibrium of a frame under a load, with whatever contact and callus there is.</summary>
/// <param name="Status">How it was found; nothing else may be read unless it is solved.</param>
/// <param name="Load">What loads the frame.</param>
/// <param name="Faces">Proximal face less distal face at the middle of the gap.</param>
/// <param name="Bearing">Which points of the ring bear, a bit each.</param>
internal readonly record struct SiteState(ContactStatus Status, LoadState Load, Motion Faces, uint Bearing)
{
    /// <summary>True when an equilibrium was found.</summary>
    public bool IsSolved => Status == ContactStatus.Solved;
}
