using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Verification.Models;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>A frame of the product in the case it belongs to.</summary>
/// <param name="Case">Bone, fracture, materials and model.</param>
/// <param name="Parts">The frame's parts.</param>
public sealed record SampleFrame(Case Case, Parts Parts)
{
    /// <summary>The frame as a deck.</summary>
    public BeamDeck Deck(DeckIdealisation how) => FrameDecks.Lay(Case, Parts, how);

    /// <summary>The frame's motions as the product finds them.</summary>
    public FrameMotions Product() => FrameMotions.OfProduct(Case, Parts);

    /// <summary>The frame's motions as a program found them with its deck.</summary>
    public FrameMotions Read(DeckMotions motions) => FrameMotions.Of(motions, Case.Fractures[0]);
}

/// <summary>The frames on which programs are compared. Invented, on a tube of bone; all Euler–Bernoulli.</summary>
public static class SampleFrames
{
    private const double LengthMm = 360, FractureMm = 180, GapMm = 20;

    private static readonly PinSpec _pin = new() { DiameterMm = 5, Material = "pin" };

    /// <summary>Upper and lower end of construct A's gap, and its loaded end.</summary>
    public const string UpperGapA = "b+1", LowerGapA = "b-1", TopA = "b+170";

    /// <summary>
    /// Construct A: two tubes of bone, four pins and a rod in the x–z plane, all joints rigid, the pins' first 13.5 mm a thousand
    /// times stiffer. Load cases fz (−100 N), mx, my, mz (5000 N·mm) at the upper end. Pins are named pin1 to pin4 from the top.
    /// </summary>
    public static RawFrame ConstructA()
    {
        const double BoneE = 17_000, PinE = 193_000, RodE = 110_000, ArmE = 1000 * PinE, Surface = 13.5, RodX = 83.5;
        int[] pins = [150, 75, -75, -150];
        Dictionary<string, ImmutableArray<double>> nodes = [];
        foreach (int z in (int[])[170, 1, -1, -170, .. pins])
        {
            nodes[$"b{z:+0;-0}"] = [0, 0, z];
        }

        foreach (int z in (int[])[165, -165, .. pins])
        {
            nodes[$"r{z:+0;-0}"] = [RodX, 0, z];
        }

        List<RawBeam> beams = [.. Chain("upper", BoneE, 27, 13, "b", 170, 150, 75, 1), .. Chain("lower", BoneE, 27, 13, "b", -1, -75, -150, -170)];
        for (int i = 0; i < pins.Length; i++)
        {
            string at = $"{pins[i]:+0;-0}";
            nodes["s" + at] = [Surface, 0, pins[i]];
            beams.Add(Tube($"arm{i + 1}", "b" + at, "s" + at, ArmE, 5, 0));
            beams.Add(Tube($"pin{i + 1}", "s" + at, "r" + at, PinE, 5, 0));
        }

        beams.AddRange(Chain("rod", RodE, 11, 0, "r", 165, 150, 75, -75, -150, -165));
        return new()
        {
            Units = "N, mm, rad",
            Nodes = nodes.ToImmutableSortedDictionary(StringComparer.Ordinal),
            Beams = [.. beams],
            Supports = ImmutableSortedDictionary<string, ImmutableArray<string>>.Empty.Add("b-170", ["ux", "uy", "uz", "rx", "ry", "rz"]),
            Loads =
            [
                new("fz", TopA, [0, 0, -100], [0, 0, 0]), new("mx", TopA, [0, 0, 0], [5000, 0, 0]),
                new("my", TopA, [0, 0, 0], [0, 5000, 0]), new("mz", TopA, [0, 0, 0], [0, 0, 5000]),
            ],
        };
    }

    private static IEnumerable<RawBeam> Chain(string name, double e, double outerMm, double innerMm, string nodes, params int[] levels) =>
        levels.Zip(levels.Skip(1)).Select((z, i) => Tube($"{name}{i + 1}", $"{nodes}{z.First:+0;-0}", $"{nodes}{z.Second:+0;-0}", e, outerMm, innerMm));

    private static RawBeam Tube(string name, string a, string b, double e, double outerMm, double innerMm)
    {
        const double Isotropic = 2 * (1 + 0.3);
        DeckSection s = DeckSection.Round(e, e / Isotropic, outerMm, innerMm);
        return new()
        {
            Id = name,
            A = a,
            B = b,
            E = e,
            G = s.ShearModulusMPa,
            Area = s.AreaMm2,
            I22 = s.I22Mm4,
            I33 = s.I33Mm4,
            Torsion = s.TorsionMm4,
            Towards2 = [0, 1, 0],
        };
    }

    /// <summary>Four 5 mm pins at 30 and 110 mm from the middle of the gap, standoff 50 mm, one carbon rod; pins fixed at the surface, clamps rigid.</summary>
    public static SampleFrame SingleRodRigid() => Of(
        Rigid, Bone(28, 14),
        new SingleRod { Placement = PinPlacement.NearFar, NearMm = 20, FarMm = 100, AzimuthDeg = 0, StandoffMm = 50, Pin = _pin, Rod = RodOf("rod") });

    /// <summary>A V of eight pins at 20° and 80° with two cross-links, rods of aluminium; pins fixed at the surface, clamps rigid.</summary>
    public static SampleFrame TwoPlaneRigid() => Of(
        Rigid, Bone(28, 14),
        new TwoPlane { Placement = PinPlacement.NearFar, NearMm = 25, FarMm = 110, AzimuthDeg = 20, SecondAzimuthDeg = 80, StandoffMm = 45, Pin = _pin, Rod = RodOf("light rod") });

    /// <summary>A near-far single-rod frame with the default hold of cortex on pins and the default spring clamps.</summary>
    public static SampleFrame SingleRodYielding() => Of(
        Yielding, Bone(27, 13),
        new SingleRod { Placement = PinPlacement.NearFar, NearMm = 30, FarMm = 95, AzimuthDeg = 0, StandoffMm = 55, Pin = _pin, Rod = RodOf("rod") });

    /// <summary>Two rods on six pins, with yielding cortex and clamps.</summary>
    public static SampleFrame DoubleRodYielding() => Of(
        Yielding, Bone(27, 13),
        new DoubleRod { Placement = PinPlacement.Even, PinsPerFragment = 3, NearMm = 30, FarMm = 100, AzimuthDeg = -35, StandoffMm = 40, RodSpacingMm = 35, Pin = _pin, Rod = RodOf("rod") });

    /// <summary>Tilted pins in several directions on a rod that passes them at a distance: clamps with eccentricity. Yielding cortex and clamps.</summary>
    public static SampleFrame SkewedYielding() => Skewed(Yielding);

    /// <summary>The same pins, rod and eccentric clamps; pins fixed at the surface, clamps rigid.</summary>
    public static SampleFrame SkewedRigid() => Skewed(Rigid);

    private static SampleFrame Skewed(ModelOptions model)
    {
        Pin At(string id, double level, double azimuth, double tilt) =>
            new() { Id = id, LevelMm = level, AzimuthDeg = azimuth, TiltDeg = tilt, DiameterMm = 5, Material = "pin" };
        return new(CaseOf(model, Bone(27, 13)), new()
        {
            Pins = [At("p1", 70, 10, 12), At("p2", 140, 25, -8), At("p3", 215, 5, 15), At("p4", 290, 30, -10)],
            Rods =
            [
                new()
                {
                    Id = "r1",
                    DiameterMm = 11,
                    Material = "rod",
                    From = new() { LevelMm = 60, AzimuthDeg = 0, RadiusMm = 72 },
                    To = new() { LevelMm = 300, AzimuthDeg = 20, RadiusMm = 64 },
                    OverhangMm = 20,
                },
            ],
            Clamps = [.. new[] { "p1", "p2", "p3", "p4" }.Select((p, i) => new Clamp { Id = $"c{i + 1}", Pin = p, Rod = "r1" })],
        });
    }

    private static ModelOptions Rigid => new() { PinFixity = new FixedAtSurface(), Clamp = new RigidClamp(), Beam = BeamChoice.EulerBernoulli };

    private static ModelOptions Yielding => new() { Beam = BeamChoice.EulerBernoulli };

    private static TubeBone Bone(double outerMm, double innerMm) =>
        new() { OuterDiameterMm = outerMm, InnerDiameterMm = innerMm, YoungsModulusMPa = 17_000, PoissonRatio = 0.3 };

    private static RodSpec RodOf(string material) => new() { DiameterMm = 11, Material = material };

    private static SampleFrame Of(ModelOptions model, TubeBone bone, Construct construct) => new(
        CaseOf(model, bone), ConstructBuilder.Build(construct, FractureMm - (GapMm / 2), FractureMm + (GapMm / 2)));

    private static Case CaseOf(ModelOptions model, TubeBone bone) => new()
    {
        Format = Case.FormatName,
        FormatVersion = Case.CurrentFormatVersion,
        Title = "Invented for the comparison of programs",
        Limb = new() { Bone = BoneName.Tibia, Side = Side.Right, LengthMm = LengthMm, PatientMassKg = 75, BoneModel = bone },
        Fractures = [new() { LevelMm = FractureMm, GapMm = GapMm, Pattern = FracturePattern.Transverse, Contact = false }],
        Frames = [],
        Materials =
        [
            new() { Id = "pin", YoungsModulusMPa = 190_000, PoissonRatio = 0.3, YieldMPa = 690 },
            new() { Id = "rod", YoungsModulusMPa = 120_000, ShearModulusMPa = 5000, YieldMPa = 600 },
            new() { Id = "light rod", YoungsModulusMPa = 68_900, PoissonRatio = 0.3, YieldMPa = 276 },
        ],
        Model = model,
    };
}
