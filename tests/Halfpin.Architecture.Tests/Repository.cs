using System.Reflection;

namespace Halfpin.Architecture.Tests;

/// <summary>The source tree these tests were built from.</summary>
internal static class Repository
{
    public static readonly string Root = Path.GetFullPath(
        typeof(Repository).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "RepositoryRoot").Value!);

    public static readonly string[] Libraries = ["Mechanics", "Domain", "Anatomy", "Placement", "Stability", "Planning", "Search", "Studies", "Storage", "Reports", "Verification", "Workbench"];

    public static Assembly Assembly(string name) => System.Reflection.Assembly.Load($"Halfpin.{name}");

    /// <summary>C# files below a folder, without build output.</summary>
    public static IEnumerable<string> Sources(string folder) => Directory.EnumerateFiles(Path.Combine(Root, folder), "*.cs", SearchOption.AllDirectories)
        .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal));
}
