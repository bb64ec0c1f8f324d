using System.Collections.Immutable;

namespace Halfpin.Verification.Formulas;

/// <summary>
/// The closed forms that cases name. Each takes its inputs by name in one consistent system of units. The edition, page and
/// equation stand in the case.
/// </summary>
public static class ClosedForms
{
    private static readonly ImmutableDictionary<string, Func<Inputs, double>> _forms = new Dictionary<string, Func<Inputs, double>>
    {
        // PL³/3EI
        ["cantilever-deflection"] = i => i["P"] * Cube(i["L"]) / (3 * i["E"] * i["I"]),

        // PL²/2EI
        ["cantilever-slope"] = i => i["P"] * i["L"] * i["L"] / (2 * i["E"] * i["I"]),

        // PL³/3EI + PL/κGA
        ["timoshenko-cantilever-deflection"] = i => (i["P"] * Cube(i["L"]) / (3 * i["E"] * i["I"])) + (i["P"] * i["L"] / (i["kappa"] * i["G"] * i["A"])),
    }.ToImmutableDictionary();

    /// <summary>Names of all forms.</summary>
    public static IEnumerable<string> Names => _forms.Keys;

    /// <summary>The value of a form.</summary>
    public static double Evaluate(FormulaCall call) => _forms.TryGetValue(call.Name, out Func<Inputs, double>? form)
        ? form(new(call))
        : throw new ArgumentException($"No closed form {call.Name}.", nameof(call));

    private static double Cube(double x) => x * x * x;

    private sealed class Inputs(FormulaCall call)
    {
        public double this[string name] => call.Inputs.TryGetValue(name, out double value)
            ? value
            : throw new ArgumentException($"Closed form {call.Name} needs {name}.", nameof(name));
    }
}
