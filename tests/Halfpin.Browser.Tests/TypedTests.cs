using Microsoft.Playwright;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Halfpin.Browser.Tests;

/// <summary>What was typed into a form and not yet left is offered again after the page was lost.</summary>
public class TypedTests(Workbench workbench)
{
    private static ILocator Offer(IPage page) => page.Locator(".typed-before");

    private async Task<IPage> CaseAsync()
    {
        IPage page = await workbench.OpenAsync($"{await workbench.PostAsync()}/case");
        await Workbench.ReadyAsync(page);
        return page;
    }

    private static async Task TypeAndLoseAsync(IPage page)
    {
        await page.Locator("#f-limb-lengthMm").ClickAsync();
        await page.Keyboard.PressAsync("Control+a");
        await page.Keyboard.TypeAsync("361,5");
        await page.ReloadAsync();
        await Workbench.ReadyAsync(page);
    }

    [Fact]
    public async Task Number_typedAndLostWithThePage_isOfferedAndTaken()
    {
        IPage page = await CaseAsync();
        await TypeAndLoseAsync(page);
        await Expect(Offer(page)).ToContainTextAsync("Bone length “361,5”");
        await Expect(page.Locator("#undo")).ToBeDisabledAsync();
        await Offer(page).GetByText("Take it").ClickAsync();
        await Expect(page.Locator("#undo")).ToContainTextAsync("bone length 361.5 mm");
        await Expect(Offer(page)).ToHaveCountAsync(0);
        await page.ReloadAsync();
        await Workbench.ReadyAsync(page);
        await Expect(page.Locator("#f-limb-lengthMm")).ToHaveValueAsync("361.5");
        await Expect(Offer(page)).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Number_forgotten_isNotOfferedAgain()
    {
        IPage page = await CaseAsync();
        await TypeAndLoseAsync(page);
        await Offer(page).GetByText("Forget it").ClickAsync();
        await page.ReloadAsync();
        await Workbench.ReadyAsync(page);
        await Expect(page.Locator("#f-limb-lengthMm")).ToHaveValueAsync("352");
        await Expect(Offer(page)).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Number_leftAsUsual_isSavedAndNothingIsOffered()
    {
        IPage page = await CaseAsync();
        await page.Locator("#f-limb-lengthMm").FillAsync("358");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.Locator("#undo")).ToContainTextAsync("358 mm");
        await page.ReloadAsync();
        await Workbench.ReadyAsync(page);
        await Expect(page.Locator("#f-limb-lengthMm")).ToHaveValueAsync("358");
        await Expect(Offer(page)).ToHaveCountAsync(0);
    }
}
