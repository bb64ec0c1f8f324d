using System.Collections.Immutable;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Path;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Overload;

/// <summary>
/// The path of the analyser's last frame under a load of its proximal end that grows in proportion, up and down again, and what its members carry and how
/// far its parts turn anywhere on it.
/// </summary>
/// <remarks>
/// A place on the path is a number: 2.25 is a quarter of the way from corner 2 to corner 3. Wrenches and motions are straight between
/// corners, so von Mises stress, bearing pressure and size of a rotation are convex there: one that is below a bound at both corners
/// stays below it in between. Loose clamps are written as tight ones and freed by the path.
/// </remarks>
internal sealed class OverloadPath : IMemberWrenches
{
    private const double Deg = 180 / Math.PI;
    private const double LeverMm = 100;
    private const int Bisections = 50;

    private readonly FrameAnalyser _analyser;
    private readonly LoadedFrame _frame;
    private readonly EndLoad _perNewton;
    private readonly ContactPoint[] _contacts;
    private readonly FrameSystem _system;
    private readonly LoadPath _path;
    private double _position;

    /// <summary>A path for the analyser's last frame, which must have been analysed without fault.</summary>
    public OverloadPath(FrameAnalyser analyser, LoadedFrame frame)
        : this(analyser, frame, EndLoad.Compression(1), ClampComponents.Of(analyser, frame.Demand), ContactsOf(analyser, frame))
    {
    }

    private OverloadPath(FrameAnalyser analyser, LoadedFrame frame, EndLoad perNewton, ImmutableArray<ClampComponent> components, ContactPoint[] contacts)
    {
        (_analyser, _frame, _perNewton, _contacts, Components) = (analyser, frame, perNewton, contacts, components);
        Fractures = analyser.Data.Fractures.Length;
        _system = new(analyser.Plan.Topology, DislocationResponse.ColumnsFor(Components.Length, Fractures));
        _path = new(Components.Length, _contacts.Length, Fractures);
    }

    /// <summary>A path over open gaps on which tight clamps hold whatever comes: what loose ones do alone.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="perNewton">A load with a compression of 1 N; loads along the path are its axial part.</param>
    public static OverloadPath OfLooseClamps(LoadedFrame frame, EndLoad perNewton) =>
        new(frame.Analyser, frame, perNewton, ClampComponents.OfLoose(frame.Analyser, frame.Demand), []);

    /// <summary>How clamps may give way, in the numbering of the path's components.</summary>
    public ImmutableArray<ClampComponent> Components { get; }

    /// <summary>How the path ended.</summary>
    public PathStatus Status => _path.Status;

    /// <summary>Its events.</summary>
    public ReadOnlySpan<PathEvent> Events => _path.Events;

    /// <summary>The components that move when the frame gives way without end.</summary>
    public ReadOnlySpan<int> GivingComponents => _path.GivingComponents;

    /// <summary>The last corner.</summary>
    public int LastCorner => _path.PointCount - 1;

    /// <summary>The corner from which the load is taken off; past the last when it never is.</summary>
    public int Turn { get; private set; }

    /// <summary>Faces against each other when the load is off again; null when the path does not get there.</summary>
    public Motion? Left(int fracture) => _path.PermanentSetAt(fracture);

    /// <summary>Number of fractures.</summary>
    public int Fractures { get; }

    /// <summary>The fracture of a contact of the path's events.</summary>
    public int FractureOf(int contact) => _contacts[contact].Site;

    /// <summary>How far a component has slipped at a corner, mm or rad.</summary>
    public double DislocationAt(int corner, int component) => _path[corner].Dislocations[component];

    /// <summary>Follows the path; false when the equations cannot be solved to the accuracy results need.</summary>
    /// <param name="toN">The greatest axial load.</param>
    /// <param name="andBack">Whether it is taken off again.</param>
    public bool Follow(double toN, bool andBack = true)
    {
        _analyser.Writer.WriteTight(_analyser.Plan, _system);
        if (!_system.Factorise().IsStable)
        {
            return false;
        }

        Vec3 loaded = _system.Node(FramePlan.LoadedNode);
        DislocationResponse response = new(_system, FramePlan.LoadedNode, _analyser.Plan.Sites.AsSpan(), Components.Length);
        if (!(response.Run([.. Components.Select(c => c.Component)], loaded, _analyser.SitePointsMm.AsSpan(), LeverMm) <= FrameAnalyser.MaxImbalance))
        {
            return false;
        }

        Wrench load = new(new(_perNewton.Fx, _perNewton.Fy, _perNewton.Fz), new(_perNewton.Mx, _perNewton.My, _perNewton.Mz));
        _path.Run(response, _contacts, load, toN, andBack);
        Turn = _path.ReachedLoadFactor == toN ? _path.TopPoint : _path.PointCount;
        return true;
    }

    /// <summary>Axial load at a place.</summary>
    public double LoadN(double position) => Between(position, i => _path[i].LoadFactor, (a, b, s) => ((1 - s) * a) + (s * b));

    /// <summary>Where on the way up a load is first reached; null when it is not.</summary>
    public double? PositionOf(double loadN) => _path.PositionOf(loadN);

    /// <summary>The fractures at a place; which points bear is left out.</summary>
    public SiteState At(double position)
    {
        PerFracture<Wrench> onFaces = default;
        PerFracture<Motion> faces = default;
        for (int f = 0; f < Fractures; f++)
        {
            int site = f;
            onFaces[f] = Between(position, i => _path[i].ContactWrenchAt(site), (a, b, s) => ((1 - s) * a) + (s * b));
            faces[f] = Between(position, i => _path[i].SiteMotionAt(site), (a, b, s) => ((1 - s) * a) + (s * b));
        }

        return new(new(LoadN(position) * _perNewton, onFaces), faces, default);
    }

    /// <summary>Largest rotation of any part, or of the faces against each other, at a place.</summary>
    public double LargestRotationDeg(double position)
    {
        SiteState state = At(position);
        double largest = 0;
        for (int f = 0; f < Fractures; f++)
        {
            largest = Math.Max(largest, state.FacesAt(f).RotationRad.Length);
        }

        for (int n = 0; n < _analyser.Plan.Nodes.Length; n++)
        {
            largest = Math.Max(largest, _path.MotionOf(n, position).RotationRad.Length);
        }

        return largest * Deg;
    }

    /// <summary>Demand of every part at a place.</summary>
    /// <returns>A view of a workspace, valid until the next call.</returns>
    public ReadOnlySpan<DemandItem> DemandAt(double position)
    {
        _position = position;
        return _frame.Demand.Under(this);
    }

    /// <summary>Where a convex quantity reaches a bound for the first time; null when it does not up to the last corner.</summary>
    /// <param name="quantity">The quantity by place.</param>
    /// <param name="bound">The bound.</param>
    public double? FirstReach(Func<double, double> quantity, double bound)
    {
        for (int corner = 0; corner <= LastCorner; corner++)
        {
            if (quantity(corner) >= bound)
            {
                double low = Math.Max(0, corner - 1), high = corner;
                for (int i = 0; i < Bisections && high > low; i++)
                {
                    double middle = (low + high) / 2;
                    (low, high) = quantity(middle) < bound ? (middle, high) : (low, middle);
                }

                return high;
            }
        }

        return null;
    }

    /// <inheritdoc/>
    Wrench IMemberWrenches.About(int member, Vec3 pointMm) =>
        _path.WrenchOn(member, _position).About(pointMm - _system.Member(member).AtMm);

    private static ContactPoint[] ContactsOf(FrameAnalyser analyser, LoadedFrame frame)
    {
        List<ContactPoint> all = [];
        for (int f = 0; f < analyser.Data.Fractures.Length; f++)
        {
            if (analyser.Data.Fractures[f].Contact)
            {
                int site = f;
                all.AddRange(frame.Contact.Rings[f].Contacts.ToArray().Select(c => c with { Site = site }));
            }
        }

        return [.. all];
    }

    private T Between<T>(double position, Func<int, T> of, Func<T, T, double, T> mix)
    {
        int before = Math.Clamp((int)position, 0, LastCorner);
        double share = position - before;
        return share <= 0 || before == LastCorner ? of(before) : mix(of(before), of(before + 1), share);
    }
}
