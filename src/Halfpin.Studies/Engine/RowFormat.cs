using System.Buffers.Binary;
using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Stability.Variants;

namespace Halfpin.Studies.Engine;

/// <summary>What is kept of each row of a study: numbers, status and verdicts, of fixed size so that a file of them is read from any row on.</summary>
/// <param name="Outputs">Names and readings of the numbers.</param>
/// <param name="Checks">Rules whose verdicts are kept.</param>
public sealed record RowFormat(ImmutableArray<StudyOutput> Outputs, ImmutableArray<string> Checks)
{
    /// <summary>Bytes of a row.</summary>
    public int Bytes => (8 * Outputs.Length) + 1 + Checks.Length;

    /// <summary>Writes results as rows.</summary>
    public byte[] Write(ReadOnlySpan<VariantResult> results)
    {
        byte[] bytes = new byte[results.Length * Bytes];
        for (int r = 0; r < results.Length; r++)
        {
            Span<byte> row = bytes.AsSpan(r * Bytes, Bytes);
            for (int o = 0; o < Outputs.Length; o++)
            {
                BinaryPrimitives.WriteDoubleLittleEndian(row[(8 * o)..], Outputs[o].Read(results[r]) ?? double.NaN);
            }

            row[8 * Outputs.Length] = (byte)results[r].Status;
            foreach (CheckVerdict verdict in results[r].Verdicts)
            {
                int at = Checks.IndexOf(verdict.Check);
                if (at < 0)
                {
                    throw new InvalidOperationException($"No place for the rule {verdict.Check}.");
                }

                row[(8 * Outputs.Length) + 1 + at] = (byte)(verdict.Verdict + 1);
            }
        }

        return bytes;
    }

    /// <summary>A number of a row; not a number when the row has none.</summary>
    public static double Number(ReadOnlySpan<byte> row, int output) => BinaryPrimitives.ReadDoubleLittleEndian(row[(8 * output)..]);

    /// <summary>The status of a row.</summary>
    public FrameStatus Status(ReadOnlySpan<byte> row) => (FrameStatus)row[8 * Outputs.Length];

    /// <summary>The verdict of a rule; null when it does not apply.</summary>
    public Verdict? Verdict(ReadOnlySpan<byte> row, int check) => row[(8 * Outputs.Length) + 1 + check] is byte code and > 0 ? (Verdict)(code - 1) : null;
}
