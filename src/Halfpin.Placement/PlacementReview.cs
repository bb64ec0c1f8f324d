using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.SoftTissue;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;
using Halfpin.Placement.Checks;

namespace Halfpin.Placement;

/// <summary>
/// All rules of placement on one frame after another that differ little: what was found for the last frames and for the pins that they share
/// is found again without work. A workspace; one thread at a time.
/// </summary>
/// <remarks>What is remembered goes by value, so that an answer never depends on the frames before.</remarks>
public sealed class PlacementReview
{
    // A sampled study goes to and fro between two frames and those that differ from them in one input.
    private const int Frames = 4;

    private const int MostPins = 256;

    private readonly Reviewed?[] _last = new Reviewed?[Frames];
    private readonly Dictionary<(Pin Pin, double WallShare), PinSite> _pins = [];
    private readonly Func<Pin, PinSite> _site;
    private int _next;
    private Limb? _limb;
    private BoneShape? _bone;
    private double _wallShare;
    private SkinShape? _skin;

    /// <summary>A review of any frames.</summary>
    public PlacementReview()
    {
        _site = Site;
    }

    /// <summary>The first fault of placement, or else the verdicts of the checks.</summary>
    /// <param name="value">The case.</param>
    /// <param name="parts">The parts, within the ranges of their members.</param>
    /// <param name="wallShare">Thickness of an anatomical bone's wall as a multiple of the model's.</param>
    public (Fault? Fault, ImmutableArray<CheckVerdict> Verdicts) Of(Case value, Parts parts, double wallShare = 1)
    {
        double wall = ReadsWall(parts) ? wallShare : 1;
        UseLimb(value.Limb);
        foreach (Reviewed? last in _last)
        {
            if (last is not null && last.IsOf(value, parts, wall))
            {
                return (last.Fault, last.Verdicts);
            }
        }

        UseWall(wall);
        Fault? fault = FaultOf(value, parts);
        Reviewed found = new(value, parts, wall, fault, fault is null ? PlacementChecks.VerdictsOf(PlacedFrame.Of(value, parts, _bone!, _skin, _site)) : []);
        _last[_next++ % Frames] = found;
        return (found.Fault, found.Verdicts);
    }

    /// <summary>The first fault of placement, or else the verdicts of the checks that depend on the pins alone.</summary>
    /// <param name="value">The case.</param>
    /// <param name="parts">The parts, within the ranges of their members.</param>
    public (Fault? Fault, ImmutableArray<CheckVerdict> Verdicts) OfPins(Case value, Parts parts)
    {
        UseLimb(value.Limb);
        UseWall(1);
        Fault? fault = FaultOf(value, parts);
        return (fault, fault is null ? PlacementChecks.VerdictsOfPins(PlacedFrame.Of(value, parts, _bone!, _skin, _site)) : []);
    }

    private void UseLimb(Limb limb)
    {
        if (ReferenceEquals(limb, _limb))
        {
            return;
        }

        (_limb, _bone, _wallShare) = (limb, BoneShape.For(limb), 1);
        _skin = PlacedFrame.SkinOf(limb, _bone);
        _pins.Clear();
        Array.Clear(_last);
    }

    private void UseWall(double share)
    {
        if (share != _wallShare)
        {
            (_bone, _wallShare) = (BoneShape.For(_limb!, share), share);
        }
    }

    private Fault? FaultOf(Case value, Parts parts)
    {
        PlacedPin[] pins = new PlacedPin[parts.Pins.Length];
        for (int i = 0; i < pins.Length; i++)
        {
            pins[i] = Site(parts.Pins[i]).Placed;
        }

        return PlacementRules.Check(_bone!, value.Fractures, parts, pins).FirstOrDefault();
    }

    // Rules read the wall where a pin ends in the far cortex or its thread in the near one; all else is judged by the outer shape.
    private static bool ReadsWall(Parts parts)
    {
        foreach (Pin pin in parts.Pins)
        {
            if (pin.TipBeyondMm < 0 || pin.ThreadLengthMm is not null)
            {
                return true;
            }
        }

        return false;
    }

    private PinSite Site(Pin pin)
    {
        if (!_pins.TryGetValue((pin, _wallShare), out PinSite? site))
        {
            if (_pins.Count >= MostPins)
            {
                _pins.Clear();
            }

            _pins[(pin, _wallShare)] = site = new(_bone!, _skin, pin);
        }

        return site;
    }

    // What rules of placement read of a case beside its limb.
    private sealed record Reviewed(Case Case, Parts Parts, double WallShare, Fault? Fault, ImmutableArray<CheckVerdict> Verdicts)
    {
        public bool IsOf(Case value, Parts parts, double wallShare) => wallShare == WallShare && value.Fractures == Case.Fractures && value.Wounds == Case.Wounds && value.PlannedIncisions == Case.PlannedIncisions
            && Same(parts.Pins, Parts.Pins) && Same(parts.Rods, Parts.Rods) && Same(parts.Clamps, Parts.Clamps);

        private static bool Same<T>(ImmutableArray<T> a, ImmutableArray<T> b) => a == b || a.AsSpan().SequenceEqual(b.AsSpan(), EqualityComparer<T>.Default);
    }
}
