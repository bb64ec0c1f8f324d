using Halfpin.Domain.Cases;

namespace Halfpin.Studies.Inputs;

/// <summary>An input of a study: its name, how its values are spread and where that comes from.</summary>
/// <param name="Name">Name, part's name or pointer, as in a case.</param>
/// <param name="Nominal">The value that the case itself has, in the unit of the name; 0 for an error.</param>
/// <param name="Spread">Its values.</param>
/// <param name="Source">Where the spread comes from.</param>
/// <param name="Tag">ASSUMED, MEMORY … or GIVEN by the case.</param>
public sealed record StudyInput(string Name, double Nominal, UncertainInput Spread, string Source, string Tag);
