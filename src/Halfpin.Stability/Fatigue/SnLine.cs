using Halfpin.Domain.Materials;

namespace Halfpin.Stability.Fatigue;

/// <summary>
/// Strength of a material against repeated stress: straight in log stress over log steps, from nine tenths of the tensile strength at a
/// thousand steps to the fatigue limit at ten million, level beyond. A material without a tensile strength is level at its limit throughout.
/// </summary>
/// <remarks>
/// Nine tenths at a thousand steps: usual in textbooks of machine design, MEMORY hi. The level part beyond ten million does not hold in
/// corrosive surroundings for ever (saline lowers the limit by 10–30 %, MEMORY lo), which the scatter covers.
/// </remarks>
public static class SnLine
{
    /// <summary>Steps at which the sloping part begins.</summary>
    public const double FirstSteps = 1e3;

    /// <summary>Steps from which the fatigue limit holds.</summary>
    public const double LimitSteps = 1e7;

    /// <summary>Weak end of the scatter as a share of the line: 180 of 180–450 MPa about 300. MEMORY mid for steel, ASSUMED alike for others.</summary>
    public const double WeakShare = 0.6;

    /// <summary>Strong end of the scatter as a share of the line: 450 over 300.</summary>
    public const double StrongShare = 1.5;

    private const double ShareAtFirstSteps = 0.9;

    /// <summary>Stress that a material endures for a number of steps, MPa. The material must have a fatigue limit.</summary>
    public static double StrengthMPa(Material material, double steps)
    {
        double limit = LimitOf(material);
        if (material.TensileStrengthMPa is not double tensile || steps >= LimitSteps)
        {
            return limit;
        }

        double first = ShareAtFirstSteps * tensile;
        return steps <= FirstSteps ? first : first * Math.Pow(steps / FirstSteps, Math.Log(limit / first) / Math.Log(LimitSteps / FirstSteps));
    }

    /// <summary>Steps that a material endures a stress; null from ten million on, 0 below a thousand.</summary>
    public static double? StepsAt(Material material, double stressMPa)
    {
        double limit = LimitOf(material);
        if (stressMPa <= limit)
        {
            return null;
        }

        double first = ShareAtFirstSteps * (material.TensileStrengthMPa ?? 0);
        return stressMPa >= first ? 0 : FirstSteps * Math.Pow(LimitSteps / FirstSteps, Math.Log(stressMPa / first) / Math.Log(limit / first));
    }

    private static double LimitOf(Material material) =>
        material.FatigueLimitMPa ?? throw new ArgumentException($"Material {material.Id} has no fatigue limit.", nameof(material));
}
