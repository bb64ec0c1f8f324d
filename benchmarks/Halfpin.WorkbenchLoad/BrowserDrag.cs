using Microsoft.Playwright;

namespace Halfpin.WorkbenchLoad;

/// <summary>One person drags the rod in headless Chromium; the page itself measures from the value sent to the numbers shown.</summary>
internal static class BrowserDrag
{
    private const int Moves = 240, PauseMs = 16, WarmUp = 40;

    public static async Task<string> RunAsync(Uri address)
    {
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = "/usr/bin/chromium",
            Args = ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
        IPage page = await browser.NewPageAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 } });
        await page.GotoAsync(address.ToString());
        await page.Locator("[data-example='01-oblique-fracture']").ClickAsync();
        await page.Locator("[data-shown]").WaitForAsync();
        double paint = await page.EvaluateAsync<double>("() => performance.getEntriesByName('first-contentful-paint')[0].startTime");
        ILocator slider = page.Locator("[data-handle='standoff']");
        LocatorBoundingBoxResult box = (await slider.BoundingBoxAsync())!;
        await page.EvaluateAsync("() => { window.frames60 = 0; const count = () => { window.frames60++; requestAnimationFrame(count); }; count(); }");
        await page.Mouse.MoveAsync(box.X + (box.Width * 0.3f), box.Y + (box.Height / 2));
        await page.Mouse.DownAsync();
        for (int i = 0; i < Moves; i++)
        {
            await page.Mouse.MoveAsync(box.X + (box.Width * (0.3f + (0.25f * MathF.Sin(i * 0.09f)))), box.Y + (box.Height / 2));
            await Task.Delay(PauseMs);
        }

        await page.Mouse.UpAsync();
        double[] all = await page.EvaluateAsync<double[]>("() => performance.getEntriesByName('halfpin-live').map(e => e.duration)");
        double[] span = await page.EvaluateAsync<double[]>("() => { const e = performance.getEntriesByName('halfpin-live'); return [e[0].startTime, e[e.length - 1].startTime + e[e.length - 1].duration]; }");
        int frames = await page.EvaluateAsync<int>("() => window.frames60");
        return $"{Latencies.Words("browser, one person dragging", [.. all.Skip(WarmUp)])}\nbrowser: first paint of the frame's page {paint:0} ms; {frames / ((span[1] - span[0]) / 1000):0} frames a second while dragging (software graphics)";
    }
}
