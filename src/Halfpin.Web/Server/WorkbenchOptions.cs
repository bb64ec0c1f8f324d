using Halfpin.Domain.Assessments;

namespace Halfpin.Web.Server;

/// <summary>How the workbench is served.</summary>
/// <param name="Port">Port on the loopback address; 0 for any free one.</param>
/// <param name="Folder">Folder of the saved work.</param>
/// <param name="Program">The program's stamp.</param>
/// <param name="Examples">Example cases by name, as file texts.</param>
public sealed record WorkbenchOptions(int Port, string Folder, ProgramStamp Program, IReadOnlyList<ExampleCase> Examples)
{
    /// <summary>Example stocks, to try the program with.</summary>
    public IReadOnlyList<ExampleStock> Stocks { get; init; } = [];
}

/// <summary>An example that ships with the program.</summary>
/// <param name="Name">Its name in addresses.</param>
/// <param name="Json">Its file.</param>
public sealed record ExampleCase(string Name, byte[] Json);

/// <summary>A stock that ships with the program.</summary>
/// <param name="FileName">Name of its file.</param>
/// <param name="Bytes">Its file.</param>
public sealed record ExampleStock(string FileName, byte[] Bytes);
