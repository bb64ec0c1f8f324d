using System.Collections.Immutable;
using Halfpin.Reports.Words;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace Halfpin.Web.Components.Words;

/// <summary>A text with the technical words in it marked, or marked as a whole when its term is known. Written by hand, so that no space comes between the pieces.</summary>
public sealed class Terms : ComponentBase
{
    private ImmutableArray<GlossaryRun> _runs = [];

    /// <summary>The text.</summary>
    [Parameter, EditorRequired]
    public string Text { get; set; } = "";

    /// <summary>Key of the term that the whole text stands for; null to look for terms in it.</summary>
    [Parameter]
    public string? Of { get; set; }

    /// <summary>True to mark nothing, where the same words are explained just before.</summary>
    [Parameter]
    public bool IsPlain { get; set; }

    /// <inheritdoc />
    protected override void OnParametersSet() =>
        _runs = IsPlain ? [new(Text, null)] : Of is null ? Glossary.Split(Text) : [new(Text, Glossary.Find(Of) ?? throw new InvalidOperationException($"The glossary has no term {Of}."))];

    /// <inheritdoc />
    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        foreach (GlossaryRun run in _runs)
        {
            if (run.Term is null)
            {
                builder.AddContent(0, run.Text);
            }
            else
            {
                builder.OpenComponent<Term>(1);
                builder.AddComponentParameter(2, nameof(Term.Of), run.Term.Key);
                builder.AddComponentParameter(3, nameof(Term.ChildContent), (RenderFragment)(content => content.AddContent(0, run.Text)));
                builder.CloseComponent();
            }
        }
    }
}
