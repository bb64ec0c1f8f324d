using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;

namespace Halfpin.Stability.Checks;

/// <summary>What the construct itself gives away: pins that carry nothing, thread of unknown core, a direction much weaker than the rest.</summary>
internal static class ConstructChecks
{
    // ASSUMED: below this ratio the weak direction decides what the frame is good for.
    private const double UnevenRatio = 1.0 / 3;

    public static IEnumerable<Check> Of(CheckInput input)
    {
        Pin[] pins = input.Data.Pins.ToArray();
        for (int p = 0; p < pins.Length; p++)
        {
            if (!input.Data.Clamps.ToArray().Any(c => c.Pin == p && c.State != ClampState.Off))
            {
                yield return new("unclamped-pin", Verdict.Caution, $"Pin {pins[p].Id} is held by no clamp and carries nothing.",
                    $"Clamp {pins[p].Id} to a rod or leave it out.", "Equilibrium", "DERIVED");
            }
        }

        foreach (Check lone in LonePins(input))
        {
            yield return lone;
        }

        if (pins.Any(p => p.CoreDiameterMm is null))
        {
            yield return new("thread-core", Verdict.Caution,
                "No core diameter is given: thread in bone is judged at the shank's diameter. A core of 84 % of it would raise bending stress by 69 %.",
                "Give coreDiameterMm and threadLengthMm of the pins.", "Bending stress of a round goes with 1/d³", "DERIVED");
        }

        if (input.Frame.BendingRose is BendingRose rose)
        {
            double ratio = rose.WeakNmPerDeg / rose.StrongNmPerDeg;
            yield return new("weak-direction", ratio < UnevenRatio ? Verdict.Caution : Verdict.Pass,
                $"Weakest in bending in the plane at {CheckInput.Text(rose.WeakAzimuthDeg, "0")}°: {CheckInput.Text(rose.WeakNmPerDeg, "0.0")} N·m/deg, {CheckInput.Percent(ratio)} of the strongest.",
                ratio < UnevenRatio ? "Add a second plane; a second rod in the same plane hardly helps." : "",
                "One-plane frames are weak across their pins (McCoy, Chao, Kasman, CORR 1983, authors MEMORY); threshold ours", "ASSUMED");
        }
    }

    // With several fractures, a fragment that one pin holds can turn about it but for what the thread grips.
    private static IEnumerable<Check> LonePins(CheckInput input)
    {
        for (int fragment = 0; input.Data.Fragments > 2 && fragment < input.Data.Fragments; fragment++)
        {
            int[] holding = [.. Enumerable.Range(0, input.Data.Pins.Length).Where(p =>
                input.Data.FragmentOf(p) == fragment && input.Data.Clamps.ToArray().Any(c => c.Pin == p && c.State != ClampState.Off))];
            if (holding.Length == 1)
            {
                string pin = input.Data.Pins[holding[0]].Id, name = input.Data.FragmentWords(fragment);
                yield return new("one-pin-fragment", Verdict.Caution,
                    $"The {name} hangs on pin {pin} alone: that it does not turn about {pin} rests on the thread's grip in bone.",
                    $"Add a second pin to the {name}.", "The grip about a pin is the model's foundation, for which no test was found", "ASSUMED");
            }
        }
    }
}
