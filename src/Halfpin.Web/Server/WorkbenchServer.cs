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
        // The first page needs the examples and what the first assessment needs: they are got ready beside the server, not after it.
        ExampleList examples = new(options);
        FrameAnswers answers = new(options.Program);
        _ = Task.Run(() => examples.All.Take(1).Select(e => answers.ScalesOf(e.Case)).ToArray(), stop);
        AccessKey token = new();
        WebApplication app = Build(options, token, examples, answers);
        await app.StartAsync(stop).ConfigureAwait(false);
        WorkbenchServer server = new(app, token);
        _ = Task.Run(() => server.VisitAsync(stop), stop);
        return server;
    }

    /// <summary>Waits until the server is asked to stop.</summary>
    public Task WaitAsync(CancellationToken stop) => _app.WaitForShutdownAsync(stop);

    /// <inheritdoc />
    public ValueTask DisposeAsync() => _app.DisposeAsync();

    // A page is slow once, when its program is first run: a visit of our own, to the start page and to the work that was changed last, gets that over
    // while the browser starts.
    private async Task VisitAsync(CancellationToken stop)
    {
        string[] last = [.. _app.Services.GetRequiredService<WorkspaceList>().Saved().Take(1).Select(w => $"/works/{w.Id}/frame")];
        using HttpClient visitor = new();
        visitor.DefaultRequestHeaders.Add(AccessKey.HeaderName, Token.Value);
        try
        {
            foreach (string page in last.Prepend("/"))
            {
                using HttpResponseMessage answer = await visitor.GetAsync(new Uri(Address, page), stop).ConfigureAwait(false);
            }
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException)
        {
            // The server was stopped before its first visitor came.
        }
    }

    private static WebApplication Build(WorkbenchOptions options, AccessKey token, ExampleList examples, FrameAnswers answers)
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
            .AddSingleton(new WorkStore(options.Folder)).AddSingleton<WorkspaceList>().AddSingleton(answers).AddSingleton<WorkRuns>().AddSingleton(examples);
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
