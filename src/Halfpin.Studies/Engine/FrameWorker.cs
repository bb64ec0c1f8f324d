using Halfpin.Domain.Assessments;
using Halfpin.Stability.Variants;
using Halfpin.Studies.Inputs;

namespace Halfpin.Studies.Engine;

/// <summary>Assesses one variant of a frame after another; what cannot be assessed is a result that says why. A workspace for one thread.</summary>
/// <param name="builder">Makes the variants; may be shared.</param>
internal sealed class FrameWorker(VariantBuilder builder)
{
    private VariantAssessor _assessor = new();

    /// <summary>The result of the inputs' values.</summary>
    public VariantResult Assess(ReadOnlySpan<double> values)
    {
        try
        {
            return builder.Build(values) switch
            {
                (FrameVariant variant, _) => _assessor.Assess(variant),
                (_, string reason) => Invalid(reason),
                _ => Invalid("Nothing was built."),
            };
        }
        catch (Exception e) when (e is ArgumentException or ArithmeticException or InvalidOperationException or IndexOutOfRangeException)
        {
            _assessor = new(); // What an analysis left half done must not reach the next row.
            return Invalid($"The program could not assess it: {e.Message}");
        }
    }

    private static VariantResult Invalid(string reason) => new() { Status = FrameStatus.Invalid, Reason = reason };
}
