using Halfpin.Planning.Alignment;
using Xunit;

namespace Halfpin.Planning.Tests.Alignment;

public class AngularDeformityTests
{
    // PMC4799231, figure 5 (READ): AP 19°, lateral 14°. The exact values are DERIVED: 23.03° in a plane at 35.9°. The figure draws 24°
    // with a ruler and prints 43°/47° for the plane, which does not follow from 19° and 14°.
    [Fact]
    public void Exact_workedExample_isTheTangentFormulasAnswer()
    {
        AngularDeformity deformity = AngularDeformity.From(19, 14);

        Assert.Equal(23.03, deformity.AngleDeg, 0.005);
        Assert.Equal(35.9, deformity.PlaneDeg, 0.05);
    }

    // The same figure by the graph method, DERIVED.
    [Fact]
    public void SmallAngles_workedExample_isTheGraphsAnswer()
    {
        AngularDeformity deformity = AngularDeformity.BySmallAngles(19, 14);

        Assert.Equal(23.60, deformity.AngleDeg, 0.005);
        Assert.Equal(36.4, deformity.PlaneDeg, 0.05);
    }
}
