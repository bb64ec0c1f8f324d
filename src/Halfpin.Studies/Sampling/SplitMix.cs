namespace Halfpin.Studies.Sampling;

/// <summary>
/// A small random generator with the same bits on every machine: SplitMix64 (Steele, Lea and Flood, Fast splittable pseudorandom number
/// generators, OOPSLA 2014; MEMORY).
/// </summary>
public struct SplitMix
{
    private ulong _state;

    /// <summary>A generator for a seed and a stream of it.</summary>
    public SplitMix(ulong seed, ulong stream)
    {
        _state = seed;
        _state = Next() ^ (stream * 0xD1B54A32D192ED03UL);
    }

    /// <summary>The next 64 bits.</summary>
    public ulong Next()
    {
        ulong z = _state += 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }

    /// <summary>A whole number below a bound.</summary>
    public int Below(int bound) => (int)(((Next() >> 32) * (ulong)bound) >> 32);

    /// <summary>A number in (0, 1).</summary>
    public double Unit() => ((Next() >> 11) + 0.5) / (1UL << 53);
}
