using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Studies.Indices;

namespace Halfpin.Studies.Engine;

/// <summary>A stiffness by which frames are ranked: that at the fracture, or of several at the one where the frame is least stiff.</summary>
/// <param name="Name">The quantity.</param>
/// <param name="Outputs">Numbers of the outputs that are this quantity, one for each fracture.</param>
internal sealed record RankedStiffness(string Name, ImmutableArray<int> Outputs)
{
    /// <summary>The stiffnesses among the outputs of a study.</summary>
    public static ImmutableArray<RankedStiffness> Of(ImmutableArray<StudyOutput> outputs) =>
    [
        .. Enumerable.Range(0, outputs.Length).Where(o => outputs[o].IsStiffness)
            .GroupBy(o => ResultNames.Read(outputs[o].Name).Quantity, (name, at) => new RankedStiffness(name, [.. at])),
    ];

    /// <summary>How likely a frame is the stiffer one; without samples that have both there is no share.</summary>
    /// <param name="name">The quantity.</param>
    /// <param name="counted">Samples in which it is stiffer, of those with both.</param>
    public static StifferProbability Share(string name, (long Stiffer, long Pairs) counted)
    {
        if (counted.Pairs == 0)
        {
            return new(name, null, null, null, 0);
        }

        (double low, double high) = Quantiles.ShareInterval(counted.Stiffer, counted.Pairs);
        return new(name, (double)counted.Stiffer / counted.Pairs, low, high, counted.Pairs);
    }

    /// <summary>The least of the values of its outputs; not a number when one is missing.</summary>
    /// <param name="values">Value of an output by its number.</param>
    public double Least(Func<int, double> values)
    {
        double least = double.PositiveInfinity;
        foreach (int output in Outputs)
        {
            least = Math.Min(least, values(output));
        }

        return least;
    }
}
