using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Placement.Checks;

namespace Halfpin.Placement.Tests;

/// <summary>Cases and frames for tests.</summary>
internal static class Bench
{
    public static readonly TubeBone Tube = new() { OuterDiameterMm = 27.4, InnerDiameterMm = 13.6, YoungsModulusMPa = 16_300, PoissonRatio = 0.31 };

    public static readonly Limb Leg = new() { Bone = BoneName.Tibia, Side = Side.Right, LengthMm = 352, PatientMassKg = 71, BoneModel = new AnatomicalBone() };

    public static readonly Limb SyntheticBone = Leg with { LengthMm = 362, BoneModel = Tube };

    public static readonly Fracture Gap = new() { LevelMm = 181, GapMm = 17, Pattern = FracturePattern.Transverse, Contact = false };

    public static readonly SingleRod NearFar = new()
    {
        Placement = PinPlacement.NearFar,
        NearMm = 27,
        FarMm = 97,
        AzimuthDeg = 47,
        StandoffMm = 53,
        Pin = new() { DiameterMm = 5, Material = "steel" },
        Rod = new() { DiameterMm = 11, Material = "carbon" },
    };

    public static Case CaseOf(Construct construct, Limb? limb = null, Fracture? fracture = null) =>
        CaseOf(new Frame { Id = "f", Construct = construct }, limb, fracture);

    public static Case CaseOf(Frame frame, Limb? limb = null, Fracture? fracture = null) => new()
    {
        Format = Case.FormatName,
        FormatVersion = 1,
        Title = "Test",
        Limb = limb ?? Leg,
        Fractures = [fracture ?? Gap],
        Frames = [frame],
    };

    public static PlacedFrame Placed(Case value)
    {
        Frame frame = value.Frames[0];
        return PlacedFrame.Of(value, frame.Parts ?? ConstructBuilder.Build(frame.Construct!, value.Fractures), BoneShape.For(value.Limb));
    }

    public static Check[] Checks(Case value) => [.. PlacementChecks.Of(Placed(value))];

    public static Check Check(Case value, string id) => Checks(value).Single(c => c.Id == id);

    /// <summary>The case with one part of its frame changed.</summary>
    public static Case With(Case value, Func<Parts, Parts> change)
    {
        Parts parts = ConstructBuilder.Build(value.Frames[0].Construct!, value.Fractures);
        return value with { Frames = [new Frame { Id = "f", Parts = change(parts) }] };
    }

    public static Case WithPin(Case value, int pin, Func<Pin, Pin> change) => With(value, p => p with { Pins = p.Pins.SetItem(pin, change(p.Pins[pin])) });
}
