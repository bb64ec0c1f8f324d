using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Checks;

/// <summary>What the construct itself gives away: pins that carry nothing, thread of unknown core, a direction much weaker than the rest.</summary>
internal static class ConstructChecks
{
    // ASSUMED: below this ratio the weak direction decides what the frame is good for.
    private const double UnevenRatio = 1.0 / 3;

    /// <summary>The verdicts alone, the worst of each rule.</summary>
    public static void Judge(CheckInput input, List<CheckVerdict> verdicts)
    {
        bool unclamped = false, coreless = false, lone = false;
        for (int p = 0; p < input.Data.Pins.Length; p++)
        {
            unclamped |= !IsClamped(input.Data, p);
            coreless |= input.Data.Pins[p].CoreDiameterMm is null;
        }

        for (int fragment = 0; input.Data.Fragments > 2 && fragment < input.Data.Fragments; fragment++)
        {
            lone |= LonePin(input.Data, fragment) is not null;
        }

        if (unclamped)
        {
            verdicts.Add(new("unclamped-pin", Verdict.Caution));
        }

        if (lone)
        {
            verdicts.Add(new("one-pin-fragment", Verdict.Caution));
        }

        if (coreless)
        {
            verdicts.Add(new("thread-core", Verdict.Caution));
        }

        if (input.Frame.BendingRose is BendingRose rose)
        {
            verdicts.Add(new("weak-direction", Evenness(rose)));
        }
    }

    public static IEnumerable<Check> Of(CheckInput input)
    {
        ImmutableArray<Pin> pins = input.Data.Pins;
        for (int p = 0; p < pins.Length; p++)
        {
            if (!IsClamped(input.Data, p))
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
            yield return new("weak-direction", Evenness(rose),
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
            if (LonePin(input.Data, fragment) is int lone)
            {
                string pin = input.Data.Pins[lone].Id, name = input.Data.FragmentWords(fragment);
                yield return new("one-pin-fragment", Verdict.Caution,
                    $"The {name} hangs on pin {pin} alone: that it does not turn about {pin} rests on the thread's grip in bone.",
                    $"Add a second pin to the {name}.", "The grip about a pin is the model's foundation, for which no test was found", "ASSUMED");
            }
        }
    }

    private static Verdict Evenness(BendingRose rose) => rose.WeakNmPerDeg / rose.StrongNmPerDeg < UnevenRatio ? Verdict.Caution : Verdict.Pass;

    private static bool IsClamped(FrameData data, int pin)
    {
        foreach (ClampData clamp in data.Clamps)
        {
            if (clamp.Pin == pin && clamp.State != ClampState.Off)
            {
                return true;
            }
        }

        return false;
    }

    // The only clamped pin of a fragment; null for none or several.
    private static int? LonePin(FrameData data, int fragment)
    {
        int? lone = null;
        for (int p = 0; p < data.Pins.Length; p++)
        {
            if (data.FragmentOf(p) == fragment && IsClamped(data, p))
            {
                if (lone is not null)
                {
                    return null;
                }

                lone = p;
            }
        }

        return lone;
    }
}
