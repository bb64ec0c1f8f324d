using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Mechanics.Condensation;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.FreeMotions;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Healing;

/// <summary>Looks at the frames of a valid case with callus in the gap, week by week of the case's healing.</summary>
public sealed class HealingAssessor
{
    private readonly Case _case;
    private readonly BoneShape _bone;
    private readonly ImmutableArray<Fracture> _fractures;
    private readonly FrameAnalyser _analyser;
    private readonly SquareMatrix _stiffness;

    /// <summary>An assessor for a valid case.</summary>
    public HealingAssessor(Case value)
    {
        _case = value;
        _bone = BoneShape.For(value.Limb);
        _fractures = value.Fractures;
        _stiffness = new(6 * _fractures.Length);
        _analyser = new(_bone, value.Fractures, value.Model, new(value.Materials), new(_bone, FrameAnalyser.TheoryOf(value.Model)));
    }

    /// <summary>Looks at frames of the case.</summary>
    /// <param name="frameId">One frame's id, or null for all.</param>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    public HealingReport Assess(string? frameId, ProgramStamp program, string caseSha256)
    {
        Assessor parts = new(_case);
        (HealingFrame Frame, ImmutableArray<HealingWeekResult> Weeks)[] all =
            [.. _case.Frames.Where(f => frameId is null || f.Id == frameId).Select(f => Of(f, parts.PartsOf(f)))];
        return new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = _case.Title,
            SafetyNote = Safety.Note,
            Frames = [.. all.Select(f => f.Frame)],
            Weeks = [.. all.SelectMany(f => f.Weeks)],
            RemovalThreshold = RemovalThreshold.Published,
            Assumptions = HealingAssumptions.Of(_case),
        };
    }

    private (HealingFrame Frame, ImmutableArray<HealingWeekResult> Weeks) Of(Frame frame, Parts parts)
    {
        _analyser.Analyse(parts);
        if (FrameDiagnosis.Of(_analyser) is (FrameStatus status, Diagnosis diagnosis))
        {
            return (new(frame.Id, frame.DisplayName, status, diagnosis), []);
        }

        int closed = _fractures.ToList().FindIndex(f => f.GapMm == 0);
        if (closed >= 0)
        {
            return (new(frame.Id, frame.DisplayName, FrameStatus.Invalid, new(
                $"There is no gap for callus to fill{(_fractures.Length == 1 ? "" : $" at fracture {closed + 1}")}: a disc without height has no stiffness of its own.", [],
                "Give the gap that is left between the bone ends.")), []);
        }

        if (LoadedFrame.Of(_analyser, parts) is not LoadedFrame loaded)
        {
            return (new(frame.Id, frame.DisplayName, FrameStatus.Invalid, FrameDiagnosis.Inaccurate), []);
        }

        ImmutableArray<CallusDisc> discs = [.. _fractures.Select(f => new CallusDisc(_bone, f, _case.Healing))];
        ImmutableArray<HealingWeekResult> weeks = [.. _case.Healing.Weeks.Select(w => Week(frame.Id, w, loaded, discs))];
        Diagnosis? first = weeks.FirstOrDefault(w => w.Diagnosis is not null)?.Diagnosis;
        return (new(frame.Id, frame.DisplayName, first is null ? FrameStatus.Ok : FrameStatus.OutOfRange, first), weeks);
    }

    private HealingWeekResult Week(string frame, HealingWeek week, LoadedFrame loaded, ImmutableArray<CallusDisc> discs)
    {
        double loadKg = week.LoadKg ?? _case.Loading.AxialKgFor(_case.Limb.PatientMassKg);
        for (int f = 0; f < discs.Length; f++)
        {
            discs[f].Write(week.CallusModulusMPa, _stiffness, f);
        }

        SiteState state = loaded.Contact.Under(EndLoad.Of(_case.Loading, loadKg), _stiffness);
        Diagnosis? reason = loaded.ReasonToWithhold(state);
        ImmutableArray<HealingFractureResult> all = [.. discs.Select((d, f) => At(f, d.Bending(week.CallusModulusMPa), reason is null ? state : null, loaded))];
        HealingFractureResult first = all[0];
        DemandItem worst = default;
        foreach (DemandItem item in reason is null ? loaded.Demand.Under(state.Load) : [])
        {
            worst = item.Value > worst.Value ? item : worst;
        }

        bool several = all.Length > 1;
        return new()
        {
            Frame = frame,
            Week = week.Week,
            CallusModulusMPa = week.CallusModulusMPa,
            Tissue = CallusTissues.NameOf(week.CallusModulusMPa),
            LoadKg = loadKg,
            Diagnosis = reason,
            Motion = first.Motion,
            FrameLoadShare = first.FrameLoadShare,
            StrainNearPercent = first.StrainNearPercent,
            StrainFarPercent = first.StrainFarPercent,
            CallusBendingNmPerDeg = first.CallusBendingNmPerDeg,
            Fractures = several ? all : [],
            MostStrainedFracture = several && reason is null ? Enumerable.Range(0, all.Length).MaxBy(f => all[f].Motion!.StrainPercent) + 1 : null,
            NearestLimit = worst.Value > 0 ? DemandWords.Entry(worst, _analyser.Data) : null,
            MarginPercent = worst.Value > 0 ? 100 * (1 - worst.Value) : null,
        };
    }

    // A fracture in an equilibrium with callus, or without one when it is withheld.
    private HealingFractureResult At(int fracture, CallusBending bending, SiteState? state, LoadedFrame loaded)
    {
        HealingFractureResult bare = new() { LevelMm = _fractures[fracture].LevelMm, CallusBendingNmPerDeg = bending };
        if (state is not SiteState solved)
        {
            return bare;
        }

        FractureMotion motion = loaded.Motions[fracture].Of(solved);
        return bare with
        {
            Motion = motion,
            FrameLoadShare = motion.FrameShare ?? loaded.Contact.Under(EndLoad.Compression(1), _stiffness).Load.FrameShareAt(fracture),
            StrainNearPercent = 100 * motion.ClosingNearMm / _fractures[fracture].GapMm,
            StrainFarPercent = 100 * motion.ClosingFarMm / _fractures[fracture].GapMm,
        };
    }
}
