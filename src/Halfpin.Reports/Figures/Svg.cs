using System.Globalization;
using System.Net;
using System.Text;

namespace Halfpin.Reports.Figures;

/// <summary>A small SVG drawing under construction; y grows downwards as in SVG. Colours come from the page's classes.</summary>
internal sealed class Svg(double width, double height)
{
    private readonly StringBuilder _body = new();

    public void Line(double x1, double y1, double x2, double y2, string cssClass) =>
        _body.Append(CultureInfo.InvariantCulture, $"<line x1=\"{x1:0.##}\" y1=\"{y1:0.##}\" x2=\"{x2:0.##}\" y2=\"{y2:0.##}\" class=\"{cssClass}\"/>");

    public void Stroke(double x1, double y1, double x2, double y2, double widthPx, string cssClass) =>
        _body.Append(CultureInfo.InvariantCulture, $"<line x1=\"{x1:0.##}\" y1=\"{y1:0.##}\" x2=\"{x2:0.##}\" y2=\"{y2:0.##}\" stroke-width=\"{widthPx:0.##}\" class=\"{cssClass}\"/>");

    public void Polygon(IEnumerable<(double X, double Y)> points, string cssClass) =>
        _body.Append("<polygon points=\"").AppendJoin(' ', points.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.X:0.##},{p.Y:0.##}"))).Append(CultureInfo.InvariantCulture, $"\" class=\"{cssClass}\"/>");

    public void Polyline(IEnumerable<(double X, double Y)> points, string cssClass) =>
        _body.Append("<polyline points=\"").AppendJoin(' ', points.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.X:0.##},{p.Y:0.##}"))).Append(CultureInfo.InvariantCulture, $"\" class=\"{cssClass}\"/>");

    public void Rect(double x, double y, double w, double h, string cssClass, double radius = 0) =>
        _body.Append(CultureInfo.InvariantCulture, $"<rect x=\"{x:0.##}\" y=\"{y:0.##}\" width=\"{Math.Max(0, w):0.##}\" height=\"{h:0.##}\" rx=\"{radius:0.##}\" class=\"{cssClass}\"/>");

    public void Circle(double x, double y, double r, string cssClass) =>
        _body.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{x:0.##}\" cy=\"{y:0.##}\" r=\"{r:0.##}\" class=\"{cssClass}\"/>");

    public void Text(double x, double y, string text, string cssClass, string anchor = "start") =>
        _body.Append(CultureInfo.InvariantCulture, $"<text x=\"{x:0.##}\" y=\"{y:0.##}\" text-anchor=\"{anchor}\" class=\"{cssClass}\">{WebUtility.HtmlEncode(text)}</text>");

    /// <summary>The finished drawing, with a title for those who cannot see it.</summary>
    public string Finish(string title, string cssClass) => string.Create(
        CultureInfo.InvariantCulture,
        $"<svg viewBox=\"0 0 {width:0.##} {height:0.##}\" class=\"{cssClass}\" role=\"img\" aria-label=\"{WebUtility.HtmlEncode(title)}\">{_body}</svg>");

    /// <summary>The finished drawing as a file of its own, with the style that a page would give it and, if wanted, what it shows in words.</summary>
    public string FinishAlone(string title, string style, string words = "") => string.Create(
        CultureInfo.InvariantCulture,
        $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:0.##} {height:0.##}\" role=\"img\"><title>{WebUtility.HtmlEncode(title)}</title>{(words.Length == 0 ? "" : $"<desc>{WebUtility.HtmlEncode(words)}</desc>")}<style>{style}</style>{_body}</svg>\n");
}
