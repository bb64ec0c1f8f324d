using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Microsoft.AspNetCore.Http;

namespace Halfpin.Web.Api.Requests;

/// <summary>Reads the query parameters of a request and gathers everything that is wrong with them.</summary>
internal sealed partial class RequestQuery
{
    private readonly IQueryCollection _query;
    private readonly List<Fault> _faults = [];

    /// <summary>The query of a request.</summary>
    /// <param name="query">The query.</param>
    /// <param name="known">Names that the operation has; others are faults.</param>
    public RequestQuery(IQueryCollection query, IReadOnlyCollection<string> known)
    {
        _query = query;
        foreach (string name in query.Keys.Where(k => !known.Contains(k)))
        {
            Refuse(Short(name), FaultCodes.UnknownMember, $"There is no parameter \"{Short(name)}\" here.", known.Count == 0 ? "No parameters." : string.Join(", ", known), Spelling.DidYouMean(name, known) ?? "Leave it out.");
        }
    }

    /// <summary>Everything that is wrong so far.</summary>
    public ImmutableArray<Fault> Faults => [.. _faults];

    /// <summary>Adds a fault.</summary>
    public void Refuse(string name, string code, string message, string allowed, string @try) => _faults.Add(new(name, code, message, allowed, @try));

    /// <summary>Adds faults that name options of the command line, in the words of this API.</summary>
    public void Refuse(IEnumerable<Fault> faults) =>
        _faults.AddRange(faults.Select(f => new Fault(Words(f.Pointer), f.Code, Words(f.Message), Words(f.Allowed), Words(f.Try))));

    /// <summary>A text; null when it is not given.</summary>
    public string? Text(string name)
    {
        string?[] values = [.. _query[name]];
        if (values.Length > 1)
        {
            Refuse(name, FaultCodes.DuplicateMember, $"{name} is given {values.Length} times.", "Once.", "Leave all but one out.");
        }

        return values is [{ Length: > 0 } text] ? text : null;
    }

    /// <summary>All texts of a name.</summary>
    public ImmutableArray<string> Texts(string name) => [.. _query[name].OfType<string>()];

    /// <summary>A number within limits; null, with a fault, when it is required and not given.</summary>
    public double? Number(string name, double min, double max, string unit, bool required = false)
    {
        string range = string.Create(CultureInfo.InvariantCulture, $"{min:0.###} to {max:0.###}{unit}");
        if (Given(name, required, $"A number, {range}.") is not string text)
        {
            return null;
        }

        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) || !double.IsFinite(number))
        {
            Refuse(name, FaultCodes.Type, $"\"{Short(text)}\" is no number.", $"A number with a decimal point, {range}.", "Write digits only.");
            return null;
        }

        if (number < min || number > max)
        {
            Refuse(name, FaultCodes.Range, string.Create(CultureInfo.InvariantCulture, $"{name} is {number:G6}{unit}."), $"{range}.", $"Use a value from {range}.");
            return null;
        }

        return number;
    }

    /// <summary>A whole number within limits; the usual one when it is not given.</summary>
    public long Whole(string name, long min, long max, long usual)
    {
        if (Text(name) is not string text)
        {
            return usual;
        }

        if (!long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long number) || number < min || number > max)
        {
            Refuse(name, FaultCodes.Range, $"{name} is \"{Short(text)}\".", $"A whole number, {min} to {max}.", "Choose one in that range.");
            return usual;
        }

        return number;
    }

    /// <summary>A frame of a case by its id; null when it is not given or there is none.</summary>
    public string? Frame(string name, Case value, bool required)
    {
        string frames = string.Join(", ", value.Frames.Select(f => f.Id));
        if (Given(name, required, frames) is not string id)
        {
            return null;
        }

        if (value.Frames.Any(f => f.Id == id))
        {
            return id;
        }

        Refuse(name, FaultCodes.Reference, $"There is no frame \"{Short(id)}\".", frames, Spelling.DidYouMean(id, value.Frames.Select(f => f.Id)) ?? "Name one of the case's frames.");
        return null;
    }

    private string? Given(string name, bool required, string allowed)
    {
        string? text = Text(name);
        if (text is null && required && !_faults.Any(f => f.Pointer == name))
        {
            Refuse(name, FaultCodes.Missing, $"{name} is missing.", allowed, $"Add {name} to the query.");
        }

        return text;
    }

    private static string Short(string text) => text.Length <= 60 ? text : text[..57] + "…";

    // "--ap-shift" of the command line is the parameter apShift.
    private static string Words(string text) => Option().Replace(text, m => Hyphen().Replace(m.Groups[1].Value, h => h.Groups[1].Value.ToUpperInvariant()));

    [GeneratedRegex("--([a-z][a-z-]*)")]
    private static partial Regex Option();

    [GeneratedRegex("-([a-z])")]
    private static partial Regex Hyphen();
}
