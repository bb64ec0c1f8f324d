using System.Collections.Immutable;

namespace Halfpin.Reports.Words;

/// <summary>A technical word with what it means.</summary>
/// <param name="Key">Its name in addresses and code: small letters with hyphens.</param>
/// <param name="Name">The word as it stands in a list.</param>
/// <param name="Words">What it means, in one to three short sentences.</param>
/// <param name="Forms">How it reads in a text; upper and lower case are alike but for forms all in capitals. Empty when it is only marked by hand.</param>
public sealed record GlossaryTerm(string Key, string Name, string Words, ImmutableArray<string> Forms);

/// <summary>A piece of a text: plain, or a form of a term.</summary>
/// <param name="Text">The piece as it stands.</param>
/// <param name="Term">The term; null for plain text.</param>
public sealed record GlossaryRun(string Text, GlossaryTerm? Term);
