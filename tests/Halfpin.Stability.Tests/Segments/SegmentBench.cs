using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Idealisation;
using Xunit;

namespace Halfpin.Stability.Tests.Segments;

/// <summary>Frames on bones with two fractures.</summary>
internal static class SegmentBench
{
    public static readonly Fracture Upper = new() { LevelMm = 131, GapMm = 7, Pattern = FracturePattern.Transverse, Contact = false };

    public static readonly Fracture Lower = new() { LevelMm = 233, GapMm = 4, Pattern = FracturePattern.Transverse, Contact = false };

    public static readonly ImmutableArray<Fracture> Both = [Upper, Lower];

    /// <summary>Two pins in each of three fragments on one rod, not quite in a plane.</summary>
    public static readonly Parts Six = On(
        new() { Id = "r1", DiameterMm = 11, Material = "carbon", From = new() { LevelMm = 40, AzimuthDeg = 17, StandoffMm = 47 }, To = new() { LevelMm = 330, AzimuthDeg = 23, StandoffMm = 52 }, OverhangMm = 20 },
        41.3, 98.7, 157.1, 211.9, 261.7, 327.3);

    /// <summary>Six pins on two rods that run along the bone.</summary>
    public static readonly Parts Twin = TwoRods();

    public static FrameAnalyser Analyser(ImmutableArray<Fracture> fractures, Limb? limb = null, ModelOptions? model = null)
    {
        BoneShape bone = BoneShape.For(limb ?? Bench.TibiaLimb);
        return new(bone, fractures, model ?? new(), new MaterialTable([]), new BoneFlexibility(bone, FrameAnalyser.TheoryOf(model ?? new())));
    }

    public static FrameAnalyser Analysed(Parts parts, ImmutableArray<Fracture> fractures, Limb? limb = null, ModelOptions? model = null)
    {
        FrameAnalyser analyser = Analyser(fractures, limb, model);
        Assert.Equal(AnalysisStatus.Ok, analyser.Analyse(parts));
        return analyser;
    }

    public static Parts Loosened(Parts parts, params string[] clamps) => parts with
    {
        Clamps = [.. parts.Clamps.Select(c => clamps.Contains(c.Id) ? c with { State = ClampState.Loose } : c)],
    };

    /// <summary>Pins p1… at levels, each clamped to a rod by c1….</summary>
    public static Parts On(Rod rod, params double[] levelsMm)
    {
        ImmutableArray<Pin> pins = [.. levelsMm.Select((level, i) => new Pin { Id = $"p{i + 1}", LevelMm = level, AzimuthDeg = 19, DiameterMm = 5, Material = "steel" })];
        return new() { Pins = pins, Rods = [rod], Clamps = [.. pins.Select((p, i) => new Clamp { Id = $"c{i + 1}", Pin = p.Id, Rod = rod.Id })] };
    }

    private static Parts TwoRods()
    {
        Rod At(string id, double radiusMm) => Six.Rods[0] with
        {
            Id = id,
            From = new() { LevelMm = 40, AzimuthDeg = 19, RadiusMm = radiusMm },
            To = new() { LevelMm = 330, AzimuthDeg = 19, RadiusMm = radiusMm },
        };
        return Six with { Rods = [At("r1", 67), At("r2", 96)], Clamps = [.. Six.Clamps, .. Six.Clamps.Select((c, i) => c with { Id = $"d{i + 1}", Rod = "r2" })] };
    }
}
