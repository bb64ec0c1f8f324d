using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Stability.Variants;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Indices;
using Halfpin.Studies.Inputs;
using Halfpin.Studies.Sampling;

namespace Halfpin.Studies.Uncertainty;

/// <summary>
/// Several frames of a case under the same draws: each point of one scrambled Sobol' sequence gives all uncertain inputs once, and every frame
/// is worked out with them, so that differences between frames are theirs. Inputs of parts with the same name, such as the place of pin p1,
/// are shared. A workspace.
/// </summary>
public sealed class SharedStudy
{
    private const int PointsPerBatch = 32;

    private readonly ImmutableArray<string> _frames;
    private readonly ImmutableArray<StudyInput> _inputs;
    private readonly ImmutableArray<StudyOutput> _outputs;
    private readonly ImmutableArray<RankedStiffness> _ranked;
    private readonly SobolSequence _sequence;
    private readonly ulong _seed;
    private readonly FrameWorker[][] _workers;
    private readonly VariantResult[] _nominal;
    private readonly double[,,] _values;
    private readonly FrameStatus[,] _status;

    /// <summary>A study of frames.</summary>
    /// <param name="value">The valid case.</param>
    /// <param name="frames">Ids of frames of it.</param>
    /// <param name="samples">Draws.</param>
    /// <param name="seed">Seed: the same one gives the same figures.</param>
    /// <param name="threads">Threads to work on; the result does not depend on it.</param>
    public SharedStudy(Case value, ImmutableArray<string> frames, int samples, ulong seed, int threads)
    {
        (_frames, _inputs, _outputs, _seed, Samples) = (frames, InputsOf(value, frames), StudyOutput.Of(value), seed, samples);
        _ranked = RankedStiffness.Of(_outputs);
        _sequence = SobolSequence.Scrambled(_inputs.Length, seed);
        ImmutableArray<string> names = [.. _inputs.Select(i => i.Name)];
        VariantBuilder[] builders = [.. frames.Select(f => new VariantBuilder(value, f, names))];
        _workers = [.. Enumerable.Range(0, threads).Select(_ => builders.Select(b => new FrameWorker(b)).ToArray())];
        double[] nominal = [.. _inputs.Select(i => i.Nominal)];
        _nominal = [.. _workers[0].Select(w => w.Assess(nominal))];
        _values = new double[frames.Length, _outputs.Length, samples];
        _status = new FrameStatus[frames.Length, samples];
    }

    /// <summary>Draws.</summary>
    public int Samples { get; }

    /// <summary>Draws worked out so far.</summary>
    public int Done { get; private set; }

    /// <summary>True when nothing is left to work out.</summary>
    public bool IsFinished => Done == Samples;

    /// <summary>Number of inputs of a study; more than <see cref="SobolSequence.MaxDimensions"/> cannot be drawn at once.</summary>
    public static int CountInputs(Case value, ImmutableArray<string> frames) => InputsOf(value, frames).Length;

    /// <summary>Works out the next draws.</summary>
    public void Next()
    {
        int from = Done, to = Math.Min(Samples, from + PointsPerBatch), next = from;
        Parallel.For(0, _workers.Length, new() { MaxDegreeOfParallelism = _workers.Length }, worker =>
        {
            double[] inputs = new double[_inputs.Length];
            for (int point = Interlocked.Increment(ref next) - 1; point < to; point = Interlocked.Increment(ref next) - 1)
            {
                Work(point, inputs, _workers[worker]);
            }
        });
        Done = to;
    }

    /// <summary>The report on what was worked out so far.</summary>
    public SharedReport Report() => new(_seed, Done, [.. _frames.Select(Bands)], [.. Pairs()], SpreadWords.Of(_inputs));

    private void Work(int point, double[] inputs, FrameWorker[] workers)
    {
        for (int i = 0; i < inputs.Length; i++)
        {
            inputs[i] = _inputs[i].Spread.Quantile(_sequence.At(point, i));
        }

        for (int f = 0; f < workers.Length; f++)
        {
            VariantResult result = workers[f].Assess(inputs);
            _status[f, point] = result.Status;
            for (int o = 0; o < _outputs.Length; o++)
            {
                _values[f, o, point] = _outputs[o].Read(result) ?? double.NaN;
            }
        }
    }

    private FrameBands Bands(string frame, int f)
    {
        FrameStatus[] ends = [.. Enumerable.Range(0, Done).Select(p => _status[f, p])];
        return new(frame, [.. _outputs.Select((o, i) => Band(o, f, i))],
            ends.Count(s => s is FrameStatus.Mechanism or FrameStatus.Invalid), ends.Count(s => s == FrameStatus.OutOfRange));
    }

    private UncertainResult Band(StudyOutput output, int f, int o)
    {
        double[] sorted = [.. Enumerable.Range(0, Done).Select(p => _values[f, o, p]).Where(double.IsFinite)];
        Array.Sort(sorted);
        double? At(double share) => sorted.Length == 0 ? null : Quantiles.OfSorted(sorted, share);
        return new(output.Name, output.Read(_nominal[f]), At(0.5), At(0.05), At(0.95), sorted.Length, Done - sorted.Length);
    }

    private IEnumerable<FramePair> Pairs() =>
        from f in Enumerable.Range(0, _frames.Length)
        from g in Enumerable.Range(0, _frames.Length)
        where f != g
        select new FramePair(_frames[f], _frames[g], [.. _ranked.Select(r => Stiffer(f, g, r))]);

    private StifferProbability Stiffer(int f, int g, RankedStiffness ranked)
    {
        long pairs = 0, stiffer = 0;
        for (int p = 0; p < Done; p++)
        {
            double one = ranked.Least(o => _values[f, o, p]), other = ranked.Least(o => _values[g, o, p]);
            if (double.IsFinite(one) && double.IsFinite(other))
            {
                pairs++;
                stiffer += one > other ? 1 : 0;
            }
        }

        return RankedStiffness.Share(ranked.Name, (stiffer, pairs));
    }

    private static ImmutableArray<StudyInput> InputsOf(Case value, ImmutableArray<string> frames)
    {
        Assessor assessor = new(value);
        return DefaultInputs.Of(value, [.. frames.Select(id => assessor.PartsOf(value.Frames.First(f => f.Id == id)))]);
    }
}
