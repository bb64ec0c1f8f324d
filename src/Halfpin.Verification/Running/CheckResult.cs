namespace Halfpin.Verification.Running;

/// <summary>How a check came out.</summary>
public enum Outcome
{
    /// <summary>Within the tolerance.</summary>
    Agrees,

    /// <summary>Outside the tolerance by a difference that is understood and stated.</summary>
    KnownGap,

    /// <summary>Outside the tolerance.</summary>
    Mismatch,
}

/// <summary>A check and what this program gives for it.</summary>
/// <param name="Case">The case.</param>
/// <param name="Check">The check.</param>
/// <param name="Reference">The number it is held against.</param>
/// <param name="Ours">This program's number.</param>
/// <param name="Outcome">How it came out.</param>
public sealed record CheckResult(VerificationCase Case, VerificationCheck Check, double Reference, double Ours, Outcome Outcome)
{
    /// <summary>Difference as a share of the reference; NaN for a reference of zero.</summary>
    public double RelativeDifference => Reference == 0 ? double.NaN : (Ours - Reference) / Math.Abs(Reference);

    /// <summary>Difference as a share of what is allowed.</summary>
    public double ToleranceUsed => Math.Abs(Ours - Reference) / Allowed(Check, Reference);

    internal static double Allowed(VerificationCheck check, double reference) =>
        Math.Max(check.AbsoluteTolerance ?? 0, (check.RelativeTolerance ?? 0) * Math.Abs(reference));
}
