using Halfpin.Mechanics.Geometry;

namespace Halfpin.Mechanics.Members;

/// <summary>
/// Any two-ended linear member (beam, embedded bar, spring) seen as one six-component spring at a point P
/// between two rigid arms, which run from P to the nodes at the member's ends.
/// With δ = (u, θ) the motion of end b's arm less that of end a's arm at P, the wrench (f, m) that end b
/// exerts on the member at P is f = N u + Q θ, m = Qᵀ u + M θ; end a exerts the opposite one.
/// </summary>
/// <remarks>
/// A prismatic beam is diagonal in this form when P is its middle: EA/L, 12EI/L³, GJ/L, EI/L. Rigid arms and
/// eccentric attachments cost nothing, since P need not lie on a node. All in the global frame; N, mm, rad.
/// </remarks>
/// <param name="AtMm">The point P.</param>
/// <param name="ForcePerTranslation">N, in N/mm.</param>
/// <param name="ForcePerRotation">Q, in N/rad.</param>
/// <param name="MomentPerRotation">M, in N·mm/rad.</param>
public readonly record struct MemberStiffness(Vec3 AtMm, Mat3 ForcePerTranslation, Mat3 ForcePerRotation, Mat3 MomentPerRotation);
