using Spectre.Console;

namespace Halfpin.Cli;

/// <summary>The streams of a run: results go to <see cref="Out"/>, talk to <see cref="Error"/>.</summary>
internal sealed class Terminal
{
    // Tables are laid out for this width where there is no screen to ask.
    private const int WidthWithoutScreen = 150;

    private readonly Func<bool, IAnsiConsole> _console;

    public Terminal(Stream input, TextWriter output, TextWriter error, bool isScreen)
    {
        Input = input;
        Out = output;
        Error = error;
        _console = colour =>
        {
            IAnsiConsole console = AnsiConsole.Create(new()
            {
                Out = new AnsiConsoleOutput(output),
                Ansi = isScreen && colour ? AnsiSupport.Detect : AnsiSupport.No,
                ColorSystem = isScreen && colour ? ColorSystemSupport.Detect : ColorSystemSupport.NoColors,
            });
            if (!isScreen)
            {
                console.Profile.Width = WidthWithoutScreen;
            }

            return console;
        };
    }

    public Stream Input { get; }

    public TextWriter Out { get; }

    public TextWriter Error { get; }

    /// <summary>A console on the output for tables.</summary>
    /// <param name="noColor">True when the user asked for no colour; the NO_COLOR variable counts too.</param>
    public IAnsiConsole Console(bool noColor) =>
        _console(!noColor && string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR")));
}
