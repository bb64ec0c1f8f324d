using System.Collections.Immutable;

namespace Halfpin.Workbench.Varying;

/// <summary>What is to vary.</summary>
/// <param name="Frame">Id of the frame.</param>
/// <param name="Ranges">One or two ranges; the last runs fastest.</param>
public sealed record VaryRequest(string Frame, ImmutableArray<AskedRange> Ranges);

/// <summary>A range as it was asked for; a number is null where none was typed.</summary>
/// <param name="Name">Which number: a member of the construct, or a JSON Pointer.</param>
/// <param name="From">First value.</param>
/// <param name="To">Last value.</param>
/// <param name="Values">How many values, both ends among them.</param>
public sealed record AskedRange(string Name, double? From, double? To, double? Values);
