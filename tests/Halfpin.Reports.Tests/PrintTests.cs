using System.Globalization;
using System.Text.RegularExpressions;
using Halfpin.Domain.Assessments;
using Xunit;

namespace Halfpin.Reports.Tests;

/// <summary>The report printed by a real browser.</summary>
public partial class PrintTests
{
    // A point in 1/72 inch; a browser rounds paper to whole device pixels.
    private const double A4WidthPt = 841.89, A4HeightPt = 595.28, RoundingPt = 1;

    [Fact]
    public void Paper_isA4Landscape()
    {
        Match size = PageSize().Match(_print.Value.Info);

        Assert.Equal(A4WidthPt, Number(size.Groups[1]), RoundingPt);
        Assert.Equal(A4HeightPt, Number(size.Groups[2]), RoundingPt);
    }

    [Fact]
    public void EveryPage_carriesTheSafetyNote()
    {
        Assert.True(_print.Value.Pages.Length > 7);
        Assert.All(_print.Value.Pages, p => Assert.Contains(Safety.ShortNote, p, StringComparison.Ordinal));
    }

    [Fact]
    public void WhatIsFoldedOnTheScreen_isPrinted()
    {
        string text = string.Concat(_print.Value.Pages);

        Assert.Equal(7, Regex.Count(text, "Sizes of pins and rods"));
        Assert.Equal(7, Regex.Count(text, "rod distance along the pin"));
        Assert.Contains("✓ Pass", text, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryFrame_beginsAPage()
    {
        string[] names = [.. ComparisonReportTests.Example.Frames.Select(f => f.DisplayName)];
        string[][] tops = [.. _print.Value.Pages.Select(p => p.Split('\n', StringSplitOptions.RemoveEmptyEntries).Take(4).ToArray())];

        Assert.All(names, n => Assert.Contains(tops, t => t.Contains(n)));
    }

    // The paper's corner is white, and ink covers little of every page.
    [Fact]
    public void Print_isDarkOnWhite() => Assert.All(_print.Value.Pictures, p =>
    {
        Assert.Equal(255, p[0]);
        Assert.True(p.Count(b => b < 128) < 0.15 * p.Length);
    });

    // This browser prints in light colours whatever the rules say; others follow the rules.
    [Fact]
    public void DarkColours_areForScreensOnly()
    {
        string[] rules = [.. DarkRule().Matches(ComparisonReportTests.Page).Select(r => r.Value)];

        Assert.NotEmpty(rules);
        Assert.All(rules, r => Assert.StartsWith("@media screen and", r, StringComparison.Ordinal));
    }

    private static readonly Lazy<Printed> _print = new(() => Browser.InFolder(folder =>
    {
        string file = Path.Combine(folder, "report.html"), pdf = Path.Combine(folder, "report.pdf");
        File.WriteAllText(file, ComparisonReportTests.Page);
        Browser.Print(folder, file, pdf);
        Browser.Run("pdftoppm", "-r", "20", "-gray", pdf, Path.Combine(folder, "page"));
        return new Printed(
            Browser.Run("pdfinfo", pdf),
            [.. Browser.Run("pdftotext", "-layout", pdf, "-").Split('\f', StringSplitOptions.RemoveEmptyEntries).Select(p => p.Replace("\r", "", StringComparison.Ordinal)).Select(Trimmed)],
            [.. Directory.GetFiles(folder, "page-*.pgm").Order(StringComparer.Ordinal).Select(Pixels)]);
    }));

    // A line of the layout, without the space that stands for distance on paper.
    private static string Trimmed(string page) => string.Join('\n', page.Split('\n').Select(l => l.Trim()));

    // A binary grey map: four words, a blank, then a byte each.
    private static byte[] Pixels(string file)
    {
        byte[] bytes = File.ReadAllBytes(file);
        int at = 0;
        for (int words = 0; words < 4; at++)
        {
            words += bytes[at] is (byte)' ' or (byte)'\n' ? 1 : 0;
        }

        return bytes[at..];
    }

    private static double Number(Group g) => double.Parse(g.Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"Page size:\s+([\d.]+) x ([\d.]+) pts")]
    private static partial Regex PageSize();

    [GeneratedRegex(@"@media[^{]*prefers-color-scheme: dark")]
    private static partial Regex DarkRule();

    private sealed record Printed(string Info, string[] Pages, byte[][] Pictures);
}
