using System.Globalization;
using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Halfpin.Browser.Tests;

/// <summary>What hands do beside the values of a frame: areas of skin, cross-links, parts, and all of it by touch.</summary>
public class HandJourneyTests(Workbench workbench)
{
    private static async Task<double> NumberAsync(IPage page, string handle) =>
        double.Parse(await page.Locator($"[data-number='{handle}']").InputValueAsync(), CultureInfo.InvariantCulture);

    private static async Task<(float X, float Y, float Width, float Height)> BoxAsync(ILocator at)
    {
        LocatorBoundingBoxResult box = (await at.BoundingBoxAsync())!;
        return (box.X, box.Y, box.Width, box.Height);
    }

    [Fact]
    public async Task Wound_draggedAndStretched_isOneStepOfUndoEach()
    {
        IPage page = await workbench.OpenAsync($"{await workbench.PostAsync()}/wound");
        await Workbench.ReadyAsync(page);
        ILocator area = page.Locator("[data-area='/wounds/0']"), shape = area.Locator("rect").First;
        string before = (await area.GetAttributeAsync("aria-label"))!;
        await shape.ScrollIntoViewIfNeededAsync();
        (float x, float y, float width, float height) = await BoxAsync(shape);
        await page.Mouse.MoveAsync(x + (width / 2), y + (height / 2));
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x + (width / 2) + 30, y + (height / 2) + 20, new() { Steps = 8 });
        await Expect(area).ToHaveAttributeAsync("data-held", "");
        await Expect(area).Not.ToHaveAttributeAsync("aria-label", before);
        await Expect(page.Locator("#undo")).ToBeDisabledAsync(); // Nothing is changed before it is let go.
        await page.Mouse.UpAsync();
        await Expect(page.Locator("#undo")).ToContainTextAsync("wound 1: ");
        string moved = (await area.GetAttributeAsync("aria-label"))!;
        (float movedX, float movedY, float movedWidth, float movedHeight) = await BoxAsync(shape);
        Assert.Equal((width, height), (movedWidth, movedHeight));
        Assert.InRange(movedX - x, 25, 35);
        Assert.InRange(movedY - y, 15, 25);

        // By its distal edge, which alone goes along.
        await page.Mouse.MoveAsync(movedX + (movedWidth / 2), movedY + movedHeight - 1);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(movedX + (movedWidth / 2), movedY + movedHeight + 24, new() { Steps = 6 });
        await Expect(area).ToHaveAttributeAsync("data-held", "");
        await page.Mouse.UpAsync();
        await Expect(area).Not.ToHaveAttributeAsync("data-held", ""); // Let go, and drawn as it was let go.
        await Expect(area).Not.ToHaveAttributeAsync("aria-label", moved);
        (float _, float sameY, float _, float taller) = await BoxAsync(shape);
        Assert.Equal(movedY, sameY, 0.5f);
        Assert.InRange(taller - movedHeight, 20, 30);

        await page.Locator("#undo").ClickAsync();
        await Expect(area).ToHaveAttributeAsync("aria-label", moved);
        await page.Locator("#undo").ClickAsync();
        await Expect(area).ToHaveAttributeAsync("aria-label", before);
        await Expect(page.Locator("#undo")).ToBeDisabledAsync();
    }

    [Fact]
    public async Task Wound_movedByKeys_andTakenBackByEscape()
    {
        IPage page = await workbench.OpenAsync($"{await workbench.PostAsync()}/wound");
        await Workbench.ReadyAsync(page);
        ILocator area = page.Locator("[data-area='/wounds/0']"), from = page.Locator("[data-testid='wounds-0'] input").First;
        double level = double.Parse(await from.InputValueAsync(), CultureInfo.InvariantCulture);
        await area.FocusAsync();
        await page.Keyboard.PressAsync("ArrowDown");
        await Expect(from).ToHaveValueAsync((level + 5).ToString(CultureInfo.InvariantCulture));
        string words = (await area.GetAttributeAsync("aria-label"))!;
        await page.Keyboard.DownAsync("ArrowUp");
        await Expect(area).Not.ToHaveAttributeAsync("aria-label", words);
        await page.Keyboard.PressAsync("Escape");
        await page.Keyboard.UpAsync("ArrowUp");
        await Expect(area).ToHaveAttributeAsync("aria-label", words);
        await page.Locator("#undo").ClickAsync();
        await Expect(page.Locator("#undo")).ToBeDisabledAsync();
    }

    [Fact]
    public async Task CrossLink_inTheDrawing_movesAlongTheBoneByKey()
    {
        IPage page = await workbench.OpenFrameAsync("two-plane");
        double level = await NumberAsync(page, "crossLink1");
        await page.Locator("[data-handle='crossLink1']").FocusAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        await Expect(page.Locator("#undo")).ToContainTextAsync("cross-link 1 level");
        Assert.InRange(await NumberAsync(page, "crossLink1") - level, 0.1, 1.6);

        // Tab goes through pins and the two rods to the first link.
        ILocator drawing = page.Locator("[data-viewer]");
        await drawing.Locator("[tabindex='0']").Or(drawing.And(page.Locator("[tabindex='0']"))).First.FocusAsync();
        for (int i = 0; i < 11; i++)
        {
            await page.Keyboard.PressAsync("Tab");
        }

        double now = await NumberAsync(page, "crossLink1");
        await page.Keyboard.PressAsync("ArrowDown");
        await Expect(page.Locator("#undo")).Not.ToContainTextAsync($"level {now.ToString(CultureInfo.InvariantCulture)} mm");
        await Expect(page.Locator("#undo")).ToContainTextAsync("cross-link 1 level");
        Assert.InRange(await NumberAsync(page, "crossLink1") - now, 0.1, 1.6);
    }

    [Fact]
    public async Task Pin_addedAndRemoved_changesTheFrameAndUndoes()
    {
        IPage page = await workbench.OpenFrameAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Pin by pin" }).ClickAsync();
        await Expect(page.Locator("[data-pin]")).ToHaveCountAsync(4);
        string axial = (await page.GetByTestId("axial").TextContentAsync())!;
        await page.Locator("[data-add-pin='0-proximal']").ClickAsync();
        await Expect(page.Locator("[data-pin]")).ToHaveCountAsync(5);
        await Expect(page.Locator("[data-pin='p5']")).ToContainTextAsync("on r1");
        await Expect(page.Locator("#undo")).ToContainTextAsync("add pin p5");
        await Expect(page.GetByTestId("axial")).Not.ToHaveTextAsync(axial);
        await Expect(page.Locator("[data-handle='p5.level']")).ToHaveCountAsync(1);
        await page.GetByRole(AriaRole.Button, new() { Name = "Remove pin p5" }).ClickAsync();
        await Expect(page.Locator("[data-pin]")).ToHaveCountAsync(4);
        await page.Locator("#undo").ClickAsync();
        await Expect(page.Locator("[data-pin]")).ToHaveCountAsync(5);
        await page.Locator("#undo").ClickAsync();
        await Expect(page.GetByTestId("axial")).ToHaveTextAsync(axial);
    }

    // Fingers as the browser's own input, so that scrolling and pinching may come in between as on a real screen.
    private static async Task TouchAsync(ICDPSession hand, string type, params (float X, float Y)[] fingers) =>
        await hand.SendAsync("Input.dispatchTouchEvent", new() { ["type"] = type, ["touchPoints"] = fingers.Select((f, i) => new { x = f.X, y = f.Y, id = i }).ToArray() });

    private static async Task DragByFingerAsync(ICDPSession hand, (float X, float Y) from, (float X, float Y) to)
    {
        await TouchAsync(hand, "touchStart", from);
        for (int i = 1; i <= 10; i++)
        {
            await TouchAsync(hand, "touchMove", (from.X + ((to.X - from.X) * i / 10), from.Y + ((to.Y - from.Y) * i / 10)));
        }

        await TouchAsync(hand, "touchEnd");
    }

    [Fact]
    public async Task Fingers_dragSliderAndPart_andPinchWithoutMovingEither()
    {
        IPage page = await workbench.OpenFrameAsync(width: 390, height: 800, touch: true);
        ICDPSession hand = await page.Context.NewCDPSessionAsync(page);
        ILocator slider = page.Locator("[data-handle='standoff']");
        await slider.ScrollIntoViewIfNeededAsync();
        (float x, float y, float width, float height) = await BoxAsync(slider);
        double standoff = await NumberAsync(page, "standoff");
        float share = (float)await slider.EvaluateAsync<double>("e => (e.valueAsNumber - e.min) / (e.max - e.min)"), at = x + 8 + ((width - 16) * share);
        await DragByFingerAsync(hand, (at, y + (height / 2)), (at + 40, y + (height / 2)));
        await Expect(page.Locator("#undo")).ToContainTextAsync("rod to bone");
        double farther = await NumberAsync(page, "standoff");
        Assert.True(farther > standoff + 10, $"{standoff} to {farther} mm");

        // A pin of the drawing from the front, by its outer end along the bone: found where a tap selects a part.
        await page.Locator("[data-camera-to='front']").ClickAsync();
        ILocator drawing = page.Locator("[data-viewer]");
        await drawing.ScrollIntoViewIfNeededAsync();
        (float left, float top, float wide, float tall) = await BoxAsync(drawing);
        string undo = (await page.Locator("#undo").TextContentAsync())!;
        bool moved = false;
        for (float up = 0.2f; up < 0.8f && !moved; up += 0.03f)
        {
            for (float across = 0.25f; across < 0.8f && !moved; across += 0.09f)
            {
                (float X, float Y) press = (left + (wide * across), top + (tall * up));
                await TouchAsync(hand, "touchStart", press);
                await TouchAsync(hand, "touchEnd");
                if (await page.Locator("[data-live-frame][data-selected]").CountAsync() > 0)
                {
                    await DragByFingerAsync(hand, press, (press.X, press.Y + 30));
                    await page.WaitForTimeoutAsync(300);
                    moved = await page.Locator("#undo").TextContentAsync() != undo;
                }
            }
        }

        Assert.True(moved);

        // Two fingers enlarge the picture and move no part.
        string after = (await page.Locator("#undo").TextContentAsync())!;
        (float X, float Y) middle = (left + (wide / 2), top + (tall / 2));
        await TouchAsync(hand, "touchStart", (middle.X - 30, middle.Y), (middle.X + 30, middle.Y));
        for (int i = 1; i <= 6; i++)
        {
            await TouchAsync(hand, "touchMove", (middle.X - 30 - (8 * i), middle.Y), (middle.X + 30 + (8 * i), middle.Y));
        }

        await TouchAsync(hand, "touchEnd");
        await Expect(page.Locator("#undo")).ToHaveTextAsync(after);
        Assert.Equal(1, await page.EvaluateAsync<double>("() => visualViewport.scale"));
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("[?&]view="));
        Assert.True(await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"));
    }
}
