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
    private readonly Fracture _fracture;
    private readonly FrameAnalyser _analyser;
    private readonly SquareMatrix _stiffness = new(6);

    /// <summary>An assessor for a valid case.</summary>
    public HealingAssessor(Case value)
    {
        _case = value;
        _bone = BoneShape.For(value.Limb);
        _fracture = value.Fractures[0];
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
        if (_case.Fractures.Length > 1)
        {
            return (new(frame.Id, frame.DisplayName, FrameStatus.Invalid, new(
                $"Healing looks at one fracture; this case has {_case.Fractures.Length}, which need not heal at one pace.", [],
                "Look at its fractures one by one, each in a case that leaves the others out, as if they had healed.")), []);
        }

        _analyser.Analyse(parts);
        if (FrameDiagnosis.Of(_analyser) is (FrameStatus status, Diagnosis diagnosis))
        {
            return (new(frame.Id, frame.DisplayName, status, diagnosis), []);
        }

        if (_fracture.GapMm == 0)
        {
            return (new(frame.Id, frame.DisplayName, FrameStatus.Invalid, new(
                "There is no gap for callus to fill: a disc without height has no stiffness of its own.", [],
                "Give the gap that is left between the bone ends.")), []);
        }

        LoadedFrame loaded = new(_analyser);
        CallusDisc disc = new(_bone, _fracture, _case.Healing);
        ImmutableArray<HealingWeekResult> weeks = [.. _case.Healing.Weeks.Select(w => Week(frame.Id, w, loaded, disc))];
        Diagnosis? first = weeks.FirstOrDefault(w => w.Diagnosis is not null)?.Diagnosis;
        return (new(frame.Id, frame.DisplayName, first is null ? FrameStatus.Ok : FrameStatus.OutOfRange, first), weeks);
    }

    private HealingWeekResult Week(string frame, HealingWeek week, LoadedFrame loaded, CallusDisc disc)
    {
        double loadKg = week.LoadKg ?? _case.Loading.AxialKgFor(_case.Limb.PatientMassKg);
        disc.Write(week.CallusModulusMPa, _stiffness);
        SiteState state = loaded.Contact.Under(EndLoad.Of(_case.Loading, loadKg), _stiffness);
        HealingWeekResult bare = new()
        {
            Frame = frame,
            Week = week.Week,
            CallusModulusMPa = week.CallusModulusMPa,
            Tissue = CallusTissues.NameOf(week.CallusModulusMPa),
            LoadKg = loadKg,
            CallusBendingNmPerDeg = disc.Bending(week.CallusModulusMPa),
        };
        if (loaded.ReasonToWithhold(state) is Diagnosis reason)
        {
            return bare with { Diagnosis = reason };
        }

        FractureMotion motion = loaded.Motion.Of(state);
        HealingWeekResult moved = bare with
        {
            Motion = motion,
            FrameLoadShare = motion.FrameShare ?? loaded.Contact.Under(EndLoad.Compression(1), _stiffness).Load.FrameShare,
            StrainNearPercent = 100 * motion.ClosingNearMm / _fracture.GapMm,
            StrainFarPercent = 100 * motion.ClosingFarMm / _fracture.GapMm,
        };
        DemandItem worst = default;
        foreach (DemandItem item in loaded.Demand.Under(state.Load))
        {
            worst = item.Value > worst.Value ? item : worst;
        }

        return worst.Value > 0
            ? moved with { NearestLimit = DemandWords.Entry(worst, _analyser.Data), MarginPercent = 100 * (1 - worst.Value) }
            : moved;
    }
}
