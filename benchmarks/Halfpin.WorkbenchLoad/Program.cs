using System.Diagnostics;
using System.Globalization;
using Halfpin.WorkbenchLoad;

// How quick the workbench is: one person dragging in a browser, then many dragging at once over sockets.
// dotnet run --project benchmarks/Halfpin.WorkbenchLoad -c Release [-- CLIENTS SECONDS]
int clients = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 30, seconds = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 10;
DirectoryInfo folder = Directory.CreateTempSubdirectory("halfpin-load-");
string program = Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "..", "..", "Halfpin.Cli", "release", "halfpin.dll"));
using Process server = Process.Start(new ProcessStartInfo("dotnet", [program, "serve", "--port", "0", "--no-browser", "--folder", folder.FullName]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
try
{
    Uri address = new((await server.StandardOutput.ReadLineAsync())!);
    Console.WriteLine(await BrowserDrag.RunAsync(address));
    Console.WriteLine(await SocketLoad.RunAsync(address, clients, TimeSpan.FromSeconds(seconds)));
    server.Refresh();
    Console.WriteLine($"server: {server.TotalProcessorTime.TotalSeconds:0.0} s of processor time, at most {server.PeakWorkingSet64 / 1048576} MB");
}
finally
{
    server.Kill(entireProcessTree: true);
    await server.WaitForExitAsync();
    folder.Delete(recursive: true);
}
