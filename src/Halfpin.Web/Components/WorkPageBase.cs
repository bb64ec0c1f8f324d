using Halfpin.Domain.Cases;
using Halfpin.Workbench.Documents;
using Microsoft.AspNetCore.Components;

namespace Halfpin.Web.Components;

/// <summary>A page on one work: it finds the work by the id in its address and is drawn again after every change.</summary>
public abstract class WorkPageBase : ComponentBase, IDisposable
{
    /// <summary>Id of the work.</summary>
    [Parameter]
    public string Id { get; set; } = "";

    [Inject]
    internal WorkspaceList Works { get; set; } = null!;

    [Inject]
    internal NavigationManager Navigation { get; set; } = null!;

    /// <summary>The work; null when the address names none.</summary>
    protected Workspace? Work { get; private set; }

    /// <summary>The saved case; only where there is a work.</summary>
    protected Case Case => Work!.Case;

    /// <inheritdoc />
    protected override void OnParametersSet()
    {
        Workspace? found = Works.Find(Id);
        if (found is null)
        {
            Navigation.NotFound();
        }

        if (!ReferenceEquals(found, Work))
        {
            Leave();
            Work = found;
            if (Work is not null)
            {
                Work.Changed += Redraw;
            }
        }
    }

    /// <summary>Told after every change, before the page is drawn again.</summary>
    protected virtual void OnChanged()
    {
    }

    /// <summary>Told when the page has left its work.</summary>
    protected virtual void OnLeft(Workspace work)
    {
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Leave();
        GC.SuppressFinalize(this);
    }

    private void Leave()
    {
        if (Work is not null)
        {
            Work.Changed -= Redraw;
            OnLeft(Work);
        }
    }

    private void Redraw() => _ = InvokeAsync(() =>
    {
        OnChanged();
        StateHasChanged();
    });
}
