using System.Text;
using Halfpin.Storage.Assessments;
using Microsoft.AspNetCore.Http;

namespace Halfpin.Web.Api;

/// <summary>A report as the command line prints it with --json, to the byte.</summary>
internal sealed class ReportAnswer(object report, int status = StatusCodes.Status200OK, string mediaType = "application/json") : IResult
{
    // Written when it is made, so that it counts as part of the work and not of the sending.
    private readonly byte[] _json = Encoding.UTF8.GetBytes(ReportWriter.ToJson(report) + "\n");

    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.StatusCode = status;
        httpContext.Response.ContentType = mediaType;
        httpContext.Response.ContentLength = _json.Length;
        return httpContext.Response.Body.WriteAsync(_json).AsTask();
    }
}
