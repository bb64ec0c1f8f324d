using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Planning.Indication;
using Halfpin.Storage.Assessments;

namespace Halfpin.Cli.Verbs;

/// <summary>Sets out why a frame is used, as the case records it.</summary>
internal sealed class IndicationVerb : Verb
{
    public IndicationVerb(Terminal terminal)
        : base("indication", "Why a frame now: what the case records, what is missing, what contradicts, what is published. It decides nothing.",
            "halfpin indication case.json", "halfpin indication case.json --json")
    {
        Argument<string> path = CaseArgument();
        Arguments.Add(path);
        SetAction(run => WithCase(run.GetValue(path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            IndicationReport report = IndicationRecorder.Report(value, ProgramVersion.Stamp, reading.Sha256);
            if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(ReportWriter.ToJson(report));
            }
            else
            {
                IndicationLines.Print(report, terminal.Console(run.GetValue(NoColor)));
            }

            return ExitCodes.Done;
        }));
    }
}
