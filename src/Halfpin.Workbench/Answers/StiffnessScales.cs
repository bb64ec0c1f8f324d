using Halfpin.Domain.Assessments;

namespace Halfpin.Workbench.Answers;

/// <summary>Ends of the four bars, so that frames are seen to one scale.</summary>
/// <param name="Axial">N/mm.</param>
/// <param name="Ap">N·m/deg.</param>
/// <param name="Ml">N·m/deg.</param>
/// <param name="Torsion">N·m/deg.</param>
public sealed record StiffnessScales(double Axial, double Ap, double Ml, double Torsion)
{
    private const double Room = 1.15;

    /// <summary>Scales that hold every frame given, with some room to grow.</summary>
    public static StiffnessScales Of(IEnumerable<FrameAssessment> frames)
    {
        FourStiffnesses[] all = [.. frames.Where(f => f.Stiffness is not null).Select(f => f.Stiffness!.AtFracture)];
        double Most(Func<FourStiffnesses, double> of) => Nice(Room * all.Select(of).DefaultIfEmpty(1).Max());
        return new(Most(s => s.AxialNPerMm), Most(s => s.ApBendingNmPerDeg), Most(s => s.MlBendingNmPerDeg), Most(s => s.TorsionNmPerDeg));
    }

    // The next of a few round numbers.
    private static double Nice(double value)
    {
        double step = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(value, 0.01))));
        return step * new[] { 1, 1.5, 2, 3, 4, 5, 6, 8, 10 }.First(s => s * step >= value * (1 - 1e-9));
    }
}
