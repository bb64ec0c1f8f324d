using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Search;

namespace Halfpin.Workbench.Fields;

/// <summary>A requirement as a field, with what stands in for it while it is empty.</summary>
/// <param name="Pointer">Where it stands.</param>
/// <param name="Usual">What the purpose and the load ask for; null for nothing.</param>
public sealed record RequirementField(string Pointer, RequirementNote? Usual)
{
    /// <summary>What an empty field means, with where that comes from.</summary>
    public string UsualText => Usual is RequirementNote note ? $"When empty: {note.Words}. {note.Source}. {note.Tag}." : "When empty: not asked for.";
}

/// <summary>The requirements of a case as fields.</summary>
public static class RequirementFields
{
    private static readonly (string Member, string Id)[] _members =
    [
        ("mostAxialMm", "axial-motion"), ("leastAxialMm", "axial-motion-least"), ("mostShearMm", "shear"), ("mostOverloadAxialMm", "overload-motion"), ("mostTiltDeg", "tilt"),
        ("mostTwistDeg", "twist"), ("mostUsedPercent", "used"), ("mostOverloadUsedPercent", "overload-used"), ("mostFatiguePercent", "fatigue"),
        ("leastAxialNPerMm", "axial-stiffness"), ("leastWeakBendingNmPerDeg", "weak-bending"),
    ];

    /// <summary>The requirements, in the order in which they are shown.</summary>
    public static ImmutableArray<RequirementField> Of(Case value)
    {
        ImmutableArray<RequirementNote> usual = UsualRequirements.Of(value);
        return [.. _members.Select(m => new RequirementField($"/requirements/{m.Member}", usual.FirstOrDefault(u => u.Id == m.Id)))];
    }
}
