using System.Collections.Immutable;
using System.Net;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Html;

/// <summary>
/// A self-contained HTML page that compares the frames of a case: the answer first, then frames side by side, each frame with its
/// drawings, results, sizes, checks, and the assumptions. No script, nothing loaded from elsewhere; light, dark, narrow and in print.
/// </summary>
public static class ComparisonReport
{
    /// <summary>The page.</summary>
    /// <param name="value">The case.</param>
    /// <param name="assessment">Its assessment.</param>
    /// <param name="bone">The bone for figures.</param>
    /// <param name="drawings">The frames for figures, one for each assessed frame.</param>
    public static string Html(Case value, Assessment assessment, BoneDrawing bone, ImmutableArray<FrameDrawing> drawings)
    {
        StringBuilder page = new();
        page.Append($"""
            <!doctype html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
            <title>{Text(assessment.CaseTitle)}</title>
            <style>{Style()}</style>
            </head>
            <body>
            <div class="paper">
            <main>
            <h1>{Text(assessment.CaseTitle)}</h1>
            <p class="lead">{Text(CaseWords.Injury(value))}</p>

            """);
        Findings(page, assessment);
        page.Append($"<p class=\"safety\">{Text(assessment.SafetyNote)}<br>{Text(Safety.NotChecked)}</p>\n");
        Notes(page, assessment);
        ComparisonSection.Append(page, value, assessment, drawings);
        FrameSection.Append(page, value, assessment, bone, drawings);
        InputSection.Append(page, value, assessment);
        page.Append($"""
            <footer>
            <p>{Text(assessment.Program.Name)} {Text(assessment.Program.Version)}. Case SHA-256 <code>{Text(assessment.CaseSha256)}</code>.</p>
            </footer>
            </main>
            <p class="running">{Text(Safety.ShortNote)}</p>
            </div>
            </body>
            </html>

            """);
        return page.ToString();
    }

    /// <summary>Text made safe for HTML.</summary>
    internal static string Text(string text) => WebUtility.HtmlEncode(text);

    private static void Findings(StringBuilder page, Assessment assessment)
    {
        page.Append("<dl class=\"findings\">\n");
        foreach (Finding f in assessment.Findings)
        {
            string kind = f.Verdict switch { Verdict.Fail => "fail", Verdict.Caution => "caution", _ => "pass" };
            string sign = f.Verdict switch { Verdict.Fail => "✕ ", Verdict.Caution => "! ", _ => "" };
            page.Append($"<div class=\"{kind}\"><dt>{sign}{Text(f.Label)}</dt><dd>{Text(f.Text)}</dd></div>\n");
        }

        page.Append("</dl>\n");
    }

    // A case's own words: shown as they are, never as markup.
    private static void Notes(StringBuilder page, Assessment assessment)
    {
        if (assessment.CaseNotes.IsEmpty)
        {
            return;
        }

        page.Append("<section class=\"notes\">\n<h2>Notes of the case</h2>\n");
        foreach (string line in assessment.CaseNotes)
        {
            page.Append($"<p>{Text(line)}</p>\n");
        }

        page.Append("</section>\n");
    }

    /// <summary>A style sheet of this assembly.</summary>
    internal static string Style(string name = "report.css")
    {
        using Stream stream = typeof(ComparisonReport).Assembly.GetManifestResourceStream(name)!;
        using StreamReader reader = new(stream);
        return reader.ReadToEnd();
    }
}
