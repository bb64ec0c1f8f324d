using System.Collections.Immutable;

namespace Halfpin.Verification.Formulas;

/// <summary>
/// The closed forms that cases name. Each takes its inputs by name in one consistent system of units. The edition, page and
/// equation stand in the case.
/// </summary>
public static class ClosedForms
{
    private static readonly ImmutableDictionary<string, Func<Inputs, double>> _forms =
        Beams().Concat(Torsion()).Concat(Foundations()).Concat(Sections()).Concat(Springs()).Concat(Portal()).ToImmutableDictionary();

    /// <summary>Names of all forms.</summary>
    public static IEnumerable<string> Names => _forms.Keys;

    /// <summary>The value of a form.</summary>
    public static double Evaluate(FormulaCall call) => _forms.TryGetValue(call.Name, out Func<Inputs, double>? form)
        ? form(new(call))
        : throw new ArgumentException($"No closed form {call.Name}.", nameof(call));

    private static Dictionary<string, Func<Inputs, double>> Beams() => new()
    {
        // PL³/3EI
        ["cantilever-deflection"] = i => i["P"] * Cube(i["L"]) / (3 * i["E"] * i["I"]),

        // PL²/2EI
        ["cantilever-slope"] = i => i["P"] * i["L"] * i["L"] / (2 * i["E"] * i["I"]),

        // PL³/3EI + PL/κGA
        ["timoshenko-cantilever-deflection"] = i => (i["P"] * Cube(i["L"]) / (3 * i["E"] * i["I"])) + (i["P"] * i["L"] / (i["kappa"] * i["G"] * i["A"])),

        // PL³/12EI, the loaded end held against turning
        ["guided-deflection"] = i => i["P"] * Cube(i["L"]) / (12 * i["E"] * i["I"]),

        // PL³/48EI
        ["simple-centre-deflection"] = i => i["P"] * Cube(i["L"]) / (48 * i["E"] * i["I"]),

        // PL²/16EI
        ["simple-end-slope"] = i => i["P"] * i["L"] * i["L"] / (16 * i["E"] * i["I"]),

        // PL³/48EI + PL/4κGA
        ["timoshenko-simple-centre-deflection"] = i => (i["P"] * Cube(i["L"]) / (48 * i["E"] * i["I"])) + (i["P"] * i["L"] / (4 * i["kappa"] * i["G"] * i["A"])),

        // PL³/192EI
        ["fixed-centre-deflection"] = i => i["P"] * Cube(i["L"]) / (192 * i["E"] * i["I"]),

        // PL³/192EI + PL/4κGA
        ["timoshenko-fixed-centre-deflection"] = i => (i["P"] * Cube(i["L"]) / (192 * i["E"] * i["I"])) + (i["P"] * i["L"] / (4 * i["kappa"] * i["G"] * i["A"])),

        // PL/8
        ["fixed-end-moment"] = i => i["P"] * i["L"] / 8,

        // 5P/16
        ["propped-reaction"] = i => 5 * i["P"] / 16,

        // 3PL/16
        ["propped-clamp-moment"] = i => 3 * i["P"] * i["L"] / 16,

        // 7PL³/768EI
        ["propped-centre-deflection"] = i => 7 * i["P"] * Cube(i["L"]) / (768 * i["E"] * i["I"]),

        // Oblique bending, deflection along x: C·PL³/E · (Ix cos φ − Ixy sin φ)/(Ix·Iy − Ixy²), where Ix = ∫y²dA and Iy = ∫x²dA
        ["oblique-deflection-x"] = i => i["C"] * i["P"] * Cube(i["L"]) / i["E"] * ((i["Ix"] * Math.Cos(i["phi"])) - (i["Ixy"] * Math.Sin(i["phi"]))) / ((i["Ix"] * i["Iy"]) - (i["Ixy"] * i["Ixy"])),

        // and along y: C·PL³/E · (Iy sin φ − Ixy cos φ)/(Ix·Iy − Ixy²)
        ["oblique-deflection-y"] = i => i["C"] * i["P"] * Cube(i["L"]) / i["E"] * ((i["Iy"] * Math.Sin(i["phi"])) - (i["Ixy"] * Math.Cos(i["phi"]))) / ((i["Ix"] * i["Iy"]) - (i["Ixy"] * i["Ixy"])),
    };

    private static Dictionary<string, Func<Inputs, double>> Torsion() => new()
    {
        // TL/GJ, J = π(b⁴ − a⁴)/2 for a round bar of outer radius b and inner radius a
        ["round-bar-twist"] = i => 2 * i["T"] * i["L"] / (i["G"] * Math.PI * (Fourth(i["b"]) - Fourth(i["a"]))),

        // π(b⁴ − a⁴)/2
        ["round-bar-torsion-constant"] = i => Math.PI * (Fourth(i["b"]) - Fourth(i["a"])) / 2,

        // Bredt for a wall of one thickness: 4A²t/s, with A inside the middle line of the wall and s along it
        ["bredt-torsion-constant"] = i => 4 * i["A"] * i["A"] * i["t"] / i["s"],
    };

    // Beams on elastic foundation: β = (k/4EI)^¼ and, of z times β, A = e⁻ᶻ(cos z + sin z), B = e⁻ᶻ sin z, C = e⁻ᶻ(cos z − sin z),
    // D = e⁻ᶻ cos z.
    private static Dictionary<string, Func<Inputs, double>> Foundations() => new()
    {
        // Infinite beam, at z from the load: Pβ/2k · A(βz)
        ["infinite-foundation-deflection"] = i => i["P"] * Beta(i) / (2 * i["k"]) * A(Beta(i) * i["z"]),

        // P/4β · C(βz)
        ["infinite-foundation-moment"] = i => i["P"] / (4 * Beta(i)) * C(Beta(i) * i["z"]),

        // Half-infinite beam, load at its end: 2Pβ/k · D(βz)
        ["end-load-foundation-deflection"] = i => 2 * i["P"] * Beta(i) / i["k"] * D(Beta(i) * i["z"]),

        // 2Pβ²/k
        ["end-load-foundation-slope"] = i => 2 * i["P"] * Beta(i) * Beta(i) / i["k"],

        // −P/β · B(βz)
        ["end-load-foundation-moment"] = i => -i["P"] / Beta(i) * B(Beta(i) * i["z"]),

        // Half-infinite beam, moment on its end: 2Mβ²/k
        ["end-moment-foundation-deflection"] = i => 2 * i["M"] * Beta(i) * Beta(i) / i["k"],

        // 4Mβ³/k
        ["end-moment-foundation-slope"] = i => 4 * i["M"] * Cube(Beta(i)) / i["k"],

        // Half-infinite beam, load at a from its end, deflection at z beyond the load: Pβ/2k · (A(βz) + 2D(βa)D(βa + βz) + C(βa)C(βa + βz))
        ["near-end-foundation-deflection"] = i => i["P"] * Beta(i) / (2 * i["k"])
            * (A(Beta(i) * i["z"]) + (2 * D(Beta(i) * i["a"]) * D(Beta(i) * (i["a"] + i["z"]))) + (C(Beta(i) * i["a"]) * C(Beta(i) * (i["a"] + i["z"])))),

        // P/4β · (C(βz) − 2D(βa)B(βa + βz) − C(βa)A(βa + βz))
        ["near-end-foundation-moment"] = i => i["P"] / (4 * Beta(i))
            * (C(Beta(i) * i["z"]) - (2 * D(Beta(i) * i["a"]) * B(Beta(i) * (i["a"] + i["z"]))) - (C(Beta(i) * i["a"]) * A(Beta(i) * (i["a"] + i["z"])))),

        // Finite beam with free ends, load at a from end A, deflection of A: W/2EIβ³ · (C4·Ca1 − C3·Ca2)/C11
        ["free-free-foundation-deflection"] = i => i["W"] / (2 * i["E"] * i["I"] * Cube(Beta(i)))
            * ((C4(i) * Ca1(i)) - (C3(i) * Ca2(i))) / C11(i),

        // slope of A: W/2EIβ² · (C2·Ca2 − 2C3·Ca1)/C11
        ["free-free-foundation-slope"] = i => i["W"] / (2 * i["E"] * i["I"] * Beta(i) * Beta(i))
            * ((C2(i) * Ca2(i)) - (2 * C3(i) * Ca1(i))) / C11(i),
    };

    private static Dictionary<string, Func<Inputs, double>> Sections() => new()
    {
        // bh/2
        ["triangle-area"] = i => i["b"] * i["h"] / 2,

        // bh³/36, about the axis through the centroid parallel to b
        ["triangle-second-moment"] = i => i["b"] * Cube(i["h"]) / 36,

        // bh(a² − ab + b²)/36, about the axis through the centroid across b; a from the left corner to the foot of the height
        ["triangle-second-moment-across"] = i => i["b"] * i["h"] * ((i["a"] * i["a"]) - (i["a"] * i["b"]) + (i["b"] * i["b"])) / 36,

        // (a + b)/3
        ["triangle-centroid"] = i => (i["a"] + i["b"]) / 3,

        // π(R² − r²)
        ["ring-area"] = i => Math.PI * ((i["R"] * i["R"]) - (i["r"] * i["r"])),

        // π(R⁴ − r⁴)/4
        ["ring-second-moment"] = i => Math.PI / 4 * (Fourth(i["R"]) - Fourth(i["r"])),
    };

    private static Dictionary<string, Func<Inputs, double>> Springs() => new()
    {
        // W/(k₁ + k₂)
        ["parallel-springs-deflection"] = i => i["W"] / (i["k1"] + i["k2"]),

        // W(1/k₁ + 1/k₂)
        ["series-springs-deflection"] = i => i["W"] * ((1 / i["k1"]) + (1 / i["k2"])),

        // F/(k₁(l₁/l)² + k₂(l₂/l)²): a hinged rigid bar on two springs, moved at l
        ["bar-on-two-springs-deflection"] = i => i["F"] / ((i["k1"] * Square(i["l1"] / i["l"])) + (i["k2"] * Square(i["l2"] / i["l"]))),

        // P/4 · (1 + x·xᵢ/a² + y·yᵢ/a²): a rigid square plate on a spring under each corner (±a, ±a)
        ["plate-on-four-springs-force"] = i => i["P"] / 4 * (1 + (((i["x"] * i["xi"]) + (i["y"] * i["yi"])) / (i["a"] * i["a"]))),

        // P/k
        ["spring-deflection"] = i => i["P"] / i["k"],
    };

    // Portal with fixed feet, axially rigid, horizontal load at the beam: k = I_beam·h/(I_column·l).
    private static Dictionary<string, Func<Inputs, double>> Portal() => new()
    {
        // Ph³/12EI_column · (3k + 2)/(6k + 1)
        ["portal-sway"] = i => i["P"] * Cube(i["h"]) / (12 * i["E"] * i["Icolumn"]) * ((3 * Ratio(i)) + 2) / ((6 * Ratio(i)) + 1),

        // Ph/2 · (3k + 1)/(6k + 1)
        ["portal-foot-moment"] = i => i["P"] * i["h"] / 2 * ((3 * Ratio(i)) + 1) / ((6 * Ratio(i)) + 1),

        // Ph/2 · 3k/(6k + 1)
        ["portal-corner-moment"] = i => i["P"] * i["h"] / 2 * 3 * Ratio(i) / ((6 * Ratio(i)) + 1),

        // twice the corner moment over l
        ["portal-vertical-reaction"] = i => i["P"] * i["h"] * 3 * Ratio(i) / ((6 * Ratio(i)) + 1) / i["l"],
    };

    private static double Square(double x) => x * x;

    private static double Cube(double x) => x * x * x;

    private static double Fourth(double x) => x * x * x * x;

    private static double Ratio(Inputs i) => i["Ibeam"] * i["h"] / (i["Icolumn"] * i["l"]);

    private static double Beta(Inputs i) => Math.Pow(i["k"] / (4 * i["E"] * i["I"]), 0.25);

    private static double A(double z) => Math.Exp(-z) * (Math.Cos(z) + Math.Sin(z));

    private static double B(double z) => Math.Exp(-z) * Math.Sin(z);

    private static double C(double z) => Math.Exp(-z) * (Math.Cos(z) - Math.Sin(z));

    private static double D(double z) => Math.Exp(-z) * Math.Cos(z);

    // Of βl: cosh·sin + sinh·cos, sinh·sin, cosh·sin − sinh·cos and sinh² − sin²; Ca of β(l − a): cosh·cos and cosh·sin + sinh·cos.
    private static double C2(Inputs i) => SumOf(Beta(i) * i["l"]);

    private static double C3(Inputs i) => Math.Sinh(Beta(i) * i["l"]) * Math.Sin(Beta(i) * i["l"]);

    private static double C4(Inputs i) => (Math.Cosh(Beta(i) * i["l"]) * Math.Sin(Beta(i) * i["l"])) - (Math.Sinh(Beta(i) * i["l"]) * Math.Cos(Beta(i) * i["l"]));

    private static double C11(Inputs i) => Square(Math.Sinh(Beta(i) * i["l"])) - Square(Math.Sin(Beta(i) * i["l"]));

    private static double Ca1(Inputs i) => Math.Cosh(Beta(i) * (i["l"] - i["a"])) * Math.Cos(Beta(i) * (i["l"] - i["a"]));

    private static double Ca2(Inputs i) => SumOf(Beta(i) * (i["l"] - i["a"]));

    private static double SumOf(double x) => (Math.Cosh(x) * Math.Sin(x)) + (Math.Sinh(x) * Math.Cos(x));

    private sealed class Inputs(FormulaCall call)
    {
        public double this[string name] => call.Inputs.TryGetValue(name, out double value)
            ? value
            : throw new ArgumentException($"Closed form {call.Name} needs {name}.", nameof(name));
    }
}
