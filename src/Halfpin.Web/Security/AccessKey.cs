using System.Security.Cryptography;
using System.Text;

namespace Halfpin.Web.Security;

/// <summary>
/// The secret that this run of the server shares with the browser it opened: other pages and programs of the machine that do not know it
/// are turned away.
/// </summary>
public sealed class AccessKey
{
    /// <summary>The cookie that carries it, before a hyphen and the server's port.</summary>
    public const string CookieName = "halfpin-key";

    /// <summary>The header by which programs give it.</summary>
    public const string HeaderName = "Halfpin-Key";

    /// <summary>Member of the first address that carries it.</summary>
    public const string QueryName = "key";

    private readonly byte[] _hash;

    /// <summary>A new random token.</summary>
    public AccessKey()
    {
        Value = RandomNumberGenerator.GetHexString(40, lowercase: true);
        _hash = SHA256.HashData(Encoding.UTF8.GetBytes(Value));
    }

    /// <summary>The token.</summary>
    public string Value { get; }

    /// <summary>True for the token, in a time that does not depend on where a guess differs.</summary>
    public bool Is(string? guess) => guess is not null && CryptographicOperations.FixedTimeEquals(SHA256.HashData(Encoding.UTF8.GetBytes(guess)), _hash);
}
