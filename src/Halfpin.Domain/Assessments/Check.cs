namespace Halfpin.Domain.Assessments;

/// <summary>Verdict of a check.</summary>
public enum Verdict
{
    Pass,
    Caution,
    Fail,
}

/// <summary>A rule applied to a frame.</summary>
/// <param name="Id">Stable word for programs.</param>
/// <param name="Verdict">Verdict.</param>
/// <param name="Message">What was found, with numbers.</param>
/// <param name="Cure">What would improve it; empty on a pass.</param>
/// <param name="Source">Where the rule comes from.</param>
/// <param name="Tag">READ, MEMORY, DERIVED or ASSUMED.</param>
public sealed record Check(string Id, Verdict Verdict, string Message, string Cure, string Source, string Tag);

/// <summary>A rule's verdict on a frame, without words.</summary>
/// <param name="Check">Stable word of the rule.</param>
/// <param name="Verdict">Verdict.</param>
public readonly record struct CheckVerdict(string Check, Verdict Verdict);
