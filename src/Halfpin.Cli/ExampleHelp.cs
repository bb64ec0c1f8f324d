using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Halfpin.Cli.Verbs;

namespace Halfpin.Cli;

/// <summary>Help that opens with two examples.</summary>
internal sealed class ExampleHelp(HelpAction usual, Terminal terminal) : SynchronousCommandLineAction
{
    private static readonly string[] _general = ["halfpin demo", "halfpin compare case.json --report report.html"];

    public override int Invoke(ParseResult parseResult)
    {
        IReadOnlyList<string> examples = parseResult.CommandResult.Command is Verb verb ? verb.Examples : _general;
        terminal.Out.WriteLine("Examples:");
        foreach (string example in examples)
        {
            terminal.Out.WriteLine($"  {example}");
        }

        terminal.Out.WriteLine();
        return usual.Invoke(parseResult);
    }
}
