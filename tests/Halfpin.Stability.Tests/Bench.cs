using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;
using Halfpin.Storage.Cases;
using Xunit;

namespace Halfpin.Stability.Tests;

/// <summary>Cases and frames for tests.</summary>
internal static class Bench
{
    public static readonly TubeBone Tube = new() { OuterDiameterMm = 27.4, InnerDiameterMm = 13.6, YoungsModulusMPa = 16_300, PoissonRatio = 0.31 };

    public static readonly Limb TubeLimb = new() { Bone = BoneName.Tibia, Side = Side.Right, LengthMm = 362, PatientMassKg = 71, BoneModel = Tube };

    public static readonly Limb TibiaLimb = TubeLimb with { LengthMm = 352, BoneModel = new AnatomicalBone() };

    public static readonly Fracture Gap = new() { LevelMm = 181, GapMm = 17, Pattern = FracturePattern.Transverse, Contact = false };

    public static readonly PinSpec Pin = new() { DiameterMm = 5, Material = "steel" };

    public static readonly RodSpec Rod = new() { DiameterMm = 11, Material = "carbon" };

    public static readonly SingleRod NearFar = new()
    {
        Placement = PinPlacement.NearFar,
        NearMm = 27,
        FarMm = 103,
        AzimuthDeg = 0,
        StandoffMm = 47,
        Pin = Pin,
        Rod = Rod,
    };

    public static Parts PartsOf(Construct construct, Fracture? fracture = null)
    {
        Fracture f = fracture ?? Gap;
        return ConstructBuilder.Build(construct, f.LevelMm - (f.GapMm / 2), f.LevelMm + (f.GapMm / 2));
    }

    public static FrameAnalyser Analyser(Limb? limb = null, ModelOptions? model = null, Fracture? fracture = null) =>
        new(BoneShape.For(limb ?? TubeLimb), fracture ?? Gap, model ?? new(), new MaterialTable([]));

    public static FrameAnalyser Analysed(Parts parts, Limb? limb = null, ModelOptions? model = null, Fracture? fracture = null)
    {
        FrameAnalyser analyser = Analyser(limb, model, fracture);
        Assert.Equal(AnalysisStatus.Ok, analyser.Analyse(parts));
        return analyser;
    }

    public static FourStiffnesses AtFracture(Construct construct, Limb? limb = null, ModelOptions? model = null) =>
        StiffnessReadout.AtFracture(Analysed(PartsOf(construct), limb, model));

    public static Case CaseOf(Construct construct, double allowedKg = 0, Fracture? fracture = null) => CaseOf(new Frame { Id = "f", Construct = construct }, allowedKg, fracture);

    public static Case CaseOf(Frame frame, double allowedKg = 0, Fracture? fracture = null) => new()
    {
        Format = Case.FormatName,
        FormatVersion = 1,
        Title = "Test",
        Limb = TubeLimb,
        Fractures = [fracture ?? Gap],
        Loading = new() { AllowedKg = allowedKg },
        Frames = [frame],
    };

    public static FrameAssessment Assess(Case value) => new Assessor(value).Assess(null, new("halfpin", "test"), "").Frames[0];

    public static Case Example(string name)
    {
        CaseReading reading = new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", name)));
        Assert.Empty(reading.Faults);
        return reading.Case!;
    }
}
