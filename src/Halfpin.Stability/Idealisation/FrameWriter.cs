using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Placement;

namespace Halfpin.Stability.Idealisation;

/// <summary>Writes the numbers of a variant into a frame system: where nodes lie and how stiff each member is.</summary>
internal sealed class FrameWriter(FrameData data, BoneFlexibility bone, MaterialTable materials, BeamTheory theory)
{
    /// <summary>Most spans of a pin inside the bone: two cortices, the canal, and one of them in two where the thread ends.</summary>
    public const int MaxSpans = 4;

    private const double ShearCoefficient = 0.9;

    // A loosened clamp that is rigid otherwise holds its remaining four directions by springs far stiffer than any part:
    // 1e-6 of a frame's flexibility.
    private const double RigidNPerMm = 1e8;
    private const double RigidNmmPerRad = 1e10;

    /// <summary>Writes all nodes and members. Clamps in <paramref name="slidesHeld"/> keep their slide although loose.</summary>
    public void Write(FramePlan plan, FrameSystem system, ReadOnlySpan<bool> slidesHeld) => Write(plan, system, slidesHeld, false);

    /// <summary>Writes all nodes and members with loose clamps as stiff as tight ones, for a model that frees them by itself.</summary>
    public void WriteTight(FramePlan plan, FrameSystem system) => Write(plan, system, [], true);

    private void Write(FramePlan plan, FrameSystem system, ReadOnlySpan<bool> slidesHeld, bool tight)
    {
        for (int n = 0; n < plan.Nodes.Length; n++)
        {
            system.SetNode(n, Position(plan, plan.Nodes[n]));
        }

        for (int m = 0; m < plan.Members.Length; m++)
        {
            PlannedMember member = plan.Members[m];
            system.SetMember(m, member.Kind switch
            {
                MemberKind.Bone => bone.Between(data.LevelMm(plan.Stations[member.From]), data.LevelMm(plan.Stations[member.To])),
                MemberKind.PinInBone => PinInBoneStiffness(member.Part),
                MemberKind.PinOutside => PinOutsideStiffness(member),
                MemberKind.Rod => RodStiffness(member),
                _ => ClampStiffness(member.Part, tight || slidesHeld[member.Part], tight),
            });
        }
    }

    /// <summary>
    /// The spans of a pin inside the bone, from the surface inwards: near cortex, canal and far cortex, or one stretch of bone; that in which the
    /// thread ends in two.
    /// </summary>
    /// <returns>How many spans were written, at most <see cref="MaxSpans"/>.</returns>
    public int SpansOf(int pin, Span<GroundSpan> spans)
    {
        PlacedPin p = data.PlacedPins[pin];
        double k = FoundationOf(pin);
        if (p.NearCanalMm <= 0 || p.FarCanalMm >= 0)
        {
            return AddSpans(spans, 0, pin, p.SurfaceMm, p.FarSurfaceMm, k);
        }

        int count = AddSpans(spans, 0, pin, p.SurfaceMm, p.NearCanalMm, k);
        count = AddSpans(spans, count, pin, p.NearCanalMm, p.FarCanalMm, 0);
        return AddSpans(spans, count, pin, p.FarCanalMm, p.FarSurfaceMm, k);
    }

    /// <summary>Foundation modulus of a pin held by its cortices.</summary>
    public double FoundationOf(int pin) => ((FoundationFixity)data.FixityOf(pin)).ModulusNPerMm2;

    /// <summary>Diameter with which a pin bends at a distance along it: the core as far as the thread reaches, the shank beyond.</summary>
    public double BendingDiameterMm(int pin, double atMm) =>
        ThreadEndMm(pin) >= atMm ? data.Pins[pin].CoreDiameterMm!.Value : data.Pins[pin].DiameterMm;

    /// <summary>Distance along the pin at which its thread ends; minus infinity when it has none that matters.</summary>
    public double ThreadEndMm(int pin)
    {
        Pin p = data.Pins[pin];
        return p.CoreDiameterMm is not null && p.ThreadLengthMm is double thread
            ? data.PlacedPins[pin].TipMm + thread
            : double.NegativeInfinity;
    }

    private int AddSpans(Span<GroundSpan> spans, int count, int pin, double fromMm, double toMm, double foundationNPerMm2)
    {
        double threadEnd = ThreadEndMm(pin);
        if (threadEnd < fromMm && threadEnd > toMm)
        {
            spans[count++] = new(fromMm - threadEnd, foundationNPerMm2, Rigidity(pin, fromMm));
            fromMm = threadEnd;
        }

        spans[count++] = new(fromMm - toMm, foundationNPerMm2, Rigidity(pin, fromMm));
        return count;
    }

    private BarRigidity Rigidity(int pin, double fromMm) =>
        BarRigidity.Solid(materials.ModuliOf(data.Pins[pin].Material), BendingDiameterMm(pin, fromMm), data.Pins[pin].DiameterMm);

    private Vec3 Position(FramePlan plan, PlannedNode node) => node.Owner switch
    {
        NodeOwner.Fragment => new(0, 0, -data.LevelMm(plan.Stations[node.Place])),
        NodeOwner.Pin => node.Place < 0
            ? data.PlacedPins[node.Part].At(data.PlacedPins[node.Part].SurfaceMm)
            : data.PlacedClamps[node.Place].OnMemberMm,
        _ => node.Place < 0
            ? 0.5 * (data.PlacedRods[node.Part].FromMm + data.PlacedRods[node.Part].ToMm)
            : PointOnRod(node.Place, node.Part),
    };

    private Vec3 PointOnRod(int clamp, int rod) =>
        data.Clamps[clamp].Rod == rod ? data.PlacedClamps[clamp].OnRodMm : data.PlacedClamps[clamp].OnMemberMm;

    private MemberStiffness PinInBoneStiffness(int pin)
    {
        Span<GroundSpan> spans = stackalloc GroundSpan[MaxSpans];
        int count = SpansOf(pin, spans);
        PlacedPin p = data.PlacedPins[pin];
        return EmbeddedBar.Stiffness(spans[..count], p.At(p.SurfaceMm), -p.Outward);
    }

    private MemberStiffness PinOutsideStiffness(PlannedMember member)
    {
        Pin pin = data.Pins[member.Part];
        PlacedPin placed = data.PlacedPins[member.Part];
        double from = member.From < 0
            ? placed.SurfaceMm
            : data.PlacedClamps[member.From].AlongMemberMm + (data.ClampParts[member.From].BodyLengthMm / 2);
        double to = data.PlacedClamps[member.To].AlongMemberMm - (data.ClampParts[member.To].BodyLengthMm / 2);
        ElasticModuli moduli = materials.ModuliOf(pin.Material);
        Section shank = Section.Round(pin.DiameterMm, 0, ShearCoefficient);
        double threadEnd = ThreadEndMm(member.Part);
        if (threadEnd <= from)
        {
            return Beam.Stiffness(placed.At(from), placed.At(to), moduli, shank, theory, Vec3.UnitZ);
        }

        Section core = Section.Round(pin.CoreDiameterMm!.Value, 0, ShearCoefficient);
        if (threadEnd >= to)
        {
            return Beam.Stiffness(placed.At(from), placed.At(to), moduli, core, theory, Vec3.UnitZ);
        }

        // Core and shank in a row, about the end of the thread.
        BeamIntegrals both =
            BeamIntegrals.Prismatic(threadEnd - from, moduli, core, theory).AboutPointFurtherBack(-(threadEnd - from) / 2)
            + BeamIntegrals.Prismatic(to - threadEnd, moduli, shank, theory).AboutPointFurtherBack((to - threadEnd) / 2);
        Vec3 normal = placed.Outward.AnyNormal();
        return both.StiffnessAt(placed.At(threadEnd), Mat3.FromRows(placed.Outward, normal, placed.Outward.Cross(normal)));
    }

    private MemberStiffness RodStiffness(PlannedMember member)
    {
        Rod rod = data.Rods[member.Part];
        return Beam.Stiffness(
            PointOnRod(member.From, member.Part),
            PointOnRod(member.To, member.Part),
            materials.ModuliOf(rod.Material),
            Section.Round(rod.DiameterMm, rod.InnerDiameterMm, ShearCoefficient),
            theory,
            Vec3.UnitZ);
    }

    // Axes: the rod's r, the member's p, and c = p × r. With a member not square to the rod, p gives way: r and c stay.
    private MemberStiffness ClampStiffness(int clamp, bool slideHeld, bool turnHeld)
    {
        Mat3 axes = ClampAxes(clamp);
        (double translation, double rotation) = data.ModelOf(clamp) is SpringClamp spring
            ? (spring.TranslationalNPerMm, spring.RotationalNmPerRad * 1000)
            : (RigidNPerMm, RigidNmmPerRad);
        bool loose = data.Clamps[clamp].State == ClampState.Loose;
        return Spring.Stiffness(
            data.PlacedClamps[clamp].OnRodMm,
            axes,
            new(translation, loose && !slideHeld ? 0 : translation, translation),
            new(rotation, loose && !turnHeld ? 0 : rotation, rotation));
    }

    /// <summary>Axes of a clamp as rows: along its pin or other rod (square to the rod), along its rod, and across both.</summary>
    public Mat3 ClampAxes(int clamp)
    {
        ClampData c = data.Clamps[clamp];
        Vec3 r = data.PlacedRods[c.Rod].Along;
        Vec3 p = c.Pin >= 0 ? data.PlacedPins[c.Pin].Outward : data.PlacedRods[c.OtherRod].Along;
        Vec3 across = p.Cross(r).Normalised();
        return Mat3.FromRows(r.Cross(across), r, across);
    }
}
