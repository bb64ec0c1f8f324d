using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Checks;

/// <summary>What the mechanical checks look at, for one frame.</summary>
/// <param name="Case">The case.</param>
/// <param name="Frame">The frame's results so far.</param>
/// <param name="Chosen">Demand under the chosen load; empty when withheld.</param>
/// <param name="Overload">Demand under the overload case; empty when withheld.</param>
/// <param name="FullWeight">The greatest demand under full body weight; null when withheld.</param>
/// <param name="Data">The parts, for their names.</param>
internal sealed record CheckInput(
    Case Case, FrameAssessment Frame, ImmutableArray<DemandItem> Chosen, ImmutableArray<DemandItem> Overload, DemandItem? FullWeight, FrameData Data)
{
    /// <summary>Axial load of the overload case, N.</summary>
    public double OverloadN => OverloadCase.LoadN(Case);

    /// <summary>A number for a sentence.</summary>
    public static string Text(double value, string format = "0.##") => value.ToString(format, CultureInfo.InvariantCulture);
}
