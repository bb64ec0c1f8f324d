using System.CommandLine;
using System.Diagnostics;
using Halfpin.Web.Server;

namespace Halfpin.Cli.Verbs;

/// <summary>Opens the workbench in the browser.</summary>
internal sealed class ServeVerb : Verb
{
    private const int UsualPort = 5771;
    private const int MostPort = 65535;

    public ServeVerb(Terminal terminal)
        : base("serve", "Open the workbench in the browser. It runs on this machine alone and keeps what you do in a folder.", "halfpin serve", "halfpin serve --port 0 --no-browser")
    {
        Option<int> port = new("--port") { Description = $"Port on this machine; 0 for any free one. Without it {UsualPort}, or a free one when that is taken.", DefaultValueFactory = _ => -1 };
        Option<bool> noBrowser = new("--no-browser") { Description = "Only print the address." };
        Option<string?> folder = new("--folder") { Description = "Where work is kept. Without it a folder of yours for application data." };
        Options.Add(port);
        Options.Add(noBrowser);
        Options.Add(folder);
        SetAction(async (run, stop) =>
        {
            int wanted = run.GetValue(port);
            if (wanted is < -1 or > MostPort)
            {
                terminal.Error.WriteLine($"--port must be 0 to {MostPort}.");
                return ExitCodes.Usage;
            }

            await using WorkbenchServer server = await StartAsync(wanted, run.GetValue(folder) ?? UsualFolder(), stop).ConfigureAwait(false);
            terminal.Out.WriteLine(server.Address);
            await terminal.Out.FlushAsync(stop).ConfigureAwait(false);
            terminal.Error.WriteLine("The workbench runs at this address, for this machine alone. Ctrl-C ends it; what you did is kept.");
            if (!run.GetValue(noBrowser))
            {
                Open(server.Address, terminal);
            }

            await server.WaitAsync(stop).ConfigureAwait(false);
            return ExitCodes.Done;
        });
    }

    private static async Task<WorkbenchServer> StartAsync(int port, string folder, CancellationToken stop)
    {
        WorkbenchOptions options = new(port < 0 ? UsualPort : port, folder, ProgramVersion.Stamp, [.. CaseSource.Examples()]) { Stocks = [.. StockSource.Examples()] };
        try
        {
            return await WorkbenchServer.StartAsync(options, stop).ConfigureAwait(false);
        }
        catch (IOException) when (port < 0)
        {
            return await WorkbenchServer.StartAsync(options with { Port = 0 }, stop).ConfigureAwait(false);
        }
    }

    private static string UsualFolder() =>
        Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create), "halfpin");

    private static void Open(Uri address, Terminal terminal)
    {
        try
        {
            using Process? opened = Process.Start(new ProcessStartInfo(address.ToString()) { UseShellExecute = true });
        }
        catch (Exception e) when (e is System.ComponentModel.Win32Exception or InvalidOperationException)
        {
            terminal.Error.WriteLine("No browser could be opened: open the address yourself.");
        }
    }
}
