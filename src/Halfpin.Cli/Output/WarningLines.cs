using Halfpin.Domain.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>What stands before the kit and the steps of a frame: why it is not to be built as it is, or what is withheld.</summary>
internal static class WarningLines
{
    public static void Print(string? warning, FrameStatus status, Diagnosis? diagnosis, IAnsiConsole console)
    {
        foreach (string line in warning?.Split('\n') ?? [])
        {
            console.WriteLine($"WARNING  {line}");
        }

        if (status == FrameStatus.OutOfRange && diagnosis is not null)
        {
            console.WriteLine($"{diagnosis.Message} Try: {diagnosis.Try}");
        }
    }
}
