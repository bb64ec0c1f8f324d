using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Placement;
using Halfpin.Placement.Checks;

namespace Halfpin.Workbench.Fields;

/// <summary>The cautions of placement that a case may accept: those its frames have now, and those it accepts already.</summary>
public static class PlacementCautions
{
    /// <summary>The rules, each once, named and with what one frame's check says.</summary>
    public static ImmutableArray<FieldChoice> Of(Case value)
    {
        BoneShape bone = BoneShape.For(value.Limb);
        Dictionary<string, string> found = value.Requirements.AcceptCautions.ToDictionary(id => id, id => id);
        foreach (Check check in value.Frames.SelectMany(f => PlacementChecks.Of(PlacedFrame.Of(value, f.Parts ?? ConstructBuilder.Build(f.Construct!, value.Fractures), bone))))
        {
            if (check.Verdict == Verdict.Caution && found.GetValueOrDefault(check.Id, check.Id) == check.Id)
            {
                found[check.Id] = $"{check.Id}: {check.Message}";
            }
        }

        return [.. found.Select(f => new FieldChoice(f.Key, f.Value))];
    }
}
