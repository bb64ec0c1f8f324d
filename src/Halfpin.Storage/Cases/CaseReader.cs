using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text.Json;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Json;

namespace Halfpin.Storage.Cases;

/// <summary>Reads case files: every fault of form and content in one answer, never an exception for what a file may contain.</summary>
/// <param name="rules">Rules on content, each naming the faults it finds; they must pass over numbers that are NaN.</param>
public sealed class CaseReader(IEnumerable<Func<Case, IEnumerable<Fault>>> rules)
{
    /// <summary>Largest case file accepted: far above any real one, small enough to refuse noise at once.</summary>
    public const int MaxBytes = 2 * 1024 * 1024;

    private const int MaxFaults = 100;

    private static readonly SchemaFaults _schema = new("case");

    private readonly ImmutableArray<Func<Case, IEnumerable<Fault>>> _rules = [.. rules];

    /// <summary>Reads a case.</summary>
    /// <param name="utf8">The file's bytes.</param>
    public CaseReading Read(ReadOnlyMemory<byte> utf8)
    {
        string sha = Convert.ToHexStringLower(SHA256.HashData(utf8.Span));
        if (utf8.Length > MaxBytes)
        {
            return Refuse(sha, [new("", FaultCodes.TooLarge, $"The file has {utf8.Length} bytes.", $"At most {MaxBytes} bytes.", "Check that this is a case file.")]);
        }

        ReadOnlyMemory<byte> text = utf8.Span.StartsWith("\uFEFF"u8) ? utf8[3..] : utf8;
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(text, new() { MaxDepth = HalfpinJson.MaxDepth, CommentHandling = JsonCommentHandling.Skip });
        }
        catch (JsonException e)
        {
            return Refuse(sha, [NotJson(e)]);
        }

        using (document)
        {
            List<Fault> broken = [.. BrokenTexts.In(document.RootElement)];
            return broken.Count > 0 ? Refuse(sha, broken)
                : Identify(document.RootElement) is Fault stranger ? Refuse(sha, [stranger])
                : ReadContent(document.RootElement, sha);
        }
    }

    private CaseReading ReadContent(JsonElement root, string sha)
    {
        List<Fault> faults = [.. DuplicateMembers.In(root), .. _schema.In(root)];
        Case? draft = faults.Count > 0 ? DraftCase.Mended(root, faults) : DraftCase.Sound(root, faults);
        if (draft is not null)
        {
            faults.AddRange(_rules.SelectMany(rule => rule(draft)));
        }

        return faults.Count > 0 ? Refuse(sha, faults) : new(draft! with { Notes = NoteLines.Of(root) }, sha, []);
    }

    private static Fault? Identify(JsonElement root)
    {
        const string Try = "Start from an example: halfpin demo writes one.";
        if (root.ValueKind != JsonValueKind.Object)
        {
            return new("", FaultCodes.Format, "The file holds no JSON object.", $"An object with \"format\": \"{Case.FormatName}\".", Try);
        }

        if (!root.TryGetProperty("format", out JsonElement format) || format.ValueKind != JsonValueKind.String || !format.ValueEquals(Case.FormatName))
        {
            return new("/format", FaultCodes.Format, "The file does not say that it is a case.", $"\"format\": \"{Case.FormatName}\"", Try);
        }

        return root.TryGetProperty("formatVersion", out JsonElement version) && version.ValueKind == JsonValueKind.Number
            && version.TryGetDouble(out double v) && v > Case.CurrentFormatVersion
            ? new("/formatVersion", FaultCodes.NewerVersion, $"The case has format version {version}, newer than this program knows.",
                $"Up to {Case.CurrentFormatVersion}.", "Update Halfpin.")
            : null;
    }

    private static Fault NotJson(JsonException e)
    {
        string where = e.LineNumber is long line ? $" at line {line + 1}, byte {e.BytePositionInLine + 1}" : "";
        return new("", FaultCodes.Syntax, $"The file is not JSON{where}.", $"UTF-8 JSON (RFC 8259), nested at most {HalfpinJson.MaxDepth} deep; NaN and Infinity are no JSON numbers.", "Mend the text there.");
    }

    private static CaseReading Refuse(string sha, List<Fault> faults) => new(
        null, sha, [.. faults.DistinctBy(f => (f.Pointer, f.Code, f.Message)).Take(MaxFaults)]);
}
