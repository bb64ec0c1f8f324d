namespace Halfpin.Domain.Validity;

/// <summary>Guesses what was meant by a word that is not known.</summary>
public static class Spelling
{
    /// <summary>The known word that a few keystrokes would make of a given one; null when none is near.</summary>
    public static string? DidYouMean(string given, IEnumerable<string> known)
    {
        if (given.Length > 40)
        {
            return null;
        }

        (string Word, int Distance) best = known.Select(k => (k, Distance(given.ToUpperInvariant(), k.ToUpperInvariant()))).DefaultIfEmpty(("", int.MaxValue)).MinBy(k => k.Item2);
        return best.Distance <= Math.Max(1, given.Length / 3) ? $"Did you mean \"{best.Word}\"?" : null;
    }

    // Levenshtein's distance, row by row.
    private static int Distance(string a, string b)
    {
        int[] row = [.. Enumerable.Range(0, b.Length + 1)];
        for (int i = 1; i <= a.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int above = row[j];
                row[j] = Math.Min(Math.Min(row[j], row[j - 1]) + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1));
                diagonal = above;
            }
        }

        return row[b.Length];
    }
}
