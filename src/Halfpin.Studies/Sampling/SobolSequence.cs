using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;

namespace Halfpin.Studies.Sampling;

/// <summary>Points that fill the unit cube evenly: Sobol' sequence, plain or scrambled. Immutable; any point by its number, so threads share it.</summary>
/// <remarks>
/// Direction numbers: S. Joe and F. Y. Kuo, Constructing Sobol sequences with better two-dimensional projections, SIAM J. Sci. Comput. 30 (2008)
/// 2635–2654, their public table for criterion D(6), first 512 dimensions. Points in the order of the Gray code. Scrambling: a random lower
/// triangular binary matrix on each dimension's digits and a random digital shift (Matoušek, On the L2-discrepancy for anchored boxes, J. Complexity
/// 14 (1998) 527; MEMORY), which keeps the net's evenness and makes estimates unbiased.
/// </remarks>
public sealed class SobolSequence
{
    /// <summary>Most dimensions.</summary>
    public const int MaxDimensions = 512;

    private const int Bits = 32;

    private static readonly Lazy<ImmutableArray<uint[]>> _directions = new(Read);

    private readonly uint[][] _direction;
    private readonly uint[] _shift;

    private SobolSequence(uint[][] direction, uint[] shift)
    {
        (_direction, _shift) = (direction, shift);
    }

    /// <summary>Number of dimensions.</summary>
    public int Dimensions => _direction.Length;

    /// <summary>The sequence as published, its first point at the origin.</summary>
    public static SobolSequence Plain(int dimensions) => new([.. _directions.Value.Take(dimensions)], new uint[dimensions]);

    /// <summary>A scrambled sequence: each seed gives another, the same one always.</summary>
    public static SobolSequence Scrambled(int dimensions, ulong seed)
    {
        uint[][] direction = new uint[dimensions][];
        uint[] shift = new uint[dimensions];
        for (int d = 0; d < dimensions; d++)
        {
            SplitMix random = new(seed, (ulong)d + 1);
            direction[d] = Scramble(_directions.Value[d], ref random);
            shift[d] = (uint)(random.Next() >> 32);
        }

        return new(direction, shift);
    }

    /// <summary>A coordinate of a point, in [0, 1); the middle of its cell when scrambled, so in (0, 1).</summary>
    /// <param name="point">Number of the point, from 0.</param>
    /// <param name="dimension">The dimension, from 0.</param>
    public double At(long point, int dimension)
    {
        if (point >> Bits != 0)
        {
            throw new ArgumentOutOfRangeException(nameof(point), point, "The sequence has 2^32 points.");
        }

        ulong gray = (ulong)point ^ ((ulong)point >> 1);
        uint x = _shift[dimension];
        uint[] v = _direction[dimension];
        while (gray != 0)
        {
            x ^= v[BitOperations.TrailingZeroCount(gray)];
            gray &= gray - 1;
        }

        return (x + (_shift[dimension] == 0 ? 0 : 0.5)) / (1UL << Bits);
    }

    // Digit i of the result is digit i of v and a random sum of those before it.
    private static uint[] Scramble(uint[] v, ref SplitMix random)
    {
        uint[] rows = new uint[Bits];
        for (int i = 0; i < Bits; i++)
        {
            uint diagonal = 1u << (Bits - 1 - i), before = i == 0 ? 0 : ~0u << (Bits - i);
            rows[i] = diagonal | ((uint)(random.Next() >> 32) & before);
        }

        uint[] scrambled = new uint[Bits];
        for (int k = 0; k < Bits; k++)
        {
            for (int i = 0; i < Bits; i++)
            {
                scrambled[k] |= (uint)(BitOperations.PopCount(rows[i] & v[k]) & 1) << (Bits - 1 - i);
            }
        }

        return scrambled;
    }

    // Each line: degree and coefficients of a primitive polynomial, then its initial numbers; the first dimension has none.
    private static ImmutableArray<uint[]> Read()
    {
        using StreamReader reader = new(typeof(SobolSequence).Assembly.GetManifestResourceStream("joe-kuo-6.txt")!);
        List<uint[]> all = [[.. Enumerable.Range(0, Bits).Select(k => 1u << (Bits - 1 - k))]];
        while (reader.ReadLine() is string line)
        {
            uint[] n = [.. line.Split(' ').Select(w => uint.Parse(w, CultureInfo.InvariantCulture))];
            all.Add(Directions((int)n[0], n[1], n[2..]));
        }

        return [.. all];
    }

    private static uint[] Directions(int degree, uint coefficients, uint[] first)
    {
        uint[] v = new uint[Bits];
        for (int k = 0; k < Bits; k++)
        {
            if (k < degree)
            {
                v[k] = first[k] << (Bits - 1 - k);
                continue;
            }

            v[k] = v[k - degree] ^ (v[k - degree] >> degree);
            for (int j = 1; j < degree; j++)
            {
                v[k] ^= ((coefficients >> (degree - 1 - j)) & 1) * v[k - j];
            }
        }

        return v;
    }
}
