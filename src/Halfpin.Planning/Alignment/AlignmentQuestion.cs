using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;

namespace Halfpin.Planning.Alignment;

/// <summary>A measurement, and what is to be said about it.</summary>
/// <param name="Measured">What was measured.</param>
/// <param name="Side">Side of the body; null to take the case's, or none.</param>
/// <param name="Case">The case whose frames are to be corrected; null for the deformity by itself.</param>
/// <param name="FrameId">Only this frame; null for all of the case.</param>
/// <param name="Fracture">Number of the deformed fracture, from proximal, from 1.</param>
public sealed record AlignmentQuestion(AlignmentMeasurement Measured, Side? Side, Case? Case, string? FrameId, int Fracture)
{
    /// <summary>Everything that is wrong with it; the pointers are the options that give it.</summary>
    public IEnumerable<Fault> Faults() => MeasurementRules.Check(Measured).Concat(AgainstCase());

    private IEnumerable<Fault> AgainstCase()
    {
        if (Case is null)
        {
            if (FrameId is not null)
            {
                yield return new("--frame", FaultCodes.Reference, "A frame is named, but no case.", "A case with its frames.", "Name the case that has the frame.");
            }

            if (Fracture != 1)
            {
                yield return new("--fracture", FaultCodes.Reference, "A fracture is named, but no case.", "A case with its fractures.", "Name the case, or leave the fracture out.");
            }

            yield break;
        }

        if (Side is Side side && side != Case.Limb.Side)
        {
            yield return new("--side", FaultCodes.Inconsistent, $"The side is given as {Word(side)}; the case has a {Word(Case.Limb.Side)} limb.", Word(Case.Limb.Side), "Leave --side out; the case tells it.");
        }

        if (FrameId is not null && Case.Frames.All(f => f.Id != FrameId))
        {
            yield return new("--frame", FaultCodes.Reference, $"There is no frame \"{FrameId}\".", string.Join(", ", Case.Frames.Select(f => f.Id)), "Name one of the case's frames.");
        }

        if (Fracture < 1 || Fracture > Case.Fractures.Length)
        {
            yield return new("--fracture", FaultCodes.Reference, $"There is no fracture {Fracture}.", $"1 to {Case.Fractures.Length}, from proximal.", "Number the fracture from proximal.");
        }
    }

    private static string Word(Side side) => side == Domain.Cases.Side.Left ? "left" : "right";
}
