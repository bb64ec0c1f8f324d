using System.Diagnostics;
using System.Net.Http.Headers;
using System.Reflection;
using System.Text;
using Xunit;

namespace Halfpin.Web.Tests;

/// <summary>The workbench as a user starts it: a process of its own on a free port, with its work in a folder that is gone afterwards.</summary>
public sealed class RunningWorkbench : IAsyncLifetime
{
    /// <summary>The source tree these tests were built from.</summary>
    public static readonly string Root = Path.GetFullPath(Metadata("RepositoryRoot"));

    private readonly string _folder = Directory.CreateTempSubdirectory("halfpin-web-").FullName;
    private readonly StringBuilder _errors = new();
    private Process? _process;

    /// <summary>The server's address, without the key.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>The access key.</summary>
    public string Token { get; private set; } = "";

    /// <summary>The address that a user opens.</summary>
    public Uri Opening => new(Address, $"/?key={Token}");

    /// <summary>A client that gives the key and follows no redirects.</summary>
    public HttpClient Client { get; private set; } = null!;

    /// <summary>What the server has said on standard error.</summary>
    public string Errors
    {
        get
        {
            lock (_errors)
            {
                return _errors.ToString();
            }
        }
    }

    /// <summary>Bytes of an example file.</summary>
    public static byte[] Example(string name) => File.ReadAllBytes(Path.Combine(Root, "examples", name));

    /// <summary>A case or other JSON as a body.</summary>
    public static ByteArrayContent Json(byte[] bytes) => new(bytes) { Headers = { ContentType = new("application/json") } };

    /// <summary>Runs a verb of the command line and gives its standard output.</summary>
    public static string CommandLine(params string[] args)
    {
        using Process process = Process.Start(Start([.. args]))!;
        _ = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return output;
    }

    /// <summary>A client without the key.</summary>
    public HttpClient Stranger() => new(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = Address };

    public async ValueTask InitializeAsync()
    {
        _process = Process.Start(Start(["serve", "--port", "0", "--no-browser", "--folder", _folder]))!;
        _process.ErrorDataReceived += (_, line) =>
        {
            lock (_errors)
            {
                _errors.AppendLine(line.Data);
            }
        };
        _process.BeginErrorReadLine();
        string line = await _process.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException($"The workbench did not start. {Errors}");
        Uri opening = new(line);
        (Address, Token) = (new(opening.GetLeftPart(UriPartial.Authority)), opening.Query["?key=".Length..]);
        Client = Stranger();
        Client.DefaultRequestHeaders.Add("Halfpin-Key", Token);
        Client.Timeout = TimeSpan.FromMinutes(3);
        Client.DefaultRequestHeaders.Accept.Add(new MediaTypeWithQualityHeaderValue("application/json"));
    }

    public async ValueTask DisposeAsync()
    {
        Client?.Dispose();
        if (_process is not null)
        {
            _process.Kill(entireProcessTree: true);
            await _process.WaitForExitAsync();
            _process.Dispose();
        }

        Directory.Delete(_folder, recursive: true);
    }

    private static ProcessStartInfo Start(string[] args) => new("dotnet", [Metadata("Program"), .. args])
    {
        RedirectStandardOutput = true,
        RedirectStandardError = true,
        StandardOutputEncoding = Encoding.UTF8,
    };

    private static string Metadata(string key) => typeof(RunningWorkbench).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == key).Value!;
}
