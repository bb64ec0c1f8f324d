using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Studies.Engine;
using Halfpin.Studies.Indices;

namespace Halfpin.Studies.Uncertainty;

/// <summary>Puts what a study has gathered into a report.</summary>
internal sealed class UncertaintyReporter(UncertaintyStudy study, UncertaintyTally tally, long asked, double? untilPercent)
{
    // ASSUMED: fewer base points leave indices and ends of bands to chance.
    private const int FewPoints = 100;

    private readonly Study _study = study.Study;
    private readonly ImmutableArray<StudyOutput> _outputs = study.Format.Outputs;

    public UncertaintyReport Report(ProgramStamp program)
    {
        ImmutableArray<UncertainResult> results = [.. _outputs.Select((o, i) => Result(o, i))];
        ImmutableArray<PassProbability> passes = [.. Passes()];
        ImmutableArray<SensitivityIndex> indices = [.. _outputs.SelectMany((o, i) => IndicesOf(o, i))];
        RankingReport? ranking = Ranking();
        SampleCounts samples = Samples();
        return new()
        {
            Program = program,
            CaseSha256 = _study.CaseSha256,
            CaseTitle = _study.Case.Title,
            SafetyNote = Safety.Note,
            Frame = _study.Frame,
            Name = NameOf(_study.Frame),
            Seed = _study.Seed,
            Samples = samples,
            Findings = [.. UncertaintyFindings.Of(samples, results, passes, indices, ranking)],
            Results = results,
            PassProbability = passes,
            Indices = indices,
            Ranking = ranking,
            Convergence = Converged(),
            Inputs = SpreadWords.Of(_study.Inputs),
            Assumptions =
            [
                "Inputs vary independently of each other; spreads are assumed unless the case gives them.",
                _study.Inputs.Any(i => i.Name == UncertainInputs.BoneWall)
                    ? "Bands are of the inputs listed alone: loads and the outer shape of the bone are not varied."
                    : "Bands are of the inputs listed alone: loads, the shape of the bone and the thickness of its wall are not varied.",
                "Each sample knows its inputs, so its verdicts carry no band of their own.",
                "Intervals take samples as independent, which is on the wide side for evenly spread ones.",
                .. _study.Case.Fractures.Length > 1 ? (string[])[SpreadWords.EachFracture, SpreadWords.LoadedAtTheEnd, .. _study.Against is null ? Array.Empty<string>() : [SpreadWords.RankedByTheWorst]] : [],
            ],
            Warnings = [.. Warnings(ranking)],
        };
    }

    private UncertainResult Result(StudyOutput output, int i)
    {
        double[] sorted = tally.Sorted(i);
        double? At(double share) => sorted.Length == 0 ? null : Quantiles.OfSorted(sorted, share);
        double nominal = tally.Nominal(i);
        return new(output.Name, double.IsNaN(nominal) ? null : nominal, At(0.5), At(0.05), At(0.95), sorted.Length, (2 * tally.BasePoints) - sorted.Length);
    }

    private IEnumerable<PassProbability> Passes()
    {
        for (int c = 0; c < study.Format.Checks.Length; c++)
        {
            long pass = tally.Verdicts(c, Verdict.Pass), caution = tally.Verdicts(c, Verdict.Caution), fail = tally.Verdicts(c, Verdict.Fail), all = pass + caution + fail;
            if (all > 0)
            {
                (double low, double high) = Quantiles.ShareInterval(pass, all);
                yield return new(study.Format.Checks[c], (double)pass / all, low, high, (double)caution / all, (double)fail / all, all, tally.NominalVerdicts[c]);
            }
        }
    }

    private IEnumerable<SensitivityIndex> IndicesOf(StudyOutput output, int i) => tally.Indices(i, _study.Seed) is IndexEstimate[] estimates
        ? _study.Inputs.Zip(estimates)
            .Select(e => new SensitivityIndex(e.First.Name, output.Name, e.Second.First, e.Second.Total, e.Second.TotalLow, e.Second.TotalHigh, e.Second.FirstLow, e.Second.FirstHigh))
            .OrderByDescending(e => e.Total)
        : [];

    private RankingReport? Ranking()
    {
        if (_study.Against is not string against)
        {
            return null;
        }

        ImmutableArray<StifferProbability> stiffer = [.. tally.Ranked.Select((ranked, i) => RankedStiffness.Share(ranked.Name, tally.Stiffer(i)))];
        ImmutableArray<FailureReason> reasons = Reasons(true, FrameStatus.Mechanism, FrameStatus.Invalid);
        RankedFrame own = new(_study.Frame, tally.Held(false), Reasons(false, FrameStatus.Mechanism, FrameStatus.Invalid)), other = new(against, tally.Held(true), reasons);
        return new(against, NameOf(against), stiffer, reasons.Sum(r => r.Count), reasons, LostPairs.Words(own, other, stiffer[0].Pairs, 2 * tally.BasePoints));
    }

    private SampleCounts Samples()
    {
        return new(
            asked, tally.Rows, tally.BasePoints, 2 * tally.BasePoints,
            tally.Ended(false, FrameStatus.Mechanism) + tally.Ended(false, FrameStatus.Invalid), tally.Ended(false, FrameStatus.OutOfRange),
            Reasons(false, FrameStatus.Mechanism, FrameStatus.Invalid, FrameStatus.OutOfRange));
    }

    // Those that came to pass.
    private ImmutableArray<FailureReason> Reasons(bool against, params FrameStatus[] bad) =>
        [.. bad.Where(s => tally.Ended(against, s) > 0).Select(s => new FailureReason(s, tally.Ended(against, s), study.ReasonOf(against, s)))];

    private Convergence? Converged()
    {
        if (untilPercent is not double percent)
        {
            return null;
        }

        (double Share, int Output)? widest = tally.Widest();
        string? name = widest is null ? null : _outputs[widest.Value.Output].Name;
        string found = widest is null ? "too few values to judge by" : Text($"the widest, {SpreadWords.Result(name!)}, is known to ± {100 * widest.Value.Share:0.#} % of its median");
        return new(percent, study.IsConverged, widest is null ? null : 100 * widest.Value.Share, name, study.IsConverged
            ? Text($"Converged: both ends of every band are known to ± {percent:0.###} % of the median or better; {found}.")
            : Text($"The evaluations ended before both ends of every band were known to ± {percent:0.###} %: {found}."));
    }

    private IEnumerable<string> Warnings(RankingReport? ranking)
    {
        if (tally.BasePoints < FewPoints)
        {
            yield return Text($"Only {tally.BasePoints} base points: indices and ends of bands are rough. Their intervals say how rough.");
        }

        if (ranking?.Lost is string lost)
        {
            yield return lost;
        }

        if (!_study.Case.Loading.IsChosen)
        {
            yield return "The case chooses no load: motion and utilisation are left out.";
        }
    }

    private string NameOf(string id) => _study.Case.Frames.First(f => f.Id == id).DisplayName;

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
