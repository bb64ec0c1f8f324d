using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Halfpin.Domain.Assessments;
using Halfpin.Stability;
using Halfpin.Storage.Assessments;
using Halfpin.Storage.Cases;
using Halfpin.Verification.Formulas;
using Halfpin.Verification.Models;

namespace Halfpin.Verification.Running;

/// <summary>Runs cases and holds their numbers against the references.</summary>
public static class CaseRunner
{
    /// <summary>The results of a case's checks, in their order.</summary>
    public static ImmutableArray<CheckResult> Run(VerificationCase value)
    {
        Func<string, double> read = Reader(value);
        return [.. value.Checks.SelectMany(check => References(check).Select(reference => Judge(value, check, reference, check.Scale * read(check.Quantity))))];
    }

    private static CheckResult Judge(VerificationCase value, VerificationCheck check, double reference, double ours)
    {
        bool within = Math.Abs(ours - reference) <= CheckResult.Allowed(check, reference);
        return new(value, check, reference, ours, within ? Outcome.Agrees : check.KnownGap is null ? Outcome.Mismatch : Outcome.KnownGap);
    }

    // A closed form with a printed number is held against both.
    private static IEnumerable<double> References(VerificationCheck check)
    {
        if (check.Formula is FormulaCall formula)
        {
            yield return ClosedForms.Evaluate(formula);
        }

        if (check.Printed is string printed)
        {
            yield return double.Parse(printed.Replace('−', '-'), CultureInfo.InvariantCulture);
        }
    }

    private static Func<string, double> Reader(VerificationCase value) => value switch
    {
        { Frame: RawFrame frame } => new RawFrameSolution(frame).Read,
        { Section: RawSection section } => quantity => RawSectionReading.Read(section, quantity),
        { Case: JsonObject file } => Product(file),
        _ => throw new InvalidDataException($"Case {value.Id} has no model."),
    };

    // "frame-id /json/pointer" into the frame's assessment.
    private static Func<string, double> Product(JsonObject file)
    {
        CaseReading reading = new CaseReader(CaseValidity.Rules).Read(Encoding.UTF8.GetBytes(file.ToJsonString()));
        if (reading.Case is null)
        {
            throw new InvalidDataException(string.Join(" ", reading.Faults.Select(f => $"{f.Pointer}: {f.Message}")));
        }

        Assessment assessment = new Assessor(reading.Case).Assess(null, new("halfpin", ""), reading.Sha256);
        JsonArray frames = JsonNode.Parse(ReportWriter.ToJson(assessment))!["frames"]!.AsArray();
        return quantity =>
        {
            string[] words = quantity.Split(' ');
            JsonNode node = frames.First(f => (string)f!["id"]! == words[0])!;
            foreach (string step in words[1].Split('/').Skip(1))
            {
                node = node is JsonArray list ? list[int.Parse(step, CultureInfo.InvariantCulture)]! : node[step]!;
            }

            return (double)node;
        };
    }
}
