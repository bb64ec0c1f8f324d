using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;

namespace Halfpin.Stability.Dynamisation;

/// <summary>Whether what was seen of fracture and pins speaks against making a frame yield.</summary>
internal static class DynamisationGate
{
    private const string Source =
        "Axially stable with ends in contact, no bone loss, callus recorded, pins calm: common practice, no source. In rats a softer frame was better from week 3–4 and worse in week 1 (READ)";

    public static Check Of(Progress p)
    {
        string[] against = [.. new (bool Bad, string What)[]
        {
            (p.EndsInContact == false, "the bone ends are not in contact"),
            (p.BoneLoss == true, "bone is missing"),
            (p.CallusSeen == false, "no callus is seen"),
            (p.PinSites == PinSiteState.Infected, "pin sites are infected"),
        }.Where(c => c.Bad).Select(c => c.What)];
        if (against.Length > 0)
        {
            return New(Verdict.Fail, $"Not yet: {string.Join(", ", against)}.", "Keep the frame as it is until this has changed.");
        }

        string[] open = [.. new (bool Open, string What)[]
        {
            (p.EndsInContact is null, "contact of the bone ends is not recorded"),
            (p.BoneLoss is null, "bone loss is not recorded"),
            (p.CallusSeen is null, "callus is not recorded"),
            (p.PinSites is null, "pin sites are not recorded"),
            (p.PinSites == PinSiteState.Irritated, "pin sites are irritated"),
        }.Where(c => c.Open).Select(c => c.What)];
        return open.Length > 0
            ? New(Verdict.Caution, $"Before any stage: {string.Join(", ", open)}.", "Look, and record in the case what was seen (its progress).")
            : New(Verdict.Pass, "Nothing that was recorded speaks against a stage. Whether and when remain the surgeon's decision.", "");
    }

    private static Check New(Verdict verdict, string message, string cure) => new("dynamisation-gate", verdict, message, cure, Source, "MEMORY");
}
