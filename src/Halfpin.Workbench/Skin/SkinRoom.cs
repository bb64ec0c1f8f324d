using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Workbench.Answers;

namespace Halfpin.Workbench.Skin;

/// <summary>What the checks say of one frame's room at the skin.</summary>
/// <param name="Frame">Id of the frame.</param>
/// <param name="Name">Its name.</param>
/// <param name="Checks">The checks of skin, wounds and incisions; empty where the frame could not be judged or the bone has no skin.</param>
public sealed record SkinRoom(string Frame, string Name, ImmutableArray<Check> Checks)
{
    private static readonly string[] _names = ["wound", "wound-access", "incision", "skin-room"];

    /// <summary>The worst of the checks; null without any.</summary>
    public Verdict? Worst => Checks.IsEmpty ? null : Checks.Max(c => c.Verdict);

    /// <summary>The room of every frame of a case.</summary>
    public static ImmutableArray<SkinRoom> Of(Case value, FrameAnswers answers) =>
        [.. value.Frames.Select(f => new SkinRoom(f.Id, f.DisplayName, [.. answers.Assess(value, f).Checks.Where(c => _names.Contains(c.Id)).OrderBy(c => Array.IndexOf(_names, c.Id))]))];

    /// <summary>That in a sentence.</summary>
    public static string Sentence(Case value, ImmutableArray<SkinRoom> rooms)
    {
        if (value.Limb.BoneModel is not AnatomicalBone)
        {
            return "A bench tube has no skin: wounds and incisions are recorded but not judged.";
        }

        string areas = (value.Wounds.Length, value.PlannedIncisions.Length) switch
        {
            (0, 0) => "No wound and no later incision is entered",
            (int w, int p) => $"{Count(w, "wound", "wounds")} and {Count(p, "planned incision", "planned incisions")}",
        };
        int clear = rooms.Count(r => r.Worst == Verdict.Pass);
        string[] kept = ["skin", .. value.Wounds.IsEmpty ? Array.Empty<string>() : ["wounds"], .. value.PlannedIncisions.IsEmpty ? Array.Empty<string>() : ["incisions"]];
        string clearOf = kept.Length == 1 ? kept[0] : $"{string.Join(", ", kept[..^1])} and {kept[^1]}";
        return $"{areas}: {Count(clear, "frame", "frames")} of {rooms.Length.ToString(System.Globalization.CultureInfo.InvariantCulture)} {(clear == 1 ? "keeps" : "keep")} clear of {clearOf} without a caution.";
    }

    private static string Count(int n, string one, string many) => n == 0 ? $"no {many}" : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{n} {(n == 1 ? one : many)}");
}
