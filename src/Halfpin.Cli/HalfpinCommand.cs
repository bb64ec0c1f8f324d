using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Halfpin.Cli.Verbs;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Validity;

namespace Halfpin.Cli;

/// <summary>The program as a whole: its verbs, its streams and its exit codes.</summary>
internal sealed class HalfpinCommand
{
    private readonly RootCommand _root;
    private readonly Terminal _terminal;

    public HalfpinCommand(Terminal terminal)
    {
        _terminal = terminal;
        _root = new RootCommand($"Stability of external fixation frames on the tibia, computed.\n{Safety.ShortNote}")
        {
            new DemoVerb(terminal), new CheckVerb(terminal), new AssessVerb(terminal), new CompareVerb(terminal),
            new CorridorsVerb(terminal), new SuggestVerb(terminal), new AlignVerb(terminal), new IndicationVerb(terminal),
            new HealingVerb(terminal), new DynamiseVerb(terminal), new OverloadVerb(terminal),
            new KitVerb(terminal), new StepsVerb(terminal),
            new UncertaintyVerb(terminal), new VaryVerb(terminal),
            new ConstructsVerb(terminal), new SchemaVerb(terminal), new ServeVerb(terminal), new VerifyVerb(terminal), new CompletionVerb(terminal),
        };
        foreach (HelpOption help in _root.Options.OfType<HelpOption>())
        {
            help.Action = new ExampleHelp((HelpAction)help.Action!, terminal);
        }
    }

    public int Run(string[] args)
    {
        ParseResult parsed = _root.Parse(args);
        if (args.Length > 0 && parsed.CommandResult.Command == _root && args[0].Length > 0 && char.IsLetter(args[0][0]))
        {
            string[] verbs = [.. _root.Subcommands.Select(c => c.Name)];
            _terminal.Error.WriteLine($"There is no verb \"{args[0]}\". {Spelling.DidYouMean(args[0], verbs) ?? $"Verbs: {string.Join(", ", verbs)}."}");
            return ExitCodes.Usage;
        }

        if (parsed.Action is ParseErrorAction || (parsed.Errors.Count > 0 && parsed.Action is null))
        {
            foreach (string message in parsed.Errors.Select(e => e.Message))
            {
                _terminal.Error.WriteLine(message);
            }

            _terminal.Error.WriteLine("See halfpin --help, or halfpin VERB --help.");
            return ExitCodes.Usage;
        }

        try
        {
            return parsed.Invoke(new() { Output = _terminal.Out, Error = _terminal.Error, EnableDefaultExceptionHandler = false });
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            _terminal.Error.WriteLine(e.Message);
            return ExitCodes.File;
        }
        catch (Exception e) when (e is not OutOfMemoryException) // The last stop: whatever went wrong is told in a line and an exit code.
        {
            _terminal.Error.WriteLine($"Halfpin failed: {e.Message}");
            _terminal.Error.WriteLine("This is a fault of the program. Please report it with the case file (without patient data).");
            return ExitCodes.Internal;
        }
    }
}
