using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Halfpin.Browser.Tests;

public class FrameJourneyTests(Workbench workbench)
{
    private static async Task<double> NumberAsync(IPage page, string id) =>
        double.Parse((await page.GetByTestId(id).TextContentAsync())!, CultureInfo.InvariantCulture);

    // Moves a slider with the pointer, as a hand does, by steps.
    private static async Task DragAsync(IPage page, string handle, double toShare)
    {
        ILocator slider = page.Locator($"[data-handle='{handle}']");
        await slider.ScrollIntoViewIfNeededAsync();
        LocatorBoundingBoxResult box = (await slider.BoundingBoxAsync())!;
        double min = await slider.EvaluateAsync<double>("e => +e.min"), max = await slider.EvaluateAsync<double>("e => +e.max"), now = await slider.EvaluateAsync<double>("e => e.valueAsNumber");
        const double Thumb = 8;
        float At(double share) => (float)(box.X + Thumb + ((box.Width - (2 * Thumb)) * share));
        float y = box.Y + (box.Height / 2), from = At((now - min) / (max - min)), to = At(toShare);
        await page.Mouse.MoveAsync(from, y);
        await page.Mouse.DownAsync();
        for (int i = 1; i <= 12; i++)
        {
            await page.Mouse.MoveAsync(from + ((to - from) * i / 12), y);
        }
    }

    [Fact]
    public async Task Rod_draggedNearer_raisesAxialStiffnessToTheProgramsValue()
    {
        IPage page = await workbench.OpenAsync();
        await page.Locator("[data-example='01-oblique-fracture']").ClickAsync();
        await Expect(page).ToHaveURLAsync(new Regex("/works/[^/]+/frame$"));
        await page.GotoAsync($"{page.Url}/near-far");
        await Workbench.LiveAsync(page);
        double before = await NumberAsync(page, "axial");
        await DragAsync(page, "standoff", 0.1);
        await Expect(page.GetByTestId("axial")).Not.ToHaveTextAsync(before.ToString(CultureInfo.InvariantCulture));
        await page.Mouse.UpAsync();
        await Expect(page.Locator("#undo")).ToContainTextAsync("rod to bone");
        double standoff = double.Parse(await page.Locator("[data-number='standoff']").InputValueAsync(), CultureInfo.InvariantCulture), after = await NumberAsync(page, "axial");
        Assert.True(standoff < 40 && after > before);

        IDownload download = await page.RunAndWaitForDownloadAsync(() => page.GetByText("Save case file").ClickAsync());
        using JsonDocument assessed = JsonDocument.Parse(await Workbench.RunAsync("assess", await download.PathAsync(), "--frame", "near-far", "--json"));
        double theirs = assessed.RootElement.GetProperty("frames")[0].GetProperty("stiffness").GetProperty("atFracture").GetProperty("axialNPerMm").GetDouble();
        Assert.Equal(Math.Round(theirs), after);
    }

    [Fact]
    public async Task Escape_whileDragging_takesTheValueBack()
    {
        IPage page = await workbench.OpenFrameAsync();
        string before = (await page.GetByTestId("axial").TextContentAsync())!;
        await DragAsync(page, "standoff", 0.1);
        await Expect(page.GetByTestId("axial")).Not.ToHaveTextAsync(before);
        await page.Keyboard.PressAsync("Escape");
        await Expect(page.GetByTestId("axial")).ToHaveTextAsync(before);
    }

    [Fact]
    public async Task Cure_applied_mendsItsCheck()
    {
        IPage page = await workbench.OpenFrameAsync("near-far-close");
        ILocator cure = page.Locator("[data-cure]").First;
        await cure.WaitForAsync();
        string check = (await cure.GetAttributeAsync("data-cure"))!;
        string verdict = (await page.Locator($"[data-check='{check}']").GetAttributeAsync("data-verdict"))!;
        await cure.ClickAsync();
        await Expect(page.Locator($"[data-check='{check}'][data-verdict='{verdict}']")).ToHaveCountAsync(0);
        await Expect(page.Locator("#undo")).ToBeEnabledAsync();
    }

    [Fact]
    public async Task Changes_undoneOneByOne_leadBackToTheExample()
    {
        IPage page = await workbench.OpenFrameAsync();
        string before = (await page.GetByTestId("axial").TextContentAsync())!;
        await page.Locator("[data-number='far']").FillAsync("107,5");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#undo")).ToContainTextAsync("far pins 107.5 mm");
        await page.GetByRole(AriaRole.Button, new() { Name = "Two rods" }).ClickAsync();
        await Expect(page.Locator("#undo")).ToContainTextAsync("two rods");
        await page.Locator("body").PressAsync("Control+z");
        await Expect(page.Locator("#undo")).ToContainTextAsync("far pins");
        await page.Locator("body").PressAsync("Control+z");
        await Expect(page.Locator("#undo")).ToBeDisabledAsync();
        await Expect(page.GetByTestId("axial")).ToHaveTextAsync(before);
        await Expect(page.Locator("#redo")).ToContainTextAsync("far pins 107.5 mm");
    }

    [Fact]
    public async Task Reload_findsChangesAndHistory()
    {
        IPage page = await workbench.OpenFrameAsync();
        await page.Locator("[data-number='standoff']").FillAsync("38");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#undo")).ToContainTextAsync("rod to bone 38 mm");
        string axial = (await page.GetByTestId("axial").TextContentAsync())!;
        await page.ReloadAsync();
        await Workbench.LiveAsync(page);
        await Expect(page.Locator("[data-number='standoff']")).ToHaveValueAsync("38");
        await Expect(page.GetByTestId("axial")).ToHaveTextAsync(axial);
        await Expect(page.Locator("#undo")).ToContainTextAsync("rod to bone 38 mm");
    }

    [Fact]
    public async Task Number_thatIsNone_isToldAndChangesNothing()
    {
        IPage page = await workbench.OpenFrameAsync();
        await page.Locator("[data-number='standoff']").FillAsync("near");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".wrong")).ToContainTextAsync("10 to 150 mm");
        await Expect(page.Locator("#undo")).ToBeDisabledAsync();
    }

    [Fact]
    public async Task Variant_kept_standsOnTheShelfUnderItsName()
    {
        IPage page = await workbench.OpenFrameAsync();
        string work = new Uri(page.Url).AbsolutePath.Split("/frame")[0];
        await page.Locator("[data-keep]").ClickAsync();
        await Expect(page).ToHaveURLAsync(new Regex($"{work}/frame/near-far-2"));
        ILocator name = page.GetByLabel("Name", new() { Exact = true });
        await Expect(name).ToHaveValueAsync(new Regex(" 2$")); // The field is that of the new frame now.
        await name.FillAsync("Mine");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.Locator(".kept[aria-current] h3")).ToHaveTextAsync("Mine");
    }

    [Fact]
    public async Task Keyboard_alone_movesTheRodAndUndoes()
    {
        IPage page = await workbench.OpenFrameAsync();
        double before = await NumberAsync(page, "axial");
        await page.Locator("[data-handle='standoff']").FocusAsync();
        for (int i = 0; i < 6; i++)
        {
            await page.Keyboard.PressAsync("ArrowLeft");
        }

        await Expect(page.Locator("#undo")).ToContainTextAsync("46 mm");
        Assert.True(await NumberAsync(page, "axial") > before);
        await page.Keyboard.PressAsync("Control+z");
        await Expect(page.Locator("#undo")).ToContainTextAsync("47 mm");
    }

    [Fact]
    public async Task Drawing_byKeyboard_selectsPartsAndMovesThem()
    {
        IPage page = await workbench.OpenFrameAsync();
        ILocator drawing = page.Locator("[data-viewer]");
        Assert.True(await drawing.Locator("canvas").CountAsync() > 0);
        await drawing.Locator("[tabindex='0']").Or(drawing.And(page.Locator("[tabindex='0']"))).First.FocusAsync();
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.Locator("[data-live-frame][data-selected]")).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("ArrowUp");
        await Expect(page.Locator("#undo")).ToBeEnabledAsync();
    }

    [Fact]
    public async Task Phone_frame_fitsItsWidthWithTheAnswerFirst()
    {
        IPage page = await workbench.OpenFrameAsync(width: 390, height: 800);
        Assert.True(await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"));
        LocatorBoundingBoxResult answer = (await page.Locator(".headline").BoundingBoxAsync())!, stage = (await page.Locator(".stage").BoundingBoxAsync())!;
        Assert.True(answer.Y < stage.Y);
    }

    [Fact]
    public async Task Work_thatIsNot_saysSo()
    {
        IPage page = await workbench.OpenAsync();
        IResponse? response = await page.GotoAsync(new Uri(workbench.Address, "/works/nothing/frame").ToString());
        Assert.Equal(404, response!.Status);
        await Expect(page.Locator("h1")).ToHaveTextAsync("There is nothing here");
    }
}
