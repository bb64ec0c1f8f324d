using System.Collections.Immutable;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Diagnosis;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.FreeMotions;

/// <summary>
/// Sorts the null space of a frame into intended slides of loose clamps and mechanisms.
/// </summary>
/// <remarks>
/// The null vectors are combined so that as few as possible turn a loose clamp about its rod; those that turn none, slide
/// at least one and move the loaded end are the intended slides. Everything else is a fault, a fragment between fractures that
/// slides by itself too: no load on the limb says where it stays. Loads that
/// do no work on an intended slide see the same frame whether it is held or free, so holding it is exact for them.
/// With several fractures, fragments that nothing joins to the rest are told apart first.
/// </remarks>
internal static class FreedomAnalysis
{
    // Null vectors come to about 1e-9; a motion below this share of its vector's size is none.
    private const double Tolerance = 1e-5;

    // Turns count as the slide they cause at this distance.
    private const double LeverMm = 100;

    public static FreedomReport Of(FrameAnalyser analyser)
    {
        ImmutableArray<FreeMotion> found = FreeMotionFinder.Find(analyser.System);
        if (found.IsEmpty)
        {
            return FreedomReport.None;
        }

        Modes modes = new(analyser, found);
        int unheld = analyser.Data.Fragments > 2 ? modes.EliminateUnheld() : 0;
        int turning = unheld + modes.Eliminate(unheld, modes.Loose, modes.Turn);
        int sliding = turning + modes.Eliminate(turning, modes.Loose, modes.Slide);
        ImmutableArray<LooseMotion>.Builder faults = ImmutableArray.CreateBuilder<LooseMotion>();
        ImmutableArray<ImmutableArray<double>>.Builder freed = ImmutableArray.CreateBuilder<ImmutableArray<double>>();
        ImmutableArray<int>.Builder held = ImmutableArray.CreateBuilder<int>();
        ImmutableArray<IntendedSlide>.Builder slides = ImmutableArray.CreateBuilder<IntendedSlide>();
        MotionNarrator narrator = new(analyser);
        for (int m = 0; m < modes.Count; m++)
        {
            bool intended = m >= turning && m < sliding && modes.MovesTheLoadedEnd(m);
            if (intended)
            {
                freed.Add(modes.EndMotion(m));
                held.Add(modes.PivotClamp(m));
                slides.Add(modes.SlideOf(m));
            }
            else
            {
                faults.Add(narrator.Describe(modes.Motion(m), m >= unheld && m < turning));
            }
        }

        return new(MotionNarrator.Merge(faults), freed.ToImmutable(), held.ToImmutable(), slides.ToImmutable());
    }

    /// <summary>Null vectors under combination, with the motions at loose clamps that tell them apart.</summary>
    private sealed class Modes
    {
        private readonly FrameAnalyser _analyser;
        private readonly int[] _looseMember;
        private readonly double[][] _mode;
        private readonly int[] _pivot;

        public Modes(FrameAnalyser analyser, ImmutableArray<FreeMotion> found)
        {
            _analyser = analyser;
            FramePlan plan = analyser.Plan;
            _looseMember = [.. Enumerable.Range(0, plan.Members.Length).Where(m =>
                plan.Members[m].Kind == MemberKind.Clamp && plan.Clamps[plan.Members[m].Part].State == ClampState.Loose)];
            _mode = [.. found.Select(f => Flatten(f.Nodes))];
            _pivot = new int[_mode.Length];
            foreach (double[] mode in _mode)
            {
                Normalise(mode);
            }
        }

        public int Count => _mode.Length;

        /// <summary>Number of loose clamps.</summary>
        public int Loose => _looseMember.Length;

        public int PivotClamp(int m) => _analyser.Plan.Members[_looseMember[_pivot[m]]].Part;

        public FreeMotion Motion(int m) => new([.. Enumerable.Range(0, _mode[m].Length / 6).Select(n => NodeMotion(m, n))]);

        public double Slide(int m, int loose) => Across(m, loose).TranslationMm.Dot(RodAxis(loose));

        public double Turn(int m, int loose) => LeverMm * Across(m, loose).RotationRad.Dot(RodAxis(loose));

        // Gives the motions of fragments that no member joins to the held end to modes of their own.
        public int EliminateUnheld()
        {
            int rank = 0;
            foreach (int node in UnheldFragments.NodesOf(_analyser.Plan))
            {
                rank += Eliminate(rank, 6, (m, i) => _mode[m][(6 * node) + i] * (i < 3 ? 1 : LeverMm));
            }

            return rank;
        }

        // Row reduction over the modes from `first` on: gives each of the measured motions, of a loose clamp as a rule, to one mode alone.
        public int Eliminate(int first, int count, Func<int, int, double> measure)
        {
            int rank = 0;
            for (int at = first; at < Count; at++, rank++)
            {
                (int mode, int loose, double size) = Largest(at, count, measure);
                if (size < Tolerance)
                {
                    break;
                }

                (_mode[at], _mode[mode]) = (_mode[mode], _mode[at]);
                _pivot[at] = loose;
                double pivot = measure(at, loose);
                for (int m = 0; m < Count; m++)
                {
                    if (m != at)
                    {
                        Subtract(m, at, measure(m, loose) / pivot);
                    }
                }
            }

            for (int m = 0; m < Count; m++)
            {
                Normalise(_mode[m]);
            }

            return rank;
        }

        public bool MovesTheLoadedEnd(int m)
        {
            Motion end = NodeMotion(m, FramePlan.LoadedNode);
            return end.TranslationMm.Length + (LeverMm * end.RotationRad.Length) > Tolerance;
        }

        public ImmutableArray<double> EndMotion(int m)
        {
            double[] v = AtLever(NodeMotion(m, FramePlan.LoadedNode));
            double size = v.Max(Math.Abs);
            return [.. v.Select(x => Math.Abs(x) < Tolerance * size ? 0 : x / size)];
        }

        // Both motions at the scale of the end's and rid of the same rounding: contact weighs the work of the one against the other's.
        public IntendedSlide SlideOf(int m)
        {
            double[] sites = [.. _analyser.Plan.Sites.SelectMany((faces, s) => AtLever(At(faces.UpperNode, s) - At(faces.LowerNode, s)))];
            double size = AtLever(NodeMotion(m, FramePlan.LoadedNode)).Max(Math.Abs);
            return new(
                [.. EndMotion(m).Select((x, i) => i < 3 ? x : x / LeverMm)],
                [.. sites.Select((x, i) => Math.Abs(x) < Tolerance * size ? 0 : x / size / (i % 6 < 3 ? 1 : LeverMm))]);

            Motion At(int node, int site) => NodeMotion(m, node).At(_analyser.SitePointsMm[site] - _analyser.System.Node(node));
        }

        private static double[] AtLever(Motion m) =>
        [
            m.TranslationMm.X, m.TranslationMm.Y, m.TranslationMm.Z, LeverMm * m.RotationRad.X, LeverMm * m.RotationRad.Y, LeverMm * m.RotationRad.Z,
        ];

        private (int Mode, int Loose, double Size) Largest(int from, int count, Func<int, int, double> measure)
        {
            (int Mode, int Loose, double Size) best = (from, 0, 0);
            for (int m = from; m < Count; m++)
            {
                for (int l = 0; l < count; l++)
                {
                    double size = Math.Abs(measure(m, l));
                    best = size > best.Size ? (m, l, size) : best;
                }
            }

            return best;
        }

        private Motion Across(int m, int loose) => Motion(m).Across(_analyser.System, _looseMember[loose]);

        private Vec3 RodAxis(int loose) =>
            _analyser.Data.PlacedRods[_analyser.Plan.Clamps[_analyser.Plan.Members[_looseMember[loose]].Part].Rod].Along;

        private Motion NodeMotion(int m, int node)
        {
            ReadOnlySpan<double> v = _mode[m].AsSpan(6 * node, 6);
            return new(new(v[0], v[1], v[2]), new(v[3], v[4], v[5]));
        }

        private void Subtract(int m, int other, double times)
        {
            for (int i = 0; i < _mode[m].Length; i++)
            {
                _mode[m][i] -= times * _mode[other][i];
            }
        }

        private static void Normalise(double[] mode)
        {
            double size = mode.Select((v, i) => Math.Abs(v) * (i % 6 < 3 ? 1 : LeverMm)).Max();
            for (int i = 0; i < mode.Length; i++)
            {
                mode[i] /= size;
            }
        }

        private static double[] Flatten(ImmutableArray<Motion> nodes) => [.. nodes.SelectMany(n => new[]
        {
            n.TranslationMm.X, n.TranslationMm.Y, n.TranslationMm.Z, n.RotationRad.X, n.RotationRad.Y, n.RotationRad.Z,
        })];
    }
}
