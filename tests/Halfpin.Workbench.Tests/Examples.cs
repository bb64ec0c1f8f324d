using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Stability;
using Halfpin.Storage.Cases;

namespace Halfpin.Workbench.Tests;

/// <summary>The example cases and their frames.</summary>
internal static class Examples
{
    public static readonly ProgramStamp Stamp = new("halfpin", "test");

    public static readonly Case Oblique = Read("01-oblique-fracture.json");

    public static readonly Case Segmental = Read("04-segmental-fracture.json");

    public static Frame Named(this Case value, string id) => value.Frames.First(f => f.Id == id);

    private static Case Read(string name) => new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", name))).Case!;
}
