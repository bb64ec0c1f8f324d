using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Handles;

/// <summary>Changes to the frames of a case.</summary>
public static class FrameEdits
{
    private const double UsualSpacingMm = 30;
    private const double UsualPlaneDeg = 60;
    private const double UsualNearMm = 35;

    /// <summary>A case with one frame changed.</summary>
    public static Case WithFrame(Case value, string id, Func<Frame, Frame> change) =>
        value with { Frames = [.. value.Frames.Select(f => f.Id == id ? change(f) : f)] };

    /// <summary>Another layout of the rods, with sizes, placement and directions kept.</summary>
    /// <param name="frame">The frame; it must have a construct.</param>
    /// <param name="kind">single-rod, double-rod or two-plane.</param>
    public static CaseEdit Layout(Frame frame, string kind)
    {
        Construct c = frame.Construct!;
        Construct next = kind switch
        {
            "single-rod" => Copy(c, new SingleRod { Placement = c.Placement, FarMm = c.FarMm, AzimuthDeg = c.AzimuthDeg, StandoffMm = c.StandoffMm, Pin = c.Pin, Rod = c.Rod }),
            "double-rod" => Copy(c, new DoubleRod { Placement = c.Placement, FarMm = c.FarMm, AzimuthDeg = c.AzimuthDeg, StandoffMm = c.StandoffMm, Pin = c.Pin, Rod = c.Rod, RodSpacingMm = UsualSpacingMm }),
            "two-plane" => Copy(c, new TwoPlane { Placement = c.Placement, FarMm = c.FarMm, AzimuthDeg = c.AzimuthDeg, StandoffMm = c.StandoffMm, Pin = c.Pin, Rod = c.Rod, SecondAzimuthDeg = Math.IEEERemainder(c.AzimuthDeg + UsualPlaneDeg, 360) }),
            _ => throw new ArgumentException($"No layout {kind}.", nameof(kind)),
        };
        string words = kind switch { "single-rod" => "one rod", "double-rod" => "two rods", _ => "a V of two planes" };
        return new($"{words}, {frame.DisplayName}", v => WithFrame(v, frame.Id, f => f with { Construct = next }));
    }

    /// <summary>Another placement of the pins.</summary>
    public static CaseEdit Placement(Frame frame, PinPlacement placement)
    {
        Construct c = frame.Construct!;
        Construct next = c with { Placement = placement, NearMm = placement == PinPlacement.FarFar ? null : c.NearMm ?? Math.Min(UsualNearMm, c.FarMm / 2) };
        string words = placement switch { PinPlacement.FarFar => "far-far", PinPlacement.NearFar => "near-far", _ => "pins evenly" };
        return new($"{words}, {frame.DisplayName}", v => WithFrame(v, frame.Id, f => f with { Construct = next }));
    }

    /// <summary>The construct laid out part by part, so that every pin can be moved by itself.</summary>
    public static CaseEdit PinByPin(Frame frame) =>
        new($"pin by pin, {frame.DisplayName}", v => WithFrame(v, frame.Id, f => f with { Construct = null, Parts = ConstructBuilder.Build(f.Construct!, v.Fractures) }));

    /// <summary>Another material of pins or rods of a construct.</summary>
    public static CaseEdit Material(Frame frame, bool ofPins, string material) =>
        new($"{material} {(ofPins ? "pins" : "rods")}, {frame.DisplayName}", v => WithFrame(v, frame.Id, f => f with
        {
            Construct = ofPins ? f.Construct! with { Pin = f.Construct.Pin with { Material = material } } : f.Construct! with { Rod = f.Construct.Rod with { Material = material } },
        }));

    /// <summary>A frame like another, after it; its id is the one that <see cref="FreeId"/> gives.</summary>
    public static CaseEdit Duplicate(Case value, Frame frame)
    {
        string id = FreeId(value, frame.Id);
        Frame copy = frame with { Id = id, Name = FreeName(value, frame.DisplayName) };
        return new($"keep {copy.DisplayName}", v => v with { Frames = v.Frames.Insert(IndexOf(v, frame.Id) + 1, copy) });
    }

    /// <summary>Adds a frame from elsewhere at the end under a free id.</summary>
    public static CaseEdit Add(Case value, Frame frame, string words)
    {
        Frame added = frame with { Id = FreeId(value, frame.Id) };
        return new(words, v => v with { Frames = v.Frames.Add(added) });
    }

    /// <summary>Another name for people.</summary>
    public static CaseEdit Rename(Frame frame, string name) =>
        new($"rename {frame.DisplayName} to {name}", v => WithFrame(v, frame.Id, f => f with { Name = name }));

    /// <summary>Without a frame and its stages.</summary>
    public static CaseEdit Remove(Frame frame) => new($"remove {frame.DisplayName}", v => v with
    {
        Frames = v.Frames.RemoveAll(f => f.Id == frame.Id),
        Stages = v.Stages.RemoveAll(s => s.Frame == frame.Id),
    });

    /// <summary>An id that no frame of a case has.</summary>
    public static string FreeId(Case value, string like) =>
        Candidates(like, "-").First(id => value.Frames.All(f => f.Id != id));

    /// <summary>A name that no frame of a case has.</summary>
    public static string FreeName(Case value, string like) => Candidates(like, " ").First(name => value.Frames.All(f => f.DisplayName != name));

    private static IEnumerable<string> Candidates(string like, string between) =>
        Enumerable.Range(2, 1000).Select(i => string.Create(CultureInfo.InvariantCulture, $"{like}{between}{i}")).Prepend(like);

    private static int IndexOf(Case value, string id) => value.Frames.Select(f => f.Id).ToImmutableArray().IndexOf(id);

    private static Construct Copy(Construct from, Construct to) => to with { PinsPerFragment = from.PinsPerFragment, NearMm = from.NearMm };
}
