using System.Globalization;
using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Figures;
using Halfpin.Reports.Words;
using static Halfpin.Reports.Html.ComparisonReport;

namespace Halfpin.Reports.Html;

/// <summary>
/// A self-contained HTML page to build one frame by: what is missing first, the frame, its kit and its steps with boxes to tick.
/// No script, nothing loaded from elsewhere; light, dark, narrow, and on A4 upright.
/// </summary>
public static class BuildingReport
{
    private static readonly Column[] _lengths =
    [
        new("Pin"), new("Tip past far cortex"), new("Bone"), new("Standoff"), new("Half clamp"), new("Tail"), new("Needed"), new("Taken"), new("Thread wanted"), new("Thread"), new("Thread out of bone"),
    ];

    private static readonly Column[] _costs = [new("Stiffness at the fracture", IsText: true), new("This frame"), new("Changed frame"), new("Change")];

    private static readonly Column[] _assumptions = [new("Allowed for", IsText: true), new("Value", IsText: true), new("Source", IsText: true)];

    /// <summary>The page.</summary>
    /// <param name="value">The case.</param>
    /// <param name="kit">The frame's kit.</param>
    /// <param name="steps">The frame's steps.</param>
    /// <param name="bone">The bone for figures.</param>
    /// <param name="drawing">The frame for figures.</param>
    public static string Html(Case value, KitReport kit, StepsReport steps, BoneDrawing bone, FrameDrawing drawing)
    {
        StringBuilder page = new();
        page.Append($"""
            <!doctype html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
            <title>{Text(steps.Name)}: kit and steps</title>
            <style>{Style()}{Style("building.css")}</style>
            </head>
            <body>
            <div class="paper building">
            <main>
            <h1>{Text(steps.Name)}: kit and steps</h1>
            <p class="lead">{Text(steps.CaseTitle)}. {Text(CaseWords.Injury(value))}</p>

            """);
        Answer(page, kit, steps);
        page.Append($"<p class=\"safety\">{Text(steps.SafetyNote)}</p>\n<div class=\"overview\">\n");
        Views(page, value, bone, drawing, steps.Name);
        page.Append("<section class=\"kit\">\n<h2>Kit</h2>\n");
        Proposal(page, kit);
        Items(page, kit.Items.Where(i => i.Kind != KitKind.Tool), "ticks");
        page.Append("</section>\n</div>\n<h3 class=\"tools\">Tools</h3>\n");
        Items(page, kit.Items.Where(i => i.Kind == KitKind.Tool), "ticks pairs");
        Steps(page, steps);
        page.Append("<section>\n<h2>How the lengths come about</h2>\n");
        HtmlTable.Append(page, "mm; tip, bone, standoff, half a clamp and tail add up to what is needed", _lengths, kit.PinLengths.Select(Row));
        page.Append("</section>\n<section>\n<h2>Cautions on the kit</h2>\n<ul class=\"words\">\n");
        foreach (SourcedCaution c in kit.Cautions)
        {
            page.Append($"<li>{Text(c.Text)} {Source(c)}</li>\n");
        }

        page.Append("</ul>\n</section>\n<section class=\"assumptions\">\n<h2>What is allowed for</h2>\n");
        HtmlTable.Append(page, "", _assumptions, kit.Assumptions.Select(a => new Cell[] { a.Name, a.Value, $"{a.Source} [{a.Tag}]" }));
        page.Append($"""
            <p class="caption">READ: seen in the source. MEMORY: known, not seen. DERIVED: computed. ASSUMED: our choice. GIVEN: set by case or stock.</p>
            </section>
            <footer>
            <p>{Text(steps.Program.Name)} {Text(steps.Program.Version)}. Case SHA-256 <code>{Text(steps.CaseSha256)}</code>.{(kit.StockSha256 is string sha ? $" Stock SHA-256 <code>{Text(sha)}</code>." : "")}</p>
            </footer>
            </main>
            <p class="running">{Text(Safety.ShortNote)}</p>
            </div>
            </body>
            </html>

            """);
        return page.ToString();
    }

    private static void Answer(StringBuilder page, KitReport kit, StepsReport steps)
    {
        page.Append("<dl class=\"findings\">\n");
        foreach (string line in steps.Warning?.Split('\n') ?? [])
        {
            Finding(page, "fail", "✕ Change first", line);
        }

        if (steps is { Status: FrameStatus.OutOfRange, Diagnosis: Diagnosis d })
        {
            Finding(page, "caution", "! Withheld", $"{d.Message} {d.Try}");
        }

        foreach (SourcedCaution c in steps.Recorded)
        {
            Finding(page, "caution", "! Recorded", $"{c.Text} {c.Source} [{c.Tag}]");
        }

        foreach (Shortage s in kit.Shortages)
        {
            Finding(page, "caution", "! Missing", s.Message);
        }

        string Sum(KitKind kind, string word) => kit.Items.Where(i => i.Kind == kind).Sum(i => i.Quantity) is var n && n == 1 ? $"1 {word}" : $"{n} {word}s";
        int open = kit.Items.Where(i => i.OpenSided == true).Sum(i => i.Quantity);
        Finding(page, "pass", "To lay out", $"{Sum(KitKind.Pin, "pin")}, {Sum(KitKind.Rod, "rod")}, {Sum(KitKind.Clamp, "clamp")}{(open > 0 ? $" ({open} open-sided)" : "")}");
        Finding(page, "pass", "Steps", string.Create(CultureInfo.InvariantCulture, $"{steps.Steps.Length} steps, {steps.StepsToLastPin} until the last pin is in"));
        Finding(page, "pass", "Stock", kit.Stock is null ? "None given: sizes only" : kit.Shortages.IsEmpty ? $"{kit.Stock}: everything is there" : $"{kit.Stock}: see what is missing");
        page.Append("</dl>\n");
    }

    private static void Finding(StringBuilder page, string kind, string label, string text) => page.Append($"<div class=\"{kind}\"><dt>{Text(label)}</dt><dd>{Text(text)}</dd></div>\n");

    private static void Views(StringBuilder page, Case value, BoneDrawing bone, FrameDrawing drawing, string name)
    {
        string leg = Directions.Leg(value.Limb.Side);
        (FrameFigure front, FrameFigure medial) = FrameFigure.Of(value, bone, [drawing])[0];
        page.Append(CultureInfo.InvariantCulture, $"<div class=\"views\" style=\"grid-template-columns:{front.Width:0}fr {medial.Width:0}fr\">\n");
        page.Append($"<figure>{front.Draw($"{name}: the frame on the bone seen from the front, {leg}, proximal end up")}<figcaption>Seen from the front, {leg}. Lengths in mm along the bone's axis, from each pin's level to the fracture's edge there. A pin may pass a tilted fracture nearer than that: its step tells how near.</figcaption></figure>\n");
        page.Append($"<figure>{medial.Draw($"{name}: the frame on the bone seen from the medial side, {leg}, proximal end up")}<figcaption>Seen from the medial side, {leg}.</figcaption></figure>\n</div>\n");
    }

    private static void Proposal(StringBuilder page, KitReport kit)
    {
        if (kit.Proposal is not KitProposal p)
        {
            return;
        }

        page.Append($"<p><span class=\"sign caution\">! </span>{Text(p.Message)}</p>\n");
        if (!p.Costs.IsEmpty)
        {
            HtmlTable.Append(page, "", _costs, p.Costs.Select(c => new Cell[]
            {
                $"{c.Name}, {c.Unit}", Numbers.Stiffness(c.Before), Numbers.Stiffness(c.After), c.ChangePercent is double change ? change.ToString("+0;−0;0", CultureInfo.InvariantCulture) + " %" : HtmlTable.Nothing,
            }));
        }
    }

    private static void Items(StringBuilder page, IEnumerable<KitItem> items, string css)
    {
        page.Append($"<ul class=\"{css}\">\n");
        foreach (KitItem i in items)
        {
            string length = i.LengthMm is double l ? $", {Numbers.Length(l)} mm" : "", parts = i.Parts.IsEmpty ? "" : $" for {string.Join(" ", i.Parts)}";
            string stock = i.InStock is int n ? string.Create(CultureInfo.InvariantCulture, $"{n} in stock{(i.StockName is null ? "" : $" as “{i.StockName}”")}. ") : "";
            string reason = i.Reason.Length > 0 ? $"{i.Reason}." : i.Kind == KitKind.Tool ? $"{i.Source} [{i.Tag}]" : "";
            string missing = i.InStock < i.Quantity ? "<span class=\"sign caution\">! </span>" : "";
            page.Append(CultureInfo.InvariantCulture, $"<li><label><input type=\"checkbox\"><span><b>{i.Quantity} ×</b> {missing}{Text(i.Description)}{Text(length)}<span class=\"for\">{Text(parts)}</span><small>{Text(stock + reason)}</small></span></label></li>\n");
        }

        page.Append("</ul>\n");
    }

    private static void Steps(StringBuilder page, StepsReport steps)
    {
        StepPhase? phase = null;
        page.Append($"<p class=\"lead\">{Text(steps.Statement)}</p>\n");
        foreach (Step s in steps.Steps)
        {
            if (s.Phase != phase)
            {
                page.Append(phase is null ? "" : "</ol>\n").Append($"<h2>{Heading(s.Phase, phase)}</h2>\n").Append(CultureInfo.InvariantCulture, $"<ol class=\"ticks steps\" start=\"{s.N}\">\n");
                phase = s.Phase;
            }

            page.Append(CultureInfo.InvariantCulture, $"<li><label><input type=\"checkbox\"><b class=\"n\">{s.N}</b><span>{Text(s.Text)}</span></label>");
            if (!s.Cautions.IsEmpty)
            {
                page.Append("<ul class=\"watch\">");
                foreach (SourcedCaution c in s.Cautions)
                {
                    page.Append($"<li>{Text(c.Text)} {Source(c)}</li>");
                }

                page.Append("</ul>");
            }

            page.Append("</li>\n");
        }

        page.Append(phase is null ? "" : "</ol>\n");
    }

    private static string Heading(StepPhase phase, StepPhase? after) => phase switch
    {
        StepPhase.Before => "Before the first pin",
        StepPhase.Build => after == StepPhase.Align ? "Building on" : "Building",
        StepPhase.Align => "Alignment",
        StepPhase.Finish => "Before leaving theatre",
        _ => "Afterwards",
    };

    private static Cell[] Row(PinLength p) =>
    [
        p.Pin, Numbers.Length(p.TipMm), Mm(p.ChordMm), Mm(p.StandoffMm), Numbers.Length(p.HalfClampMm), Mm(p.TailMm), Mm(p.NeededMm), p.LengthMm is double l ? Numbers.Length(l) : "none",
        string.Create(CultureInfo.InvariantCulture, $"{p.ThreadFromMm:0}–{p.ThreadToMm:0}"), p.ThreadLengthMm is double t ? Numbers.Length(t) : HtmlTable.Nothing, p.ExposedThreadMm is double e ? Mm(e) : HtmlTable.Nothing,
    ];

    private static string Source(SourcedCaution c) => $"<small>{Text(c.Source)} [{Text(c.Tag)}]</small>";

    private static string Mm(double value) => value.ToString("0.0", CultureInfo.InvariantCulture);
}
