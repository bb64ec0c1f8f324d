using System.CommandLine;
using System.Globalization;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Stability.Dynamisation;
using Halfpin.Storage.Cases;
using Spectre.Console;

namespace Halfpin.Cli.Verbs;

/// <summary>Shows frames stage by stage as they are made to yield.</summary>
internal sealed class DynamiseVerb : FrameVerb<DynamisationReport>
{
    private const double MostFreeMm = 50;

    private readonly Option<double?> _free = new("--free-mm") { Description = "Propose clamps to loosen that let the gap close by at least this under the chosen load, mm." };

    public DynamiseVerb(Terminal terminal)
        : base(terminal, "dynamise", "Frames stage by stage as they are made to yield: what is freed, what is kept, which clamps to loosen.",
            "halfpin dynamise case.json", "halfpin dynamise case.json --frame double-rod --free-mm 1 --json")
    {
        _free.Validators.Add(result =>
        {
            // What is no number at all is told by the parser.
            if (result.Tokens.Count == 1 && double.TryParse(result.Tokens[0].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double mm) && !(mm > 0 && mm <= MostFreeMm))
            {
                result.AddError($"--free-mm must be more than 0 and at most {MostFreeMm} mm.");
            }
        });
        Options.Add(_free);
    }

    protected override DynamisationReport Report(Case value, string? frameId, CaseReading reading, ParseResult run) =>
        new DynamisationAssessor(value).Assess(frameId, ProgramVersion.Stamp, reading.Sha256, run.GetValue(_free));

    protected override void Print(Case value, DynamisationReport report, IAnsiConsole console) => DynamisationTables.Print(report, console);

    protected override int ExitCode(DynamisationReport report) => ExitCodes.Of(report.Stages.Select(s => s.Status));
}
