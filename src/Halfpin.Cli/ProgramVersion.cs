using System.Reflection;
using Halfpin.Domain.Assessments;

namespace Halfpin.Cli;

/// <summary>The program's name and version, with the commit where the build knows it.</summary>
internal static class ProgramVersion
{
    public static ProgramStamp Stamp { get; } = new(
        "halfpin", typeof(ProgramVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0");
}
