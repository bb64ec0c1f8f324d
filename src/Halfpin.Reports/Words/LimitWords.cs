using Halfpin.Domain.Assessments;
using Halfpin.Domain.Drawings;

namespace Halfpin.Reports.Words;

/// <summary>Limits of parts in a surgeon's words.</summary>
public static class LimitWords
{
    /// <summary>Kinds of limits, each with the words for the part that is nearest to it.</summary>
    public static (string Heading, Func<UtilisationEntry, FrameDrawing, bool> Holds)[] Kinds { get; } =
    [
        ("Highest-stressed pin", (u, d) => u.Check == "yield" && IsPin(u.Part, d)),
        ("Pin most used by repeated steps", (u, _) => u.Check == "fatigue"),
        ("Highest-stressed rod", (u, d) => u.Check == "yield" && !IsPin(u.Part, d)),
        ("Clamp nearest to giving way", (u, d) => d.Clamps.Any(c => c.Part.Id == u.Part)),
        ("Bone most pressed by a pin", (u, _) => u.Check == "bearing"),
    ];

    /// <summary>Which part, what gives way and where.</summary>
    public static string Of(string part, string check, string place, FrameDrawing drawing)
    {
        if (drawing.Clamps.FirstOrDefault(c => c.Part.Id == part) is DrawnClamp clamp)
        {
            string held = clamp.Part.Pin is string pin ? $"pin {pin}" : $"rod {clamp.Part.OtherRod}";
            return $"clamp {part}, " + check switch
            {
                "slip about pin" => $"turning about {held}",
                "slip about rod" => $"turning about rod {clamp.Part.Rod}",
                "pivot" => $"{held} tilting on rod {clamp.Part.Rod}",
                "slide" => $"sliding along rod {clamp.Part.Rod}",
                _ => $"{check}, {place}",
            };
        }

        string where = place switch
        {
            "bone surface" => "at the bone's surface",
            "end of thread" => "at the end of its thread",
            "near cortex" or "far cortex" => $"at the {place}",
            _ when place.StartsWith("clamp ", StringComparison.Ordinal) => $"at {place}",
            _ => place,
        };
        return check switch
        {
            "bearing" => $"bone under pin {part}, {where}",
            "fatigue" => $"pin {part}, fatigue {where}",
            _ => $"{(IsPin(part, drawing) ? "pin" : "rod")} {part}, {check} {where}",
        };
    }

    /// <summary>What comes first as an axial load grows.</summary>
    public static string Of(FirstLimit first, FrameDrawing drawing) => first.Check switch
    {
        FirstLimits.Touch => "the bone ends touch",
        FirstLimits.Range => $"end of the model's range: {first.Place}",
        FirstLimits.Runs => first.Place,
        _ => Of(first.Part, first.Check, first.Place, drawing),
    };

    private static bool IsPin(string id, FrameDrawing drawing) => drawing.Pins.Any(p => p.Part.Id == id);
}
