using System.CommandLine;
using Halfpin.Domain.Cases;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>A verb that reports on the frames of a case, or on one of them.</summary>
/// <typeparam name="T">The report.</typeparam>
internal abstract class FrameVerb<T> : Verb
    where T : class
{
    protected FrameVerb(Terminal terminal, string name, string description, params string[] examples)
        : base(name, description, examples)
    {
        Argument<string> path = CaseArgument();
        Option<string?> frame = new("--frame") { Description = "Only the frame with this id." };
        Arguments.Add(path);
        Options.Add(frame);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            string? id = run.GetValue(frame);
            if (id is not null && !HasFrame(value, id, terminal))
            {
                return ExitCodes.Usage;
            }

            if (Report(value, id, reading, run) is not T report)
            {
                return ExitCodes.InvalidInput;
            }

            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(ReportWriter.ToJson(report));
            }
            else
            {
                Print(value, report, terminal.Console(run.GetValue(NoColor)));
            }

            return ExitCode(report);
        }));
    }

    /// <summary>Makes the report on one frame, or on all when the id is null; null when further input has faults, which it tells.</summary>
    protected abstract T? Report(Case value, string? frameId, CaseReading reading, ParseResult run);

    /// <summary>Prints it for people.</summary>
    protected abstract void Print(Case value, T report, IAnsiConsole console);

    /// <summary>4 when a frame cannot be analysed, else 0.</summary>
    protected abstract int ExitCode(T report);
}
