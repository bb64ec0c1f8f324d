using Halfpin.Storage.Files;
using Xunit;

namespace Halfpin.Storage.Tests;

public sealed class AtomicFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Write_newFile_isThereWhole()
    {
        string path = Path.Combine(_folder, "a.txt");
        AtomicFile.Write(path, "whole"u8);

        Assert.Equal("whole", File.ReadAllText(path));
        Assert.Single(Directory.GetFiles(_folder));
    }

    [Fact]
    public void Write_overAFile_replacesIt()
    {
        string path = Path.Combine(_folder, "a.txt");
        File.WriteAllText(path, "a much longer old text");
        AtomicFile.Write(path, "new"u8);

        Assert.Equal("new", File.ReadAllText(path));
    }

    [Fact]
    public void Write_whereItCannot_leavesTheOldFileAndNoRemains()
    {
        string path = Path.Combine(_folder, "taken");
        Directory.CreateDirectory(path); // A folder stands in the way of the last step.
        File.WriteAllText(Path.Combine(path, "inside"), "old");

        Assert.ThrowsAny<Exception>(() => AtomicFile.Write(path, "new"u8));
        Assert.Equal("old", File.ReadAllText(Path.Combine(path, "inside")));
        Assert.Empty(Directory.GetFiles(_folder));
    }

    [Fact]
    public void Write_intoNoFolder_says() =>
        Assert.ThrowsAny<IOException>(() => AtomicFile.Write(Path.Combine(_folder, "none", "a.txt"), "x"u8));
}
