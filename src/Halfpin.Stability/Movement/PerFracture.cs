using System.Runtime.CompilerServices;
using Halfpin.Domain.Cases;

namespace Halfpin.Stability.Movement;

/// <summary>A value for each fracture, held in place so that loads cost no allocation.</summary>
[InlineArray(Case.MaxFractures)]
internal struct PerFracture<T>
{
    private T _first;
}
