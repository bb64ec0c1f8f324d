using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Domain.Validity;
using Halfpin.Placement;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Bands;
using Halfpin.Stability.Checks;
using Halfpin.Stability.FreeMotions;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Variants;

/// <summary>
/// Assesses one variant after another by the same analysis and rules as an assessment, or rates it by its numbers alone. A workspace: keeps
/// plan, bone and what stays the same from one to the next; one thread at a time.
/// </summary>
/// <remarks>An input that varies is known in each variant, so verdicts are without the bands that an assessment puts about unknown ones.</remarks>
public sealed class VariantAssessor
{
    private readonly PlacementReview _placement = new();
    private readonly VariedBones _bones = new();
    private FrameAnalyser? _analyser;
    private Case? _used;
    private double _usedModuli;
    private double _usedWall;
    private LoadedFrame? _loaded;

    /// <summary>An assessor of any variants.</summary>
    public VariantAssessor()
    {
    }

    /// <summary>An assessor for frames of a case, of whose bone others have tabulated the flexibility.</summary>
    /// <param name="value">The case.</param>
    /// <param name="flexibility">Its bone's flexibility.</param>
    public VariantAssessor(Case value, BoneFlexibility flexibility)
    {
        _bones.Share(value.Limb, FrameAnalyser.TheoryOf(value.Model), flexibility);
        Use(new(value, new() { Pins = [], Rods = [], Clamps = [] }));
    }

    /// <summary>The flexibility of a case's bone, to be shared by assessors.</summary>
    public static BoneFlexibility FlexibilityOf(Case value) => new(BoneShape.For(value.Limb), FrameAnalyser.TheoryOf(value.Model));

    /// <summary>The case with clamps, slip and hold in bone at the soft ends of their bands; null when it sets them all itself.</summary>
    public static Case? SoftEndOf(Case value) => new BandAnalysis(value.Model).Soft is ModelOptions soft ? value with { Model = soft } : null;

    /// <summary>Assesses a variant; one that cannot be built or analysed says why.</summary>
    public VariantResult Assess(FrameVariant variant)
    {
        (Fault? fault, ImmutableArray<CheckVerdict> placement) = _placement.Of(variant.Case, variant.Parts, variant.BoneWallShare);
        if (fault is not null)
        {
            return new() { Status = FrameStatus.Invalid, Reason = fault.Message };
        }

        FrameAnalyser analyser = Use(variant);
        analyser.Analyse(variant.Parts);
        return FrameDiagnosis.Of(analyser) is (FrameStatus faulty, Diagnosis diagnosis)
            ? new() { Status = faulty, Reason = diagnosis.Message, Verdicts = placement }
            : Held(analyser, variant.Parts) is LoadedFrame held ? Loaded(variant, analyser, held, placement)
            : new() { Status = FrameStatus.Invalid, Reason = "With its limited slides held the equations lose too many digits.", Verdicts = placement };
    }

    /// <summary>Rates a variant that the rules of placement allow: numbers for choices, without verdicts and without limits along a growing load.</summary>
    public FrameRating Rate(FrameVariant variant)
    {
        FrameAnalyser analyser = Use(variant);
        return analyser.Analyse(variant.Parts) == AnalysisStatus.Ok
            ? RatingReadout.Of(variant.Case, analyser, Held(analyser, variant.Parts))
            : FrameRating.NotHeld;
    }

    private LoadedFrame? Held(FrameAnalyser analyser, Parts parts) =>
        _loaded?.TryTakeOver(analyser, parts) == true ? _loaded : _loaded = LoadedFrame.Of(analyser, parts, _loaded);

    // The analyser with a variant's inputs; frames of one case need no change.
    private FrameAnalyser Use(FrameVariant variant)
    {
        Case value = variant.Case;
        if (_analyser is not null && ReferenceEquals(value, _used) && variant.BoneModuliShare == _usedModuli && variant.BoneWallShare == _usedWall)
        {
            return _analyser;
        }

        (BoneShape bone, BoneFlexibility flexibility) = _bones.Of(value.Limb, FrameAnalyser.TheoryOf(value.Model), variant.BoneWallShare, variant.BoneModuliShare);
        (_used, _usedModuli, _usedWall) = (value, variant.BoneModuliShare, variant.BoneWallShare);
        MaterialTable materials = new(value.Materials);
        if (_analyser is null)
        {
            return _analyser = new(bone, value.Fractures, value.Model, materials, flexibility);
        }

        _analyser.Use(bone, value.Fractures, value.Model, materials, flexibility);
        return _analyser;
    }

    private static VariantResult Loaded(FrameVariant variant, FrameAnalyser analyser, LoadedFrame held, ImmutableArray<CheckVerdict> placement)
    {
        Case value = variant.Case;
        LoadedResults loaded = LoadedResults.Of(held, value, tellsFullWeight: false);
        FrameAssessment frame = new()
        {
            Id = "",
            Name = "",
            Kit = Assessor.KitOf(variant.Parts),
            Status = loaded.Withheld is null ? FrameStatus.Ok : FrameStatus.OutOfRange,
            BendingRose = StiffnessReadout.ReadRose(analyser),
            Motion = loaded.Motion,
            OverloadMotion = loaded.OverloadMotion,
            FirstLimit = loaded.FirstLimit,
            FatigueFrom = loaded.FatigueFrom,
            Fatigue = Assessor.FatigueOf(value, loaded, analyser),
        };
        List<CheckVerdict> verdicts = new(CheckNames.All.Length);
        Assessor.Judge(new(value, frame, loaded, null, analyser.Data, analyser.Materials), verdicts);
        verdicts.AddRange(placement);
        bool known = value.Loading.IsChosen && loaded.Withheld is null;
        return new()
        {
            Status = frame.Status,
            Reason = loaded.Withheld?.Message,
            Stiffness = StiffnessReadout.AtFracture(analyser),
            Motion = known ? loaded.Motion : null,
            Fractures = value.Fractures.Length == 1 ? [] : [.. value.Fractures.Select((f, i) => new VariantFracture(f.LevelMm, StiffnessReadout.AtFracture(analyser, i), known ? loaded.MotionAt(i) : null))],
            WorstUtilisation = known ? RatingReadout.Greatest(loaded.Chosen.AsSpan()) : null,
            FirstLimitKg = loaded.FirstLimit?.LoadKg,
            Verdicts = [.. verdicts],
        };
    }
}
