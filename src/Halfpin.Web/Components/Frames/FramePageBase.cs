using Halfpin.Domain.Frames;
using Microsoft.AspNetCore.Components;

namespace Halfpin.Web.Components.Frames;

/// <summary>A page on one frame of a work: the one in its address, or the first.</summary>
public abstract class FramePageBase : WorkPageBase
{
    /// <summary>Id of the frame; the first without one.</summary>
    [Parameter]
    public string? FrameId { get; set; }

    /// <summary>The frame; null where there is no work.</summary>
    protected Frame? Frame { get; private set; }

    /// <inheritdoc />
    protected override void OnParametersSet()
    {
        base.OnParametersSet();
        Find();
    }

    /// <inheritdoc />
    protected override void OnChanged() => Find();

    /// <summary>Told when frame, case or address may have changed; there is a frame then.</summary>
    protected virtual void Prepare()
    {
    }

    private void Find()
    {
        Frame = Work is null ? null : Case.Frames.FirstOrDefault(f => f.Id == FrameId) ?? Case.Frames[0];
        if (Frame is not null)
        {
            Prepare();
        }
    }
}
