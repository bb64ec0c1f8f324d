using System.Collections.Immutable;
using Halfpin.Workbench.Scenes;

namespace Halfpin.Workbench.Live;

/// <summary>
/// What a screen needs at once while a value is dragged: texts and bar lengths by key, values of all handles and the drawing.
/// Members that have not changed since the last view of a <see cref="FrameScreen"/> are null.
/// </summary>
/// <param name="Number">Number of the request this answers; 0 when nobody asked.</param>
/// <param name="IsDraft">True while a value is being dragged.</param>
/// <param name="Texts">Texts by key.</param>
/// <param name="Shares">Lengths and places of bars by key, 0 to 1; null where a mark is not shown.</param>
/// <param name="Verdict">pass, caution or fail: of the sentence.</param>
/// <param name="Handles">Values of the handles by key.</param>
/// <param name="Frame">The frame.</param>
/// <param name="Limb">The limb.</param>
/// <param name="Cut">The cross-section.</param>
/// <param name="Bent">Movement; null also when it is not asked for or withheld.</param>
/// <param name="Faults">Why the asked value cannot be; empty when it can.</param>
public sealed record LiveView(
    long Number,
    bool IsDraft,
    ImmutableDictionary<string, string> Texts,
    ImmutableDictionary<string, double?> Shares,
    string Verdict,
    ImmutableDictionary<string, double> Handles,
    SceneFrame Frame,
    SceneLimb? Limb,
    SceneCut? Cut,
    SceneBent? Bent,
    ImmutableArray<string> Faults);
