using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Mechanics.Path;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Overload;

/// <summary>
/// A frame whose loose clamps have stops, one way or friction, over open gaps under a load that grows once: what comes first, and how stiff
/// it is from one event of its loose clamps to the next.
/// </summary>
/// <remarks>
/// Event by event on a load path of the loose clamps alone (<see cref="LoadPath"/>), so nothing between two loads is passed over: demand,
/// rotation and closing are convex on each straight piece.
/// </remarks>
internal sealed class GrowingLoad
{
    // A piece shorter than this share of the load at its end is rounding.
    private const double NoPiece = 1e-9;

    // Points whose gaps close within this share of it touch together.
    private const double Together = 1e-9;

    private readonly LoadedFrame _frame;
    private readonly EndLoad _direction;
    private readonly OverloadPath _path;
    private readonly double? _touch;

    private GrowingLoad(LoadedFrame frame, EndLoad direction, OverloadPath path)
    {
        (_frame, _direction, _path) = (frame, direction, path);
        _touch = path.FirstReach(Passed, 0);
    }

    /// <summary>Follows a load; null when the path cannot be relied on.</summary>
    /// <param name="frame">A frame with limited slides.</param>
    /// <param name="perNewton">A load with a compression of 1 N.</param>
    public static GrowingLoad? Of(LoadedFrame frame, EndLoad perNewton)
    {
        OverloadPath path = OverloadPath.OfLooseClamps(frame, perNewton);
        return path.Follow(LoadedFrame.MostN, andBack: false) && path.Status != PathStatus.NotConverged ? new(frame, perNewton, path) : null;
    }

    /// <summary>What comes first; null when the load drives the frame without any resistance, or nothing comes up to the greatest load.</summary>
    public FirstLimit? First()
    {
        double? limit = _path.FirstReach(p => Greatest(p).Value, 1), range = _path.FirstReach(_path.LargestRotationDeg, MotionReadout.MaxRotationDeg);
        double first = Math.Min(limit ?? double.PositiveInfinity, Math.Min(range ?? double.PositiveInfinity, _touch ?? double.PositiveInfinity));
        if (double.IsInfinity(first))
        {
            return Running();
        }

        double loadN = _path.LoadN(first);
        return loadN == 0 ? null
            : first == _touch ? _frame.TouchLimit(Touch()!.Value.Fracture, loadN)
            : first == range ? LoadedFrame.RangeLimit(loadN)
            : _frame.PartLimit(Greatest(first), loadN);
    }

    /// <summary>
    /// The load from which repeated steps pass a pin's fatigue limit. Null when none does, or friction is in it: what steps to and fro
    /// leave in the frame is then not told by a load that grows once.
    /// </summary>
    public FirstLimit? Tired()
    {
        bool rubs = _path.Components.Any(c => c.Component.Capacity > 0);
        return !rubs && _path.FirstReach(p => Greatest(p, fatigue: true).Value, 1) is double at && _path.LoadN(at) > 0
            ? _frame.PartLimit(Greatest(at, fatigue: true), _path.LoadN(at)) : null;
    }

    /// <summary>The greatest demand but fatigue under a load; null where the frame does not carry it or turns too far.</summary>
    public DemandItem? Under(double loadN) =>
        _path.PositionOf(loadN) is double at && _path.LargestRotationDeg(at) < MotionReadout.MaxRotationDeg ? Greatest(at) : null;

    /// <summary>The stretches up to the first touch or the end of the model's range, at a fracture.</summary>
    public ImmutableArray<AxialStep> Steps(int fracture)
    {
        double end = Math.Min(
            _touch ?? _path.LastCorner, _path.FirstReach(_path.LargestRotationDeg, MotionReadout.MaxRotationDeg) ?? _path.LastCorner);
        List<AxialStep> steps = [];
        for (int corner = 0; corner < end; corner++)
        {
            double to = Math.Min(corner + 1, end), fromN = _path.LoadN(corner), byN = _path.LoadN(to) - fromN;
            if (byN > NoPiece * _path.LoadN(to))
            {
                double closing = _path.At(corner).FacesAt(fracture).TranslationMm.Z - _path.At(to).FacesAt(fracture).TranslationMm.Z;
                Add(steps, fromN, closing > 0 ? byN / closing : null, corner);
            }
        }

        return [.. steps];
    }

    // Corners at which nothing that is told changes are none.
    private void Add(List<AxialStep> steps, double fromN, double? axialNPerMm, int corner)
    {
        string[] slides = [.. Slides(corner, runs: true)], held = [.. Slides(corner, runs: false)];
        if (steps.Count > 0 && steps[^1].Held.SequenceEqual(held))
        {
            return;
        }

        string stiffness = axialNPerMm is double k ? string.Create(CultureInfo.InvariantCulture, $"{k:0} N/mm") : "the gap opens";
        string who = string.Join(", ", new[] { Words(held, "held"), Words(slides, "sliding") }.Where(w => w.Length > 0));
        steps.Add(new(fromN, axialNPerMm, [.. held], $"From {OverloadEvents.Load(fromN)} {stiffness}: {who}."));
    }

    private static string Words(string[] clamps, string what) => clamps.Length == 0 ? "" : $"{string.Join(", ", clamps)} {what}";

    // Clamps with limited slides that run on the piece after a corner, or do not.
    private IEnumerable<string> Slides(int corner, bool runs)
    {
        for (int i = 0; i < _path.Components.Length; i++)
        {
            ClampComponent c = _path.Components[i];
            if (c.Limit == Limit.ClampSlide && _frame.IsLimited(c.Clamp) && _path.DislocationAt(corner, i) != _path.DislocationAt(corner + 1, i) == runs)
            {
                yield return _frame.ClampId(c.Clamp);
            }
        }
    }

    // The way ends where loose clamps run on under the same load: that closes the gap, or nothing stops them.
    private FirstLimit? Running()
    {
        double loadN = _path.LoadN(_path.LastCorner);
        if (_path.Status != PathStatus.GivesWay || loadN == 0)
        {
            return null;
        }

        int[] touching = [.. Enumerable.Range(0, _path.Fractures).Where(f => _frame.TouchAt(_direction, f) is not null)];
        return touching.Length > 0 ? _frame.TouchLimit(touching[0], loadN) : LoadedFrame.RunsLimit(loadN);
    }

    private DemandItem Greatest(double position, bool fatigue = false)
    {
        DemandItem most = default;
        foreach (DemandItem item in _path.DemandAt(position))
        {
            most = item.Limit == Limit.PinFatigue == fatigue && item.Value > most.Value ? item : most;
        }

        return most;
    }

    // How far the ends have passed each other anywhere, 0 at the first touch.
    private double Passed(double position)
    {
        double most = double.NegativeInfinity;
        SiteState state = _path.At(position);
        for (int f = 0; f < _path.Fractures; f++)
        {
            most = Math.Max(most, Passed(state, f));
        }

        return most;
    }

    /// <summary>Where ends first touch, at which axial load; null when they do not before the model's range ends or the frame runs on.</summary>
    public Touch? Touch()
    {
        if (_touch is not double at || _path.LargestRotationDeg(at) > MotionReadout.MaxRotationDeg)
        {
            return null;
        }

        SiteState state = _path.At(at);
        int fracture = Enumerable.Range(0, _path.Fractures).MaxBy(f => Passed(state, f));
        CorticalRing ring = _frame.Contact.Rings[fracture];
        double[] left = [.. Enumerable.Range(0, CorticalRing.Points).Select(i => ring.Contacts[i].GapMm - Closing(state, fracture, i))];
        return new(_path.LoadN(at), fracture, _frame.Contact.HardestPressed(_direction, fracture, left, left.Min() + (Together * ring.Contacts[0].GapMm)));
    }

    private double Passed(SiteState state, int fracture)
    {
        if (!_frame.Analyser.Data.Fractures[fracture].Contact)
        {
            return double.NegativeInfinity;
        }

        double most = double.NegativeInfinity;
        CorticalRing ring = _frame.Contact.Rings[fracture];
        for (int i = 0; i < CorticalRing.Points; i++)
        {
            most = Math.Max(most, Closing(state, fracture, i) - ring.Contacts[i].GapMm);
        }

        return most;
    }

    private double Closing(SiteState state, int fracture, int point)
    {
        CorticalRing ring = _frame.Contact.Rings[fracture];
        return -ring.PlaneNormal.Dot(state.FacesAt(fracture).At(ring.OffsetMm(point)).TranslationMm);
    }
}
