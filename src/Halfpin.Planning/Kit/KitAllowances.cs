using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Planning.Building;

namespace Halfpin.Planning.Kit;

/// <summary>The lengths that a kit allows for, each with where it comes from.</summary>
internal static class KitAllowances
{
    /// <summary>Length of a clamp along what it holds, unless the case gives its body: 15–25 mm. MEMORY.</summary>
    public const double ClampMm = 20;

    /// <summary>Pin left beyond the outermost clamp: 10–20 mm. MEMORY.</summary>
    public const double TailMm = 15;

    /// <summary>A blunt pin's tip stands at most this far past the far cortex. MEMORY.</summary>
    public const double PredrilledTipMm = 2;

    /// <summary>A self-drilling tip is lodged in the far cortex, not through it: at most at its surface. MEMORY.</summary>
    public const double SelfDrillingTipMm = 0;

    /// <summary>Thread wanted beyond the bone along the pin, least. MEMORY.</summary>
    public const double ThreadFromMm = 2;

    /// <summary>Thread wanted beyond the bone along the pin, most. MEMORY.</summary>
    public const double ThreadToMm = 5;

    /// <summary>Without a stock lengths are rounded up to this step. ASSUMED.</summary>
    public const double LengthStepMm = 10;

    /// <summary>Drill for a pin of 5 mm. Common practice, no source.</summary>
    public const double DrillForFiveMm = 3.5;

    /// <summary>Core of a thread over its pin's diameter where it is not known. ASSUMED.</summary>
    public const double CoreShare = 0.8;

    /// <summary>Drills come in this step, and the next below the core is taken. ASSUMED.</summary>
    public const double DrillStepMm = 0.5;

    private const double FiveMm = 5;

    /// <summary>How far a tip may stand past the far cortex.</summary>
    public static double TipMm(PinTip tip) => tip == PinTip.SelfDrilling ? SelfDrillingTipMm : PredrilledTipMm;

    /// <summary>A length rounded up to the step.</summary>
    public static double RoundedUpMm(double neededMm) => Math.Ceiling((neededMm / LengthStepMm) - 1e-9) * LengthStepMm;

    /// <summary>The drill for a pin, always thinner than the pin's core.</summary>
    public static (double DiameterMm, string Source, string Tag) Drill(double pinDiameterMm, double? coreMm) => pinDiameterMm == FiveMm && !(coreMm <= DrillForFiveMm)
        ? (DrillForFiveMm, "3.5 mm drill for a 5 mm half-pin: common practice, no source", "common practice")
        : ((Math.Ceiling(((coreMm ?? CoreShare * pinDiameterMm) / DrillStepMm) - 1e-9) - 1) * DrillStepMm,
            coreMm is null ? $"Next {SizeWords.Fine(DrillStepMm)} mm below the core, taken as {SizeWords.Fine(CoreShare)} of the diameter" : $"Next {SizeWords.Fine(DrillStepMm)} mm below the pin's core", "ASSUMED");

    /// <summary>All of them, for the report.</summary>
    public static ImmutableArray<Assumption> All(bool withStock) =>
    [
        new("Clamp", $"{SizeWords.Fine(ClampMm)} mm along pin and rod, unless the case gives a body", false, "15–25 mm", "MEMORY"),
        new("Tail", $"{SizeWords.Fine(TailMm)} mm of pin beyond its outermost clamp", false, "10–20 mm", "MEMORY"),
        new("Tip", $"Drilled hole: {SizeWords.Fine(PredrilledTipMm)} mm past the far cortex. Self-drilling: lodged in the far cortex, not through it", false, "No more than 2 mm past; self-drilling lodged", "MEMORY"),
        new("Soft tissue", "Lies within the standoff and is not added again", false, "Standoff runs from the bone's surface to the rod's axis", "DERIVED"),
        new("Thread", $"Bone along the pin and {SizeWords.Fine(ThreadFromMm)} to {SizeWords.Fine(ThreadToMm)} mm", false, "At least chord + 2–5 mm", "MEMORY"),
        new("Thread out of bone", "Told with the tip where the case puts it (tipBeyondMm), flush with the far cortex where it is silent", false, "The same rule as the check of thread", "DERIVED"),
        withStock
            ? new("Lengths", "The shortest of the stock that is long enough", true, "The stock file", "GIVEN")
            : new("Lengths", $"Rounded up to {SizeWords.Fine(LengthStepMm)} mm where the case gives none", false, "No stock given", "ASSUMED"),
        new("Tip where the case is silent", withStock ? "A pin for a drilled hole where the stock has one, else self-drilling" : "For a drilled hole", false, "Project convention", "ASSUMED"),
    ];
}
