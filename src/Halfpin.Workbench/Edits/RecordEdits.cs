using Halfpin.Domain.Cases;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Edits;

/// <summary>Changes to what a case records in words.</summary>
public static class RecordEdits
{
    /// <summary>The free notes, a line of text each.</summary>
    public static CaseEdit Notes(string text) => new("notes", v => v with { Notes = [.. text.ReplaceLineEndings("\n").Split('\n').Select(l => l.Trim()).Where(l => l.Length > 0)] });

    /// <summary>What the frame is to be changed for; null for not recorded. A window that was given is kept.</summary>
    public static CaseEdit Conversion(ConversionTarget? to) => new(
        to is ConversionTarget target ? $"planned conversion: {Halfpin.Planning.Indication.IndicationRecorder.Word(target)}" : "planned conversion not recorded",
        v => v with { Indication = (v.Indication ?? new()) with { Conversion = to is ConversionTarget t ? (v.Indication?.Conversion ?? new() { To = t }) with { To = t } : null } });
}
