using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Drawings;

/// <summary>Reads how the parts of a frame move under the chosen load of a valid case.</summary>
public sealed class BentShape
{
    private readonly Case _case;
    private readonly FrameAnalyser _analyser;

    /// <summary>A reader for the frames of a case.</summary>
    public BentShape(Case value)
    {
        _case = value;
        BoneShape bone = BoneShape.For(value.Limb);
        _analyser = new(bone, value.Fractures, value.Model, new(value.Materials), new(bone, FrameAnalyser.TheoryOf(value.Model)));
    }

    /// <summary>The movement; null when the frame cannot be analysed or the load takes it beyond what the model describes.</summary>
    public BentDrawing? Of(Parts parts)
    {
        if (_analyser.Analyse(parts) != AnalysisStatus.Ok || LoadedFrame.Of(_analyser, parts) is not LoadedFrame loaded)
        {
            return null;
        }

        SiteState state = loaded.Contact.Under(EndLoad.Of(_case));
        return loaded.ReasonToWithhold(state) is null ? Read(loaded.Analyser, state) : null;
    }

    private static BentDrawing Read(FrameAnalyser analyser, SiteState state)
    {
        FramePlan plan = analyser.Plan;
        ILookup<(NodeOwner, int), MovedPoint> nodes = Enumerable.Range(0, plan.Nodes.Length)
            .ToLookup(n => (plan.Nodes[n].Owner, plan.Nodes[n].Part), n => Moved(analyser, state, n));
        ImmutableArray<BentFragment> fragments = [.. nodes.Where(g => g.Key.Item1 == NodeOwner.Fragment).OrderBy(g => g.Key.Item2)
            .Select(g => new BentFragment([.. g.OrderByDescending(p => p.At.ZMm)]))];
        ImmutableArray<BentLine> lines =
        [
            .. analyser.Data.Pins.Select((p, i) => Line(p.Id, p.DiameterMm, nodes[(NodeOwner.Pin, i)].OrderBy(m => (m.At.XMm * m.At.XMm) + (m.At.YMm * m.At.YMm)))),
            .. analyser.Data.Rods.Select((r, i) => Line(r.Id, r.DiameterMm, AlongLongest(nodes[(NodeOwner.Rod, i)]))),
        ];
        return new(lines, fragments, lines.SelectMany(l => l.Points).Concat(fragments.SelectMany(f => f.Points)).Max(p => Length(p.ByMm)));
    }

    private static BentLine Line(string part, double diameterMm, IEnumerable<MovedPoint> points) => new(part, diameterMm, [.. points]);

    // In the order in which they stand on the rod: by the axis along which the rod runs farthest.
    private static IEnumerable<MovedPoint> AlongLongest(IEnumerable<MovedPoint> points)
    {
        MovedPoint[] all = [.. points];
        Func<MovedPoint, double>[] axes = [p => p.At.XMm, p => p.At.YMm, p => p.At.ZMm];
        return all.OrderByDescending(axes.MaxBy(axis => all.Max(axis) - all.Min(axis))!);
    }

    private static MovedPoint Moved(FrameAnalyser analyser, SiteState state, int node)
    {
        Motion motion = state.Load.MotionOf(analyser, node);
        return new(Point(analyser.System.Node(node)), Point(motion.TranslationMm), Point(motion.RotationRad));
    }

    private static double Length(LimbPoint p) => Math.Sqrt((p.XMm * p.XMm) + (p.YMm * p.YMm) + (p.ZMm * p.ZMm));

    private static LimbPoint Point(Vec3 v) => new(v.X, v.Y, v.Z);
}
