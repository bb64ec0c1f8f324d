using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using Halfpin.Cli.Output;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Planning.Alignment;
using Halfpin.Reports.Figures;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Files;

namespace Halfpin.Cli.Verbs;

/// <summary>Answers a measurement of alignment, with or without the frames of a case.</summary>
internal sealed class AlignVerb : Verb
{
    public AlignVerb(Terminal terminal)
        : base("align", "True size and plane of a deformity from two views, published limits, and which clamps of a frame to turn.",
            "halfpin align --ap 19 --lat 14 --side right", "halfpin align case.json --frame near-far --ap 6 --lat -8 --rotation 10 --svg align.svg")
    {
        Argument<string?> path = new("CASE") { Description = "A case file, or - for standard input; without one the deformity by itself.", Arity = ArgumentArity.ZeroOrOne };
        Option<double> ap = new("--ap") { Description = "Angulation on the AP view, degrees: varus +, valgus −.", Required = true };
        Option<double> lat = new("--lat") { Description = "Angulation on the lateral view, degrees: procurvatum +, recurvatum −.", Required = true };
        Option<double?> rotation = new("--rotation") { Description = "Rotation of the distal fragment, degrees: external +, internal −." };
        Option<double?> apShift = new("--ap-shift") { Description = "Shift of the distal end on the AP view, mm: medial +, lateral −." };
        Option<double?> latShift = new("--lat-shift") { Description = "Shift of the distal end on the lateral view, mm: anterior +, posterior −." };
        Option<double?> length = new("--length") { Description = "Length at the fracture, mm: distraction +, shortening −." };
        Option<double> errorDeg = new("--error-deg") { Description = "Error of every angle, either way, degrees (ASSUMED unless given).", DefaultValueFactory = _ => AlignmentMeasurement.UsualErrorDeg };
        Option<double> errorMm = new("--error-mm") { Description = "Error of every length, either way, mm (ASSUMED unless given).", DefaultValueFactory = _ => AlignmentMeasurement.UsualErrorMm };
        Option<Side?> side = new("--side") { Description = "left or right; a case tells its own." };
        Option<string?> frame = new("--frame") { Description = "Only the frame with this id." };
        Option<int> fracture = new("--fracture") { Description = "Number of the deformed fracture, from proximal.", DefaultValueFactory = _ => 1 };
        Option<string?> svg = new("--svg") { Description = "Also write a drawing of both views and the true plane to this file." };
        Arguments.Add(path);
        foreach (Option option in new Option[] { ap, lat, rotation, apShift, latShift, length, errorDeg, errorMm, side, frame, fracture, svg })
        {
            Options.Add(option);
        }

        SetAction(run =>
        {
            AlignmentMeasurement measured = new()
            {
                ApDeg = run.GetValue(ap),
                LateralDeg = run.GetValue(lat),
                RotationDeg = run.GetValue(rotation),
                ApShiftMm = run.GetValue(apShift),
                LateralShiftMm = run.GetValue(latShift),
                LengthMm = run.GetValue(length),
                ErrorDeg = run.GetValue(errorDeg),
                ErrorMm = run.GetValue(errorMm),
            };
            bool json = run.GetValue(Json);
            int Answer(Case? value, string? sha256)
            {
                AlignmentQuestion question = new(measured, run.GetValue(side), value, run.GetValue(frame), run.GetValue(fracture));
                ImmutableArray<Fault> faults = [.. question.Faults()];
                if (faults.Length > 0)
                {
                    FaultPrinter.Print("The measurement", faults, json, terminal);
                    return ExitCodes.Usage;
                }

                AlignmentReport report = AlignmentAssessor.Assess(question, ProgramVersion.Stamp, sha256);
                if (run.GetValue(svg) is string file)
                {
                    AtomicFile.Write(file, Encoding.UTF8.GetBytes(AlignmentFigure.Draw(report)));
                    terminal.Error.WriteLine($"Drawing: {file}");
                }

                if (json)
                {
                    terminal.Out.WriteLine(ReportWriter.ToJson(report));
                }
                else
                {
                    AlignmentTables.Print(report, terminal.Console(run.GetValue(NoColor)));
                }

                return ExitCodes.Done;
            }

            return run.GetValue(path) is string named
                ? WithCase(named, json, terminal, (value, reading) => Answer(value, reading.Sha256))
                : Answer(null, null);
        });
    }
}
