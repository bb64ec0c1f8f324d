using Halfpin.TestKit.CrossProgram;
using Xunit;

namespace Halfpin.CrossProgram.Tests;

/// <summary>The product's frames by name, for theories.</summary>
internal static class Frames
{
    private static readonly Dictionary<string, Func<SampleFrame>> _all = new()
    {
        ["single rod, rigid"] = SampleFrames.SingleRodRigid,
        ["two-plane, rigid"] = SampleFrames.TwoPlaneRigid,
        ["skewed, rigid"] = SampleFrames.SkewedRigid,
        ["single rod, yielding"] = SampleFrames.SingleRodYielding,
        ["double rod, yielding"] = SampleFrames.DoubleRodYielding,
        ["skewed, yielding"] = SampleFrames.SkewedYielding,
    };

    public static TheoryData<string> All => [.. _all.Keys];

    public static TheoryData<string> Rigid => [.. _all.Keys.Where(k => k.EndsWith(", rigid", StringComparison.Ordinal))];

    public static TheoryData<string> Yielding => [.. _all.Keys.Where(k => k.EndsWith(", yielding", StringComparison.Ordinal))];

    public static SampleFrame Named(string name) => _all[name]();
}
