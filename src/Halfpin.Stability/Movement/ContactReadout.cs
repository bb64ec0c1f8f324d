using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;

namespace Halfpin.Stability.Movement;

/// <summary>When the bone ends bear, how stiff that makes the limb, and who carries the load.</summary>
internal static class ContactReadout
{
    /// <summary>The record of a frame's contact at a fracture.</summary>
    /// <param name="loaded">The frame.</param>
    /// <param name="chosen">The chosen load; grown in proportion where it has compression, else compression alone is.</param>
    /// <param name="atChosen">Its equilibrium, null when withheld.</param>
    /// <param name="atOverload">That of the overload case, null when withheld.</param>
    /// <param name="fracture">Which fracture.</param>
    public static BoneContact Of(LoadedFrame loaded, EndLoad chosen, SiteState? atChosen, SiteState? atOverload, int fracture = 0)
    {
        EndLoad direction = chosen.Fz < 0 ? chosen : EndLoad.Compression(1);
        ImmutableArray<AxialStep> steps = loaded.Contact.HasLimitedSlides ? loaded.Growing(direction)?.Steps(fracture) ?? [] : [];
        BoneContact open = new()
        {
            AxialBeforeNPerMm = loaded.Contact.Drives(direction) ? 0
                : loaded.Contact.HasLimitedSlides ? steps is [AxialStep only] ? only.AxialNPerMm : null
                : Stiffness(direction, loaded.Contact.OverOpenGap(direction), fracture),
            Steps = steps,
            AtChosenLoad = At(loaded, atChosen, fracture),
            AtOverload = At(loaded, atOverload, fracture),
        };
        if (loaded.TouchAt(direction, fracture) is not Touch touch)
        {
            return open;
        }

        double touchN = -touch.Factor * direction.Fz;
        return open with
        {
            FirstTouchN = touchN,
            FirstTouchKg = touchN / Loading.NewtonPerKg,
            FirstTouchAzimuthDeg = loaded.Contact.Rings[fracture].AzimuthDeg(touch.Point),
            AxialBeforeNPerMm = !steps.IsEmpty ? steps[^1].AxialNPerMm : loaded.Contact.HasLimitedSlides && touchN == 0 ? 0 : open.AxialBeforeNPerMm,
            AxialAfterNPerMm = Stiffness(direction, loaded.Contact.FullyBearing(direction), fracture),
            LimitAfterTouch = loaded.LimitBeyond(direction, touch.Factor),
        };
    }

    private static ContactAtLoad? At(LoadedFrame loaded, SiteState? state, int fracture) => state is SiteState s
        ? new(-s.Load.End.Fz, s.Load.FrameShareAt(fracture), loaded.Motions[fracture].ShearMm(s))
        : null;

    private static double? Stiffness(EndLoad direction, SiteState state, int fracture)
    {
        double closing = -state.FacesAt(fracture).TranslationMm.Z;
        return state.IsSolved && closing > 0 ? -direction.Fz / closing : null;
    }
}
