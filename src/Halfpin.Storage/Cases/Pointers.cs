namespace Halfpin.Storage.Cases;

/// <summary>JSON Pointers (RFC 6901).</summary>
internal static class Pointers
{
    public static string Append(string pointer, string name) => $"{pointer}/{name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}";

    public static string Leaf(string pointer) =>
        pointer[(pointer.LastIndexOf('/') + 1)..].Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);

    public static string Parent(string pointer) => pointer.LastIndexOf('/') is int at && at > 0 ? pointer[..at] : "";
}
