using Halfpin.Domain.Assessments;

namespace Halfpin.Web.Server;

/// <summary>How the workbench is served.</summary>
/// <param name="Port">Port on the loopback address; 0 for any free one.</param>
/// <param name="Folder">Folder of the saved work.</param>
/// <param name="Program">The program's stamp.</param>
/// <param name="Examples">Example cases by name, as file texts.</param>
public sealed record WorkbenchOptions(int Port, string Folder, ProgramStamp Program, IReadOnlyList<ExampleCase> Examples);

/// <summary>An example that ships with the program.</summary>
/// <param name="Name">Its name in addresses.</param>
/// <param name="Json">Its file.</param>
public sealed record ExampleCase(string Name, byte[] Json);
