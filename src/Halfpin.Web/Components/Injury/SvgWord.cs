using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace Halfpin.Web.Components.Injury;

/// <summary>Words in a drawing: the SVG element bears a name that Razor keeps for itself, so it is built here.</summary>
public sealed class SvgWord : ComponentBase
{
    /// <summary>Class of the style sheet.</summary>
    [Parameter, EditorRequired]
    public string Css { get; set; } = "";

    /// <summary>Where they stand, to the right.</summary>
    [Parameter, EditorRequired]
    public double X { get; set; }

    /// <summary>Where their foot stands, downward.</summary>
    [Parameter, EditorRequired]
    public double Y { get; set; }

    /// <summary>start, middle or end of the words stands there.</summary>
    [Parameter]
    public string Anchor { get; set; } = "start";

    /// <summary>The words.</summary>
    [Parameter, EditorRequired]
    public string Words { get; set; } = "";

    /// <inheritdoc />
    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        builder.OpenElement(0, "text");
        builder.AddAttribute(1, "class", Css);
        builder.AddAttribute(2, "x", X.ToString("0.##", CultureInfo.InvariantCulture));
        builder.AddAttribute(3, "y", Y.ToString("0.##", CultureInfo.InvariantCulture));
        builder.AddAttribute(4, "text-anchor", Anchor);
        builder.AddContent(5, Words);
        builder.CloseElement();
    }
}
