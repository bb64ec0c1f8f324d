using System.Globalization;
using Halfpin.Web.Api.Problems;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Extensions;

namespace Halfpin.Web.Security;

/// <summary>
/// Lets only pages and programs of this run in: the address must be this server's own loopback one, an Origin must be ours, and the access
/// key must be given, by cookie or header. The address that <c>halfpin serve</c> prints carries it once and gets the cookie.
/// </summary>
/// <remarks>
/// A browser sends the cookie of its own accord, to any port of the same host name and for any page of that host. So the cookie alone opens
/// nothing that changes something and no socket: those must also show the Origin of our own pages. Programs give the token in a header, which
/// no foreign page can set without asking first.
/// </remarks>
internal sealed class LocalGuard(RequestDelegate next, AccessKey token)
{
    // The server listens on IPv4 alone, so no other name of this machine is ever right.
    private static readonly string[] _hosts = ["localhost", "127.0.0.1"];

    public async Task InvokeAsync(HttpContext context)
    {
        // Set when the answer starts: whoever clears headers in between, as for an error, does not clear these.
        context.Response.OnStarting(SetHeaders, context.Response);
        HttpRequest request = context.Request;
        if (!IsOwnHost(request.Host, context.Connection.LocalPort))
        {
            await Refuse(context, ProblemKind.ForeignHost, "The request names another host or port.").ConfigureAwait(false);
            return;
        }

        if (IsForeign(request))
        {
            await Refuse(context, ProblemKind.ForeignOrigin, "Pages of other origins may not use this server.").ConfigureAwait(false);
            return;
        }

        string cookie = CookieName(context.Connection.LocalPort);
        if (HttpMethods.IsGet(request.Method) && token.Is(request.Query[AccessKey.QueryName]))
        {
            context.Response.Cookies.Append(cookie, token.Value, new() { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/" });
            context.Response.Redirect(WithoutToken(request));
            return;
        }

        bool byHeader = token.Is(request.Headers[AccessKey.HeaderName]);
        if (!byHeader && !token.Is(request.Cookies[cookie]))
        {
            context.Response.Headers.WWWAuthenticate = AccessKey.HeaderName;
            await Refuse(context, ProblemKind.NoKey, "Open the address that halfpin serve printed; it carries the access key.").ConfigureAwait(false);
            return;
        }

        if (!byHeader && request.Headers.Origin.Count == 0 && !IsHarmless(request))
        {
            await Refuse(context, ProblemKind.ForeignOrigin, "A change or a socket on the cookie alone needs the Origin of this server.").ConfigureAwait(false);
            return;
        }

        await next(context).ConfigureAwait(false);
    }

    /// <summary>The cookie of the server at a port: browsers share cookies between ports, so each has its own.</summary>
    internal static string CookieName(int port) => string.Create(CultureInfo.InvariantCulture, $"{AccessKey.CookieName}-{port}");

    private static bool IsOwnHost(HostString host, int port) => _hosts.Contains(host.Host, StringComparer.OrdinalIgnoreCase) && (host.Port ?? 80) == port;

    // Origin, where one is given, and what browsers say of their own accord. A link followed from elsewhere may open a page: it gets no cookie along.
    private static bool IsForeign(HttpRequest request)
    {
        if (request.Headers.Origin.Count > 0 && !string.Equals(request.Headers.Origin.ToString(), $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase))
        {
            return true;
        }

        bool isPage = HttpMethods.IsGet(request.Method) && request.Headers["Sec-Fetch-Mode"] == "navigate" && request.Headers["Sec-Fetch-Dest"] == "document";
        return request.Headers["Sec-Fetch-Site"].ToString() is "cross-site" or "same-site" && !isPage;
    }

    private static bool IsHarmless(HttpRequest request) =>
        (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method) || HttpMethods.IsOptions(request.Method)) && !request.Headers.ContainsKey("Upgrade");

    // The same address without the token. A path of two slashes would lead to another host.
    private static string WithoutToken(HttpRequest request)
    {
        QueryBuilder rest = new(request.Query.Where(q => q.Key != AccessKey.QueryName).SelectMany(q => q.Value, (q, value) => KeyValuePair.Create(q.Key, value ?? "")));
        return $"/{request.Path.ToUriComponent().TrimStart('/', '\\')}{rest.ToQueryString()}";
    }

    private static Task SetHeaders(object state)
    {
        IHeaderDictionary headers = ((HttpResponse)state).Headers;

        // No script or style but our own files; three.js and Blazor need neither eval nor inline code. Style attributes set bar lengths.
        headers.ContentSecurityPolicy =
            "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; connect-src 'self'; "
            + "object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin"; // With none at all, a form of our own pages would come without our Origin.
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";

        // Cases are about people: only our own files may stay in a cache, which say so themselves.
        if (headers.CacheControl.Count == 0)
        {
            headers.CacheControl = "no-store";
        }

        return Task.CompletedTask;
    }

    private static Task Refuse(HttpContext context, ProblemKind kind, string why) => new Problem(kind, why).ExecuteAsync(context);
}
