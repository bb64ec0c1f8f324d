using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>What the bone ends do to a frame, in a few lines.</summary>
internal static class ContactLines
{
    public static void Print(FrameAssessment frame, IAnsiConsole console)
    {
        if (frame.Fractures.IsEmpty)
        {
            Print("", frame.Contact, frame.Motion, frame.OverloadMotion, console);
        }

        for (int i = 0; i < frame.Fractures.Length; i++)
        {
            FractureResult f = frame.Fractures[i];
            Print($"Fracture {i + 1}: ", f.Contact, f.Motion, f.OverloadMotion, console);
        }
    }

    /// <summary>The first touch and the stiffness on either side of it, a line each.</summary>
    public static IEnumerable<string> Stiffness(BoneContact? contact)
    {
        if (contact is BoneContact c)
        {
            if (c.FirstTouchN is not null)
            {
                yield return Touch(c);
            }

            foreach (AxialStep step in c.Steps)
            {
                yield return step.Message;
            }
        }
    }

    private static void Print(string fracture, BoneContact? contact, FractureMotion? chosen, FractureMotion? overload, IAnsiConsole console)
    {
        if (contact is not BoneContact c)
        {
            return;
        }

        console.WriteLine(fracture + Touch(c));
        foreach (AxialStep step in c.Steps)
        {
            console.WriteLine($"  {step.Message}");
        }

        foreach ((string load, ContactAtLoad? at, FractureMotion? motion) in new[] { ("chosen load", c.AtChosenLoad, chosen), ("overload", c.AtOverload, overload) })
        {
            if (at is { FrameShare: double share } && motion is { EndsTouch: true } m)
            {
                console.WriteLine(Text($"  {load}, {at.LoadN / Loading.NewtonPerKg:0.#} kg: the frame carries {100 * share:0} % of it; {Where(m)} bears; ends {at.SlidingMm:0.00} mm along each other."));
            }
        }

        if (c.LimitAfterTouch is FirstLimit next)
        {
            console.WriteLine(Text($"  After the touch {(next.Check == FirstLimits.Range ? "the model's range ends" : $"{next.Part} reaches its limit ({next.Check}, {next.Place})")} at {next.LoadN:0} N ({next.LoadKg:0} kg)."));
        }
    }

    private static string Touch(BoneContact c) => c is { FirstTouchN: double n, FirstTouchAzimuthDeg: double azimuth }
        ? Text($"Bone ends touch {(n == 0 ? "at once" : $"from {N(n, "0")} N ({N(n / Loading.NewtonPerKg, "0")} kg)")}, first at {azimuth:0}°{BothSides(c)}.")
        : "Bone ends do not touch within the model's range.";

    private static string BothSides(BoneContact c) => c is { AxialBeforeNPerMm: double before, AxialAfterNPerMm: double after }
        ? $"; axial stiffness at the fracture {N(before, "0")} N/mm before, up to {N(after, "0")} after"
        : "";

    private static string Where(FractureMotion m) => m is { BearingFromDeg: double from, BearingToDeg: double to }
        ? from == to ? $"the cortex at {N(from, "0")}°" : $"the cortex from {N(from, "0")}° to {N(to, "0")}°"
        : "the whole ring";

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);

    private static string N(double value, string digits) => value.ToString(digits, CultureInfo.InvariantCulture);
}
