using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Words;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Handles;

namespace Halfpin.Workbench.Searches;

/// <summary>Changes that a search offers.</summary>
public static class SuggestEdits
{
    /// <summary>Adds a frame that was found to the case.</summary>
    /// <param name="now">The case.</param>
    /// <param name="frame">The frame.</param>
    /// <param name="name">Its name; one that is free is made from it.</param>
    /// <returns>The change and the id that the frame gets by it.</returns>
    public static (CaseEdit Edit, string Id) Take(Case now, Frame frame, string name)
    {
        Frame named = frame with { Name = FrameEdits.FreeName(now, name) };
        return (FrameEdits.Add(now, named, $"add {named.Name}"), FrameEdits.FreeId(now, named.Id));
    }

    /// <summary>The name that a frame found gets: what it is, or that it is the suggestion.</summary>
    public static string NameOf(Choice choice) => choice.IsSimplest ? "Suggested" : choice.Name;

    /// <summary>The name that the nearest miss gets.</summary>
    public static string NameOfMiss(Frame frame) => $"Nearest miss: {FrameWords.Name(frame)}";

    /// <summary>Makes the smallest change to a frame of the case.</summary>
    /// <param name="own">The frame with its change; it has one.</param>
    public static CaseEdit Change(OwnFrame own)
    {
        Frame changed = own.Changed!;
        string words = own.Change!.TrimEnd('.');
        return new($"{char.ToLowerInvariant(words[0])}{words[1..]}, {own.Name}", v => FrameEdits.WithFrame(v, own.Id, f => f with { Construct = changed.Construct, Parts = changed.Parts }));
    }
}
