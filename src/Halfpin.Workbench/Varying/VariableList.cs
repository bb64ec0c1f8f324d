using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Workbench.Handles;

namespace Halfpin.Workbench.Varying;

/// <summary>The numbers that can vary, by name for people.</summary>
public static class VariableList
{
    // How far a usual range reaches to each side, of the value as it is, and in how many steps about.
    private const double Reach = 0.5;
    private const double ReachDeg = 45;
    private const int StepsEachSide = 6;

    private static readonly double[] _steps = [0.1, 0.25, 0.5, 1, 2, 4, 5, 10, 15, 20];

    private static readonly Dictionary<string, string> _members = new()
    {
        ["standoff"] = "standoffMm",
        ["rodSpacing"] = "rodSpacingMm",
        ["near"] = "nearMm",
        ["far"] = "farMm",
        ["azimuth"] = "azimuthDeg",
        ["secondAzimuth"] = "secondAzimuthDeg",
        ["secondShift"] = "secondPlaneShiftMm",
        ["crossLinks"] = "crossLinks",
        ["pinsPerFragment"] = "pinsPerFragment",
        ["pinDiameter"] = "pin/diameterMm",
        ["threadLength"] = "pin/threadLengthMm",
        ["rodDiameter"] = "rod/diameterMm",
    };

    /// <summary>The numbers of a frame that people name, then those of its case.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frameId">The frame.</param>
    public static ImmutableArray<Variable> Of(Case value, string frameId)
    {
        Frame frame = value.Frames.First(f => f.Id == frameId);
        int index = value.Frames.IndexOf(frame);
        return [.. FrameHandles.Of(value, frameId).Select(h => OfHandle(value, frame, index, h)).OfType<Variable>(), .. OfCase(value)];
    }

    /// <summary>The pointers of all numbers, of the frame first, for those who know the case file.</summary>
    public static ImmutableArray<string> Pointers(Case value, string frameId)
    {
        Frame frame = value.Frames.First(f => f.Id == frameId);
        return [.. CaseNumber.Below(frame).Concat(CaseNumber.Below(value with { Frames = [] })).Where(p => p != "/formatVersion" && !p.StartsWith("/uncertainty", StringComparison.Ordinal))];
    }

    // A handle without a number of its own in the file, such as a rod by both its ends, is left out.
    private static Variable? OfHandle(Case value, Frame frame, int index, Handle h)
    {
        string? name = frame.Construct is not null ? _members.GetValueOrDefault(h.Key) : PinPointer(frame.Parts!, h.Key);
        string at = string.Create(CultureInfo.InvariantCulture, $"/frames/{index}/{(frame.Construct is not null ? "construct/" : "")}{name?.TrimStart('/')}");
        if (name is null || CaseNumber.Find(value, at) is not CaseNumber number)
        {
            return null;
        }

        double reach = h.Unit == "°" ? ReachDeg : Math.Max(Math.Abs(h.Value) * Reach, h.Step);
        double step = _steps.FirstOrDefault(s => s >= reach / StepsEachSide, _steps[^1]);
        int below = Steps(h.Value - Math.Max(h.Min, number.Min), step), above = Math.Max(below == 0 ? 1 : 0, Steps(Math.Min(h.Max, number.Max) - h.Value, step));
        return number.IsWhole
            ? new(name, h.Label, h.Unit, h.Value, h.Min, h.Max, (int)(h.Max - h.Min) + 1)
            : new(name, h.Label, h.Unit, h.Value, h.Value - (below * step), h.Value + (above * step), below + above + 1);
    }

    // The value as it is stays one of the values.
    private static int Steps(double room, double step) => (int)Math.Clamp(Math.Floor((room / step) + 1e-9), 0, StepsEachSide);

    private static string? PinPointer(Parts parts, string key)
    {
        string[] words = key.Split('.');
        int pin = parts.Pins.ToList().FindIndex(p => p.Id == words[0]);
        return pin < 0 || words.Length != 2 ? null : words[1] switch
        {
            "level" => string.Create(CultureInfo.InvariantCulture, $"/parts/pins/{pin}/levelMm"),
            "azimuth" => string.Create(CultureInfo.InvariantCulture, $"/parts/pins/{pin}/azimuthDeg"),
            _ => null,
        };
    }

    private static IEnumerable<Variable> OfCase(Case value)
    {
        for (int i = 0; i < value.Fractures.Length; i++)
        {
            string which = value.Fractures.Length == 1 ? "Fracture" : string.Create(CultureInfo.InvariantCulture, $"Fracture {i + 1}"), at = string.Create(CultureInfo.InvariantCulture, $"/fractures/{i}");
            yield return new($"{at}/gapMm", $"{which}: gap", "mm", value.Fractures[i].GapMm, 0, Math.Max(10, 2 * value.Fractures[i].GapMm), 11);
            yield return new($"{at}/levelMm", $"{which}: level", "mm", value.Fractures[i].LevelMm, value.Fractures[i].LevelMm - 10, value.Fractures[i].LevelMm + 10, 11);
        }

        if (value.Loading.Grade is null)
        {
            yield return new("/loading/allowedKg", "Load you look at", "kg", value.Loading.AllowedKg, 0, Math.Max(20, 2 * value.Loading.AllowedKg), 11);
        }
    }
}
