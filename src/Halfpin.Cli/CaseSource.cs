using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Gaits;
using Halfpin.Web.Server;

namespace Halfpin.Cli;

/// <summary>Opens the case that a verb names.</summary>
internal static class CaseSource
{
    private const string ExamplePrefix = "example:";

    private static readonly CaseReader _reader = new(CaseValidity.Rules);

    /// <summary>Reads a case from a file, or from standard input for "-".</summary>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static CaseReading Read(string path, Terminal terminal)
    {
        using Stream stream = path == "-" ? terminal.Input : File.OpenRead(path);
        byte[] bytes = new byte[CaseReader.MaxBytes + 1];
        int length = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return _reader.Read(bytes.AsMemory(0, length));
    }

    /// <summary>Reads a table of gait from a file.</summary>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static GaitReading ReadGait(string path)
    {
        using FileStream stream = File.OpenRead(path);
        byte[] bytes = new byte[GaitReader.MaxBytes + 1];
        int length = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return GaitReader.Read(bytes.AsMemory(0, length));
    }

    /// <summary>Reads the example that ships with the program.</summary>
    public static byte[] DemoBytes() => Examples().First().Json;

    /// <summary>The example cases that ship with the program, by the names of their files.</summary>
    public static IEnumerable<ExampleCase> Examples()
    {
        foreach ((string name, byte[] bytes) in EmbeddedFiles.Under(ExamplePrefix))
        {
            yield return new(Path.GetFileNameWithoutExtension(name), bytes);
        }
    }

    /// <summary>Reads a case from bytes.</summary>
    public static CaseReading Read(byte[] bytes) => _reader.Read(bytes);
}
