using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Bands;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Checks;

/// <summary>What the mechanical checks look at, for one frame.</summary>
/// <param name="Case">The case.</param>
/// <param name="Frame">The frame's results so far.</param>
/// <param name="Loaded">Motion and demand under the loads of the case.</param>
/// <param name="Ends">The same at the ends of the bands of the uncertain inputs; null when there is no band.</param>
/// <param name="Data">The parts in space.</param>
/// <param name="Materials">Their materials.</param>
internal sealed record CheckInput(
    Case Case, FrameAssessment Frame, LoadedResults Loaded, BandEnds? Ends, FrameData Data, MaterialTable Materials)
{
    /// <summary>True when the case chooses a load at all.</summary>
    public bool HasChosenLoad => Case.Loading.IsChosen;

    /// <summary>The chosen load, for a sentence.</summary>
    public string ChosenWords => ChosenLoadWords.Of(Case);

    /// <summary>The overload case, for a sentence.</summary>
    public string OverloadWords => $"{Kg(OverloadCase.Kg(Case))} (overload)";

    /// <summary>A number for a sentence.</summary>
    public static string Text(double value, string format = "0.##") => value.ToString(format, CultureInfo.InvariantCulture);

    /// <summary>A load as a reading on a scale.</summary>
    public static string Kg(double kg) => Text(kg, kg < 10 ? "0.#" : "0") + " kg";

    /// <summary>A share of a limit, to two figures.</summary>
    public static string Percent(double share) => Text(100 * share, "0") + " %";
}
