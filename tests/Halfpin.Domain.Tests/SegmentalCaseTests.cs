using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;
using Xunit;

namespace Halfpin.Domain.Tests;

/// <summary>Rules and layout with more than one fracture.</summary>
public class SegmentalCaseTests
{
    private static readonly Fracture _upper = new() { LevelMm = 141, GapMm = 3, Pattern = FracturePattern.Transverse };
    private static readonly Fracture _lower = _upper with { LevelMm = 213, GapMm = 5 };

    [Fact]
    public void Fractures_inOrder_areFine() => Assert.Empty(Check([_upper, _lower]));

    [Fact]
    public void Fractures_outOfOrder_areToldAtTheSecond()
    {
        Fault fault = Assert.Single(Check([_lower, _upper]), f => f.Pointer.StartsWith("/fractures", StringComparison.Ordinal));

        Assert.Equal("/fractures/1/levelMm", fault.Pointer);
        Assert.Equal("Fractures in order, from proximal.", fault.Allowed);
    }

    [Theory]
    [InlineData(144.9, "The fracture's gap reaches into the one above.")]
    [InlineData(148.7, "Only 3.7 mm of bone lie between this fracture's gap and the one above.")]
    public void Gaps_withTooLittleBetween_areRefused(double levelMm, string message) =>
        Assert.Equal(message, Assert.Single(Check([_upper, _lower with { LevelMm = levelMm }])).Message);

    [Fact]
    public void Construct_aboutTwoFractures_keepsItsDistancesFromTheOuterEdges()
    {
        double[] levels = [.. ConstructBuilder.Build(ConstructGallery.All[1].Construct with { Placement = PinPlacement.NearFar, NearMm = 31, FarMm = 77 }, [_upper, _lower]).Pins.Select(p => p.LevelMm).Order().Distinct()];

        Assert.Equal(139.5 - 77, levels[0]);
        Assert.Equal(215.5 + 77, levels[^1]);
        Assert.DoesNotContain(levels, l => l > 139.5 - 31 && l < 215.5 + 31);
    }

    [Fact]
    public void Construct_reachesFromTheOuterEdgesToTheBonesEnds()
    {
        // 352 − 215.5 = 136.5 mm are left below the last fracture, 139.5 mm above the first.
        Fault fault = Assert.Single(Check([_upper, _lower], farMm: 137));

        Assert.Equal("/frames/0/construct/farMm", fault.Pointer);
        Assert.Equal("Less than 136.5 mm here.", fault.Allowed);
    }

    private static Fault[] Check(ImmutableArray<Fracture> fractures, double farMm = 77) =>
    [
        .. CaseRules.Check(new Case
        {
            Format = Case.FormatName,
            FormatVersion = 1,
            Title = "Two fractures",
            Limb = new() { Bone = BoneName.Tibia, Side = Side.Left, LengthMm = 352, PatientMassKg = 68, BoneModel = new AnatomicalBone() },
            Fractures = fractures,
            Frames = [new() { Id = "f", Construct = ConstructGallery.All[0].Construct with { Placement = PinPlacement.NearFar, NearMm = 31, FarMm = farMm } }],
        }),
    ];
}
