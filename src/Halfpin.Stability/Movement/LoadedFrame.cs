using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Contact;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Overload;

namespace Halfpin.Stability.Movement;

/// <summary>A solved frame under loads, with contact at its fractures, and the bounds within which its answers hold.</summary>
internal sealed class LoadedFrame
{
    /// <summary>The greatest load a case may ask for; loads beyond are not searched.</summary>
    public const double MostN = 300 * Loading.NewtonPerKg;

    private const int Axial = 2;
    private const double SearchStep = 1.2;
    private const int Bisections = 40;

    // Ends that touch below this load have nothing to keep them apart.
    private const double AtOnceN = 1e-3;

    // Fractures that touch at loads this near each other touch together.
    private const double Together = 1e-9;

    private readonly FrameAnalyser _analyser;
    private readonly Dictionary<EndLoad, GrowingLoad?> _growing = [];

    /// <summary>The analyser's last frame.</summary>
    public LoadedFrame(FrameAnalyser analyser)
        : this(analyser, new(analyser))
    {
    }

    private LoadedFrame(FrameAnalyser analyser, DemandAnalysis demand)
    {
        _analyser = analyser;
        Contact = new(analyser);
        Motions = [.. analyser.Data.Fractures.Select((f, i) => new MotionReadout(analyser, Contact.Rings[i], f, i))];
        Demand = demand;
    }

    /// <summary>
    /// The analyser's last frame, or, when loose clamps have stops or friction, the same with these held and followed one by one.
    /// Stiffness is that of the frame with its slides free, which the analyser keeps.
    /// </summary>
    /// <param name="analyser">The analyser.</param>
    /// <param name="parts">The parts it analysed.</param>
    /// <param name="before">The frame that was loaded before, no longer used, whose workspaces serve again where they can; null for none.</param>
    /// <returns>Null when the equations with these slides held cannot be solved to the accuracy that results need.</returns>
    public static LoadedFrame? Of(FrameAnalyser analyser, Parts parts, LoadedFrame? before = null)
    {
        if (!HasLimitedSlide(parts))
        {
            return ReferenceEquals(before?._analyser, analyser) ? new(analyser, before.Demand) : new(analyser);
        }

        FrameAnalyser held = new(analyser.Data.Bone, analyser.Data.Fractures, analyser.Data.Model, analyser.Materials, analyser.Flexibility) { HoldsLimitedSlides = true };
        return held.Analyse(parts) == AnalysisStatus.Ok ? new(held) : null;
    }

    /// <summary>Takes over the next frame of the same analyser, where nothing that was set up for the last one differs.</summary>
    /// <returns>False when a new one is needed.</returns>
    public bool TryTakeOver(FrameAnalyser analyser, Parts parts)
    {
        if (!ReferenceEquals(analyser, _analyser) || !Contact.FitsAnalyser || HasLimitedSlide(parts))
        {
            return false;
        }

        Contact.Update();
        return true;
    }

    private static bool HasLimitedSlide(Parts parts)
    {
        foreach (Clamp clamp in parts.Clamps)
        {
            if (clamp.IsLimitedSlide())
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The analyser of the frame that is loaded.</summary>
    public FrameAnalyser Analyser => _analyser;

    public FractureContact Contact { get; }

    /// <summary>Motion at each fracture.</summary>
    public ImmutableArray<MotionReadout> Motions { get; }

    /// <summary>Motion at the first fracture.</summary>
    public MotionReadout Motion => Motions[0];

    public DemandAnalysis Demand { get; }

    /// <summary>Why motion and demand must not be shown for an equilibrium; null when they may.</summary>
    public Diagnosis? ReasonToWithhold(in SiteState state)
    {
        if (Contact.HasTooManySlides)
        {
            return Contact.HasLimitedSlides ? new(
                $"Stops and friction of at most {SiteEquilibrium.MaxStiffSlides} loose clamps, beside {SiteEquilibrium.MaxSlides} free slides, are followed at once.",
                LimitedClamps(), "Leave slideStopMm, oneWay and slideFrictionN out where they matter least.") : new(
                $"The frame slides freely in more than {SiteEquilibrium.MaxSlides} ways at once; bone ends that bear are not followed then.",
                HeldClamps(), "Tighten some of its loose clamps.");
        }

        if (state.Status == ContactStatus.Unrestrained)
        {
            return Contact.HasLimitedSlides ? new(
                "The load overcomes what loose clamps hold by friction and nothing stops the slide: no clamp's stop, and the bone ends do not come to bear.",
                LimitedClamps(), "Look at the stiffness only, give a clamp a stop, assess the frame with its clamps tight, or let the ends bear if they can.") : new(
                $"The load acts along an intended freedom ({string.Join(", ", _analyser.Freedoms.Names)}) and nothing stops it: the fragments slide and the bone ends do not come to bear.",
                HeldClamps(), "Look at the stiffness only, assess the frame with its clamps tight, or let the ends bear if they can.");
        }

        if (!state.IsSolved)
        {
            return new(
                Contact.HasLimitedSlides
                    ? "Bone ends that bear and loose clamps with stops or friction find no equilibrium that can be relied on."
                    : "Bone ends that bear with this much friction find no equilibrium that can be relied on.",
                [], "Lower contactFriction, or leave friction out.");
        }

        double rotation = Motion.LargestRotationDeg(state);
        return rotation < MotionReadout.MaxRotationDeg ? null : new(
            $"Under this load a part would rotate {Text(rotation)}°; beyond {Text(MotionReadout.MaxRotationDeg)}° small-displacement results do not hold.",
            [], "Lower the load or stiffen the frame.");
    }

    /// <summary>
    /// What comes first as an axial load grows: a part's limit, the touch of the bone ends, or the end of the range of small
    /// displacements. Null when the load acts along an intended freedom. And from which axial load on repeated steps over an open gap pass
    /// a pin's fatigue limit; null when none has one.
    /// </summary>
    public (FirstLimit? Once, FirstLimit? Repeated) Limits()
    {
        EndLoad unit = EndLoad.Compression(1);
        if (Contact.HasLimitedSlides)
        {
            return Growing(unit) is GrowingLoad growing ? (growing.First(), growing.Tired()) : default;
        }

        if (_analyser.Freedoms.WorksOn(Axial))
        {
            return default;
        }

        DemandItem first = default, tired = default;
        foreach (DemandItem item in Demand.Under(unit))
        {
            bool repeated = item.Limit == Limit.PinFatigue;
            first = !repeated && item.Value > first.Value ? item : first;
            tired = repeated && item.Value > tired.Value ? item : tired;
        }

        return (First(first, unit), tired.Value > 0 ? PartLimit(tired, 1 / tired.Value) : null);
    }

    /// <summary>
    /// A frame with limited slides under a growing load, event by event; null where it also slides freely along the load, or cannot be followed.
    /// </summary>
    internal GrowingLoad? Growing(EndLoad direction)
    {
        EndLoad perNewton = (1 / -direction.Fz * direction) with { Fz = -1 };
        if (!_growing.TryGetValue(perNewton, out GrowingLoad? growing))
        {
            growing = Contact.HasTooManySlides || Contact.Drives(perNewton) ? null : GrowingLoad.Of(this, perNewton);
            _growing.Add(perNewton, growing);
        }

        return growing;
    }

    private FirstLimit First(DemandItem first, EndLoad unit)
    {
        Touch? touch = Contact.FirstTouch(unit);
        double limitN = 1 / first.Value, touchN = touch?.Factor ?? double.PositiveInfinity, rangeN = RangeFactor(unit);
        double least = Math.Min(limitN, Math.Min(touchN, rangeN));
        return least == touchN
            ? TouchLimit(touch!.Value.Fracture, touchN)
            : least == rangeN ? RangeLimit(rangeN) : PartLimit(first, limitN);
    }

    /// <summary>The multiple of a load at which an open gap's answer leaves the range of small displacements.</summary>
    public double RangeFactor(EndLoad direction) => MotionReadout.MaxRotationDeg / Motion.LargestRotationDeg(Contact.OverOpenGap(direction));

    /// <summary>
    /// What comes first beyond a load as it grows on, with the bone ends bearing: a part's limit or the end of the range. Null when
    /// something has come before, or nothing does up to the greatest load a case may ask for.
    /// </summary>
    /// <param name="direction">A load with compression, to be multiplied.</param>
    /// <param name="from">The multiple from which to look.</param>
    public FirstLimit? LimitBeyond(EndLoad direction, double from)
    {
        double most = MostN / -direction.Fz, low = from, high = Math.Max(from * SearchStep, most / 100);
        if (!(Used(low * direction) < 1))
        {
            return null;
        }

        while (high < most && Used(high * direction) < 1)
        {
            (low, high) = (high, high * SearchStep);
        }

        high = Math.Min(high, most);
        if (!(Used(high * direction) >= 1))
        {
            return null;
        }

        for (int i = 0; i < Bisections; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Used(middle * direction) < 1 ? (middle, high) : (low, middle);
        }

        SiteState end = Contact.Under(high * direction);
        DemandItem first = Demand.FirstUnder(end.Load);
        return first.Value >= Motion.LargestRotationDeg(end) / MotionReadout.MaxRotationDeg ? PartLimit(first, -high * direction.Fz) : RangeLimit(-high * direction.Fz);
    }

    /// <summary>
    /// Where and at which multiple of a load the ends of a fracture touch as it grows, others bearing from when they touch; null when they
    /// do not within the range of small displacements or up to the greatest load a case may ask for.
    /// </summary>
    /// <param name="direction">A load with compression.</param>
    /// <param name="fracture">The fracture.</param>
    public Touch? TouchAt(EndLoad direction, int fracture)
    {
        if (Contact.HasLimitedSlides)
        {
            Touch? growing = Growing(direction)?.Touch();
            return growing is Touch touch && touch.Fracture == fracture ? touch with { Factor = touch.Factor / -direction.Fz }
                : TouchBeyond(direction, fracture, (growing?.Factor ?? 0) / -direction.Fz);
        }

        Touch? alone = Contact.FirstTouch(direction, fracture);
        if (Contact.FirstTouch(direction) is not Touch first || alone?.Factor <= first.Factor * (1 + Together))
        {
            return alone is Touch own && own.Factor <= RangeFactor(direction) ? own : null;
        }

        // Another fracture's ends bear before, which changes what happens here.
        return TouchBeyond(direction, fracture, first.Factor);
    }

    // The touch under growing loads.
    private Touch? TouchBeyond(EndLoad direction, int fracture, double from)
    {
        if (!_analyser.Data.Fractures[fracture].Contact)
        {
            return null;
        }

        double most = MostN / -direction.Fz, low = from, high = Math.Max(low * SearchStep, most / 100);
        while (high < most && Contact.Under(high * direction) is { IsSolved: true } open && open.BearingAt(fracture) == 0)
        {
            (low, high) = (high, high * SearchStep);
        }

        high = Math.Min(high, most);
        for (int i = 0; i < Bisections; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Contact.Under(middle * direction).BearingAt(fracture) == 0 ? (middle, high) : (low, middle);
        }

        SiteState touching = Contact.Under(high * direction);
        return touching.IsSolved && touching.BearingAt(fracture) != 0 && Motion.LargestRotationDeg(touching) <= MotionReadout.MaxRotationDeg
            ? new(high * -direction.Fz < AtOnceN ? 0 : high, fracture, Contact.HardestPressed(fracture))
            : null;
    }

    /// <summary>A fracture's name in results.</summary>
    private string FractureWords(int fracture) => Motions.Length == 1 ? "fracture" : $"fracture {fracture + 1}";

    // The greatest demand or share of the range; not a number where there is no equilibrium.
    private double Used(EndLoad load)
    {
        SiteState state = Contact.Under(load);
        return state.IsSolved
            ? Math.Max(Demand.FirstUnder(state.Load).Value, Motion.LargestRotationDeg(state) / MotionReadout.MaxRotationDeg)
            : double.NaN;
    }

    /// <summary>The touch of a fracture's ends as what comes first.</summary>
    internal FirstLimit TouchLimit(int fracture, double loadN) => new(FractureWords(fracture), FirstLimits.Touch, "bone ends", loadN, loadN / Loading.NewtonPerKg);

    /// <summary>A run that nothing stops as what comes first.</summary>
    internal static FirstLimit RunsLimit(double loadN) => new("frame", FirstLimits.Runs, "loose clamps run and nothing stops them", loadN, loadN / Loading.NewtonPerKg);

    /// <summary>The end of the range of small displacements as what comes first.</summary>
    internal static FirstLimit RangeLimit(double loadN) =>
        new("frame", FirstLimits.Range, $"a part turns {Text(MotionReadout.MaxRotationDeg)}°", loadN, loadN / Loading.NewtonPerKg);

    /// <summary>A part's limit as what comes first.</summary>
    internal FirstLimit PartLimit(DemandItem item, double loadN) => new(
        DemandWords.Part(item, _analyser.Data), DemandWords.Check(item.Limit), DemandWords.Place(item, _analyser.Data), loadN, loadN / Loading.NewtonPerKg);

    /// <summary>A clamp's id.</summary>
    internal string ClampId(int clamp) => _analyser.Data.ClampParts[clamp].Id;

    /// <summary>True for a loose clamp whose slide is limited.</summary>
    internal bool IsLimited(int clamp) => _analyser.Data.ClampParts[clamp].IsLimitedSlide();

    private ImmutableArray<string> LimitedClamps() => [.. _analyser.LimitedClamps.ToArray().Select(c => _analyser.Data.ClampParts[c].Id)];

    private ImmutableArray<string> HeldClamps() => [.. _analyser.Freedoms.HeldClamps.Select(c => _analyser.Data.ClampParts[c].Id)];

    /// <summary>
    /// The greatest demand but fatigue under a load while the gap stays open; null when the load acts along an intended freedom or turns a
    /// part beyond the range of small displacements.
    /// </summary>
    public DemandItem? FirstUnderOpenGap(EndLoad load) => Contact.HasLimitedSlides ? Growing(load)?.Under(-load.Fz) : Contact.Drives(load) || RangeFactor(load) <= 1 ? null : Demand.FirstUnder(load);

    private static string Text(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
}
