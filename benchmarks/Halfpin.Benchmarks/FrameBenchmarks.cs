using BenchmarkDotNet.Attributes;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;
using Halfpin.Stability.Variants;

namespace Halfpin.Benchmarks;

/// <summary>
/// Frames of the product on the parametric tibia with foundation pins and clamp springs: from parts to K_site, T_end, all twelve unit
/// cases with balance, and the demand on every part. Standoffs change from call to call. Rated as a search rates them, the bone ends bear under
/// the overload case: contact and demand are solved under two loads.
/// </summary>
[MemoryDiagnoser]
public class FrameBenchmarks
{
    private static readonly Fracture _fracture = new() { LevelMm = 181, GapMm = 17, Pattern = FracturePattern.Transverse, Contact = false };
    private static readonly Case _case = new()
    {
        Format = Case.FormatName,
        FormatVersion = Case.CurrentFormatVersion,
        Title = "Invented",
        Limb = new() { Bone = BoneName.Tibia, Side = Side.Left, LengthMm = 352, PatientMassKg = 71, BoneModel = new AnatomicalBone() },
        Fractures = [_fracture with { GapMm = 3, Pattern = FracturePattern.Oblique, TiltDeg = 25, TiltAzimuthDeg = -60, Contact = true }],
        Loading = new() { AllowedKg = 5 },
        Frames = [],
    };

    private static readonly PinSpec _pin = new() { DiameterMm = 5, Material = "steel" };
    private static readonly RodSpec _rod = new() { DiameterMm = 11, Material = "carbon" };

    private readonly Job _fourPins = new(s => new SingleRod
    {
        Placement = PinPlacement.NearFar,
        NearMm = 27,
        FarMm = 103,
        AzimuthDeg = 50,
        StandoffMm = s,
        Pin = _pin,
        Rod = _rod,
    });

    private readonly Job _twoPlane = new(s => new TwoPlane
    {
        Placement = PinPlacement.NearFar,
        NearMm = 27,
        FarMm = 93,
        AzimuthDeg = 20,
        SecondAzimuthDeg = 80,
        StandoffMm = s,
        Pin = _pin,
        Rod = _rod,
    });

    /// <summary>Four pins, one rod.</summary>
    [Benchmark]
    public double FourPinsOneRod() => _fourPins.Next();

    /// <summary>The same as a search rates it.</summary>
    [Benchmark]
    public double FourPinsOneRodRated() => _fourPins.NextRated();

    /// <summary>Eight pins, two rods, two cross-links.</summary>
    [Benchmark]
    public double TwoPlaneWithTwoLinks() => _twoPlane.Next();

    /// <summary>The same as a search rates it.</summary>
    [Benchmark]
    public double TwoPlaneWithTwoLinksRated() => _twoPlane.NextRated();

    private sealed class Job
    {
        private readonly Parts[] _variants;
        private readonly FrameAnalyser _analyser = new(new TibiaShape(352), _fracture, new(), new MaterialTable([]));
        private readonly DemandAnalysis _demand;
        private readonly VariantAssessor _rater = new();
        private int _next;

        public Job(Func<double, Construct> at)
        {
            double above = _fracture.LevelMm - (_fracture.GapMm / 2), below = _fracture.LevelMm + (_fracture.GapMm / 2);
            _variants = [.. Enumerable.Range(0, 16).Select(i => ConstructBuilder.Build(at(43.1 + (0.37 * i)), above, below))];
            _demand = new(_analyser);
        }

        public double Next()
        {
            if (_analyser.Analyse(_variants[_next++ & 15]) != AnalysisStatus.Ok)
            {
                throw new InvalidOperationException("The frame holds.");
            }

            return _demand.Under(EndLoad.Compression(100))[0].Value;
        }

        public double NextRated()
        {
            FrameRating rating = _rater.Rate(new(_case, _variants[_next++ & 15]));
            return rating is { Status: RatingStatus.Ok, OverloadAxialMm: > 0 } ? rating.OverloadUsedPercent : throw new InvalidOperationException("The frame holds.");
        }
    }
}
