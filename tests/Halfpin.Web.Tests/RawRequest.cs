using System.Net.Sockets;
using System.Text;

namespace Halfpin.Web.Tests;

/// <summary>A request written byte by byte, for what no well-behaved client sends.</summary>
internal static class RawRequest
{
    /// <summary>Sends lines as they are and gives all that comes back until the server closes or is silent.</summary>
    public static async Task<string> SendAsync(Uri address, string text, TimeSpan? patience = null)
    {
        using TcpClient client = new();
        await client.ConnectAsync(address.Host, address.Port);
        NetworkStream stream = client.GetStream();
        await stream.WriteAsync(Encoding.Latin1.GetBytes(text));
        StringBuilder answer = new();
        byte[] buffer = new byte[8192];
        using CancellationTokenSource silence = new(patience ?? TimeSpan.FromSeconds(20));
        try
        {
            int read;
            while ((read = await stream.ReadAsync(buffer, silence.Token)) > 0)
            {
                answer.Append(Encoding.UTF8.GetString(buffer, 0, read));
            }
        }
        catch (Exception e) when (e is OperationCanceledException or IOException)
        {
            // Silence, or a reset: what came is the answer.
        }

        return answer.ToString();
    }

    /// <summary>A GET with headers, after which the connection is closed unless they say otherwise.</summary>
    public static Task<string> GetAsync(Uri address, string target, params string[] headers) =>
        SendAsync(address, $"GET {target} HTTP/1.1\r\n{string.Concat(headers.Select(h => h + "\r\n"))}{(headers.Any(h => h.StartsWith("Connection:", StringComparison.Ordinal)) ? "" : "Connection: close\r\n")}\r\n");
}
