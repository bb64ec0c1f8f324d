using System.Globalization;

namespace Halfpin.Domain.Assessments;

/// <summary>
/// Names of results in studies: a quantity, whose unit ends it, such as axialNPerMm; of a case with several fractures followed by @ and the
/// fracture's number where it is a result at one of them, such as axialNPerMm@2. Fractures are counted from proximal, from 1.
/// </summary>
public static class ResultNames
{
    private const char At = '@';

    /// <summary>The name of a quantity at one of several fractures.</summary>
    /// <param name="quantity">The quantity.</param>
    /// <param name="fracture">Number of the fracture, from 1.</param>
    public static string Of(string quantity, int fracture) => string.Create(CultureInfo.InvariantCulture, $"{quantity}{At}{fracture}");

    /// <summary>Quantity and fracture of a name; no fracture where the name is of a whole frame, or of the only one.</summary>
    public static (string Quantity, int? Fracture) Read(string name)
    {
        int at = name.LastIndexOf(At);
        return at > 0 && int.TryParse(name.AsSpan(at + 1), NumberStyles.None, CultureInfo.InvariantCulture, out int fracture) ? (name[..at], fracture) : (name, null);
    }
}
