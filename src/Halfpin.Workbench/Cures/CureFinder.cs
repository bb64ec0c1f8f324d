using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Halfpin.Stability.Variants;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Handles;

namespace Halfpin.Workbench.Cures;

/// <summary>
/// For each check that a frame does not pass, the smallest change of one value after which it passes, or fails no longer, and no other
/// check is worse. Every change is assessed before it is offered.
/// </summary>
public static class CureFinder
{
    // ASSUMED: how far a value is moved, in steps; a step of a length is a millimetre, of a direction five degrees.
    private const int MostSteps = 60;

    /// <summary>Cures by check.</summary>
    /// <param name="value">A valid case.</param>
    /// <param name="frameId">The frame.</param>
    /// <param name="stop">Ends the search with an exception.</param>
    public static ImmutableDictionary<string, Cure> Of(Case value, string frameId, CancellationToken stop)
    {
        VariantAssessor assessor = new();
        Frame frame = value.Frames.First(f => f.Id == frameId);
        VariantResult now = Assess(assessor, value, frameId);
        Dictionary<string, Verdict> before = now.Verdicts.ToDictionary(v => v.Check, v => v.Verdict);
        HashSet<string> wanted = [.. before.Where(v => v.Value != Verdict.Pass).Select(v => v.Key)];
        Dictionary<string, (Cure Cure, bool Passes)> found = [];
        if (now.Status != FrameStatus.Ok || wanted.Count == 0)
        {
            return ImmutableDictionary<string, Cure>.Empty;
        }

        foreach ((Handle handle, double to) in Changes(value, frameId))
        {
            stop.ThrowIfCancellationRequested();
            if (found.Count == wanted.Count && found.Values.All(f => f.Passes))
            {
                break;
            }

            Case changed = handle.With(value, to);
            if (CaseValidity.Rules.SelectMany(rule => rule(changed)).Any() || Assess(assessor, changed, frameId) is not { Status: FrameStatus.Ok } after)
            {
                continue;
            }

            if (after.Verdicts.Any(v => v.Verdict > before.GetValueOrDefault(v.Check, Verdict.Pass)))
            {
                continue;
            }

            foreach (CheckVerdict better in after.Verdicts.Where(v => wanted.Contains(v.Check) && v.Verdict < before[v.Check]))
            {
                bool passes = better.Verdict == Verdict.Pass;
                if (!found.TryGetValue(better.Check, out (Cure Cure, bool Passes) known) || (passes && !known.Passes))
                {
                    found[better.Check] = (Describe(frame, handle, to, better), passes);
                }
            }
        }

        return found.ToImmutableDictionary(f => f.Key, f => f.Value.Cure);
    }

    // One value at a time, the smallest steps of all values first.
    private static IEnumerable<(Handle Handle, double To)> Changes(Case value, string frameId)
    {
        ImmutableArray<Handle> handles = FrameHandles.Of(value, frameId);
        for (int step = 1; step <= MostSteps; step++)
        {
            foreach (Handle handle in handles)
            {
                foreach (double to in new[] { handle.Value - (step * handle.Step), handle.Value + (step * handle.Step) }.Where(t => t >= handle.Min && t <= handle.Max))
                {
                    yield return (handle, to);
                }
            }
        }
    }

    private static Cure Describe(Frame frame, Handle handle, double to, CheckVerdict better)
    {
        CaseEdit edit = handle.To(frame.DisplayName, to);
        string unit = handle.Unit switch { "" => "", "°" => "°", _ => $" {handle.Unit}" };
        string words = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{handle.Label}: {handle.Value:0.##} to {to:0.##}{unit}");
        return new(better.Check, words, better.Verdict == Verdict.Pass ? "Passes then; no other check is worse." : "A caution is left; no other check is worse.", edit);
    }

    private static VariantResult Assess(VariantAssessor assessor, Case value, string frameId)
    {
        Frame frame = value.Frames.First(f => f.Id == frameId);
        return assessor.Assess(new(value, frame.Parts ?? ConstructBuilder.Build(frame.Construct!, value.Fractures)));
    }
}
