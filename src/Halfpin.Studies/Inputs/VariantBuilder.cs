using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Materials;
using Halfpin.Domain.Validity;
using Halfpin.Stability.Variants;

namespace Halfpin.Studies.Inputs;

/// <summary>Makes the variant of a frame in which the inputs of a study have given values. Immutable.</summary>
public sealed class VariantBuilder
{
    private readonly Case _case;
    private readonly int _frame;
    private readonly Parts _parts;
    private readonly ImmutableArray<Action<Draft, double>> _apply;
    private readonly bool _checksRules;

    /// <summary>A builder for a frame; inputs of parts that it does not have are passed over.</summary>
    /// <param name="value">The valid case.</param>
    /// <param name="frameId">A frame of it.</param>
    /// <param name="inputs">Names of the inputs, in the order of their values.</param>
    public VariantBuilder(Case value, string frameId, ImmutableArray<string> inputs)
    {
        _case = value;
        _frame = value.Frames.IndexOf(value.Frames.First(f => f.Id == frameId));
        _parts = PartsOf(value.Frames[_frame], value.Fractures);
        _apply = [.. inputs.Select(name => Applier(value, name))];
        _checksRules = inputs.Any(i => i.StartsWith('/'));
    }

    /// <summary>The variant, or why there is none.</summary>
    public (FrameVariant? Variant, string? Reason) Build(ReadOnlySpan<double> values)
    {
        Draft draft = new(_case);
        for (int i = 0; i < values.Length; i++)
        {
            _apply[i](draft, values[i]);
        }

        Frame frame = draft.Case.Frames[_frame];
        Case alone = draft.Case with { Frames = [frame], Stages = [], Uncertainty = [] };
        if (_checksRules && CaseRules.Check(alone).FirstOrDefault() is Fault fault)
        {
            return (null, fault.Message);
        }

        Parts parts = ReferenceEquals(frame, _case.Frames[_frame]) && alone.Fractures == _case.Fractures ? _parts : PartsOf(frame, alone.Fractures);
        return (new(alone, Placed(parts, draft)) { BoneModuliShare = draft.BoneModuliShare, BoneWallShare = draft.BoneWallShare }, null);
    }

    private static Parts PartsOf(Frame frame, ImmutableArray<Fracture> fractures) => frame.Parts ?? ConstructBuilder.Build(frame.Construct!, fractures);

    private static Parts Placed(Parts parts, Draft draft)
    {
        if (draft.PinErrors.Count == 0 && draft.RodErrorsMm.Count == 0)
        {
            return parts;
        }

        Pin[] pins = [.. parts.Pins];
        Rod[] rods = [.. parts.Rods];
        foreach ((string id, double levelMm, double azimuthDeg) in draft.PinErrors)
        {
            if (Array.FindIndex(pins, p => p.Id == id) is int p && p >= 0)
            {
                pins[p] = pins[p] with { LevelMm = pins[p].LevelMm + levelMm, AzimuthDeg = Wrapped(pins[p].AzimuthDeg + azimuthDeg) };
            }
        }

        foreach ((string id, double mm) in draft.RodErrorsMm)
        {
            if (Array.FindIndex(rods, r => r.Id == id) is int r && r >= 0)
            {
                rods[r] = rods[r] with { From = Moved(rods[r].From, mm), To = Moved(rods[r].To, mm) };
            }
        }

        return parts with { Pins = ImmutableArray.Create(pins), Rods = ImmutableArray.Create(rods) };
    }

    private static RodPoint Moved(RodPoint point, double mm) => point with { StandoffMm = point.StandoffMm + mm, RadiusMm = point.RadiusMm + mm };

    private static double Wrapped(double azimuthDeg) => azimuthDeg > 180 ? azimuthDeg - 360 : azimuthDeg < -180 ? azimuthDeg + 360 : azimuthDeg;

    private static Action<Draft, double> Applier(Case value, string name)
    {
        if (UncertainInputs.PointerOf(name) is string pointer || name.StartsWith('/') && (pointer = name).Length > 0)
        {
            CaseNumber number = CaseNumber.Find(value, pointer) ?? throw new ArgumentException($"No number at {pointer}.", nameof(name));
            return (draft, v) => draft.Case = number.With(draft.Case, v);
        }

        string part = name[(name.IndexOf(':', StringComparison.Ordinal) + 1)..];
        return name[..^part.Length].TrimEnd(':') switch
        {
            UncertainInputs.PinLevel => (draft, v) => draft.PinErrors.Add((part, v, 0)),
            UncertainInputs.PinAzimuth => (draft, v) => draft.PinErrors.Add((part, 0, v)),
            UncertainInputs.RodStandoff => (draft, v) => draft.RodErrorsMm.Add((part, v)),
            _ => OfFrame(name),
        };
    }

    private static Action<Draft, double> OfFrame(string name) => name switch
    {
        UncertainInputs.BoneModuli => (draft, v) => draft.BoneModuliShare = v,
        UncertainInputs.BoneWall => (draft, v) => draft.BoneWallShare = v,
        UncertainInputs.ContactStiffness => (draft, v) => draft.Case = draft.Case with { Model = draft.Case.Model with { ContactLayerMm = draft.Case.Model.ContactLayerMm / v } },
        UncertainInputs.SteelModulus => (draft, v) => draft.Change("steel", m => m with { YoungsModulusMPa = v }),
        UncertainInputs.SteelFatigue => (draft, v) => draft.Change("steel", m => m with { FatigueLimitMPa = v }),
        UncertainInputs.CarbonModulus => (draft, v) => draft.Change("carbon", m => m with { YoungsModulusMPa = v }),
        UncertainInputs.CarbonShear => (draft, v) => draft.Change("carbon", m => m with { ShearModulusMPa = v }),
        _ => throw new ArgumentException($"No input {name}.", nameof(name)),
    };

    private sealed class Draft(Case value)
    {
        public Case Case { get; set; } = value;

        public double BoneModuliShare { get; set; } = 1;

        public double BoneWallShare { get; set; } = 1;

        public List<(string Pin, double LevelMm, double AzimuthDeg)> PinErrors { get; } = [];

        public List<(string Rod, double Mm)> RodErrorsMm { get; } = [];

        // The case's own material of a name goes before the built-in one.
        public void Change(string id, Func<Material, Material> change)
        {
            Material changed = change(DefaultInputs.MaterialOf(id, Case));
            Case = Case with { Materials = [.. Case.Materials.Where(m => m.Id != id), changed] };
        }
    }
}
