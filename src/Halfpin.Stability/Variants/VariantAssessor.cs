using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Mechanics.Members;
using Halfpin.Placement;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.FreeMotions;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Stability.Variants;

/// <summary>Assesses one variant after another by the same analysis and rules as an assessment. A workspace: keeps plan and bone from one to the next; one thread at a time.</summary>
/// <remarks>An input that varies is known in each variant, so verdicts are without the bands that an assessment puts about unknown ones.</remarks>
public sealed class VariantAssessor
{
    private readonly PlacementReview _placement = new();
    private FrameAnalyser? _analyser;
    private Limb? _limb;
    private BoneShape? _bone;
    private BeamTheory _theory;
    private BoneFlexibility? _flexibility;

    /// <summary>Assesses a variant; one that cannot be built or analysed says why.</summary>
    public VariantResult Assess(FrameVariant variant)
    {
        (Case value, BeamTheory theory) = (variant.Case, FrameAnalyser.TheoryOf(variant.Case.Model));
        if (_bone is null || !ReferenceEquals(_limb, value.Limb) || theory != _theory)
        {
            (_limb, _theory, _bone) = (value.Limb, theory, BoneShape.For(value.Limb));
            _flexibility = new(_bone, theory);
        }

        (Fault? fault, ImmutableArray<Check> placement) = _placement.Of(value, variant.Parts);
        if (fault is not null)
        {
            return new() { Status = FrameStatus.Invalid, Reason = fault.Message };
        }

        return Analyse(variant, placement, Bone(_bone, variant.BoneModuliShare), _flexibility!.Stiffened(variant.BoneModuliShare), new(value.Materials));
    }

    private VariantResult Analyse(FrameVariant variant, ImmutableArray<Check> placement, BoneShape bone, BoneFlexibility flexibility, MaterialTable materials)
    {
        Case value = variant.Case;
        if (_analyser is null)
        {
            _analyser = new(bone, value.Fractures, value.Model, materials, flexibility);
        }
        else
        {
            _analyser.Use(bone, value.Fractures, value.Model, materials, flexibility);
        }

        _analyser.Analyse(variant.Parts);
        if (FrameDiagnosis.Of(_analyser) is (FrameStatus faulty, Diagnosis diagnosis))
        {
            return new() { Status = faulty, Reason = diagnosis.Message, Verdicts = Worst(placement) };
        }

        if (LoadedFrame.Of(_analyser, variant.Parts) is not LoadedFrame held)
        {
            return new() { Status = FrameStatus.Invalid, Reason = "With its limited slides held the equations lose too many digits.", Verdicts = Worst(placement) };
        }

        LoadedResults loaded = LoadedResults.Of(held, value, tellsFullWeight: false);
        FrameAssessment frame = new()
        {
            Id = "",
            Name = "",
            Kit = Assessor.KitOf(variant.Parts),
            Status = loaded.Withheld is null ? FrameStatus.Ok : FrameStatus.OutOfRange,
            BendingRose = StiffnessReadout.ReadRose(_analyser),
            Motion = loaded.Motion,
            OverloadMotion = loaded.OverloadMotion,
            FirstLimit = loaded.FirstLimit,
            FatigueFrom = loaded.FatigueFrom,
            Fatigue = Assessor.FatigueOf(value, loaded, _analyser),
        };
        bool known = value.Loading.IsChosen && loaded.Withheld is null;
        return new()
        {
            Status = frame.Status,
            Reason = loaded.Withheld?.Message,
            Stiffness = StiffnessReadout.AtFracture(_analyser),
            Motion = known ? loaded.Motion : null,
            WorstUtilisation = known ? Greatest(loaded.Chosen) : null,
            FirstLimitKg = loaded.FirstLimit?.LoadKg,
            Verdicts = Worst([.. Assessor.ChecksOf(new(value, frame, loaded, null, _analyser.Data, materials)), .. placement]),
        };
    }

    private static BoneShape Bone(BoneShape bone, double moduliShare) => moduliShare == 1 ? bone : new RetissuedShape(
        bone, bone.Tissue with { YoungsModulusMPa = moduliShare * bone.Tissue.YoungsModulusMPa, ShearModulusMPa = moduliShare * bone.Tissue.ShearModulusMPa });

    private static double Greatest(ImmutableArray<DemandItem> demand)
    {
        double most = 0;
        foreach (DemandItem item in demand)
        {
            most = item.Limit == Limit.PinFatigue ? most : Math.Max(most, item.Value);
        }

        return most;
    }

    private static ImmutableArray<CheckVerdict> Worst(ImmutableArray<Check> checks)
    {
        List<CheckVerdict> worst = new(checks.Length);
        foreach (Check check in checks)
        {
            int at = worst.FindIndex(w => w.Check == check.Id);
            if (at < 0)
            {
                worst.Add(new(check.Id, check.Verdict));
            }
            else if (check.Verdict > worst[at].Verdict)
            {
                worst[at] = new(check.Id, check.Verdict);
            }
        }

        return [.. worst];
    }
}
