using System.Collections.Immutable;
using Halfpin.Domain.Materials;
using Halfpin.Mechanics.Members;

namespace Halfpin.Stability.Idealisation;

/// <summary>The materials a case may name: its own first, then the built-in ones.</summary>
public sealed class MaterialTable(ImmutableArray<Material> own)
{
    private readonly Material[] _all = [.. own, .. BuiltInMaterials.All.Select(b => b.Material)];

    /// <summary>A material by its id. The id must be known.</summary>
    public Material this[string id]
    {
        get
        {
            foreach (Material m in _all)
            {
                if (m.Id == id)
                {
                    return m;
                }
            }

            throw new ArgumentException($"No material {id}.", nameof(id));
        }
    }

    /// <summary>Tag of a material's limit stress: GIVEN for the case's own.</summary>
    public string LimitTagOf(string id) =>
        own.Any(m => m.Id == id) ? "GIVEN" : BuiltInMaterials.All.First(b => b.Material.Id == id).LimitTag;

    /// <summary>E and G of a material.</summary>
    public ElasticModuli ModuliOf(string id)
    {
        Material m = this[id];
        return new(m.YoungsModulusMPa, m.EffectiveShearModulusMPa());
    }
}
