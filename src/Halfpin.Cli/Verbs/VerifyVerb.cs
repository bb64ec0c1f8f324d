using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Halfpin.Storage.Json;
using Halfpin.Verification;
using Halfpin.Verification.Running;

namespace Halfpin.Cli.Verbs;

/// <summary>Runs the published checks on this machine.</summary>
internal sealed class VerifyVerb : Verb
{
    public VerifyVerb(Terminal terminal)
        : base("verify", "Run the published checks on this machine: sources, printed values, tolerances and what this installation gives.",
            "halfpin verify", "halfpin verify --case logan-5-8 --json")
    {
        Option<string?> only = new("--case") { Description = "Only the case with this id." };
        Option<bool> page = new("--page") { Description = "Print VERIFICATION.md." };
        Options.Add(only);
        Options.Add(page);
        SetAction(run =>
        {
            string? id = run.GetValue(only);
            ImmutableArray<(string Topic, VerificationCase Case, ImmutableArray<CheckResult> Results)> cases =
                [.. CaseLibrary.Load().Where(c => id is null || c.Case.Id == id).Select(c => (c.Topic, c.Case, CaseRunner.Run(c.Case)))];
            if (cases.IsEmpty)
            {
                terminal.Error.WriteLine($"There is no case \"{id}\". halfpin verify lists them all.");
                return ExitCodes.Usage;
            }

            if (run.GetValue(page))
            {
                terminal.Out.Write(VerificationPage.Of(cases));
            }
            else if (run.GetValue(Json))
            {
                terminal.Out.WriteLine(JsonSerializer.Serialize(Envelope(cases), HalfpinJson.Options));
            }
            else
            {
                Print(cases, terminal);
            }

            return cases.SelectMany(c => c.Results).Any(r => r.Outcome == Outcome.Mismatch) ? ExitCodes.VerificationMismatch : ExitCodes.Done;
        });
    }

    private static object Envelope(ImmutableArray<(string Topic, VerificationCase Case, ImmutableArray<CheckResult> Results)> cases) => new
    {
        format = "halfpin-verification",
        formatVersion = 1,
        program = ProgramVersion.Stamp,
        cases = cases.Select(c => new
        {
            c.Topic,
            c.Case.Id,
            c.Case.Requirement,
            c.Case.Kind,
            c.Case.Source,
            c.Case.Locator,
            c.Case.ReadAt,
            c.Case.Tag,
            c.Case.Assumptions,
            results = c.Results.Select(r => new
            {
                r.Check.Quantity,
                r.Check.Unit,
                r.Check.Printed,
                r.Reference,
                r.Ours,
                r.Check.RelativeTolerance,
                r.Check.AbsoluteTolerance,
                r.Check.ToleranceReason,
                r.Outcome,
                r.Check.KnownGap,
            }),
        }),
    };

    private static void Print(ImmutableArray<(string Topic, VerificationCase Case, ImmutableArray<CheckResult> Results)> cases, Terminal terminal)
    {
        foreach ((string topic, VerificationCase value, ImmutableArray<CheckResult> results) in cases)
        {
            terminal.Out.WriteLine($"{topic} / {value.Id}: {value.Requirement}");
            terminal.Out.WriteLine($"    {value.Source}; {value.Locator} [{value.Tag.ToString().ToUpperInvariant()}]");
            foreach (CheckResult r in results)
            {
                string sign = r.Outcome switch { Outcome.Agrees => "✓", Outcome.KnownGap => "~", _ => "✕" };
                terminal.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"    {sign} {r.Check.Quantity}: {r.Ours:G9} against {r.Check.Printed ?? r.Reference.ToString("G9", CultureInfo.InvariantCulture)} {r.Check.Unit}, {r.ToleranceUsed:P0} of what is allowed"));
            }
        }

        CheckResult[] all = [.. cases.SelectMany(c => c.Results)];
        int agrees = all.Count(r => r.Outcome == Outcome.Agrees), gaps = all.Count(r => r.Outcome == Outcome.KnownGap);
        terminal.Out.WriteLine($"Cases: {cases.Length}. Numbers: {all.Length}, of which {agrees} agree, {gaps} are known gaps and {all.Length - agrees - gaps} mismatches.");
    }
}
