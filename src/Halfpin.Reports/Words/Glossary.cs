using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Halfpin.Reports.Words;

/// <summary>
/// The technical words that pages and reports use, explained. Pure definitions have no source; where one states what is usually done it
/// says that it is common practice.
/// </summary>
public static class Glossary
{
    private static readonly ImmutableArray<GlossaryTerm> _all =
        [.. FrameTerms.Frames.Concat(FrameTerms.Limb).Concat(MechanicsTerms.Mechanics).Concat(MechanicsTerms.Healing).Concat(MechanicsTerms.Studies).OrderBy(t => t.Name, StringComparer.OrdinalIgnoreCase)];

    private static readonly FrozenDictionary<string, GlossaryTerm> _byKey = _all.ToFrozenDictionary(t => t.Key, StringComparer.Ordinal);

    private static readonly FrozenDictionary<string, (string Form, GlossaryTerm Term)> _byForm =
        _all.SelectMany(t => t.Forms.Select(f => (Form: f, Term: t))).ToFrozenDictionary(f => f.Form, StringComparer.OrdinalIgnoreCase);

    private static readonly FrozenDictionary<string, (string Form, GlossaryTerm Term)>.AlternateLookup<ReadOnlySpan<char>> _forms = _byForm.GetAlternateLookup<ReadOnlySpan<char>>();

    private static readonly int _longest = _byForm.Keys.Max(f => f.Length);

    /// <summary>All terms by name.</summary>
    public static ImmutableArray<GlossaryTerm> All => _all;

    /// <summary>The term of a key; null when there is none.</summary>
    public static GlossaryTerm? Find(string key) => _byKey.GetValueOrDefault(key);

    /// <summary>
    /// Cuts a text at the forms of terms: whole words, the longest form first, each term where it comes first. The pieces together are the text.
    /// </summary>
    public static ImmutableArray<GlossaryRun> Split(string text)
    {
        List<GlossaryRun> runs = [];
        HashSet<GlossaryTerm> met = [];
        int plain = 0, at = 0;
        while (at < text.Length)
        {
            if (IsStart(text, at) && FormAt(text, at) is (int length, GlossaryTerm term) && met.Add(term))
            {
                if (at > plain)
                {
                    runs.Add(new(text[plain..at], null));
                }

                runs.Add(new(text.Substring(at, length), term));
                plain = at += length;
            }
            else
            {
                at++;
            }
        }

        if (plain < text.Length)
        {
            runs.Add(new(text[plain..], null));
        }

        return [.. runs];
    }

    private static (int Length, GlossaryTerm Term)? FormAt(string text, int at)
    {
        for (int length = Math.Min(_longest, text.Length - at); length > 0; length--)
        {
            ReadOnlySpan<char> piece = text.AsSpan(at, length);
            if (IsEnd(text, at + length) && _forms.TryGetValue(piece, out (string Form, GlossaryTerm Term) found) && (!IsCapitals(found.Form) || piece.SequenceEqual(found.Form)))
            {
                return (length, found.Term);
            }
        }

        return null;
    }

    private static bool IsStart(string text, int at) => at == 0 || !IsWord(text[at - 1]);

    private static bool IsEnd(string text, int at) => at == text.Length || !IsWord(text[at]);

    // A hyphen binds: "pin" is not marked in "half-pin".
    private static bool IsWord(char letter) => char.IsLetterOrDigit(letter) || letter == '-';

    private static bool IsCapitals(string form) => form.All(c => !char.IsLower(c));
}
