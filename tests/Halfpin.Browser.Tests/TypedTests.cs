using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Halfpin.Browser.Tests;

/// <summary>What was typed into a form and not yet left is offered again after the page was lost.</summary>
public class TypedTests(Workbench workbench)
{
    private static ILocator Offer(IPage page) => page.Locator(".typed-before");

    private static async Task<IPage> CaseAsync(IPage page)
    {
        string work = await Workbench.BeginAsync(page, frame: null);
        await page.GotoAsync($"{work}/case");
        await page.Locator("[data-ready]").WaitForAsync();
        return page;
    }

    private static async Task TypeAndLoseAsync(IPage page)
    {
        await page.Locator("#f-limb-lengthMm").ClickAsync();
        await page.Keyboard.PressAsync("Control+a");
        await page.Keyboard.TypeAsync("361,5");
        await page.ReloadAsync();
        await page.Locator("[data-ready]").WaitForAsync();
    }

    [Fact]
    public async Task Number_typedAndLostWithThePage_isOfferedAndTaken()
    {
        IPage page = await CaseAsync(await workbench.OpenAsync());
        await TypeAndLoseAsync(page);
        await Expect(Offer(page)).ToContainTextAsync("Bone length “361,5”");
        await Expect(page.Locator("#undo")).ToBeDisabledAsync();
        await Offer(page).GetByText("Take it").ClickAsync();
        await Expect(page.Locator("#undo")).ToContainTextAsync("bone length 361.5 mm");
        await Expect(Offer(page)).ToHaveCountAsync(0);
        await page.ReloadAsync();
        await page.Locator("[data-ready]").WaitForAsync();
        await Expect(page.Locator("#f-limb-lengthMm")).ToHaveValueAsync("361.5");
        await Expect(Offer(page)).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Number_forgotten_isNotOfferedAgain()
    {
        IPage page = await CaseAsync(await workbench.OpenAsync());
        await TypeAndLoseAsync(page);
        await Offer(page).GetByText("Forget it").ClickAsync();
        await page.ReloadAsync();
        await page.Locator("[data-ready]").WaitForAsync();
        await Expect(page.Locator("#f-limb-lengthMm")).ToHaveValueAsync("352");
        await Expect(Offer(page)).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Number_leftAsUsual_isSavedAndNothingIsOffered()
    {
        IPage page = await CaseAsync(await workbench.OpenAsync());
        await page.Locator("#f-limb-lengthMm").FillAsync("358");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.Locator("#undo")).ToContainTextAsync("358 mm");
        await page.ReloadAsync();
        await page.Locator("[data-ready]").WaitForAsync();
        await Expect(page.Locator("#f-limb-lengthMm")).ToHaveValueAsync("358");
        await Expect(Offer(page)).ToHaveCountAsync(0);
    }
}
