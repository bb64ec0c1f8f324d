namespace Halfpin.Domain.Validity;

/// <summary>One thing that is wrong with a case.</summary>
/// <param name="Pointer">Where, as a JSON Pointer (RFC 6901) into the case; /row/column of a table.</param>
/// <param name="Code">A stable word for programs, such as <c>range</c> or <c>unknownMember</c>.</param>
/// <param name="Message">What is wrong, in a plain sentence with the value and its unit.</param>
/// <param name="Allowed">What is allowed.</param>
/// <param name="Try">What to try.</param>
public sealed record Fault(string Pointer, string Code, string Message, string Allowed, string Try);

/// <summary>The codes of <see cref="Fault"/>.</summary>
public static class FaultCodes
{
    public const string Syntax = "syntax";
    public const string TooLarge = "tooLarge";
    public const string Format = "format";
    public const string NewerVersion = "newerVersion";
    public const string Missing = "missing";
    public const string UnknownMember = "unknownMember";
    public const string DuplicateMember = "duplicateMember";
    public const string DuplicateId = "duplicateId";
    public const string Type = "type";
    public const string Choice = "choice";
    public const string Range = "range";
    public const string Reference = "reference";
    public const string Inconsistent = "inconsistent";
    public const string OutsideBone = "outsideBone";
    public const string ThroughFracture = "throughFracture";
    public const string Collision = "collision";
    public const string OutOfReach = "outOfReach";
}
