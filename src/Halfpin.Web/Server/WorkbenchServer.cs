using Halfpin.Domain.Cases;
using Halfpin.Storage.Work;
using Halfpin.Web.Api;
using Halfpin.Web.Api.Requests;
using Halfpin.Web.Components;
using Halfpin.Web.Live;
using Halfpin.Web.Security;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Runs;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Halfpin.Web.Server;

/// <summary>The workbench as a server on this machine: pages, live values and the HTTP API.</summary>
public sealed class WorkbenchServer : IAsyncDisposable
{
    // Far more than one person's browser and programs hold open at once.
    private const int MostConnections = 400;

    private readonly WebApplication _app;

    private WorkbenchServer(WebApplication app, AccessKey token) => (_app, Token) = (app, token);

    /// <summary>The key of this run.</summary>
    public AccessKey Token { get; }

    /// <summary>The address with the key, to open in a browser.</summary>
    public Uri Address => new($"{_app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()}/?{AccessKey.QueryName}={Token.Value}");

    /// <summary>Starts serving.</summary>
    /// <exception cref="IOException">The port is taken, or the folder of saved work cannot be used.</exception>
    public static async Task<WorkbenchServer> StartAsync(WorkbenchOptions options, CancellationToken stop)
    {
        AccessKey token = new();
        WebApplication app = Build(options, token);
        await app.StartAsync(stop).ConfigureAwait(false);
        Warm(app.Services);
        return new(app, token);
    }

    /// <summary>Waits until the server is asked to stop.</summary>
    public Task WaitAsync(CancellationToken stop) => _app.WaitForShutdownAsync(stop);

    /// <inheritdoc />
    public ValueTask DisposeAsync() => _app.DisposeAsync();

    // The first page asks for what the first assessment needs; while the browser starts there is time to get it ready.
    private static void Warm(IServiceProvider services) => _ = Task.Run(() =>
    {
        foreach ((_, Case example) in services.GetRequiredService<ExampleList>().All.Take(1))
        {
            services.GetRequiredService<FrameAnswers>().ScalesOf(example);
        }
    });

    private static WebApplication Build(WorkbenchOptions options, AccessKey token)
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions
        {
            ApplicationName = System.Reflection.Assembly.GetEntryAssembly()?.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
            EnvironmentName = "Production",
        });
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.UseKestrel(kestrel =>
        {
            kestrel.Listen(System.Net.IPAddress.Loopback, options.Port, listen => listen.Protocols = HttpProtocols.Http1);
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxConcurrentConnections = MostConnections;
            kestrel.Limits.MaxConcurrentUpgradedConnections = MostConnections / 2;
            kestrel.Limits.MaxRequestBodySize = RequestFiles.MaxFormBytes;
            kestrel.Limits.MinRequestBodyDataRate = new(bytesPerSecond: 240, gracePeriod: TimeSpan.FromSeconds(5));
            kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(10);
        });
        builder.Logging.ClearProviders().AddSimpleConsole().AddFilter((_, level) => level >= LogLevel.Error);
        builder.Services.AddRazorComponents().AddInteractiveServerComponents(circuit => circuit.DetailedErrors = false);
        builder.Services.AddProblemDetails();
        builder.Services.AddSingleton(options).AddSingleton(options.Program).AddSingleton(token).AddSingleton(TimeProvider.System)
            .AddSingleton(new WorkStore(options.Folder)).AddSingleton<WorkspaceList>().AddSingleton<FrameAnswers>().AddSingleton<WorkRuns>().AddSingleton<ExampleList>();
        HttpApi.Add(builder.Services);
        WebApplication app = builder.Build();
        app.UseExceptionHandler();
        app.UseStatusCodePages();
        app.UseMiddleware<LocalGuard>();
        app.UseWebSockets();
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.Map("/live/{id}/{frame}", (HttpContext context, string id, string frame, WorkspaceList works, FrameAnswers answers) =>
            LiveChannel.ServeAsync(context, id, frame, works, answers, options.Program));
        WorkFiles.Map(app);
        StockFiles.Map(app);
        PlanningFiles.Map(app);
        CourseFiles.Map(app);
        HttpApi.Map(app);
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        return app;
    }
}
