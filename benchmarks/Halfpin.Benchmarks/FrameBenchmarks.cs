using BenchmarkDotNet.Attributes;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability.Analysis;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;
using Halfpin.Stability.Movement;

namespace Halfpin.Benchmarks;

/// <summary>
/// Frames of the product on the parametric tibia with foundation pins and clamp springs: from parts to K_site, T_end, all twelve unit
/// cases with balance, and the demand on every part. Standoffs change from call to call.
/// </summary>
[MemoryDiagnoser]
public class FrameBenchmarks
{
    private static readonly Fracture _fracture = new() { LevelMm = 181, GapMm = 17, Pattern = FracturePattern.Transverse, Contact = false };
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

    /// <summary>Eight pins, two rods, two cross-links.</summary>
    [Benchmark]
    public double TwoPlaneWithTwoLinks() => _twoPlane.Next();

    private sealed class Job
    {
        private readonly Parts[] _variants;
        private readonly FrameAnalyser _analyser = new(new TibiaShape(352), _fracture, new(), new MaterialTable([]));
        private readonly DemandAnalysis _demand;
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
    }
}
