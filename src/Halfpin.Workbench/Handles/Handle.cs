using Halfpin.Domain.Cases;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Handles;

/// <summary>How a part is moved to change a value.</summary>
public enum HandleMotion
{
    /// <summary>Along the bone, distally positive, mm.</summary>
    Along,

    /// <summary>Round the bone, from anterior to medial positive, degrees.</summary>
    Round,

    /// <summary>Away from the bone, mm.</summary>
    Out,
}

/// <summary>A value of a frame that can be typed, stepped or dragged.</summary>
/// <param name="Key">Its name for programs, stable while the frame keeps its kind.</param>
/// <param name="Label">Its name for people.</param>
/// <param name="Unit">Its unit as shown; empty for a count.</param>
/// <param name="Value">Its value now.</param>
/// <param name="Min">Least value offered.</param>
/// <param name="Max">Greatest value offered.</param>
/// <param name="Step">Step of a drag.</param>
/// <param name="Help">What it means.</param>
/// <param name="With">The case with another value.</param>
public sealed record Handle(string Key, string Label, string Unit, double Value, double Min, double Max, double Step, string Help, Func<Case, double, Case> With)
{
    /// <summary>The parts that move with it, and how.</summary>
    public IReadOnlyList<HandleGrip> Grips { get; init; } = [];

    /// <summary>The change to a value, brought into range and to the step.</summary>
    public CaseEdit To(string frameName, double value)
    {
        double to = Math.Clamp(value, Min, Max);
        return new($"{Label.ToLowerInvariant()} {to.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture)}{Unit switch { "" => "", "°" => "°", _ => $" {Unit}" }}, {frameName}", c => With(c, to));
    }
}

/// <summary>A part by which a value is dragged.</summary>
/// <param name="Part">Id of the part.</param>
/// <param name="Motion">How it is moved.</param>
/// <param name="Factor">Change of the value by unit of motion.</param>
public sealed record HandleGrip(string Part, HandleMotion Motion, double Factor);
