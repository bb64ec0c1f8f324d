using Halfpin.Domain.Cases;
using Halfpin.Workbench.Fields;

namespace Halfpin.Web.Components.Course;

/// <summary>Reads an axial load typed in N or kg.</summary>
internal static class LoadText
{
    /// <summary>The load in N; null when the text is no number.</summary>
    /// <param name="text">What was typed; a unit after the number goes before the chosen one.</param>
    /// <param name="inKg">True when kg is chosen.</param>
    public static double? ReadN(string text, bool inKg)
    {
        string bare = text.Trim();
        bool kg = bare.EndsWith("kg", StringComparison.OrdinalIgnoreCase) || (inKg && !bare.EndsWith("N", StringComparison.OrdinalIgnoreCase));
        return NumberText.Read(bare) is double value ? value * (kg ? Loading.NewtonPerKg : 1) : null;
    }
}
