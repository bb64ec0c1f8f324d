using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Materials;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Assembly;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>How far a deck goes in saying with plain beams what the product says exactly.</summary>
/// <param name="ArmStiffness">A rigid arm becomes a beam that is stiffer by this factor than what it carries: the pin, the rod or the spring.</param>
/// <param name="LumpsPerCortex">The foundation of a cortex becomes this many equal pieces, each gathered in a short support beam at its middle.</param>
public sealed record DeckIdealisation(double ArmStiffness, int LumpsPerCortex)
{
    /// <summary>Within 1e-3 of the product, and well within what double precision can solve.</summary>
    public static DeckIdealisation Usual { get; } = new(1e4, 8);
}

/// <summary>
/// Lays out a frame of a case as a deck of beams, from the parts alone: geometry, sections and idealisation are worked out here
/// again, without the product's placement and writers, so that a comparison covers these too.
/// </summary>
/// <remarks>
/// The bone is a round tube. Its distal end is held in six freedoms (potted) and its proximal end carries the load. No threads
/// and no clamp bodies; clamps are tight.
/// <list type="bullet">
/// <item>Rigid arm (axis to surface, axis to a lump of the foundation, eccentric clamp): a stiff beam, <see cref="DeckIdealisation.ArmStiffness"/>.
/// What it differs by is proportional to 1/stiffness.</item>
/// <item>Pin in a cortex: at the middle of each lump of length Δ a support beam of length s along the pin, with EA/s = kΔ,
/// 12EI/s³ = kΔ and GJ/s = kΔd²/4, from the pin to the bone's arm. It also resists turning across the pin by kΔs²/12, which the
/// foundation's own kΔ³/12 exceeds as s is less than Δ. What it differs by is proportional to Δ².</item>
/// <item>Spring clamp of translational stiffness T and rotational stiffness R: a beam along the rod of length s = √(12R/T), with
/// EA/s = T, EI/s = R and GJ/s = R, its middle at the clamp and stiff arms from its ends to pin and rod. Such a beam is
/// about its middle just that spring, so the arms alone differ.</item>
/// </list>
/// </remarks>
public sealed class FrameDecks
{
    /// <summary>The loaded proximal end.</summary>
    public const string Top = "top";

    /// <summary>The fracture's proximal face on the axis.</summary>
    public const string UpperFace = "upper face";

    /// <summary>The fracture's distal face on the axis.</summary>
    public const string LowerFace = "lower face";

    /// <summary>The held distal end.</summary>
    public const string End = "end";

    /// <summary>Names of the six load cases, each one component of a wrench on the proximal end.</summary>
    public static readonly ImmutableArray<string> LoadCases = ["fx", "fy", "fz", "mx", "my", "mz"];

    /// <summary>Size of the force in the first three load cases, N.</summary>
    public const double ForceN = 100;

    /// <summary>Size of the moment in the last three load cases, N·mm.</summary>
    public const double MomentNmm = 5000;

    // A support beam is this share of the lump it stands for.
    private const double SupportShare = 0.125;
    private const double Meeting = 1e-9;

    private readonly Case _case;
    private readonly Parts _parts;
    private readonly TubeBone _tube;
    private readonly DeckIdealisation _how;
    private readonly List<DeckNode> _nodes = [];
    private readonly List<DeckBeam> _beams = [];

    // Clamp nodes on each pin or rod, by part id, with the distance along it.
    private readonly Dictionary<string, List<(double AlongMm, string Node)>> _stops = [];

    private FrameDecks(Case value, Parts parts, DeckIdealisation how)
    {
        _case = value;
        _parts = parts;
        _tube = (TubeBone)value.Limb.BoneModel;
        _how = how;
    }

    /// <summary>The deck of a frame.</summary>
    /// <param name="value">The case: bone, fracture, materials, model.</param>
    /// <param name="parts">The frame's parts.</param>
    /// <param name="how">How exactly.</param>
    public static BeamDeck Lay(Case value, Parts parts, DeckIdealisation how) => new FrameDecks(value, parts, how).Lay();

    /// <summary>The wrench on the proximal end in a load case of a frame's deck.</summary>
    public static Wrench LoadOf(string loadCase)
    {
        int i = LoadCases.IndexOf(loadCase);
        return i < 3 ? new(ForceN * Unit(i), default) : new(default, MomentNmm * Unit(i - 3));
    }

    private static Vec3 Unit(int i) => new(i == 0 ? 1 : 0, i == 1 ? 1 : 0, i == 2 ? 1 : 0);

    private BeamDeck Lay()
    {
        if (_parts.Clamps.Any(c => c.State != ClampState.Tight || c.BodyLengthMm != 0) || _parts.Pins.Any(p => p.CoreDiameterMm is not null))
        {
            throw new NotSupportedException("A frame's deck has tight clamps without bodies and plain pins only.");
        }

        // Clamps first find their places; members are then drawn from stop to stop.
        foreach (Clamp clamp in _parts.Clamps)
        {
            Clamp(clamp);
        }

        Bone();
        foreach (Pin pin in _parts.Pins)
        {
            PinOf(pin);
        }

        foreach (Rod rod in _parts.Rods)
        {
            DeckSection section = SectionOf(rod.Material, rod.DiameterMm, rod.InnerDiameterMm);
            Chain($"rod {rod.Id}", section, [.. Stops(rod.Id)]);
        }

        return new()
        {
            Nodes = InOrder(),
            Beams = [.. _beams],
            Held = ImmutableSortedDictionary<string, Freedoms>.Empty.Add(End, Freedoms.All),
            LoadCases = LoadCases.ToImmutableSortedDictionary(c => c, c => ImmutableArray.Create(new DeckLoad(Top, LoadOf(c)))),
        };
    }

    // From proximal to distal, which keeps a skyline low.
    private ImmutableArray<DeckNode> InOrder() => [.. _nodes.OrderByDescending(n => n.AtMm.Z)];

    private void Bone()
    {
        Fracture fracture = _case.Fractures[0];
        double upper = fracture.LevelMm - (fracture.GapMm / 2), lower = fracture.LevelMm + (fracture.GapMm / 2);
        DeckSection section = DeckSection.Round(
            _tube.YoungsModulusMPa, _tube.ShearModulusMPa ?? _tube.YoungsModulusMPa / (2 * (1 + _tube.PoissonRatio)), _tube.OuterDiameterMm, _tube.InnerDiameterMm);
        (double Level, string Node)[] stations =
        [
            (0, Top), (upper, UpperFace), (lower, LowerFace), (_case.Limb.LengthMm, End), .. _parts.Pins.Select(p => (p.LevelMm, AxisNode(p))),
        ];
        foreach ((double level, string node) in stations)
        {
            _nodes.Add(new(node, new(0, 0, -level)));
        }

        Chain("upper bone", section, [.. stations.Where(s => s.Level <= upper).OrderBy(s => s.Level).Select(s => s.Node)]);
        Chain("lower bone", section, [.. stations.Where(s => s.Level >= lower).OrderBy(s => s.Level).Select(s => s.Node)]);
    }

    private void PinOf(Pin pin)
    {
        DeckSection section = SectionOf(pin.Material, pin.DiameterMm, 0);
        string surface = AddNode($"{pin.Id} surface", OnPin(pin, SurfaceMm(pin)));
        if ((pin.Fixity ?? _case.Model.PinFixity) is FoundationFixity foundation)
        {
            InBone(pin, section, foundation.ModulusNPerMm2, surface);
        }
        else
        {
            Add($"{pin.Id} arm", AxisNode(pin), surface, section.Stiffer(_how.ArmStiffness));
        }

        Chain($"pin {pin.Id}", section, [surface, .. Stops(pin.Id)]);
    }

    private void InBone(Pin pin, DeckSection section, double modulusNPerMm2, string surface)
    {
        double outer = SurfaceMm(pin), canal = outer * _tube.InnerDiameterMm / _tube.OuterDiameterMm;
        double lump = (outer - canal) / _how.LumpsPerCortex, support = SupportShare * lump;
        double[] nearMiddles = [.. Enumerable.Range(0, _how.LumpsPerCortex).Select(i => outer - ((i + 0.5) * lump))];
        double[] middles = [.. nearMiddles, .. nearMiddles.Reverse().Select(m => -m)];
        string[] onPin = [.. middles.Select((m, i) => AddNode($"{pin.Id} lump {i}", OnPin(pin, m + (support / 2))))];
        string[] onArm = [.. middles.Select((m, i) => AddNode($"{pin.Id} ground {i}", OnPin(pin, m - (support / 2))))];
        double translation = modulusNPerMm2 * lump, torsion = translation * pin.DiameterMm * pin.DiameterMm / 4;
        DeckSection spring = SupportBeam(translation, torsion, support);
        Chain($"{pin.Id} embedded", section, [surface, .. onPin]);

        // Each ground node has an arm of its own: a chain of very short stiff beams would cost digits.
        for (int i = 0; i < middles.Length; i++)
        {
            Add($"{pin.Id} support {i}", onPin[i], onArm[i], spring);
            Arm($"{pin.Id} arm {i}", AxisNode(pin), onArm[i], translation, torsion);
        }
    }

    // A beam that is stiffer than the spring it carries.
    private void Arm(string name, string a, string b, double translationNPerMm, double torsionNmmPerRad) =>
        Add(name, a, b, SupportBeam(translationNPerMm, torsionNmmPerRad, (At(b) - At(a)).Length).Stiffer(_how.ArmStiffness));

    // A beam of length s with EA/s = 12EI/s³ = translation and GJ/s = torsion. Only the products matter, so E and G are free.
    private static DeckSection SupportBeam(double translationNPerMm, double torsionNmmPerRad, double lengthMm)
    {
        const double E = 1000, G = 500;
        double second = translationNPerMm * lengthMm * lengthMm * lengthMm / (12 * E);
        return new(E, G, translationNPerMm * lengthMm / E, second, second, torsionNmmPerRad * lengthMm / G);
    }

    private void Clamp(Clamp clamp)
    {
        (Vec3 from, Vec3 along) = AxisOf(_parts.Rods.First(r => r.Id == clamp.Rod));
        (Vec3 memberFrom, Vec3 memberAlong, DeckSection memberSection) = MemberOf(clamp);
        (double onMember, double onRod) = NearestPoints(memberFrom, memberAlong, from, along);
        Vec3 member = memberFrom + (onMember * memberAlong), at = from + (onRod * along);
        string memberNode = AddNode($"{clamp.Id} member", member), rodNode = memberNode;
        if ((clamp.Model ?? _case.Model.Clamp) is SpringClamp spring)
        {
            rodNode = AddNode($"{clamp.Id} rod", at);
            SpringBetween(clamp.Id, memberNode, rodNode, along, spring);
        }
        else if ((at - member).Length > Meeting)
        {
            rodNode = AddNode($"{clamp.Id} rod", at);
            Add($"{clamp.Id} arm", memberNode, rodNode, memberSection.Stiffer(_how.ArmStiffness));
        }

        StopsOf(clamp.Pin ?? clamp.OtherRod!).Add((onMember, memberNode));
        StopsOf(clamp.Rod).Add((onRod, rodNode));
    }

    // The pin or other rod of a clamp: its axis and section.
    private (Vec3 From, Vec3 Along, DeckSection Section) MemberOf(Clamp clamp)
    {
        if (clamp.Pin is string id)
        {
            Pin pin = _parts.Pins.First(p => p.Id == id);
            return (OnPin(pin, 0), Outward(pin), SectionOf(pin.Material, pin.DiameterMm, 0));
        }

        Rod rod = _parts.Rods.First(r => r.Id == clamp.OtherRod);
        (Vec3 from, Vec3 along) = AxisOf(rod);
        return (from, along, SectionOf(rod.Material, rod.DiameterMm, rod.InnerDiameterMm));
    }

    private void SpringBetween(string clamp, string memberNode, string rodNode, Vec3 along, SpringClamp spring)
    {
        double translation = spring.TranslationalNPerMm, rotation = 1000 * spring.RotationalNmPerRad;
        double length = Math.Sqrt(12 * rotation / translation);
        Vec3 at = At(rodNode);
        string a = AddNode($"{clamp} spring a", at - (length / 2 * along)), b = AddNode($"{clamp} spring b", at + (length / 2 * along));
        Arm($"{clamp} arm a", memberNode, a, translation, rotation);
        Add($"{clamp} spring", a, b, SupportBeam(translation, rotation, length));
        Arm($"{clamp} arm b", b, rodNode, translation, rotation);
    }

    private (Vec3 From, Vec3 Along) AxisOf(Rod rod)
    {
        Vec3 from = Point(rod.From), to = Point(rod.To);
        return (from, (to - from).Normalised());
    }

    private Vec3 Point(RodPoint p) =>
        ((p.RadiusMm ?? (_tube.OuterDiameterMm / 2) + p.StandoffMm!.Value) * Radial(p.AzimuthDeg)) - (p.LevelMm * Vec3.UnitZ);

    // Distances along two lines to where they pass each other, from the condition that the joining line is square to both.
    private static (double OnFirst, double OnSecond) NearestPoints(Vec3 first, Vec3 alongFirst, Vec3 second, Vec3 alongSecond)
    {
        Vec3 square = alongFirst.Cross(alongSecond);
        double size = square.Dot(square);
        Vec3 between = second - first;
        return (between.Cross(alongSecond).Dot(square) / size, between.Cross(alongFirst).Dot(square) / size);
    }

    private double SurfaceMm(Pin pin) => _tube.OuterDiameterMm / 2 / Math.Cos(Rad(pin.TiltDeg));

    private static Vec3 OnPin(Pin pin, double distanceMm) => (distanceMm * Outward(pin)) - (pin.LevelMm * Vec3.UnitZ);

    private static Vec3 Outward(Pin pin) => (Math.Cos(Rad(pin.TiltDeg)) * Radial(pin.AzimuthDeg)) + (Math.Sin(Rad(pin.TiltDeg)) * Vec3.UnitZ);

    private static Vec3 Radial(double azimuthDeg) => new(Math.Cos(Rad(azimuthDeg)), Math.Sin(Rad(azimuthDeg)), 0);

    private static double Rad(double deg) => deg * Math.PI / 180;

    private static string AxisNode(Pin pin) => $"{pin.Id} axis";

    private DeckSection SectionOf(string material, double outerDiameterMm, double innerDiameterMm)
    {
        Material m = _case.Materials.Concat(BuiltInMaterials.All.Select(b => b.Material)).First(x => x.Id == material);
        return DeckSection.Round(m.YoungsModulusMPa, m.EffectiveShearModulusMPa(), outerDiameterMm, innerDiameterMm);
    }

    private List<(double AlongMm, string Node)> StopsOf(string part)
    {
        if (!_stops.TryGetValue(part, out List<(double AlongMm, string Node)>? stops))
        {
            _stops[part] = stops = [];
        }

        return stops;
    }

    private IEnumerable<string> Stops(string part) => StopsOf(part).OrderBy(s => s.AlongMm).Select(s => s.Node);

    private Vec3 At(string node) => _nodes.Find(n => n.Name == node)!.AtMm;

    private string AddNode(string name, Vec3 atMm)
    {
        _nodes.Add(new(name, atMm));
        return name;
    }

    private void Chain(string name, DeckSection section, string[] nodes)
    {
        for (int i = 1; i < nodes.Length; i++)
        {
            Add($"{name} {i}", nodes[i - 1], nodes[i], section);
        }
    }

    private void Add(string name, string a, string b, DeckSection section) =>
        _beams.Add(new(name, a, b, section, (At(b) - At(a)).AnyNormal()));
}
