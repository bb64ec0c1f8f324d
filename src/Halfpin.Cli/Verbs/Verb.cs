using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Cases;
using Halfpin.Storage.Cases;

namespace Halfpin.Cli.Verbs;

/// <summary>A verb of the program: a command with two examples for its help.</summary>
internal abstract class Verb : Command
{
    protected Verb(string name, string description, params string[] examples)
        : base(name, description)
    {
        Examples = examples;
        Options.Add(Json);
        Options.Add(NoColor);
    }

    public IReadOnlyList<string> Examples { get; }

    protected Option<bool> Json { get; } = new("--json") { Description = "Print JSON instead of tables." };

    protected Option<bool> NoColor { get; } = new("--no-color") { Description = "No colour; the NO_COLOR variable does the same." };

    /// <summary>The argument that names a case.</summary>
    protected static Argument<string> CaseArgument() => new("CASE") { Description = "A case file, or - for standard input." };

    /// <summary>True when a case has a frame; else says which it has.</summary>
    protected static bool HasFrame(Case value, string id, Terminal terminal)
    {
        if (value.Frames.Any(f => f.Id == id))
        {
            return true;
        }

        terminal.Error.WriteLine($"There is no frame \"{id}\". Frames of this case: {string.Join(", ", value.Frames.Select(f => f.Id))}.");
        return false;
    }

    /// <summary>Opens a case and goes on with it; faults are told and end the verb.</summary>
    protected static int WithCase(string path, bool json, Terminal terminal, Func<Case, CaseReading, int> then)
    {
        CaseReading reading = CaseSource.Read(path, terminal);
        if (reading.Case is Case value)
        {
            return then(value, reading);
        }

        FaultPrinter.Print(path, reading.Faults, json, terminal);
        return ExitCodes.InvalidInput;
    }
}
