using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Stability;
using Halfpin.Stability.Variants;

namespace Halfpin.Search;

/// <summary>Finds the simplest frame that is stable enough for a valid case, with what speaks for others.</summary>
public sealed class Suggester
{
    private const int MostPareto = 12, MostParetoBetween = 16;

    private readonly Case _case;
    private readonly CandidateSet _candidates;
    private readonly ImmutableArray<Requirement> _requirements;
    private readonly FrameSearch _search;
    private readonly FrameTrial _trial;
    private readonly Case? _softCase;
    private readonly VariantAssessor? _soft;

    /// <summary>A search for a case.</summary>
    /// <param name="value">The case.</param>
    /// <param name="stock">The stock that frames must be built from; null for any.</param>
    public Suggester(Case value, Stock? stock)
    {
        _case = value;
        _candidates = new(value, stock);
        _requirements = RequirementList.Of(value);
        _search = new(value, _candidates, stock, _requirements);
        _trial = new(value, stock, _search, _requirements);
        _softCase = VariantAssessor.SoftEndOf(value);
        _soft = _softCase is Case soft ? new(soft, VariantAssessor.FlexibilityOf(soft)) : null;
    }

    /// <summary>What a candidate that was turned away lacks, in words; null for a check, which has its own.</summary>
    public static string? WordsOf(string rule) => PlacementFilter.WordsOf(rule);

    /// <summary>Number of candidates to try.</summary>
    public long Candidates => _candidates.Count;

    /// <summary>Runs the search.</summary>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    /// <param name="threads">Threads to use.</param>
    /// <param name="progress">Told the candidates done so far; may be called from several threads.</param>
    /// <param name="done">Pieces of the same search that were done before it was stopped; the report is that of an unbroken one.</param>
    /// <param name="keep">Is given each further piece when it is done; from several threads.</param>
    /// <param name="stop">Ends the search with an exception, after the pieces under way; beyond the last piece, after the frame being tried.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public SuggestReport Suggest(
        ProgramStamp program, string caseSha256, int threads, Action<long>? progress = null, IEnumerable<SearchPiece>? done = null, Action<SearchPiece>? keep = null, CancellationToken stop = default)
    {
        Stopwatch watch = Stopwatch.StartNew();
        SearchResult result = _search.Run(threads, progress, done, keep, stop);
        double seconds = watch.Elapsed.TotalSeconds;
        ImmutableArray<FilterCount> rules = result.Rules;
        Found? simplest = result.Simplest is Found found ? new Refinement(_case, _trial).Of(found, stop) : null;
        (Frame Frame, Trial Trial)[] own = [.. _case.Frames.Select(f => (f, _trial.Of(f, stop)))];
        SmallestChangeFinder finder = new(_case, _candidates, _trial);
        return new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = _case.Title,
            SafetyNote = Safety.Note,
            Purpose = _case.Purpose,
            Requirements = [.. _requirements.Select(r => r.Note)],
            Simplest = simplest is null ? null : Checked(Described(simplest, "suggested", "Suggested"), program),
            Pareto = [.. Spread(result.Pareto).Select((f, i) => Described(f, $"choice-{i + 1}", null))],
            CaseFrames = [.. own.Select(o => Standing(o.Frame, o.Trial, simplest))],
            SmallestChanges = [.. own.Where(o => !o.Trial.Misses.IsEmpty).Select(o => finder.Of(o.Frame, o.Trial.Misses, stop))],
            Searched = new(Candidates, result.Filtered, result.Solved, result.Feasible, seconds, rules),
            Conflicts = simplest is null ? Conflicts(result, rules) : [],
            Assumptions =
            [
                new("Order of simplicity", "fewest parts, then lowest cost, then most room before the wound (to 40 mm), then, with several fractures, the firmest hold of the fragments between, then most margin", false, "Halfpin", "ASSUMED"),
                new("Relative cost", CostPoints.Words, false, "No prices are known", "ASSUMED"),
                .. !IsSegmental ? (Assumption[])[] : [new("Pins between fractures", $"{Either(_case.Search.MiddlePins)} in each fragment, in the first plane on its rods, {Ends()}, alike in all fragments between", false, "Halfpin", "ASSUMED")],
                new("Placement", "every check of placement without failure, and without caution but for thread and those the case accepts", !_case.Requirements.AcceptCautions.IsEmpty, "Halfpin", "ASSUMED"),
            ],
        };
    }

    // One pin alone stands at neither end.
    private string Ends()
    {
        string ends = $"{Either(_case.Search.MiddleEdgeMm)} mm from the fractures";
        return !_case.Search.MiddlePins.Contains(1) ? $"the first and the last {ends}"
            : _case.Search.MiddlePins.Any(n => n > 1) ? $"the first and the last {ends}, one alone midway between such places"
            : $"midway between two places {ends}";
    }

    private static string Either(ImmutableArray<double> values)
    {
        string[] texts = [.. values.Select(v => v.ToString("0.#", CultureInfo.InvariantCulture))];
        return texts.Length == 1 ? texts[0] : $"{string.Join(", ", texts.SkipLast(1))} or {texts[^1]}";
    }

    private SuggestedFrame Described(Found found, string id, string? name)
    {
        Frame frame = found.Layout!.Frame(id, name, _case.Fractures);
        Parts parts = found.Layout.Parts(_case.Fractures);
        Requirement narrowest = _requirements.MinBy(r => r.Margin(found.Rating))!;
        return new()
        {
            Frame = frame,
            Parts = Assessor.KitOf(parts),
            CostPoints = found.CostPoints,
            SkinRoomMm = _search.SkinRoomMm(parts),
            WoundRoomMm = _search.WoundRoomMm(parts),
            LeastMarginPercent = 100 * found.LeastMargin,
            NarrowestRequirement = narrowest.Note.Id,
            HoldsWhenSoft = _soft is null ? null : _soft.Rate(new(_softCase!, parts)) is { Status: RatingStatus.Ok } soft && _search.Missed(soft) == 0,
            AxialNPerMm = found.Rating.AxialNPerMm,
            WeakBendingNmPerDeg = found.Rating.WeakBendingNmPerDeg,
            TorsionNmPerDeg = found.Rating.TorsionNmPerDeg,
            BetweenBendingNmPerDeg = double.IsNaN(found.Rating.BetweenBendingNmPerDeg) ? null : found.Rating.BetweenBendingNmPerDeg,
            AxialMm = found.Rating.AxialMm,
            OverloadAxialMm = found.Rating.OverloadAxialMm,
        };
    }

    private SuggestedFrame Checked(SuggestedFrame frame, ProgramStamp program) =>
        frame with { Checks = new Assessor(_case with { Frames = [frame.Frame] }).Assess(null, program, "").Frames[0].Checks };

    private bool IsSegmental => _case.Fractures.Length > 1;

    // A front of hundreds is no choice: for each count of parts the one with most margin, the cheapest, the stiffest in its weakest bending and,
    // with several fractures, the one that holds what is between them most firmly.
    private IEnumerable<Found> Spread(ImmutableArray<Found> front) => front.GroupBy(f => f.Parts).OrderBy(g => g.Key)
        .SelectMany(g => new[] { g.MaxBy(f => f.LeastMargin)!, g.MinBy(f => f.CostPoints)!, g.MaxBy(f => f.Rating.WeakBendingNmPerDeg)! }
            .Concat(IsSegmental ? [g.MaxBy(f => f.Rating.BetweenBendingNmPerDeg)!] : []).Distinct())
        .Take(IsSegmental ? MostParetoBetween : MostPareto);

    // A requirement in its own words; a rule of placement by its id, under which the check tells the rest.
    private string Words(string missed) => _requirements.FirstOrDefault(r => r.Note.Id == missed)?.Note.Words ?? PlacementFilter.WordsOf(missed) ?? $"rule {missed}";

    private CaseFrameStanding Standing(Frame frame, Trial trial, Found? simplest)
    {
        int parts = trial.Found?.Parts ?? 0;
        double cost = trial.Found?.CostPoints ?? 0;
        string verdict = !trial.Misses.IsEmpty ? $"Misses: {string.Join("; ", trial.Misses.Select(Words))}."
            : simplest is null ? "Meets all requirements, though no candidate of the search does."
            : trial.Found!.IsSimplerThan(simplest) ? "Meets all requirements and is already as simple as anything found."
            : parts == simplest.Parts && cost == simplest.CostPoints ? "Meets all requirements with as few parts at the same cost; the suggestion has more room or margin."
            : $"Meets all requirements, with {parts} parts where {simplest.Parts} do, at {cost:0} points of cost against {simplest.CostPoints:0}.";
        return new(frame.Id, parts, cost, trial.Misses, verdict);
    }

    // Between two fractures room is what most often lacks.
    private string ShortFragment()
    {
        if (!IsSegmental)
        {
            return "";
        }

        double least = _case.Fractures.Zip(_case.Fractures.Skip(1), (above, below) => below.LevelMm - above.LevelMm - ((above.GapMm + below.GapMm) / 2)).Min();
        return string.Create(CultureInfo.InvariantCulture, $" The shortest fragment between two fractures has {least:0} mm of bone on its axis: where that is too little for its pins, choose one pin (search.middlePins) or less to the fractures (search.middleEdgeMm), and accept pin-count, pin-to-fracture or pin-spread. What is accepted is accepted of every fragment, so that the outer pins may come to stand worse too: look at the checks of what is found.");
    }

    private ImmutableArray<RequirementConflict> Conflicts(SearchResult result, ImmutableArray<FilterCount> rules)
    {
        // Without a stock there are always pins and rods to choose from.
        if (Candidates == 0)
        {
            string lacks = _candidates switch { { HasPins: false, HasRods: false } => "no pins and no rods", { HasPins: false } => "no pins", _ => "no rods" };
            return [new(PlacementFilter.NotInStock, $"The stock has {lacks}, so that there is no frame to try. Add some to it, or search without it.", null)];
        }

        if (result.Solved == 0)
        {
            string most = string.Join(", ", rules.Take(3).Select(r => $"{PlacementFilter.WordsOf(r.Rule) ?? r.Rule} ({r.Candidates} candidates)"));
            string advice = rules.All(r => r.Rule == PlacementFilter.Order || r.Rule == PlacementFilter.Possible) ? "Widen the search."
                : rules.All(r => PlacementFilter.WordsOf(r.Rule) is not null) ? "Add to the stock or widen the search."
                : "Accept a caution, widen the search, or change wound and incisions as entered.";
            return [new([.. rules.Take(3).Select(r => r.Rule)], $"No candidate passes the rules of placement; most fall to {most}. {advice}{ShortFragment()}", null)];
        }

        return [.. result.Misses.OrderBy(m => m.Key).Select(m =>
        {
            Requirement[] missed = [.. _requirements.Where((_, r) => (m.Key >> r & 1) != 0)];
            string words = missed.Length == 1
                ? $"Everything else can be met without this: {missed[0].Note.Words}."
                : $"These cannot be met together with the rest: {string.Join("; ", missed.Select(r => r.Note.Words))}.";
            return new RequirementConflict([.. missed.Select(r => r.Note.Id)], words, m.Value.Layout!.Frame("nearest-miss", null, _case.Fractures));
        })];
    }
}
