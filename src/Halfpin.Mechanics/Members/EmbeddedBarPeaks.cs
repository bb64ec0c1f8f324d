using Halfpin.Mechanics.Geometry;

namespace Halfpin.Mechanics.Members;

/// <summary>
/// Finds the largest deflection and bending moment in every span of an embedded bar under one load after another, to 0.1 %. A workspace: it
/// tabulates the bar's response to unit loads once, and nothing is allocated as long as bars have no more places than those before.
/// </summary>
/// <remarks>
/// The places lie a tenth of the wave's radian apart; the parabola through the three about a peak tells where the response itself is then taken.
/// </remarks>
public sealed class EmbeddedBarPeaks
{
    // Spacing of the places in λx, and the fewest steps in a short span.
    private const double PlaceSpacing = 0.1;
    private const int LeastSteps = 24;

    // How much of its square's height a parabola's peak may lack beside the true one.
    private const double ParabolaError = 1e-3;

    private readonly GroundSpan[] _spans = new GroundSpan[EmbeddedBar.MaxSpans];
    private readonly SpanProfile[] _profiles = new SpanProfile[EmbeddedBar.MaxSpans];
    private readonly Stretch[] _stretches = new Stretch[2 * EmbeddedBar.MaxSpans];
    private UnitResponse[] _places = [];
    private int _spanCount;
    private int _stretchCount;

    /// <summary>Sets the bar; the one that is set already costs nothing.</summary>
    /// <param name="spans">From the port inwards; some span has a foundation, so that the port is held.</param>
    public void Set(ReadOnlySpan<GroundSpan> spans)
    {
        if (spans.SequenceEqual(_spans.AsSpan(0, _spanCount)))
        {
            return;
        }

        spans.CopyTo(_spans);
        (_spanCount, _stretchCount) = (spans.Length, 0);
        EmbeddedBar.Solve(spans, _profiles);
        int places = 0;
        for (int i = 0; i < spans.Length; i++)
        {
            // A wave repeats after π, turned about and e^−π as high: its peak lies within π of its end.
            double length = spans[i].LengthMm, lambda = _profiles[i].Lambda;
            if (lambda * length <= 2 * Math.PI)
            {
                places = Add(i, 0, length, lambda * length, places);
            }
            else
            {
                places = Add(i, 0, Math.PI / lambda, Math.PI, places);
                places = Add(i, length - (Math.PI / lambda), length, Math.PI, places);
            }
        }

        Tabulate(places);
    }

    /// <summary>The largest values under a load at the port.</summary>
    /// <param name="forceN">Force on the bar at its port; its part along the bar is left out.</param>
    /// <param name="momentNmm">Moment on the bar at its port; its part about the bar is left out.</param>
    /// <param name="inward">Unit vector along the bar into the ground.</param>
    /// <param name="peaks">Receives a value for each span, whatever its direction across the bar.</param>
    public void Find(Vec3 forceN, Vec3 momentNmm, Vec3 inward, Span<SpanPeak> peaks)
    {
        // Deflection and moment are sums of one part along the force and one along moment × bar: written along the force and across it.
        Vec3 across = forceN - (forceN.Dot(inward) * inward), crossMoment = momentNmm.Cross(inward);
        double force = across.Length, along = force > 0 ? crossMoment.Dot(across) / force : 0;
        PortLoad load = new(force, along, force > 0 ? (crossMoment - (along / force * across)).Length : crossMoment.Length);
        Squares most = default;
        for (int s = 0; s < _stretchCount; s++)
        {
            Stretch stretch = _stretches[s];
            most = s > 0 && _stretches[s - 1].Span == stretch.Span ? most : default;
            Search(stretch, load, ref most);
            peaks[stretch.Span] = new(Math.Sqrt(most.Deflection), Math.Sqrt(most.Moment));
        }
    }

    private int Add(int span, double from, double to, double lambdaX, int first)
    {
        int steps = Math.Max(LeastSteps, (int)Math.Ceiling(lambdaX / PlaceSpacing));
        _stretches[_stretchCount++] = new(span, from, (to - from) / steps, first, steps + 1);
        return first + steps + 1;
    }

    private void Tabulate(int places)
    {
        if (_places.Length < places)
        {
            _places = new UnitResponse[places];
        }

        foreach (ref readonly Stretch stretch in _stretches.AsSpan(0, _stretchCount))
        {
            for (int i = 0; i < stretch.Count; i++)
            {
                _places[stretch.First + i] = ResponseAt(stretch, i);
            }
        }
    }

    private void Search(in Stretch stretch, in PortLoad load, ref Squares most)
    {
        ReadOnlySpan<UnitResponse> places = _places.AsSpan(stretch.First, stretch.Count);
        Squares before = load.On(places[0]), at = load.On(places[1]);
        most = most.OrLarger(before).OrLarger(at);
        for (int i = 2; i < places.Length; i++)
        {
            Squares after = load.On(places[i]);
            most = most.OrLarger(after);
            bool atEnd = i == 2 || i == places.Length - 1;
            if ((atEnd || (at.Deflection >= before.Deflection && at.Deflection >= after.Deflection))
                && Vertex(before.Deflection, at.Deflection, after.Deflection, most.Deflection) is double w)
            {
                most = most.OrLarger(load.On(ResponseAt(stretch, i - 1 + w)));
            }

            if ((atEnd || (at.Moment >= before.Moment && at.Moment >= after.Moment))
                && Vertex(before.Moment, at.Moment, after.Moment, most.Moment) is double m)
            {
                most = most.OrLarger(load.On(ResponseAt(stretch, i - 1 + m)));
            }

            (before, at) = (at, after);
        }
    }

    private UnitResponse ResponseAt(in Stretch stretch, double place)
    {
        BarStation s = _profiles[stretch.Span].At(stretch.FromMm + (place * stretch.StepMm), 0, stretch.Span);
        return new(s.DeflectionPerForceMm, s.DeflectionPerMomentMm, s.MomentPerForceNmm, s.MomentPerMoment);
    }

    // Where the parabola through three even places has its peak, in spacings from the middle one; null when that lies outside or cannot
    // raise what has been found.
    private static double? Vertex(double before, double at, double after, double most)
    {
        double bend = before - (2 * at) + after, slope = after - before;
        return bend < 0 && Math.Abs(slope) <= -2 * bend && (at - (slope * slope / (8 * bend))) * (1 + ParabolaError) > most ? -slope / (2 * bend) : null;
    }

    // Evenly spaced places of one span, and where their responses stand.
    private readonly record struct Stretch(int Span, double FromMm, double StepMm, int First, int Count);

    private readonly record struct UnitResponse(double DeflectionPerForceMm, double DeflectionPerMomentMm, double MomentPerForceNmm, double MomentPerMoment);

    private readonly record struct Squares(double Deflection, double Moment)
    {
        public Squares OrLarger(in Squares o) => new(Math.Max(Deflection, o.Deflection), Math.Max(Moment, o.Moment));
    }

    // The force across the bar, and the part of moment × bar along it and across it.
    private readonly record struct PortLoad(double ForceN, double AlongNmm, double AcrossNmm)
    {
        public Squares On(in UnitResponse r)
        {
            double w = (r.DeflectionPerForceMm * ForceN) + (r.DeflectionPerMomentMm * AlongNmm), wAcross = r.DeflectionPerMomentMm * AcrossNmm;
            double m = (r.MomentPerForceNmm * ForceN) + (r.MomentPerMoment * AlongNmm), mAcross = r.MomentPerMoment * AcrossNmm;
            return new((w * w) + (wAcross * wAcross), (m * m) + (mAcross * mAcross));
        }
    }
}
