using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Healing;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Workbench.Fields;

/// <summary>The modelling assumptions in force for a case, found by what they are about.</summary>
public sealed class ModelNotes
{
    private readonly ImmutableArray<Assumption> _healing;

    private ModelNotes(ImmutableArray<Assumption> all, ImmutableArray<Assumption> healing) => (All, _healing) = (all, healing);

    /// <summary>Every assumption of an assessment.</summary>
    public ImmutableArray<Assumption> All { get; }

    /// <summary>Those that only healing rests on.</summary>
    public ImmutableArray<Assumption> Healing => [.. _healing.Where(h => All.All(a => a.Name != h.Name))];

    /// <summary>The assumptions of a case.</summary>
    public static ModelNotes Of(Case value) => new(Assumptions.Of(value), HealingAssumptions.Of(value));

    /// <summary>The assumption of a name; null when the case has no use for it.</summary>
    public Assumption? Named(string name) => All.FirstOrDefault(a => a.Name == name);
}
