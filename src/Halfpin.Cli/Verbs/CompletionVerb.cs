using System.CommandLine;

namespace Halfpin.Cli.Verbs;

/// <summary>Prints a completion script.</summary>
internal sealed class CompletionVerb : Verb
{
    private const string Bash = """
        _halfpin() {
          local IFS=$'\n' text="${COMP_LINE#* }"
          COMPREPLY=($(compgen -W "$(halfpin "[suggest:${#text}]" "$text" 2>/dev/null)" -- "${COMP_WORDS[COMP_CWORD]}"))
        }
        complete -o default -F _halfpin halfpin
        """;

    private const string Zsh = """
        _halfpin() {
          local text="${words[2,-1]}"
          local -a found=("${(@f)$(halfpin "[suggest:${#text}]" "$text" 2>/dev/null)}")
          compadd -- $found
          _files
        }
        compdef _halfpin halfpin
        """;

    private const string Fish = """
        complete -c halfpin -a '(set -l text (string sub -s 9 (commandline -cp)); halfpin "[suggest:"(string length -- "$text")"]" "$text" 2>/dev/null)'
        """;

    private const string PowerShell = """
        Register-ArgumentCompleter -Native -CommandName halfpin -ScriptBlock {
          param($word, $ast, $position)
          $text = $ast.ToString() -replace '^\S+\s*', ''
          halfpin "[suggest:$($text.Length)]" "$text" 2>$null | ForEach-Object { [System.Management.Automation.CompletionResult]::new($_) }
        }
        """;

    public CompletionVerb(Terminal terminal)
        : base("completion", "Print a script that completes halfpin's verbs and options in a shell.", "halfpin completion bash > ~/.bash_completion.d/halfpin", "halfpin completion zsh")
    {
        Argument<string> shell = new("SHELL") { Description = "bash, zsh, fish or powershell." };
        shell.AcceptOnlyFromAmong("bash", "zsh", "fish", "powershell");
        Arguments.Add(shell);
        SetAction(run =>
        {
            terminal.Out.WriteLine(run.GetValue(shell) switch { "bash" => Bash, "zsh" => Zsh, "fish" => Fish, _ => PowerShell });
            return ExitCodes.Done;
        });
    }
}
