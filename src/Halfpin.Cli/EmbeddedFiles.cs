namespace Halfpin.Cli;

/// <summary>Files that ship inside the program.</summary>
internal static class EmbeddedFiles
{
    /// <summary>The files whose names begin with a prefix, in order of name, the prefix left off.</summary>
    public static IEnumerable<(string Name, byte[] Bytes)> Under(string prefix)
    {
        foreach (string name in typeof(EmbeddedFiles).Assembly.GetManifestResourceNames().Where(n => n.StartsWith(prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using Stream stream = typeof(EmbeddedFiles).Assembly.GetManifestResourceStream(name)!;
            using MemoryStream copy = new();
            stream.CopyTo(copy);
            yield return (name[prefix.Length..], copy.ToArray());
        }
    }
}
