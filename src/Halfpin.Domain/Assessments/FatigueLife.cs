using System.Collections.Immutable;

namespace Halfpin.Domain.Assessments;

/// <summary>How long the pins stand the chosen load when it comes with every step.</summary>
/// <param name="Steps">Steps it is judged for.</param>
/// <param name="Pins">Each pin at its worst place, the one that tires first before the others.</param>
public sealed record FatigueLife(double Steps, ImmutableArray<PinLife> Pins);

/// <summary>A pin under repeated load. Steps to failure of 0 mean fewer than a thousand, null means ten million and more.</summary>
/// <param name="Part">Id of the pin.</param>
/// <param name="Place">Where on it.</param>
/// <param name="StressMPa">Nominal stress of a step times the thread factor.</param>
/// <param name="Value">That stress over the strength that remains after the steps; 1 is at the limit.</param>
/// <param name="StepsToFailure">Steps that the middle of the scatter endures.</param>
/// <param name="FewestSteps">Steps that its weak end endures.</param>
/// <param name="MostSteps">Steps that its strong end endures.</param>
public sealed record PinLife(string Part, string Place, double StressMPa, double Value, double? StepsToFailure, double? FewestSteps, double? MostSteps);
