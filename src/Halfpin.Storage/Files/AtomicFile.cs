namespace Halfpin.Storage.Files;

/// <summary>Writes files whole or not at all.</summary>
public static class AtomicFile
{
    /// <summary>
    /// Writes a file beside its target, flushes it to the disk, reads it back and only then puts it in the target's place.
    /// </summary>
    /// <param name="path">The target; its folder must exist.</param>
    /// <param name="content">The bytes.</param>
    /// <exception cref="IOException">The file cannot be written or reads back otherwise; the target is as it was.</exception>
    public static void Write(string path, ReadOnlySpan<byte> content)
    {
        string target = Path.GetFullPath(path);
        string temporary = $"{target}.{Guid.NewGuid():N}.tmp";
        try
        {
            using (FileStream stream = new(temporary, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                stream.Write(content);
                stream.Flush(flushToDisk: true);
            }

            if (!File.ReadAllBytes(temporary).AsSpan().SequenceEqual(content))
            {
                throw new IOException($"{path} did not read back as written.");
            }

            File.Move(temporary, target, overwrite: true);
        }
        finally
        {
            File.Delete(temporary);
        }
    }
}
