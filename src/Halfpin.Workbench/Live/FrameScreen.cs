using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Handles;
using Halfpin.Workbench.Scenes;

namespace Halfpin.Workbench.Live;

/// <summary>One screen on one frame of a work: takes what is dragged and gives what is seen. Not for several threads at once.</summary>
public sealed class FrameScreen(Workspace work, string frameId, FrameAnswers answers, ProgramStamp program)
{
    private Case? _limbOf;
    private (Case Case, double LevelMm)? _cutOf;
    private (Case Case, StiffnessScales Scales)? _scales;
    private (Case? Case, FrameAssessment? Assessment) _before;

    /// <summary>Level of the cross-section.</summary>
    public double LevelMm { get; set; } = work.Case.Fractures[0].LevelMm;

    /// <summary>Whether movement is drawn.</summary>
    public bool ShowsBent { get; set; }

    /// <summary>True while the work has the frame.</summary>
    public bool HasFrame => work.Shown.Frames.Any(f => f.Id == frameId);

    /// <summary>Shows a handle at a value without changing the case.</summary>
    public ImmutableArray<string> Drag(string key, double value) => Edit(key, value) is CaseEdit edit ? Words(work.Draft(edit)) : [];

    /// <summary>Sets a handle to a value.</summary>
    public ImmutableArray<string> Drop(string key, double value)
    {
        if (Edit(key, value) is not CaseEdit edit)
        {
            return [];
        }

        ImmutableArray<Fault> faults = work.Apply(edit);
        return Words(faults);
    }

    /// <summary>What is seen now.</summary>
    /// <param name="number">Number of the request this answers.</param>
    /// <param name="faults">Why the asked value cannot be.</param>
    public LiveView View(long number, ImmutableArray<string> faults)
    {
        Case shown = work.Shown;
        FrameAnswer answer = answers.Of(shown, frameId, Scales(shown));
        bool newLimb = _limbOf is null || !SameLimb(_limbOf, shown), newCut = newLimb || _cutOf?.LevelMm != LevelMm;
        SceneLimb? limb = newLimb ? SceneBuilder.Limb(shown) : null;
        SceneCut? cut = newCut ? SceneBuilder.Cut(shown, LevelMm, program) : null;
        (_limbOf, _cutOf) = (shown, (shown, LevelMm));
        return new(
            number, work.IsDrafting, Texts(answer), Shares(answer, Before(shown)), answer.Verdict.ToString().ToLowerInvariant(),
            FrameHandles.Of(shown, frameId).ToImmutableDictionary(h => h.Key, h => h.Value),
            SceneBuilder.Frame(shown, answer), limb, cut,
            ShowsBent ? SceneBuilder.Bent(shown, shown.Frames.First(f => f.Id == frameId)) : null,
            faults);
    }

    private CaseEdit? Edit(string key, double value)
    {
        Case saved = work.Case;
        return saved.Frames.FirstOrDefault(f => f.Id == frameId) is { } frame && double.IsFinite(value)
            ? FrameHandles.Of(saved, frameId).FirstOrDefault(h => h.Key == key)?.To(frame.DisplayName, value)
            : null;
    }

    // Bars keep their ends while a value is dragged, so that a longer bar means a stiffer frame.
    private StiffnessScales Scales(Case shown)
    {
        if (_scales is not { } known || (!work.IsDrafting && !ReferenceEquals(known.Case, shown)))
        {
            _scales = (shown, answers.ScalesOf(work.Case));
        }

        return _scales.Value.Scales;
    }

    // What the grey mark stands for: the saved case while a value is dragged, else the case before the last change.
    private FrameAssessment? Before(Case shown)
    {
        Case? before = work.IsDrafting ? work.Case : work.Before;
        if (before is null || ReferenceEquals(before, shown))
        {
            return null;
        }

        if (!ReferenceEquals(_before.Case, before))
        {
            _before = (before, before.Frames.FirstOrDefault(f => f.Id == frameId) is { } frame ? answers.Assess(before, frame) : null);
        }

        return _before.Assessment;
    }

    private static ImmutableDictionary<string, string> Texts(FrameAnswer answer) =>
        ImmutableDictionary.CreateRange(
            answer.Bars.SelectMany(b => new KeyValuePair<string, string>[] { new(b.Key, b.Text), new($"{b.Key}.unit", b.Unit), new($"{b.Key}.band", b.BandText) })
                .Concat(answer.Motion.Concat(answer.Limits).SelectMany(t => new KeyValuePair<string, string>[] { new(t.Key, t.Text), new($"{t.Key}.label", t.Label) }))
                .Append(new("headline", answer.Headline)).Append(new("detail", answer.Detail)));

    private static ImmutableDictionary<string, double?> Shares(FrameAnswer answer, FrameAssessment? before)
    {
        Dictionary<string, double?> shares = [];
        foreach (StiffnessBar bar in answer.Bars)
        {
            shares[bar.Key] = bar.Share;
            shares[$"{bar.Key}.low"] = bar.LowShare;
            shares[$"{bar.Key}.high"] = bar.HighShare;
            shares[$"{bar.Key}.from"] = bar.FromShare;
            shares[$"{bar.Key}.to"] = bar.ToShare;
            shares[$"{bar.Key}.outside"] = bar.IsOutside ? 1 : 0;
            shares[$"{bar.Key}.was"] = before?.Stiffness is FrameStiffness was && bar.Share > 0 && Value(answer.Assessment, bar.Key) is > 0 and double now
                ? Math.Clamp(bar.Share * Value(was, bar.Key) / now, 0, 1) : null;
        }

        return shares.ToImmutableDictionary();
    }

    private static double Value(FrameAssessment assessment, string key) => Value(assessment.Stiffness!, key);

    private static double Value(FrameStiffness stiffness, string key) => key switch
    {
        "axial" => stiffness.AtFracture.AxialNPerMm,
        "ap" => stiffness.AtFracture.ApBendingNmPerDeg,
        "ml" => stiffness.AtFracture.MlBendingNmPerDeg,
        _ => stiffness.AtFracture.TorsionNmPerDeg,
    };

    private static bool SameLimb(Case a, Case b) =>
        a.Limb == b.Limb && a.Fractures == b.Fractures && a.Wounds == b.Wounds && a.PlannedIncisions == b.PlannedIncisions;

    private static ImmutableArray<string> Words(ImmutableArray<Fault> faults) =>
        [.. faults.Select(f => string.Create(CultureInfo.InvariantCulture, $"{f.Message} Allowed: {f.Allowed}"))];
}
