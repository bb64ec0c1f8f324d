using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Path;

namespace Halfpin.TestKit.Paths;

/// <summary>A frame with yielding components and contacts, as plain data for <see cref="SmallSteps"/>. N, mm, rad.</summary>
/// <param name="Nodes">Positions.</param>
/// <param name="Ends">Ends of each member; −1 is ground.</param>
/// <param name="Members">Stiffness of each member.</param>
/// <param name="Supports">Held freedoms.</param>
/// <param name="Components">Yielding components.</param>
/// <param name="Upper">Node of the site's upper face.</param>
/// <param name="Lower">Node of the site's lower face.</param>
/// <param name="SitePointMm">The site point.</param>
/// <param name="Contacts">Contact points about the site point.</param>
/// <param name="Loaded">The loaded node.</param>
/// <param name="LoadForceN">Force at that node for a load factor of 1.</param>
/// <param name="LoadMomentNmm">Moment there.</param>
/// <param name="Second">Another site; null when there is one alone.</param>
public sealed record StepModel(
    IReadOnlyList<Vec3> Nodes,
    IReadOnlyList<MemberEnds> Ends,
    IReadOnlyList<MemberStiffness> Members,
    IReadOnlyList<Support> Supports,
    IReadOnlyList<YieldingComponent> Components,
    int Upper,
    int Lower,
    Vec3 SitePointMm,
    IReadOnlyList<ContactPoint> Contacts,
    int Loaded,
    Vec3 LoadForceN,
    Vec3 LoadMomentNmm,
    StepSite? Second = null)
{
    /// <summary>All sites.</summary>
    public IReadOnlyList<StepSite> Sites => Second is StepSite second ? [new(Upper, Lower, SitePointMm), second] : [new(Upper, Lower, SitePointMm)];
}

/// <summary>A site.</summary>
/// <param name="Upper">Node of its upper face.</param>
/// <param name="Lower">Node of its lower face.</param>
/// <param name="PointMm">The site point.</param>
public readonly record struct StepSite(int Upper, int Lower, Vec3 PointMm);
