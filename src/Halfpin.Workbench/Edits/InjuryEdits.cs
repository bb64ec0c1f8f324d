using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Edits;

/// <summary>Changes to the fractures, wounds and incisions of a case.</summary>
public static class InjuryEdits
{
    // What a new area is before its edges are typed: a hand's breadth about the fracture, in front.
    private const double HalfHeightMm = 15;
    private const double HalfSweepDeg = 20;

    /// <summary>A further fracture, put in its place from proximal.</summary>
    /// <param name="levelMm">Level of its middle.</param>
    /// <param name="gapMm">Its gap.</param>
    /// <param name="pattern">Its pattern.</param>
    public static CaseEdit AddFracture(double levelMm, double gapMm, FracturePattern pattern) => new(
        $"add a fracture at {N(levelMm)} mm",
        v => v with { Fractures = v.Fractures.Insert(v.Fractures.Count(f => f.LevelMm <= levelMm), new() { LevelMm = levelMm, GapMm = gapMm, Pattern = pattern }) });

    /// <summary>The middle of the longest stretch of bone without a fracture, whole mm: somewhere to begin from.</summary>
    public static double FreeLevelMm(Case value)
    {
        double[] ends = [0, .. value.Fractures.Select(f => f.LevelMm), value.Limb.LengthMm];
        int widest = Enumerable.Range(1, ends.Length - 1).MaxBy(i => ends[i] - ends[i - 1]);
        return Math.Round((ends[widest] + ends[widest - 1]) / 2);
    }

    /// <summary>Without a fracture.</summary>
    public static CaseEdit RemoveFracture(Case value, int index) =>
        new($"remove the fracture at {N(value.Fractures[index].LevelMm)} mm", v => v with { Fractures = v.Fractures.RemoveAt(index) });

    /// <summary>A wound about the first fracture, its edges still to be typed.</summary>
    public static CaseEdit AddWound() => new("add a wound", v =>
    {
        (double from, double to) = Levels(v);
        return v with { Wounds = v.Wounds.Add(new() { FromLevelMm = from, ToLevelMm = to, FromAzimuthDeg = -HalfSweepDeg, ToAzimuthDeg = HalfSweepDeg }) };
    });

    /// <summary>Without a wound.</summary>
    public static CaseEdit RemoveWound(int index) => new($"remove wound {N(index + 1)}", v => v with { Wounds = v.Wounds.RemoveAt(index) });

    /// <summary>An incision for a later operation about the first fracture, its edges still to be typed.</summary>
    public static CaseEdit AddIncision(IncisionPurpose purpose) => new($"plan an incision for a {purpose.ToString().ToLowerInvariant()}", v =>
    {
        (double from, double to) = Levels(v);
        return v with { PlannedIncisions = v.PlannedIncisions.Add(new() { For = purpose, FromLevelMm = from, ToLevelMm = to, FromAzimuthDeg = -HalfSweepDeg, ToAzimuthDeg = HalfSweepDeg }) };
    });

    /// <summary>Without a planned incision.</summary>
    public static CaseEdit RemoveIncision(int index) => new($"remove incision {N(index + 1)}", v => v with { PlannedIncisions = v.PlannedIncisions.RemoveAt(index) });

    private static (double FromMm, double ToMm) Levels(Case value) =>
        (Math.Max(0, value.Fractures[0].LevelMm - HalfHeightMm), Math.Min(value.Limb.LengthMm, value.Fractures[0].LevelMm + HalfHeightMm));

    private static string N(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
