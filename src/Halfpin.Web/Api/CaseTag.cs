using System.Security.Cryptography;
using Halfpin.Domain.Cases;
using Halfpin.Storage.Cases;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;

namespace Halfpin.Web.Api;

/// <summary>The strong entity tag (RFC 9110) of a case: equal for files that are equal to the byte.</summary>
internal static class CaseTag
{
    private const int Letters = 32;

    /// <summary>The tag, in its quotes.</summary>
    public static string Of(byte[] file) => $"\"{Convert.ToHexStringLower(SHA256.HashData(file))[..Letters]}\"";

    /// <summary>The tag of a case as it is written.</summary>
    public static string Of(Case value) => Of(CaseWriter.Write(value));

    /// <summary>True when a list of tags, or *, has this one. Weak tags never match what a change is based on.</summary>
    public static bool IsIn(StringValues header, string tag) =>
        EntityTagHeaderValue.TryParseList([.. header.OfType<string>()], out IList<EntityTagHeaderValue>? tags)
        && tags.Any(t => t.Equals(EntityTagHeaderValue.Any) || (!t.IsWeak && t.Tag == tag));

    /// <summary>True when a reader has this one already.</summary>
    public static bool IsKnown(HttpRequest request, string tag) => IsIn(request.Headers.IfNoneMatch, tag);
}
