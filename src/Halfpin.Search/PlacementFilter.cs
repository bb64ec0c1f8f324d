using System.Collections.Concurrent;
using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Domain.Validity;
using Halfpin.Placement;
using Halfpin.Placement.Checks;

namespace Halfpin.Search;

/// <summary>
/// Turns candidates away by the rules of placement before anything is solved. The rules are those of the checks; since those of pins and
/// those of rods depend on fewer choices than a candidate has, each distinct set is judged once and remembered. Safe for threads.
/// </summary>
internal sealed class PlacementFilter
{
    // The thread of a pin is a choice of the pin, told with the suggestion, not a place to be turned away.
    private static readonly string[] _always = ["thread"];

    /// <summary>What counts against a candidate for which the stock has too few parts.</summary>
    public static readonly ImmutableArray<string> NotInStock = ["stock"];

    /// <summary>What counts against a candidate whose distances are out of their order along the bone.</summary>
    public const string Order = "order";

    /// <summary>What counts against a frame that cannot be built.</summary>
    public const string Possible = "possible";

    // Some hundred bytes each (ESTIMATE): a usual search stays below, one of many millions of candidates forgets and judges again.
    private const int MostKnown = 500_000;

    private readonly Case _case;
    private readonly BoneShape _bone;
    private readonly HashSet<string> _accepted;
    private readonly Stock? _stock;

    // One for each thread at work: sets of pins that follow each other share most of them.
    private readonly ConcurrentBag<PlacementReview> _reviews = [];
    private readonly RuleMemory _pins = new(MostKnown), _rods = new(MostKnown);

    public PlacementFilter(Case value, Stock? stock)
    {
        _case = value;
        _bone = BoneShape.For(value.Limb);
        _accepted = [.. value.Requirements.AcceptCautions, .. _always];
        _stock = stock;
    }

    /// <summary>What a candidate lacks that no check tells, in words; null for a check, which has its own.</summary>
    public static string? WordsOf(string rule) => rule switch
    {
        Order => "the distances leave no room for the pins",
        Possible => "pins or rods meet each other, a fracture or the end of the bone",
        _ => NotInStock.Contains(rule) ? "the stock has too few parts" : null,
    };

    /// <summary>Rules of the pins' places that a set of candidates breaks, whatever its standoff; a second rod in the same plane has the same pins.</summary>
    public ImmutableArray<string> PinRules(Family family, double nearMm, double farMm, double azimuthDeg) => _pins.Of(
        (family.Kind == FamilyKind.TwoPlane, family.PinsPerFragment, family.Placement, family.Pin, family.Kind == FamilyKind.TwoPlane ? family.Second : 0, Near(family, nearMm), farMm, azimuthDeg, family.Middle),
        () =>
        {
            // Any rod will do here; far enough out that it never meets the bone.
            Parts parts = new Layout(family.At(nearMm, farMm, azimuthDeg, FarOutMm), family.Middle).Parts(_case.Fractures);
            if (!_reviews.TryTake(out PlacementReview? review))
            {
                review = new();
            }

            (Fault? fault, ImmutableArray<CheckVerdict> verdicts) = review.OfPins(_case, parts);
            _reviews.Add(review);
            return fault is not null ? [Possible] : Broken(verdicts);
        });

    /// <summary>
    /// Rules of the rods' places that a candidate breaks. Pins between fractures stand in the plane of rods that the outer pins place, so
    /// that nothing about the rods depends on them.
    /// </summary>
    public ImmutableArray<string> RodRules(Family family, double nearMm, double farMm, double azimuthDeg, double standoffMm) => _rods.Of(
        (family.Kind, family.Rod, family.Second, family.CrossLinks, farMm, azimuthDeg, standoffMm, family.Kind == FamilyKind.TwoPlane ? (family.PinsPerFragment, family.Placement, Near(family, nearMm)) : default),
        () =>
        {
            Parts parts = ConstructBuilder.Build(family.At(nearMm, farMm, azimuthDeg, standoffMm), _case.Fractures);
            return PlacementRules.Check(_bone, _case.Fractures, parts).Any() ? [Possible] : Broken(PlacementChecks.VerdictsOfRods(PlacedFrame.Of(_case, parts, _bone)));
        });

    /// <summary>True when a stock has too few parts of the family's sizes, or no rod long enough. Exact picking is left to the kit.</summary>
    public bool LacksStock(Family family, Parts parts)
    {
        if (_stock is null)
        {
            return false;
        }

        int pins = _stock.Items.OfType<StockPin>().Where(p => p.DiameterMm == family.Pin.DiameterMm && p.Material == family.Pin.Material).Sum(p => p.Quantity);
        int rods = _stock.Items.OfType<StockRod>().Where(r => r.DiameterMm == family.Rod.DiameterMm && r.Material == family.Rod.Material).Sum(r => r.Quantity);
        int clamps = _stock.Items.OfType<StockClamp>().Sum(c => c.Quantity);
        return pins < parts.Pins.Length || rods < parts.Rods.Length || clamps < parts.Clamps.Length;
    }

    /// <summary>Rules that a frame breaks: failures, and cautions that the case does not accept.</summary>
    public ImmutableArray<string> Broken(ImmutableArray<CheckVerdict> verdicts) =>
        [.. verdicts.Where(c => c.Verdict == Verdict.Fail || (c.Verdict == Verdict.Caution && !_accepted.Contains(c.Check))).Select(c => c.Check)];

    private const double FarOutMm = 150;

    private static double Near(Family family, double nearMm) => family.Placement == PinPlacement.FarFar ? 0 : nearMm;
}
