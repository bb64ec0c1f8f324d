using Halfpin.Web.Components;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;

namespace Halfpin.Web.Server;

/// <summary>The workbench as a server on this machine.</summary>
public static class WorkbenchServer
{
    public static WebApplication Build(int port)
    {
        WebApplicationBuilder builder = WebApplication.CreateBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, EnvironmentName = "Production" });
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.UseKestrel(k => k.ListenLocalhost(port));
        builder.Services.AddRazorComponents().AddInteractiveServerComponents();
        WebApplication app = builder.Build();
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        return app;
    }
}
