namespace Halfpin.Workbench.Varying;

/// <summary>A number of a frame or its case that can run through a range.</summary>
/// <param name="Name">Its name as a range takes it: a member of the construct, or a JSON Pointer.</param>
/// <param name="Label">Its name for people.</param>
/// <param name="Unit">Its unit; empty for a count.</param>
/// <param name="Now">Its value in the case.</param>
/// <param name="From">Where a usual range begins.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Values">How many values a usual range has.</param>
public sealed record Variable(string Name, string Label, string Unit, double Now, double From, double To, int Values);
