using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Variants;

namespace Halfpin.Search;

/// <summary>A number that a frame must keep to.</summary>
/// <param name="Note">What it is and where its limit comes from.</param>
/// <param name="Of">The frame's number.</param>
/// <param name="AtMost">True when it must not exceed the limit, false when it must reach it.</param>
internal sealed record Requirement(RequirementNote Note, Func<FrameRating, double> Of, bool AtMost)
{
    /// <summary>True when the frame meets it. A number that does not hold meets nothing.</summary>
    public bool IsMetBy(in FrameRating rating)
    {
        double value = Of(rating);
        return AtMost ? value <= Note.Limit : value >= Note.Limit;
    }

    /// <summary>What is left to the limit, as a share of it; negative beyond it. One that is met or not leaves no margin to speak of: infinite.</summary>
    public double Margin(in FrameRating rating)
    {
        double value = Of(rating);
        return Note.Id == RequirementList.Holds && IsMetBy(rating) ? double.PositiveInfinity : AtMost ? (Note.Limit - value) / Math.Max(Note.Limit, 1e-9) : (value - Note.Limit) / Math.Max(Note.Limit, 1e-9);
    }
}

/// <summary>What a case's purpose asks of a frame, with the case's own limits in their place.</summary>
internal static class RequirementList
{
    private const string Held = "A temporary frame holds until the next step";

    // Numbers that a rating must have: a frame that does not hold, or a load without an answer, is a requirement missed.
    public const string Holds = "holds";

    /// <summary>The requirements of a case.</summary>
    public static ImmutableArray<Requirement> Of(Case value)
    {
        Requirements own = value.Requirements;
        bool temporary = value.Purpose == Purpose.Temporary;
        Requirement? Most(string id, string words, string unit, double? given, double? usual, Func<FrameRating, double> of, string source, string tag) => Make(id, words, unit, given, usual, of, source, tag, atMost: true);
        Requirement? Least(string id, string words, string unit, double? given, double? usual, Func<FrameRating, double> of, string source, string tag) => Make(id, words, unit, given, usual, of, source, tag, atMost: false);

        return
        [
            new(new(Holds, "holds the fracture, with an answer at the chosen load and the overload", 1, "The model gives no number otherwise", "DERIVED"), r => r.Status == RatingStatus.Ok ? 1 : 0, false),
            .. new[]
            {
                Most("axial-motion", "axial motion at the chosen load at most {0}", " mm", own.MostAxialMm, 1, r => r.AxialMm, temporary ? Held : "0.2–1 mm of interfragmentary motion wanted for healing", temporary ? "ASSUMED" : "MEMORY"),
                Least("axial-motion-least", "axial motion at the chosen load at least {0}", " mm", own.LeastAxialMm, !temporary && value.Loading.IsChosen ? 0.2 : null, r => r.AxialMm, "0.2–1 mm of interfragmentary motion wanted for healing", "MEMORY"),
                Most("overload-motion", "axial motion in the overload case at most {0}", " mm", own.MostOverloadAxialMm, temporary ? 5 : null, r => r.OverloadAxialMm, Held, "ASSUMED"),
                Most("shear", "shear in the fracture at the chosen load at most {0}", " mm", own.MostShearMm, 1.5, r => r.ShearMm, "1.5 mm of shear healed worse in sheep (Augat et al., J Orthop Res 2003)", "MEMORY"),
                Most("tilt", "tilt in the overload case at most {0}", "°", own.MostTiltDeg, 5, r => r.OverloadTiltDeg, "Alignment of a tibial shaft: Wheeless' Textbook (READ); that it holds for motion is ours", "ASSUMED"),
                Most("twist", "twist in the overload case at most {0}", "°", own.MostTwistDeg, 5, r => r.OverloadTwistDeg, "Half the limit of alignment, the range of the model", "ASSUMED"),
                Most("used", "no part beyond {0} of a limit at the chosen load", " %", own.MostUsedPercent, 70, r => r.UsedPercent, "Room for the spread of materials and placement", "ASSUMED"),
                Most("overload-used", "no part beyond {0} of a limit in the overload case", " %", own.MostOverloadUsedPercent, 100, r => r.OverloadUsedPercent, "Limits of pins, rods, clamps and bone", "ASSUMED"),
                Most("fatigue", "no pin beyond {0} of its life at the chosen load", " %", own.MostFatiguePercent, temporary && value.Loading.Steps is null ? null : 70, r => r.FatiguePercent, "S–N line from memory, room for its scatter", "MEMORY"),
                Least("axial-stiffness", "axial stiffness at least {0}", " N/mm", own.LeastAxialNPerMm, null, r => r.AxialNPerMm, "", ""),
                Least("weak-bending", "bending stiffness in the weakest direction at least {0}", " N·m/deg", own.LeastWeakBendingNmPerDeg, null, r => r.WeakBendingNmPerDeg, "", ""),
            }.OfType<Requirement>(),
        ];
    }

    private static Requirement? Make(string id, string words, string unit, double? given, double? usual, Func<FrameRating, double> of, string source, string tag, bool atMost) =>
        (given ?? usual) is not double limit ? null : new(
            new(id, string.Format(CultureInfo.InvariantCulture, words, limit.ToString("0.##", CultureInfo.InvariantCulture) + unit), limit, given is null ? source : "The case", given is null ? tag : "GIVEN"), of, atMost);
}

/// <summary>What the purpose of a case asks of a frame where the case does not say otherwise.</summary>
public static class UsualRequirements
{
    /// <summary>The requirements by purpose and loading alone, each with its limit and where that comes from.</summary>
    public static ImmutableArray<RequirementNote> Of(Case value) => [.. RequirementList.Of(value with { Requirements = new() }).Select(r => r.Note)];
}
