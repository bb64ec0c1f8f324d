namespace Halfpin.CrossProgram.Tests;

/// <summary>Allowed differences, as shares of the largest quantity of their kind in a load case, and why so much.</summary>
internal static class Allowed
{
    /// <summary>
    /// Motions of one deck by two solvers of Euler–Bernoulli beams. Z88 prints eight digits (5e-8 by rounding), CalculiX seven (5e-7);
    /// double precision leaves up to some 1e-7 in either solver, the decks being of condition 1e9 and more.
    /// </summary>
    public const double SameDeck = 1e-6;

    /// <summary>Nodal forces of one deck, which Z88 prints with six digits: 5e-6 by rounding.</summary>
    public const double PrintedForces = 1e-5;

    /// <summary>
    /// CalculiX's expanded beams without lateral contraction against Timoshenko beams of shear coefficient 0.9: bored sections are 1e-4
    /// short in area, and the coefficient of its sections is 0.9 to some per cent of a shear flexibility that is 0.3 to 2 % of the whole.
    /// </summary>
    public const double ExpandedWithoutContraction = 1e-3;

    /// <summary>Half of the last digit in which a difference of the expanded beams was recorded, per cent, and our own rounding.</summary>
    public const double RecordedPercent = 0.06;
}
