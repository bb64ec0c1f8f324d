using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Words;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Runs;

namespace Halfpin.Workbench.Searches;

/// <summary>Puts the result of a search into what a screen says, beside the case as it is now.</summary>
public static class SuggestWriter
{
    /// <summary>The view of a result.</summary>
    /// <param name="result">The result with the case it was about.</param>
    /// <param name="now">The case as it is now.</param>
    /// <param name="stockSha256">Hash of the stock as it is now; null without one.</param>
    public static SuggestView Of(RunResult<SearchFound> result, Case now, string? stockSha256)
    {
        SuggestReport report = result.Report.Suggestions;
        bool stale = result.Report.StockSha256 != stockSha256 || !CaseSameness.Around(result.Case, now);
        ImmutableArray<Choice> choices = [.. Choices(report, result.Case)];
        Choice? simplest = choices.FirstOrDefault(c => c.IsSimplest);
        return new()
        {
            IsStale = stale,
            Verdict = simplest is null ? Verdict.Fail : Verdict.Pass,
            Headline = simplest is null ? "Nothing that was tried meets all requirements." : $"The simplest frame that meets all requirements: {simplest.Words}.",
            Detail = simplest is null ? "What stands against it is below, with the frame that comes nearest." : Detail(report, simplest.Found),
            Simplest = simplest,
            Choices = choices,
            Own = [.. result.Case.Frames.Select(f => Own(report, result.Case, now, f)), .. now.Frames.Where(f => result.Case.Frames.All(o => o.Id != f.Id)).Select(New)],
            Conflicts = [.. report.Conflicts.Select(c => new Conflict(Named(report, c.Words, c.Requirements), c.NearestMiss, c.NearestMiss is Frame near ? $"{FrameWords.Line(near)}." : ""))],
            Searched = Searched(report.Searched),
            Filters = [.. report.Searched.Rules.Select(r => new FilterLine(r.Rule, CheckWords.Of(r.Rule), r.Candidates, (double)r.Candidates / Math.Max(1, report.Searched.Candidates)))],
        };
    }

    private static IEnumerable<Choice> Choices(SuggestReport report, Case value)
    {
        IEnumerable<SuggestedFrame> others = report.Simplest is SuggestedFrame s ? report.Pareto.Where(p => !IsSame(p.Frame, s.Frame)).Prepend(s) : report.Pareto;
        return others.Select((f, i) => new Choice(i + 1, ReferenceEquals(f, report.Simplest), FrameWords.Name(f.Frame), FrameWords.Line(f.Frame), Numbers(f, value), f));
    }

    private static bool IsSame(Frame a, Frame b) => a.Construct == b.Construct
        && (a.Parts is null ? b.Parts is null : b.Parts is not null && a.Parts.Pins.SequenceEqual(b.Parts.Pins) && a.Parts.Rods.SequenceEqual(b.Parts.Rods) && a.Parts.Clamps.SequenceEqual(b.Parts.Clamps));

    private static ImmutableArray<NamedText> Numbers(SuggestedFrame f, Case value)
    {
        string load = AnswerWriter.Load(value);
        return
        [
            new("parts", "Parts", Text($"{f.Parts.Pins} pins, {f.Parts.Rods} {(f.Parts.Rods == 1 ? "rod" : "rods")}, {f.Parts.Clamps} clamps")),
            new("cost", "Relative cost", Text($"{f.CostPoints:0} points")),
            new("axial", "Axial stiffness", $"{Reports.Words.Numbers.Stiffness(f.AxialNPerMm)} N/mm"),
            new("weak", "Bending, weakest direction", $"{Reports.Words.Numbers.Stiffness(f.WeakBendingNmPerDeg)} N·m/°"),
            new("torsion", "Torsion", $"{Reports.Words.Numbers.Stiffness(f.TorsionNmPerDeg)} N·m/°"),
            .. f.BetweenBendingNmPerDeg is double between ? (NamedText[])[new("between", "Hold of fragments between, weakest bending", $"{Reports.Words.Numbers.Stiffness(between)} N·m/°")] : [],
            new("motion", $"Axial motion at {load}", $"{Reports.Words.Numbers.Motion(f.AxialMm)} mm"),
            new("overload", "Axial motion in the overload", $"{Reports.Words.Numbers.Motion(f.OverloadAxialMm)} mm"),
            .. f.SkinRoomMm is double skin ? (NamedText[])[new("skin", "Rod to skin, not swollen", $"{Reports.Words.Numbers.Length(Math.Round(skin))} mm")] : [],
            .. f.WoundRoomMm is double wound ? (NamedText[])[new("wound", "Beside the way to the wound", $"{Reports.Words.Numbers.Length(Math.Round(wound))} mm")] : [],
        ];
    }

    private static string Detail(SuggestReport report, SuggestedFrame f)
    {
        string narrowest = report.Requirements.FirstOrDefault(r => r.Id == f.NarrowestRequirement)?.Words ?? f.NarrowestRequirement;
        string margin = double.IsFinite(f.LeastMarginPercent) ? Text($"Met most narrowly: {narrowest}, with {f.LeastMarginPercent:0} % of it left. ") : "";
        return margin + f.HoldsWhenSoft switch
        {
            true => "Meets all of them at the soft end of clamps and bone too.",
            false => "Does not meet all of them at the soft end of clamps and bone: measure the clamps on a bench.",
            null => "",
        };
    }

    private static OwnFrame Own(SuggestReport report, Case then, Case now, Frame frame)
    {
        CaseFrameStanding standing = report.CaseFrames.First(s => s.Frame == frame.Id);
        SmallestChange? change = report.SmallestChanges.FirstOrDefault(c => c.Frame == frame.Id);
        bool gone = now.Frames.All(f => f.Id != frame.Id), stale = gone || !CaseSameness.AroundFrame(then, now, frame.Id);
        string words = gone ? "Was removed since." : stale ? "Was changed since: search again to judge it." : standing.Violates.IsEmpty ? standing.Verdict : Misses(report, standing.Violates);
        string name = now.Frames.FirstOrDefault(f => f.Id == frame.Id)?.DisplayName ?? frame.DisplayName;
        return new(frame.Id, name, standing.Violates.IsEmpty, words, stale, stale || change is null ? null : Named(report, change.Text, standing.Violates), stale ? null : change?.Changed);
    }

    private static string Misses(SuggestReport report, ImmutableArray<string> violates) =>
        $"Misses: {string.Join("; ", violates.Select(v => Words(report, v)))}.";

    private static string Words(SuggestReport report, string id) => report.Requirements.FirstOrDefault(r => r.Id == id)?.Words ?? CheckWords.Of(id).ToLowerInvariant();

    // Requirements and rules stand in some sentences by their word for programs.
    private static string Named(SuggestReport report, string sentence, ImmutableArray<string> ids) => ids.OrderByDescending(r => r.Length).Aggregate(
        sentence, (s, rule) => Regex.Replace(s, $@"(?<![\w-]){Regex.Escape(rule)}(?![\w-])(?= \(|,|\.)", $"“{Words(report, rule)}”"));

    private static OwnFrame New(Frame frame) => new(frame.Id, frame.DisplayName, false, "Was added since: search again to judge it.", true, null, null);

    private static string Searched(SearchCount s) => Text(
        $"Tried all {s.Candidates:#,0} candidates in {s.Seconds:0.0} s: {s.Filtered:#,0} turned away by rules of placement before anything was solved, {s.Solved:#,0} solved, {s.Feasible:#,0} meet all requirements.");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
