using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;

namespace Halfpin.Stability.Checks;

/// <summary>How the fracture moves: alignment, amount of motion, strain of the gap, shear.</summary>
internal static class MovementChecks
{
    // Alignment that a reduced tibial shaft should keep, adult. READ: Wheeless' Textbook of Orthopaedics, tibial shaft. That they
    // hold for motion under load is our choice.
    private const double MaxTiltDeg = 5;
    private const double MaxTwistDeg = 10;
    private const double MaxShorteningMm = 10;
    private const string AlignmentSource =
        "Limits of reduction (varus or valgus 5°, rotation 10°, shortening 10 mm: Wheeless' Textbook of Orthopaedics, READ), used here for motion under load";

    // Motion that a definitive frame should allow. MEMORY hi: consensus range.
    private const double LeastUsefulMm = 0.2;
    private const double MostUsefulMm = 1.0;

    // ASSUMED: motion that a temporary frame should not exceed once it is overloaded.
    private const double MostTemporaryMm = 5;

    // Perren's bands of what tissue stands a strain. READ on a secondary page.
    private const double MostForBonePercent = 2, MostForFibrocartilagePercent = 10, MostForGranulationPercent = 100;

    // Shear that healed worse than axial motion of the same size in sheep. MEMORY mid: Augat et al., J Orthop Res 2003.
    private const double HarmfulShearMm = 1.5;

    /// <summary>The checks of a frame's fracture; of several, each check of the one that fares worst in it.</summary>
    public static IEnumerable<Check> Of(CheckInput input)
    {
        int fractures = input.Case.Fractures.Length;
        return fractures == 1
            ? At(input, 0).Select(c => c.Check)
            : Enumerable.Range(0, fractures).SelectMany(f => At(input, f).Select(c => (Check: c.Check with { Message = $"Fracture {f + 1}: {c.Check.Message}" }, c.Size)))
                .GroupBy(c => c.Check.Id).Select(same => same.OrderByDescending(c => c.Check.Verdict).ThenByDescending(c => c.Size).First().Check);
    }

    /// <summary>The verdicts alone, of several fractures the worst.</summary>
    public static void Judge(CheckInput input, List<CheckVerdict> verdicts)
    {
        (Verdict? alignment, Verdict? amount, Verdict? strain, Verdict? shear) = (null, null, null, null);
        for (int f = 0; f < input.Case.Fractures.Length; f++)
        {
            FractureMotion? chosen = input.HasChosenLoad ? input.Loaded.MotionAt(f) : null, overload = input.Loaded.OverloadMotionAt(f);
            if ((overload ?? chosen) is not FractureMotion most)
            {
                continue;
            }

            alignment = Worse(alignment, JudgeAlignment(most));
            amount = Worse(amount, input.Case.Purpose == Purpose.Definitive ? JudgeForHealing(chosen) : JudgeTemporary(chosen, overload));
            strain = chosen?.StrainPercent is double percent ? Worse(strain, JudgeStrain(input, percent)) : strain;
            shear = Worse(shear, JudgeShear(chosen, most));
        }

        Add(verdicts, "alignment", alignment);
        Add(verdicts, "axial-motion", amount);
        Add(verdicts, "gap-strain", strain);
        Add(verdicts, "shear", shear);
    }

    private static Verdict Worse(Verdict? a, Verdict b) => a > b ? a.Value : b;

    private static void Add(List<CheckVerdict> verdicts, string id, Verdict? verdict)
    {
        if (verdict is Verdict judged)
        {
            verdicts.Add(new(id, judged));
        }
    }

    // Each check with the size of what it judges.
    private static IEnumerable<(Check Check, double Size)> At(CheckInput input, int fracture)
    {
        FractureMotion? chosen = input.HasChosenLoad ? input.Loaded.MotionAt(fracture) : null, overload = input.Loaded.OverloadMotionAt(fracture);
        if ((overload ?? chosen) is not FractureMotion most)
        {
            yield break;
        }

        yield return (Alignment(input, most), most.TiltDeg);
        yield return (Amount(input, fracture, chosen, overload), Math.Abs(most.AxialMm));
        if (chosen?.StrainPercent is double strain)
        {
            yield return (Strain(input, strain), strain);
        }

        yield return (Shear(input, fracture, chosen, most), most.ShearMm);
    }

    private static Verdict JudgeAlignment(FractureMotion most) =>
        most.TiltDeg < MaxTiltDeg && Math.Abs(most.TwistDeg) < MaxTwistDeg && -most.AxialMm < MaxShorteningMm ? Verdict.Pass : Verdict.Fail;

    private static Check Alignment(CheckInput input, FractureMotion most)
    {
        bool kept = JudgeAlignment(most) == Verdict.Pass;
        string at = input.Loaded.OverloadMotion is null ? input.ChosenWords : input.OverloadWords;
        return new("alignment", kept ? Verdict.Pass : Verdict.Fail,
            $"At {at} the fracture tilts {CheckInput.Text(most.TiltDeg, "0.0")}°, twists {CheckInput.Text(Math.Abs(most.TwistDeg), "0.0")}° and shortens {CheckInput.Text(-most.AxialMm, "0.0")} mm while loaded.",
            kept ? "" : "Bring the rod closer, add a pin or a second plane, or keep the load down.", AlignmentSource, "ASSUMED");
    }

    private static Check Amount(CheckInput input, int fracture, FractureMotion? chosen, FractureMotion? overload)
    {
        string axial = string.Join(", ", new[]
        {
            chosen is null ? null : $"{CheckInput.Text(Math.Abs(chosen.AxialMm))} mm at {input.ChosenWords}{Band(input, fracture, chosen)}",
            overload is null ? null : $"{CheckInput.Text(Math.Abs(overload.AxialMm), "0.0")} mm at {input.OverloadWords}",
        }.OfType<string>());
        return input.Case.Purpose == Purpose.Definitive
            ? ForHealing(axial, chosen)
            : WhileTemporary(axial, chosen, overload);
    }

    private static Verdict JudgeForHealing(FractureMotion? chosen) =>
        chosen is null || Math.Abs(chosen.AxialMm) is >= LeastUsefulMm and <= MostUsefulMm ? Verdict.Pass : Verdict.Caution;

    private static Check ForHealing(string axial, FractureMotion? chosen)
    {
        bool wanted = JudgeForHealing(chosen) == Verdict.Pass;
        string cure = wanted ? "" : Math.Abs(chosen!.AxialMm) < LeastUsefulMm
            ? "Let the frame yield more (dynamise, move the rod out) once healing is under way."
            : "Stiffen the frame along the bone or keep the load down.";
        return new("axial-motion", wanted ? Verdict.Pass : Verdict.Caution,
            $"Axial motion {axial}; {LeastUsefulMm}–{MostUsefulMm} mm is usually wanted for healing.", cure, "Consensus range of interfragmentary motion", "MEMORY");
    }

    private static Verdict JudgeTemporary(FractureMotion? chosen, FractureMotion? overload) =>
        Math.Abs(chosen?.AxialMm ?? 0) <= MostUsefulMm && Math.Abs(overload?.AxialMm ?? 0) <= MostTemporaryMm && overload is not { EndsTouch: true } ? Verdict.Pass : Verdict.Caution;

    private static Check WhileTemporary(string axial, FractureMotion? chosen, FractureMotion? overload)
    {
        bool little = JudgeTemporary(chosen, overload) == Verdict.Pass;
        string touch = overload is { EndsTouch: true } ? "; the overload brings the bone ends together" : "";
        return new("axial-motion", little ? Verdict.Pass : Verdict.Caution, $"Axial motion {axial}{touch}.",
            little ? "" : "Stiffen the frame along the bone or keep load off.",
            "A temporary frame holds until the next step: 1 mm at the chosen load, 5 mm and no touch at the overload", "ASSUMED");
    }

    private static string Band(CheckInput input, int fracture, FractureMotion chosen) =>
        (fracture == 0 ? input.Frame.Band?.AxialMm : input.Ends?.AxialMm(chosen, fracture)) is Interval band
        ? $" ({CheckInput.Text(band.Low)}–{CheckInput.Text(band.High)})"
        : "";

    // What tissue may form matters to a frame that stays; of one that does not, it is told and not judged.
    private static Verdict JudgeStrain(CheckInput input, double strainPercent) =>
        input.Case.Purpose == Purpose.Temporary || strainPercent <= MostForFibrocartilagePercent ? Verdict.Pass : Verdict.Caution;

    private static Check Strain(CheckInput input, double strainPercent)
    {
        string tissue = strainPercent switch
        {
            <= MostForBonePercent => "bone can form",
            <= MostForFibrocartilagePercent => "fibrocartilage can form",
            <= MostForGranulationPercent => "only granulation tissue survives",
            _ => "more than granulation tissue survives",
        };
        Verdict verdict = JudgeStrain(input, strainPercent);
        return new("gap-strain", verdict,
            $"The gap is strained up to {CheckInput.Text(strainPercent, strainPercent < 10 ? "0.#" : "0")} % at {input.ChosenWords}: by the classical bands {tissue} there.",
            verdict == Verdict.Pass ? "" : "Stiffen the frame along the bone or keep load off.",
            "2, 10 and 100 %: Perren's bands (READ on a secondary page); a local and passing limit, since 8 sheep healed at a mean of 51 % (READ)", "READ");
    }

    private static Verdict JudgeShear(FractureMotion? chosen, FractureMotion most) =>
        Math.Max(chosen?.ShearMm ?? 0, most.ShearMm) > HarmfulShearMm ? Verdict.Caution : Verdict.Pass;

    private static Check Shear(CheckInput input, int fracture, FractureMotion? chosen, FractureMotion most)
    {
        bool harmful = JudgeShear(chosen, most) != Verdict.Pass;
        double tilt = input.Case.Fractures[fracture].TiltDeg;
        string oblique = tilt > 0 ? $" The plane is tilted {CheckInput.Text(tilt, "0")}°: part of it is axial motion seen along the plane." : "";
        string at = input.Loaded.OverloadMotion is null ? input.ChosenWords : input.OverloadWords;
        string small = chosen is null || ReferenceEquals(chosen, most) ? "" : $"{CheckInput.Text(chosen.ShearMm)} mm at {input.ChosenWords}, ";
        return new("shear", harmful ? Verdict.Caution : Verdict.Pass,
            $"Shear in the fracture plane {small}{CheckInput.Text(most.ShearMm)} mm at {at}.{oblique}",
            harmful ? "Stiffen the frame along the bone, add a second plane, or keep load off." : "",
            "1.5 mm of shear healed worse than axial motion in sheep (Augat et al., J Orthop Res 2003, MEMORY mid), oblique sliding better in rabbits (Park et al., JBJS Am 1998;80:868): flagged, not forbidden",
            "MEMORY");
    }
}
