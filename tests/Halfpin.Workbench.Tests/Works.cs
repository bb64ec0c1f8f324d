using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Work;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Tests;

/// <summary>Works in a folder of their own that goes when a test is done.</summary>
public sealed class Works : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("halfpin-works-");

    public static byte[] Example(string name) => File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", name));

    public static Case Demo { get; } = new CaseReader(CaseValidity.Rules).Read(Example("01-oblique-fracture.json")).Case!;

    /// <summary>The list of works as a run of the program sees it; each call is another run.</summary>
    public WorkspaceList Open() => new(Store(), TimeProvider.System);

    public WorkStore Store() => new(_folder.FullName);

    public Workspace Begin(Case? value = null) => Open().Begin(value ?? Demo, "opened for a test");

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        _folder.Delete(recursive: true);
    }
}
