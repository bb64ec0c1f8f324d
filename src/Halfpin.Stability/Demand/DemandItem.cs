namespace Halfpin.Stability.Demand;

/// <summary>A limit that a part may reach.</summary>
public enum Limit
{
    /// <summary>Nominal von Mises stress against the yield stress of a pin.</summary>
    PinYield,

    /// <summary>Nominal stress of each step against the fatigue limit over the thread factor.</summary>
    PinFatigue,

    /// <summary>Nominal von Mises stress against the limit stress of a rod.</summary>
    RodYield,

    /// <summary>Moment about the pin against the clamp's slip moment.</summary>
    ClampSlipAboutPin,

    /// <summary>Moment about the rod against the clamp's slip moment.</summary>
    ClampSlipAboutRod,

    /// <summary>Moment that would change the angle between pin and rod, against the clamp's slip moment.</summary>
    ClampPivot,

    /// <summary>Force along the rod against the slip moment over the rod's radius.</summary>
    ClampSlide,

    /// <summary>Bearing pressure of a pin on a cortex against the bone's transverse strength.</summary>
    BoneBearing,
}

/// <summary>Where on a part.</summary>
public enum DemandPlace
{
    BoneSurface,
    InBone,
    ThreadEnd,
    AtClamp,
    NearCortex,
    FarCortex,
}

/// <summary>Demand over limit of a part at a place.</summary>
/// <param name="Limit">Which limit.</param>
/// <param name="Part">Number of the pin, rod or clamp.</param>
/// <param name="Place">Where.</param>
/// <param name="Clamp">Which clamp, when at a clamp.</param>
/// <param name="Value">1 at the limit.</param>
public readonly record struct DemandItem(Limit Limit, int Part, DemandPlace Place, int Clamp, double Value);
