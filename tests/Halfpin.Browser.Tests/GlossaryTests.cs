using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Halfpin.Browser.Tests;

/// <summary>Technical words explain themselves to a pointer, a keyboard and a finger, and stand all together on a page.</summary>
public class GlossaryTests(Workbench workbench)
{
    private const string Standoff = "from the bone's surface to the rod's axis";

    private static ILocator Explanation(IPage page) => page.Locator(".explanation");

    private static ILocator Word(IPage page) => page.Locator(".handles [data-term='standoff']");

    [Fact]
    public async Task Word_pointedAt_isExplainedBesideIt()
    {
        IPage page = await workbench.OpenFrameAsync();
        await Word(page).HoverAsync();
        await Expect(Explanation(page)).ToContainTextAsync(Standoff);
        LocatorBoundingBoxResult word = (await Word(page).BoundingBoxAsync())!, box = (await Explanation(page).BoundingBoxAsync())!;
        Assert.True(box.Y + box.Height <= word.Y || box.Y >= word.Y + word.Height, "The explanation lies over its word.");

        // Whoever reads slowly may move onto it.
        await page.Mouse.MoveAsync(box.X + (box.Width / 2), box.Y + (box.Height / 2));
        await Task.Delay(500, TestContext.Current.CancellationToken);
        await Expect(Explanation(page)).ToBeVisibleAsync();
        await page.Mouse.MoveAsync(700, 500);
        await Expect(Explanation(page)).ToBeHiddenAsync();
    }

    [Fact]
    public async Task Escape_closesAnExplanationWithoutMovingThePointer()
    {
        IPage page = await workbench.OpenFrameAsync();
        await Word(page).HoverAsync();
        await Expect(Explanation(page)).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("Escape");
        await Expect(Explanation(page)).ToBeHiddenAsync();
    }

    [Fact]
    public async Task Keyboard_reachesAWordAndAsksAgain()
    {
        IPage page = await workbench.OpenFrameAsync();
        await page.Locator("[data-number='standoff']").FocusAsync();
        await page.Keyboard.PressAsync("Shift+Tab");
        await page.Keyboard.PressAsync("Shift+Tab");
        await Expect(Word(page)).ToBeFocusedAsync();
        await Expect(Explanation(page)).ToContainTextAsync(Standoff);
        await page.Keyboard.PressAsync("Escape");
        await Expect(Explanation(page)).ToBeHiddenAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(Explanation(page)).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("Tab");
        await Expect(Explanation(page)).ToBeHiddenAsync();
    }

    [Fact]
    public async Task Word_inALabel_describesItselfAndLeavesTheFieldAlone()
    {
        IPage page = await workbench.OpenFrameAsync();
        string described = (await Word(page).GetAttributeAsync("aria-describedby"))!;
        Assert.Contains(Standoff, await page.Locator($"#{described}").TextContentAsync(), StringComparison.Ordinal);
        await Word(page).ClickAsync();
        await Expect(Explanation(page)).ToBeVisibleAsync();
        await Expect(page.Locator("[data-number='standoff']")).Not.ToBeFocusedAsync();
        await Expect(page.GetByRole(AriaRole.Textbox, new() { Name = "Rod to bone" })).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task Phone_wordTapped_isExplainedWithinTheScreenUntilTappedElsewhere()
    {
        IPage page = await workbench.OpenFrameAsync(width: 390, height: 800);
        ILocator word = page.Locator(".bars [data-term='torsion']");
        await word.ScrollIntoViewIfNeededAsync();

        // A finger: the pointer that comes and goes with a touch opens nothing by itself.
        await word.DispatchEventAsync("pointerover", new { pointerType = "touch", bubbles = true });
        await word.DispatchEventAsync("click", new { bubbles = true, cancelable = true });
        await Expect(Explanation(page)).ToBeVisibleAsync();
        LocatorBoundingBoxResult box = (await Explanation(page).BoundingBoxAsync())!;
        Assert.True(box.X >= 0 && box.X + box.Width <= 390 && box.Y >= 0);
        await page.Locator(".headline").First.ClickAsync();
        await Expect(Explanation(page)).ToBeHiddenAsync();
    }

    [Fact]
    public async Task Words_onPaper_areNotUnderlined()
    {
        IPage page = await workbench.OpenFrameAsync();
        await Word(page).HoverAsync();
        await Expect(Explanation(page)).ToBeVisibleAsync();
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await Expect(Explanation(page)).ToBeHiddenAsync();
        Assert.Equal("none", await Word(page).EvaluateAsync<string>("e => getComputedStyle(e).textDecorationLine"));
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Glossary_scannedByAxe_hasNothingAgainstWcag22AA(ColorScheme scheme)
    {
        IPage page = await workbench.OpenAsync(scheme: scheme);
        await page.GetByRole(AriaRole.Link, new() { Name = "Glossary" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("Glossary");
        Assert.True(await page.Locator("dt").CountAsync() > 60);
        AxeResult result = await page.RunAxe(new AxeRunOptions { RunOnly = new() { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] } });
        Assert.True(result.Violations.Length == 0, string.Join('\n', result.Violations.Select(v => $"{v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Take(4).Select(n => n.Html))}")));
    }

    [Fact]
    public async Task Explanation_shown_passesAxe()
    {
        IPage page = await workbench.OpenFrameAsync();
        await Word(page).HoverAsync();
        await Expect(Explanation(page)).ToBeVisibleAsync();
        AxeResult result = await page.RunAxe(new AxeRunOptions { RunOnly = new() { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] } });
        Assert.True(result.Violations.Length == 0, string.Join('\n', result.Violations.Select(v => $"{v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Take(4).Select(n => n.Html))}")));
    }
}
