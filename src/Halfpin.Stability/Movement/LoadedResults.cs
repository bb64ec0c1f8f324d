using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Checks;
using Halfpin.Stability.Demand;

namespace Halfpin.Stability.Movement;

/// <summary>A frame under the loads of a case: the chosen one, the overload case and full body weight.</summary>
/// <param name="ChosenState">Equilibrium under the chosen load.</param>
/// <param name="OverloadState">Equilibrium in the overload case.</param>
/// <param name="Withheld">Why the chosen load gives no results; null when it does.</param>
/// <param name="OverloadWithheld">Why the overload case gives none; null when it does.</param>
/// <param name="Motions">Motion under the chosen load at each fracture; empty when withheld.</param>
/// <param name="OverloadMotions">Motion in the overload case at each fracture; empty when withheld.</param>
/// <param name="Chosen">Demand under the chosen load; empty when withheld.</param>
/// <param name="Overload">Demand under the overload case; empty when withheld.</param>
/// <param name="FullWeight">The greatest demand under full body weight over an open gap; null when the model does not reach so far.</param>
/// <param name="FirstLimit">What comes first as an axial load grows.</param>
/// <param name="FatigueFrom">Axial load from which repeated steps pass a pin's fatigue limit.</param>
internal sealed record LoadedResults(
    SiteState ChosenState,
    SiteState OverloadState,
    Diagnosis? Withheld,
    Diagnosis? OverloadWithheld,
    ImmutableArray<FractureMotion> Motions,
    ImmutableArray<FractureMotion> OverloadMotions,
    ImmutableArray<DemandItem> Chosen,
    ImmutableArray<DemandItem> Overload,
    DemandItem? FullWeight,
    FirstLimit? FirstLimit,
    FirstLimit? FatigueFrom)
{
    /// <summary>Motion at the first fracture under the chosen load.</summary>
    public FractureMotion? Motion => MotionAt(0);

    /// <summary>Motion at the first fracture in the overload case.</summary>
    public FractureMotion? OverloadMotion => OverloadMotionAt(0);

    /// <summary>Motion at a fracture under the chosen load; null when withheld.</summary>
    public FractureMotion? MotionAt(int fracture) => Motions.IsEmpty ? null : Motions[fracture];

    /// <summary>Motion at a fracture in the overload case; null when withheld.</summary>
    public FractureMotion? OverloadMotionAt(int fracture) => OverloadMotions.IsEmpty ? null : OverloadMotions[fracture];

    /// <summary>The results of a frame that was just analysed.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="value">The case.</param>
    /// <param name="tellsFullWeight">False where nobody reads the demand under full weight, which no verdict rests on.</param>
    public static LoadedResults Of(LoadedFrame frame, Case value, bool tellsFullWeight = true)
    {
        (FirstLimit? first, FirstLimit? fatigue) = frame.Limits();
        SiteState chosen = frame.Contact.Under(EndLoad.Of(value)), overload = frame.Contact.Under(OverloadCase.Of(value));
        Diagnosis? reason = frame.ReasonToWithhold(chosen), beyond = frame.ReasonToWithhold(overload);
        return new(
            chosen, overload, reason, beyond,
            reason is null ? [.. frame.Motions.Select(m => m.Of(chosen))] : [],
            beyond is null ? [.. frame.Motions.Select(m => m.Of(overload))] : [],
            reason is null ? [.. frame.Demand.Under(chosen.Load)] : [],
            beyond is null ? [.. frame.Demand.Under(overload.Load)] : [],
            tellsFullWeight ? frame.FirstUnderOpenGap(EndLoad.Compression(value.Limb.PatientMassKg * Loading.NewtonPerKg)) : null,
            first,
            fatigue);
    }
}
