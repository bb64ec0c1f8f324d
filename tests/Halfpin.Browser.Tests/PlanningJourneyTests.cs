using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Halfpin.Browser.Tests;

public partial class PlanningJourneyTests(Workbench workbench)
{
    // A few frames and a part of the usual choices, for which even a slow machine needs but seconds.
    private static void Fewer(JsonObject value)
    {
        value["search"] = JsonNode.Parse(
            """
            { "nearMm": [25, 35], "farMm": [70, 95], "azimuthDeg": [55, 65], "standoffMm": [49, 52], "pinDiameterMm": [5, 6],
              "rodSpacingMm": [30], "planeAngleDeg": [55], "rods": [{ "diameterMm": 11, "material": "carbon" }] }
            """);
        value["frames"] = new JsonArray([.. value["frames"]!.AsArray().Where(f => f!["id"]!.GetValue<string>() is "near-far" or "near-far-close").Select(f => f!.DeepClone())]);
    }

    [GeneratedRegex("^(Getting ready|[0-9,]+ of [0-9,]+ candidates|All [0-9,]+ candidates done)")]
    private static partial Regex Progress { get; }

    // However short a run is, what it says on its way is kept.
    private const string KeepProgress =
        """
        () => {
          window.told = [];
          new MutationObserver(() => { const at = document.querySelector('[data-testid=suggest-run-progress]'); if (at) window.told.push(at.textContent); })
            .observe(document.body, { subtree: true, childList: true, characterData: true });
        }
        """;

    [GeneratedRegex("^Stopped after [0-9,]+ of [0-9,]+ candidates; no result")]
    private static partial Regex StoppedAfter { get; }

    [GeneratedRegex("/frame/(?<id>[^/?]+)")]
    private static partial Regex FrameInUrl { get; }

    [Fact]
    public async Task Search_pickedFromThePlot_addsAFrameThatUndoTakesBack()
    {
        string work = await workbench.PostAsync(Fewer);
        IPage page = await workbench.OpenAsync($"{work}/suggest");
        await Workbench.ReadyAsync(page);
        await page.EvaluateAsync(KeepProgress);
        await page.Locator("#suggest-start").ClickAsync();
        await Expect(page.GetByTestId("suggest-run")).ToHaveAttributeAsync("data-state", "done", new() { Timeout = 60_000 });
        Assert.Contains(await page.EvaluateAsync<string[]>("() => window.told"), t => Progress.IsMatch(t));
        await Expect(page.GetByTestId("suggest-headline")).ToHaveAttributeAsync("data-verdict", "pass");

        // The points of the plot are buttons, and the table tells the same frames.
        await Expect(page.Locator("[data-choice]")).ToHaveCountAsync(await page.Locator("[data-choice-row]").CountAsync());
        await page.Locator("[data-choice='2']").ClickAsync();
        await Expect(page.Locator("[data-choice-row='2']")).ToHaveAttributeAsync("aria-selected", "true");
        string axial = await CellAsync(page, "2", "Axial");
        await page.GetByTestId("picked").GetByRole(AriaRole.Button, new() { Name = "Add to the case" }).ClickAsync();
        await Expect(page.GetByTestId("suggest-note")).ToContainTextAsync("to the case");
        await page.GetByTestId("suggest-note").GetByRole(AriaRole.Link).ClickAsync();
        await Expect(page).ToHaveURLAsync(FrameInUrl);
        await Expect(page.GetByTestId("axial")).ToHaveTextAsync(axial);
        string id = FrameInUrl.Match(page.Url).Groups["id"].Value;
        await Expect(page.Locator($".shelf a[href='{work}/frame/{id}']")).ToHaveCountAsync(1);

        await page.Locator("#undo").ClickAsync();
        await Expect(page.Locator("#undo")).ToBeDisabledAsync();
        await Expect(page.Locator($".shelf a[href='{work}/frame/{id}']")).ToHaveCountAsync(0);
    }

    // Frames for two fractures come by their parts: said by their levels, and taken like the others.
    [Fact]
    public async Task Search_ofASegmentalFracture_givesAFrameByPartsToTake()
    {
        string work = await workbench.PostAsync(SegmentalFewer);
        IPage page = await workbench.OpenAsync($"{work}/suggest");
        await Workbench.ReadyAsync(page);
        await page.Locator("#suggest-start").ClickAsync();
        await Expect(page.GetByTestId("suggest-run")).ToHaveAttributeAsync("data-state", "done", new() { Timeout = 60_000 });
        await Expect(page.GetByTestId("suggest-headline")).ToContainTextAsync(" at levels ");
        await Expect(page.Locator("li[data-frame='four-pins'] .change")).ToContainTextAsync("add 2 pins in the fragment between the fractures");
        await page.Locator("#take-simplest").ClickAsync();
        await Expect(page).ToHaveURLAsync(FrameInUrl);
        await Expect(page.GetByTestId("axial")).Not.ToBeEmptyAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("Suggested");
    }

    // The list once named no output at first, since those of several fractures have other names.
    [Fact]
    public async Task Influence_withTwoFractures_tellsTheOutputThatTheListNames()
    {
        IPage page = await workbench.OpenAsync($"{await workbench.PostAsync(SegmentalFewer)}/vary");
        await Workbench.ReadyAsync(page);
        await page.Locator("#sure-frame").SelectOptionAsync("one-rod");
        await page.Locator("#sure-samples").FillAsync("512");
        await page.Locator("#sure-start").ClickAsync();
        ILocator output = page.Locator("#sure-output");
        await Expect(output).ToHaveValueAsync("axialNPerMm@1");
        string first = (await page.GetByTestId("sure-influence").TextContentAsync())!;
        await output.SelectOptionAsync("torsionNmPerDeg@2");
        await Expect(page.GetByTestId("sure-influence")).Not.ToHaveTextAsync(first);
        await Expect(output).ToHaveValueAsync("torsionNmPerDeg@2");
    }

    private static void SegmentalFewer(JsonObject value)
    {
        JsonObject segmental = JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "examples", "04-segmental-fracture.json")))!.AsObject();
        segmental["search"] = JsonNode.Parse("""{ "nearMm": [30, 40], "farMm": [75, 95], "azimuthDeg": [45, 55], "standoffMm": [49, 55], "middleEdgeMm": [20, 24] }""");
        value.Clear();
        foreach ((string name, JsonNode? member) in segmental)
        {
            value[name] = member?.DeepClone();
        }
    }

    // What a column of the table says of a numbered frame.
    private static async Task<string> CellAsync(IPage page, string number, string column)
    {
        IReadOnlyList<string> heads = await page.GetByTestId("choices").Locator("thead th").AllTextContentsAsync();
        int at = heads.Select((h, i) => (h, i)).First(h => h.h.StartsWith(column, StringComparison.Ordinal)).i;
        return (await page.Locator($"[data-choice-row='{number}'] > *").Nth(at).TextContentAsync())!.Trim();
    }

    [Fact]
    public async Task Search_cancelled_stopsWithoutAResultAndCanBeginAgain()
    {
        IPage page = await workbench.OpenAsync($"{await workbench.PostAsync()}/suggest");
        await Workbench.ReadyAsync(page);
        await page.Locator("#suggest-start").ClickAsync();
        await Expect(page.GetByTestId("suggest-run-progress")).ToHaveTextAsync(Progress);
        await Expect(page.Locator("#suggest-start")).ToBeDisabledAsync();
        await page.GetByTestId("suggest-run-cancel").ClickAsync();
        await Expect(page.GetByTestId("suggest-run")).ToHaveAttributeAsync("data-state", "stopped");
        await Expect(page.GetByTestId("suggest-run").GetByRole(AriaRole.Status)).ToHaveTextAsync(StoppedAfter);
        await Expect(page.GetByTestId("suggest-result")).ToHaveCountAsync(0);
        await Expect(page.Locator("#suggest-start")).ToBeEnabledAsync();
        await Expect(page.Locator("#undo")).ToBeDisabledAsync();
    }

    [Fact]
    public async Task Shelf_comparedNamedAndRemoved_isFoundAgainAfterReload()
    {
        string work = await workbench.PostAsync();
        IPage page = await workbench.OpenAsync($"{work}/frame/near-far");
        await Workbench.LiveAsync(page);

        // A variant under a name of its own, its rod nearer the bone.
        await page.Locator("[data-keep]").ClickAsync();
        await Expect(page).ToHaveURLAsync(new Regex($"{work}/frame/near-far-2"));
        ILocator name = page.GetByLabel("Name", new() { Exact = true });
        await Expect(name).ToHaveValueAsync(new Regex(" 2$")); // The field is that of the new frame now.
        await name.FillAsync("Nearer rod");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.Locator(".kept[aria-current] h3")).ToHaveTextAsync("Nearer rod");
        await page.Locator("[data-number='standoff']").FillAsync("44");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#undo")).ToContainTextAsync("rod to bone 44 mm");

        // Beside its model: what differs is marked, what does not is not.
        await page.GotoAsync(new Uri(workbench.Address, $"{work}/compare?frames=near-far,near-far-2").ToString());
        await Workbench.ReadyAsync(page);
        ILocator standoff = page.Locator("[data-row='standoff'] td");
        await Expect(standoff).ToHaveCountAsync(2);
        await Expect(standoff.Nth(1)).ToHaveAttributeAsync("data-differs", "1");
        await Expect(standoff.Nth(1)).ToContainTextAsync("44");
        await Expect(page.Locator("[data-row='far'] td[data-differs]")).ToHaveCountAsync(0);
        await Expect(page.Locator("[data-row='axialNPerMm'] td").Nth(1)).ToContainTextAsync("×");
        double first = await NumberAsync(page, 0), second = await NumberAsync(page, 1);
        Assert.True(second > first, $"{second} against {first} N/mm");
        Assert.Equal("?frames=near-far,near-far-2", new Uri(page.Url).Query);

        await page.ReloadAsync();
        await Workbench.ReadyAsync(page);
        await Expect(page.GetByTestId("compare-table").Locator("thead a").Nth(1)).ToHaveTextAsync("Nearer rod");
        Assert.Equal((first, second), (await NumberAsync(page, 0), await NumberAsync(page, 1)));

        await page.GotoAsync(new Uri(workbench.Address, $"{work}/frame/near-far-2").ToString());
        await Workbench.LiveAsync(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Remove this frame" }).ClickAsync();
        await Expect(page.Locator($".shelf a[href='{work}/frame/near-far-2']")).ToHaveCountAsync(0);
        await Expect(page.Locator("#undo")).ToContainTextAsync("remove Nearer rod");
        await page.Locator("#undo").ClickAsync();
        await Expect(page.Locator($".shelf a[href='{work}/frame/near-far-2']")).ToHaveTextAsync("Nearer rod");
    }

    // Axial stiffness of a column of the comparison.
    private static async Task<double> NumberAsync(IPage page, int column) =>
        double.Parse((await page.Locator("[data-row='axialNPerMm'] td").Nth(column).Locator("b").TextContentAsync())!, CultureInfo.InvariantCulture);
}
