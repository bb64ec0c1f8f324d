using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;

namespace Halfpin.Studies.Varying;

/// <summary>A number of a frame or case that runs through a range.</summary>
/// <param name="Name">As it was asked for, in full.</param>
/// <param name="Number">The number.</param>
/// <param name="Values">Its values, in their order.</param>
public sealed record VariedRange(string Name, CaseNumber Number, ImmutableArray<double> Values)
{
    /// <summary>Most values of one number.</summary>
    public const int MaxValues = 2000;

    // Values when the range does not say how many.
    private const int UsualValues = 15;

    /// <summary>Reads ranges such as <c>standoffMm=20..90:15</c>; all that is wrong with them in one answer.</summary>
    /// <param name="value">The valid case.</param>
    /// <param name="frameId">The frame.</param>
    /// <param name="texts">One or two ranges.</param>
    public static (ImmutableArray<VariedRange> Ranges, ImmutableArray<Fault> Faults) Read(Case value, string frameId, IReadOnlyList<string> texts)
    {
        List<VariedRange> ranges = [];
        List<Fault> faults = [];
        if (texts.Count is 0 or > 2)
        {
            faults.Add(new("--over", FaultCodes.Range, $"{texts.Count} numbers are to vary.", "One or two.", "Give --over once or twice."));
        }

        foreach (string text in texts)
        {
            if (Read(value, frameId, text, faults) is VariedRange range)
            {
                ranges.Add(range);
            }
        }

        faults.AddRange(ranges.GroupBy(r => r.Number.Pointer).Where(g => g.Count() > 1)
            .Select(g => new Fault("--over", FaultCodes.DuplicateId, $"\"{g.First().Name}\" is given twice.", "Two different numbers.", "Leave one out.")));
        return ([.. ranges], [.. faults]);
    }

    private static VariedRange? Read(Case value, string frameId, string text, List<Fault> faults)
    {
        string at = $"--over {text}";
        int before = faults.Count, equals = text.LastIndexOf('=');
        string name = equals < 0 ? text : text[..equals], rest = equals < 0 ? "" : text[(equals + 1)..];
        string[] parts = rest.Split(':'), ends = parts[0].Split("..");
        double from = double.NaN, to = double.NaN;
        int count = UsualValues;
        if (equals <= 0 || parts.Length > 2 || ends.Length != 2 || !IsNumber(ends[0], out from) || !IsNumber(ends[1], out to))
        {
            faults.Add(new(at, FaultCodes.Syntax, "This is no range.", "NAME=FROM..TO or NAME=FROM..TO:STEPS, such as standoffMm=20..90:15.", "Write both ends with two dots between."));
        }
        else if (from >= to)
        {
            faults.Add(new(at, FaultCodes.Inconsistent, from == to ? $"The range is empty: both ends are {Text(from)}." : $"The range runs from {Text(from)} down to {Text(to)}.", "FROM below TO.", from == to ? "Widen it." : "Exchange the two."));
        }

        if (parts.Length == 2 && (!int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out count) || count is < 2 or > MaxValues))
        {
            faults.Add(new(at, FaultCodes.Range, $"\"{parts[1]}\" is no number of values.", $"2 to {MaxValues}: how many values, both ends among them.", "Choose a number in that range."));
        }

        (string Name, CaseNumber Number)? found = Find(value, frameId, name, at, faults);
        if (found is not null && faults.Count == before)
        {
            Within(found.Value.Number, from, to, at, faults);
        }

        return found is null || faults.Count > before ? null : new(found.Value.Name, found.Value.Number, Spaced(found.Value.Number, from, to, count));
    }

    private static (string Name, CaseNumber Number)? Find(Case value, string frameId, string name, string at, List<Fault> faults)
    {
        int index = value.Frames.IndexOf(value.Frames.First(f => f.Id == frameId));
        Frame frame = value.Frames[index];
        if (name.StartsWith('/'))
        {
            if ((CaseNumber.Find(value, $"/frames/{index}{name}") ?? CaseNumber.Find(value, name)) is CaseNumber number)
            {
                return (name, number);
            }

            faults.Add(new(at, FaultCodes.Reference, $"There is no number at \"{name}\" of the frame or the case.", "A JSON Pointer from the frame or the case, such as /construct/standoffMm or /limb/lengthMm.",
                Spelling.DidYouMean(name, CaseNumber.Below(frame).Concat(CaseNumber.Below(value))) ?? "A number that the case does not give cannot vary; lists count from 0."));
            return null;
        }

        // Short names stand for members of the construct; the unit at their end may be left out.
        string[] below = [.. CaseNumber.Below(frame.Construct)];
        string[] matches = [.. below.Where(p => p[1..] == name || Leaf(p) == name)];
        matches = matches.Length > 0 ? matches : [.. below.Where(p => Leaf(p).StartsWith(name, StringComparison.Ordinal) && Leaf(p).Length <= name.Length + 4 && char.IsUpper(Leaf(p)[name.Length]))];
        if (matches.Length == 1)
        {
            return (matches[0][1..], CaseNumber.Find(value, $"/frames/{index}/construct{matches[0]}")!);
        }

        string[] known = [.. below.Select(p => p[1..])];
        faults.Add(frame.Construct is null
            ? new(at, FaultCodes.Reference, $"Frame {frameId} is given part by part and has no \"{name}\".", "A JSON Pointer, such as /parts/pins/0/levelMm.", "Name the number by its pointer.")
            : matches.Length > 1
            ? new(at, FaultCodes.Reference, $"\"{name}\" may be any of {string.Join(", ", matches.Select(m => m[1..]))}.", "One of them.", "Write it in full.")
            : new(at, FaultCodes.Reference, $"The construct has no \"{name}\".", string.Join(", ", known) + ", or a JSON Pointer.", Spelling.DidYouMean(name, known) ?? "Choose one of them."));
        return null;
    }

    private static void Within(CaseNumber number, double from, double to, string at, List<Fault> faults)
    {
        if (from < number.Min || to > number.Max)
        {
            faults.Add(new(at, FaultCodes.Range, $"{Text(from < number.Min ? from : to)} is beyond what {number.Pointer} may be.", $"{Text(number.Min)} to {Text(number.Max)}.", "Keep the range within."));
        }
    }

    // Whole numbers each once.
    private static ImmutableArray<double> Spaced(CaseNumber number, double from, double to, int count)
    {
        IEnumerable<double> even = Enumerable.Range(0, count).Select(i => i == count - 1 ? to : from + ((to - from) * i / (count - 1)));
        return number.IsWhole ? [.. even.Select(v => Math.Round(v)).Distinct()] : [.. even];
    }

    private static string Leaf(string pointer) => pointer[(pointer.LastIndexOf('/') + 1)..];

    private static bool IsNumber(string text, out double number) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out number) && double.IsFinite(number);

    private static string Text(double number) => number.ToString("0.######", CultureInfo.InvariantCulture);
}
