using Halfpin.Domain.Assessments;

namespace Halfpin.Stability.Checks;

/// <summary>What the construct itself gives away: pins that carry nothing, a direction much weaker than the rest.</summary>
internal static class ConstructChecks
{
    // ASSUMED: below this ratio the weak direction decides what the frame is good for.
    private const double UnevenRatio = 1.0 / 3;

    public static IEnumerable<Check> Of(CheckInput input)
    {
        for (int p = 0; p < input.Data.Pins.Length; p++)
        {
            if (!input.Data.Clamps.ToArray().Any(c => c.Pin == p && c.State != Domain.Frames.ClampState.Off))
            {
                string id = input.Data.Pins[p].Id;
                yield return new("unclamped-pin", Verdict.Caution, $"Pin {id} is held by no clamp and carries nothing.",
                    $"Clamp {id} to a rod or leave it out.", "Equilibrium", "DERIVED");
            }
        }

        if (input.Frame.BendingRose is BendingRose rose)
        {
            double ratio = rose.WeakNmPerDeg / rose.StrongNmPerDeg;
            yield return new("weak-direction", ratio < UnevenRatio ? Verdict.Caution : Verdict.Pass,
                $"Bending is weakest in the plane at {CheckInput.Text(rose.WeakAzimuthDeg, "0")}°: {CheckInput.Text(rose.WeakNmPerDeg, "0.0")} N·m/deg, {CheckInput.Text(100 * ratio, "0")} % of the strongest.",
                ratio < UnevenRatio ? "Add a second plane; a second rod in the same plane hardly helps." : "",
                "One-plane frames are weak across their pins (McCoy, Chao, Kasman, CORR 1983, authors MEMORY); threshold ours", "ASSUMED");
        }
    }
}
