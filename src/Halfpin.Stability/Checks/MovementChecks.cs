using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;

namespace Halfpin.Stability.Checks;

/// <summary>How the fracture moves: alignment, amount of motion, shear.</summary>
internal static class MovementChecks
{
    // Alignment that a tibial shaft should keep, adult. READ: Wheeless' Textbook of Orthopaedics, tibial shaft.
    private const double MaxTiltDeg = 5;
    private const double MaxTwistDeg = 10;
    private const double MaxShorteningMm = 10;
    private const string AlignmentSource = "Varus or valgus under 5°, rotation under 10°, shortening under 10 mm: Wheeless' Textbook of Orthopaedics";

    // Motion that a definitive frame should allow. MEMORY hi: consensus range.
    private const double LeastUsefulMm = 0.2;
    private const double MostUsefulMm = 1.0;

    public static IEnumerable<Check> Of(CheckInput input)
    {
        if (input.Frame.Motion is not FractureMotion motion || input.Case.Loading == new Loading())
        {
            yield break;
        }

        yield return Alignment(input, motion);
        if (input.Case.Purpose == Purpose.Definitive)
        {
            yield return Amount(motion);
        }

        if (Math.Abs(motion.AxialMm) > 0.01)
        {
            yield return Shear(motion);
        }
    }

    private static Check Alignment(CheckInput input, FractureMotion chosen)
    {
        FractureMotion worst = input.Frame.OverloadMotion ?? chosen;
        string load = $"{CheckInput.Text(worst.LoadN / Loading.NewtonPerKg, "0")} kg";
        bool kept = worst.TiltDeg < MaxTiltDeg && Math.Abs(worst.TwistDeg) < MaxTwistDeg && -worst.AxialMm < MaxShorteningMm;
        string message = $"At {load} the fracture tilts {CheckInput.Text(worst.TiltDeg)}°, twists {CheckInput.Text(Math.Abs(worst.TwistDeg))}° and shortens {CheckInput.Text(-worst.AxialMm)} mm while loaded.";
        return new("alignment", kept ? Verdict.Pass : Verdict.Fail, message,
            kept ? "" : "Bring the rod closer, add a pin or a second plane, or keep the load down.", AlignmentSource, "READ");
    }

    private static Check Amount(FractureMotion motion)
    {
        double axial = Math.Abs(motion.AxialMm);
        Verdict verdict = axial is >= LeastUsefulMm and <= MostUsefulMm ? Verdict.Pass : Verdict.Caution;
        string cure = axial < LeastUsefulMm ? "Let the frame yield more (dynamise, move the rod out) once healing is under way."
            : axial > MostUsefulMm ? "Stiffen the frame or lower the load." : "";
        return new("axial-motion", verdict, $"Axial motion {CheckInput.Text(axial)} mm under the chosen load; {LeastUsefulMm}–{MostUsefulMm} mm is usually wanted for healing.",
            cure, "Consensus range of interfragmentary motion", "MEMORY");
    }

    private static Check Shear(FractureMotion motion)
    {
        double axial = Math.Abs(motion.AxialMm);
        bool more = motion.ShearMm > axial;
        return new("shear", more ? Verdict.Caution : Verdict.Pass,
            $"Shear in the fracture plane {CheckInput.Text(motion.ShearMm)} mm beside {CheckInput.Text(axial)} mm axial.",
            more ? "Add a second plane or bring pins nearer the fracture." : "",
            "Shear of 1.5 mm healed worse than axial motion in sheep (Augat et al., J Orthop Res 2003, MEMORY mid), oblique sliding better in rabbits (Park et al., JBJS Am 1998;80:868): flagged, not forbidden",
            "MEMORY");
    }
}
