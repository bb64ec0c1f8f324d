using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Xunit;

namespace Halfpin.Architecture.Tests;

public partial class TypeRuleTests
{
    // Workspaces that are filled again and again; each says so in its documentation.
    private static readonly HashSet<string> _mutable =
    [
        "FrameScreen",
        "VariantAssessor", "PlacementReview", "BatchRunner", "UncertaintyStudy", "VarianceSums", "SplitMix",
        "FrameSystem", "SiteAnalysis", "SquareMatrix", "FrameAnalyser", "DemandAnalysis",
    ];

    // Numbers without a unit, and those whose unit is their owner's.
    private static readonly HashSet<string> _unitless =
    [
        "X", "Y", "Z", "Length", "XX", "XY", "XZ", "YX", "YY", "YZ", "ZX", "ZY", "ZZ", "A22", "A23", "A33", "K11", "K12", "K13", "K14", "K22", "K24",
        "ShearCoefficient", "MomentPerMoment", "PoissonRatio", "ShearCoefficient", "Value", "Min", "Max", "Imbalance", "Fx", "Fy", "Fz", "Mx", "My", "Mz", "Item",
        "RelativeDifference", "ToleranceUsed", "Reference", "Ours", "RelativeTolerance", "AbsoluteTolerance", "Scale",
        "Low", "High", "PinClamps", "SetsTried", "Steps", "StepsPerDay", "Weeks", "StepsToFailure", "FewestSteps", "MostSteps", "FirstSteps", "LimitSteps", "WeakShare", "StrongShare", "ThreadFactor", "ShareOfBodyWeight", "MaxImbalance", "NewtonPerKg",
        "FrameShare", "ContactFriction", "Drive", "FrameLoadShare", "CallusPoissonRatio", "UsualCallusPoissonRatio", "Gap", "Stiffness", "Week", "Ap", "Ml", "Axial",
        "LoadFactor", "CostPoints", "Seconds", "ReachedLoadFactor", "Capacity",
        "Before", "After",

        // Inputs and results of studies are in the unit of the input or result that they stand for, or are shares.
        "Nominal", "Mode", "Mean", "StandardDeviation", "Median", "P5", "P95", "Pass", "Caution", "Fail", "First", "FirstLow", "FirstHigh", "Total", "TotalLow", "TotalHigh",
        "Probability", "From", "To", "By", "BoneModuliShare", "BoneWallShare", "WorstUtilisation",

        // Limits of alignment carry their unit beside them; figures of physiology are in units of their own.
        "Limit", "LimitTo", "SystolicMmHg", "PressureGapMmHg", "BloodUnits2H", "LactateMmolPerL", "PlateletsThousand", "TemperatureC", "PaO2FiO2MmHg",
        "InjurySeverityScore", "BaseDeficitMmolPerL", "AntibioticAfterMin", "DebridementAfterH", "CoverAfterDays", "FromDay", "ToDay",

        // Values of a screen are in the unit that stands beside them; places in a plot are shares of its length.
        "Now", "Values", "Samples", "Right", "Above", "Factor", "Step", "PerSecond", "Mark", "At", "SecondsLeft", "Most",

        // Raw models of verification are in whatever units their source is in.
        "E", "G", "Area", "I22", "I33", "I23", "Torsion", "BendingStiffness", "AxialStiffness", "TorsionStiffness", "Diameter", "Foundation",
    ];

    [Theory]
    [InlineData("Domain")]
    [InlineData("Mechanics")]
    [InlineData("Anatomy")]
    [InlineData("Placement")]
    [InlineData("Stability")]
    [InlineData("Planning")]
    [InlineData("Studies")]
    [InlineData("Search")]
    [InlineData("Verification")]
    [InlineData("Workbench")]
    public void PublicType_isImmutable_orAWorkspaceByName(string assembly)
    {
        string[] mutable = [.. Repository.Assembly(assembly).GetExportedTypes()
            .Where(t => !_mutable.Contains(t.Name))
            .SelectMany(t => t.GetProperties().Where(p => p.SetMethod is { IsPublic: true } set && !IsInit(set)).Select(p => $"{t.Name}.{p.Name}")
                .Concat(t.GetFields().Where(f => f is { IsPublic: true, IsInitOnly: false, IsLiteral: false } && !t.IsEnum).Select(f => $"{t.Name}.{f.Name}")))];

        Assert.True(mutable.Length == 0, string.Join(", ", mutable));
    }

    [Theory]
    [InlineData("Domain")]
    [InlineData("Mechanics")]
    [InlineData("Anatomy")]
    [InlineData("Placement")]
    [InlineData("Stability")]
    [InlineData("Planning")]
    [InlineData("Studies")]
    [InlineData("Search")]
    [InlineData("Verification")]
    [InlineData("Workbench")]
    public void PublicNumber_saysItsUnit(string assembly)
    {
        string[] bare = [.. Repository.Assembly(assembly).GetExportedTypes()
            .SelectMany(t => t.GetProperties().Where(p => IsNumber(p.PropertyType)).Select(p => (t.Name, Member: p.Name))
                .Concat(t.GetFields().Where(f => f.IsPublic && IsNumber(f.FieldType)).Select(f => (t.Name, Member: f.Name))))
            .Where(m => !_unitless.Contains(m.Member) && !Unit().IsMatch(m.Member))
            .Select(m => $"{m.Name}.{m.Member}").Distinct()];

        Assert.True(bare.Length == 0, string.Join(", ", bare));
    }

    [Fact]
    public void SourceFile_isShort()
    {
        string[] large = [.. Repository.Sources("src").Where(f => File.ReadLines(f).Count() > 400).Select(f => Path.GetRelativePath(Repository.Root, f))];

        Assert.Empty(large);
    }

    [Fact]
    public void Source_hasNoUnfinishedPlace()
    {
        string[] marks = ["TO" + "DO", "FIX" + "ME", "HA" + "CK", "NotImplemented" + "Exception"];
        string[] unfinished = [.. Repository.Sources("src").Concat(Repository.Sources("tests")).Where(f => marks.Any(m => File.ReadAllText(f).Contains(m, StringComparison.Ordinal)))];

        Assert.Empty(unfinished);
    }

    private static bool IsInit(MethodInfo set) => set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));

    private static bool IsNumber(Type t) => t == typeof(double) || t == typeof(double?);

    [GeneratedRegex("(Share|Mm|Mm2|Mm3|Mm4|MPa|Deg|Rad|Kg|N|Nm|Nmm|Nmm2|Percent|NPerMm|NPerMm2|NmPerDeg|NmPerRad|PerN|PerNmm|PerNmm2|PerTranslation|PerRotation)$")]
    private static partial Regex Unit();
}
