using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Halfpin.Browser.Tests;

/// <summary>From the shelf to bands of the uncertainty study, and from the gate of dynamisation to what was seen.</summary>
public partial class BandsTests(Workbench workbench)
{
    [Fact]
    public async Task Bands_workedOut_standInTheTableAndGoOldWithTheCase()
    {
        string work = new Uri(workbench.Address, await workbench.PostAsync()).ToString();
        IPage page = await workbench.OpenAsync();
        string compare = $"{work}/compare?frames=near-far,near-far-close";
        await page.GotoAsync(compare);
        await Workbench.ReadyAsync(page);
        ILocator axial = page.Locator("[data-row='axialNPerMm'] td").First;
        await Expect(axial).Not.ToContainTextAsync("median");
        await page.Locator("#bands-samples").SelectOptionAsync("128");
        await page.Locator("#bands-start").ClickAsync();
        await Expect(page.GetByTestId("bands-words")).ToContainTextAsync("128 samples");
        await Expect(axial).ToContainTextAsync(MedianAndBand());
        await Expect(page.GetByTestId("bands-chances").Locator("[data-frame='near-far-close'] td").First).ToContainTextAsync("100 %");
        await Expect(page.GetByTestId("bands-stale")).ToHaveCountAsync(0);
        Assert.Contains("median", await page.Locator("[data-panel='axialNPerMm'] svg").GetAttributeAsync("aria-label"), StringComparison.Ordinal);

        await page.GotoAsync($"{work}/frame/near-far");
        await Workbench.LiveAsync(page);
        await page.Locator("[data-number='standoff']").FillAsync("43");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("#undo")).ToContainTextAsync("43 mm");
        await page.GotoAsync(compare);
        await Expect(page.GetByTestId("bands-stale")).ToContainTextAsync("changed since");
        await Expect(axial).ToContainTextAsync("old: median");
    }

    [Fact]
    public async Task Bands_cancelled_leaveTheTableAsItWas()
    {
        string work = new Uri(workbench.Address, await workbench.PostAsync()).ToString();
        IPage page = await workbench.OpenAsync();
        await page.GotoAsync($"{work}/compare");
        await Workbench.ReadyAsync(page);
        await page.Locator("#bands-samples").SelectOptionAsync("8192");
        await page.Locator("#bands-start").ClickAsync();
        await page.GetByTestId("bands-run-cancel").ClickAsync();
        await Expect(page.GetByTestId("bands-run")).ToHaveAttributeAsync("data-state", "stopped");
        await Expect(page.GetByTestId("bands-result")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Gate_ofDynamisation_leadsToWhatWasSeenAndOpens()
    {
        string work = new Uri(workbench.Address, await workbench.PostAsync()).ToString();
        IPage page = await workbench.OpenAsync();
        await page.GotoAsync($"{work}/course/double-rod");
        await Workbench.ReadyAsync(page);
        await page.Locator("#record-progress").ClickAsync();
        await Expect(page).ToHaveURLAsync(ProgressOfTheCase());
        await Workbench.ReadyAsync(page);
        await Expect(page.Locator("#h-progress")).ToBeInViewportAsync();
        foreach ((string field, string choice) in new[] { ("endsInContact", "yes"), ("boneLoss", "no"), ("callusSeen", "yes"), ("pinSites", "Calm") })
        {
            await page.Locator($"[data-field='/progress/{field}'] input[value='{choice}']").CheckAsync();
            await Expect(page.Locator($"[data-field='/progress/{field}'] input[value='{choice}']")).ToBeCheckedAsync();
        }

        await page.GotoAsync($"{work}/course/double-rod");
        await Expect(page.GetByTestId("gate")).ToContainTextAsync("Nothing that was recorded speaks against a stage");
        await Expect(page.Locator("#record-progress")).ToContainTextAsync("Change what was recorded");
    }

    [GeneratedRegex("median\\s[0-9]+, [0-9]+\\sto\\s[0-9]+")]
    private static partial Regex MedianAndBand();

    [GeneratedRegex("/case#h-progress$")]
    private static partial Regex ProgressOfTheCase();
}
