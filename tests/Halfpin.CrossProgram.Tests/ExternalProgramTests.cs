using Halfpin.TestKit.CrossProgram;
using Xunit;

namespace Halfpin.CrossProgram.Tests;

public class ExternalProgramTests
{
    private const string NoSuchProgram = "halfpin-no-such-program";

    [Fact]
    public void Program_that_is_not_installed_is_not_found() => Assert.Null(ExternalProgram.Find(NoSuchProgram));

    [Fact]
    public void Program_that_is_not_installed_is_named_when_run()
    {
        ExternalProgramException e = Assert.Throws<ExternalProgramException>(
            () => ExternalProgram.Run([[NoSuchProgram]], new Dictionary<string, string>(), _ => 0));

        Assert.Contains(NoSuchProgram, e.Message, StringComparison.Ordinal);
    }

    // ccx ends with code 0 even so; only what it left and said tells.
    [Fact]
    public void Deck_that_a_program_refuses_is_reported_with_its_words()
    {
        Need.CalculixProgram();
        Dictionary<string, string> impossible = new() { ["deck.inp"] = "*NODE\n1,0,0,0\n*MATERIAL,NAME=M\n*ELASTIC\n1000,0.7\n" };

        ExternalProgramException e = Assert.Throws<ExternalProgramException>(
            () => ExternalProgram.Run<int>([[Calculix.Program, "-i", "deck"]], impossible, _ => throw new FormatException()));

        Assert.Contains("*ERROR", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Deck_that_is_not_held_is_reported()
    {
        Need.Z88Program();
        BeamDeck held = RawFrameDecks.ToDeck(SampleFrames.ConstructA());

        Assert.Throws<ExternalProgramException>(() => Z88.Solve(held with { Held = held.Held.Clear() }));
    }
}
