namespace Halfpin.Studies.Sampling;

/// <summary>
/// The rows of a study of variance: for each base point a row A, a row B, and for each input a row of A with that input from B.
/// Saltelli et al., Computer Physics Communications 181 (2010) 259 (MEMORY hi).
/// </summary>
/// <remarks>A and B are the first and last coordinates of one scrambled Sobol' sequence of twice as many dimensions.</remarks>
public sealed class SaltelliDesign
{
    /// <summary>Most inputs: the sequence has twice as many dimensions.</summary>
    public const int MaxInputs = SobolSequence.MaxDimensions / 2;

    private readonly SobolSequence _sequence;

    /// <summary>A design for a number of inputs.</summary>
    public SaltelliDesign(int inputs, ulong seed)
    {
        Inputs = inputs;
        _sequence = SobolSequence.Scrambled(2 * inputs, seed);
    }

    /// <summary>Number of inputs.</summary>
    public int Inputs { get; }

    /// <summary>Rows of each base point.</summary>
    public int RowsPerPoint => Inputs + 2;

    /// <summary>A coordinate of a row, in (0, 1).</summary>
    /// <param name="basePoint">Number of the base point.</param>
    /// <param name="role">0 for A, 1 for B, 2 + i for A with input i from B.</param>
    /// <param name="input">The input asked for.</param>
    public double At(long basePoint, int role, int input) =>
        _sequence.At(basePoint, role == 1 || role == input + 2 ? Inputs + input : input);
}
