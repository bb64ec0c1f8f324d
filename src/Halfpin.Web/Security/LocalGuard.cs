using Microsoft.AspNetCore.Http;

namespace Halfpin.Web.Security;

/// <summary>
/// Lets only pages and programs of this run in: the address must be a loopback one, an Origin must be ours, and the session token must be
/// given, by cookie or header. The address that <c>halfpin serve</c> prints carries it once and gets the cookie.
/// </summary>
internal sealed class LocalGuard(RequestDelegate next, SessionToken token)
{
    private static readonly string[] _hosts = ["localhost", "127.0.0.1", "[::1]"];

    public async Task InvokeAsync(HttpContext context)
    {
        HttpRequest request = context.Request;
        Headers(context.Response);
        if (!_hosts.Contains(request.Host.Host, StringComparer.OrdinalIgnoreCase))
        {
            await Refuse(context, StatusCodes.Status421MisdirectedRequest, "This server answers only on the loopback address.").ConfigureAwait(false);
            return;
        }

        string origin = request.Headers.Origin.ToString();
        if (origin.Length > 0 && !string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase))
        {
            await Refuse(context, StatusCodes.Status403Forbidden, "Pages of other origins may not use this server.").ConfigureAwait(false);
            return;
        }

        if (token.Is(request.Query[SessionToken.QueryName]) && HttpMethods.IsGet(request.Method))
        {
            context.Response.Cookies.Append(SessionToken.CookieName, token.Value, new() { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/" });
            context.Response.Redirect(request.Path.HasValue ? request.Path.Value : "/");
            return;
        }

        if (!token.Is(request.Cookies[SessionToken.CookieName]) && !token.Is(request.Headers[SessionToken.HeaderName]))
        {
            await Refuse(context, StatusCodes.Status401Unauthorized, "Open the address that halfpin serve printed; it carries the key of this session.").ConfigureAwait(false);
            return;
        }

        await next(context).ConfigureAwait(false);
    }

    // No script or style but our own files; three.js and Blazor need neither eval nor inline code. Style attributes set bar lengths.
    private static void Headers(HttpResponse response)
    {
        response.Headers.ContentSecurityPolicy =
            "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; connect-src 'self'; "
            + "object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";
        response.Headers.XContentTypeOptions = "nosniff";
        response.Headers["Referrer-Policy"] = "no-referrer";
        response.Headers["Cross-Origin-Opener-Policy"] = "same-origin";
        response.Headers["Cross-Origin-Resource-Policy"] = "same-origin";
    }

    private static Task Refuse(HttpContext context, int status, string why) =>
        TypedResults.Problem(why, statusCode: status).ExecuteAsync(context);
}
