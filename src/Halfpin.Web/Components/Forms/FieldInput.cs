using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Fields;
using Microsoft.AspNetCore.Components;

namespace Halfpin.Web.Components.Forms;

/// <summary>A field of a form over a member of a case: what it shows, and what stands against the last thing tried in it.</summary>
public abstract class FieldInput : ComponentBase
{
    private Case? _seen;
    private string? _seenPointer;

    /// <summary>The work.</summary>
    [Parameter, EditorRequired]
    public Workspace Work { get; set; } = null!;

    /// <summary>JSON Pointer of the member.</summary>
    [Parameter, EditorRequired]
    public string Pointer { get; set; } = "";

    /// <summary>A label in place of the member's own.</summary>
    [Parameter]
    public string? Label { get; set; }

    /// <summary>Why it matters, beyond what it means.</summary>
    [Parameter]
    public string? Why { get; set; }

    /// <summary>What an empty field means, where the member itself does not say.</summary>
    [Parameter]
    public string? WhenEmpty { get; set; }

    /// <summary>The field; null while the case has no such member.</summary>
    protected CaseField? Field { get; private set; }

    /// <summary>What stands against the last thing tried.</summary>
    protected ImmutableArray<Fault> Faults { get; private set; } = [];

    /// <summary>What was typed and not taken; null otherwise.</summary>
    protected string? Typed { get; private set; }

    /// <summary>True for a field of the second or a later of several alike: the words in its label are explained at the first.</summary>
    protected bool IsRepeat => Pointer.Split('/').Any(step => int.TryParse(step, CultureInfo.InvariantCulture, out int index) && index > 0);

    /// <summary>Term that explains the label as a whole; null to look for terms in it.</summary>
    protected string? TermKey => Label is null ? FieldTerms.Of(Pointer) : null;

    /// <summary>Id of the field in the page.</summary>
    protected string FieldId => $"f{Pointer.Replace('/', '-')}";

    /// <summary>Ids of the texts that describe the field.</summary>
    protected string DescribedBy => Faults.IsEmpty ? $"{FieldId}-help" : $"{FieldId}-error {FieldId}-help";

    /// <inheritdoc />
    protected override void OnParametersSet()
    {
        if (!ReferenceEquals(_seen, Work.Case) || _seenPointer != Pointer)
        {
            (_seen, _seenPointer, Typed, Faults) = (Work.Case, Pointer, null, []);
        }

        Field = CaseField.Find(Work.Case, Pointer);
    }

    /// <summary>Takes what was typed, or the key of a choice.</summary>
    protected void Take(string? text)
    {
        FieldReading reading = Field!.Read(text);
        Try(text, reading.Edit is CaseEdit edit ? Work.Apply(edit) : [reading.Fault!]);
    }

    /// <summary>Takes one of several choices, or takes it back.</summary>
    protected void Choose(string key, bool taken) => Try(null, Work.Apply(Field!.Choose(key, taken)));

    private void Try(string? text, ImmutableArray<Fault> faults)
    {
        Faults = faults;
        Typed = faults.IsEmpty ? null : text;
    }
}
