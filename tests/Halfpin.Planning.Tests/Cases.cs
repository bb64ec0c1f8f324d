using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Kit;
using Halfpin.Planning.Steps;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Stocks;

namespace Halfpin.Planning.Tests;

/// <summary>Cases, frames and stocks for tests of kit and steps.</summary>
internal static class Cases
{
    public static readonly ProgramStamp Stamp = new("halfpin", "test");

    public static readonly Case Example = Read("01-oblique-fracture.json");

    public static readonly Case Segmental = Read("04-segmental-fracture.json");

    public static readonly Stock DemoStock = StockReader.Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "demo-stock.json")), "demo-stock.json").Stock!;

    public static readonly PinSpec Pin = new() { DiameterMm = 5, Material = "steel" };

    public static readonly RodSpec Rod = new() { DiameterMm = 11, Material = "carbon" };

    /// <summary>A uniform bone, so that lengths can be added up by hand.</summary>
    public static readonly Case Tube = new()
    {
        Format = Case.FormatName,
        FormatVersion = 1,
        Title = "Invented tube",
        Limb = new()
        {
            Bone = BoneName.Tibia,
            Side = Side.Right,
            LengthMm = 362,
            PatientMassKg = 71,
            BoneModel = new TubeBone { OuterDiameterMm = 27.4, InnerDiameterMm = 13.6, YoungsModulusMPa = 16_300, PoissonRatio = 0.31 },
        },
        Fractures = [new() { LevelMm = 181, GapMm = 7, Pattern = FracturePattern.Transverse }],
        Frames = [],
    };

    public static readonly SingleRod NearFar = new() { Placement = PinPlacement.NearFar, NearMm = 27, FarMm = 103, AzimuthDeg = 0, StandoffMm = 47.3, Pin = Pin, Rod = Rod };

    public static Case With(this Case value, Construct construct) => value with { Frames = [new() { Id = "f", Construct = construct }], Stages = [] };

    public static Case With(this Case value, Parts parts) => value with { Frames = [new() { Id = "f", Parts = parts }], Stages = [] };

    public static Parts PartsOf(this Case value, string? id = null) => new Assessor(value).PartsOf(FrameOf(value, id));

    public static KitReport Kit(this Case value, string? id = null, Stock? stock = null) => new KitPlanner(value).Plan(FrameOf(value, id), stock, null, Stamp, "");

    public static StepsReport Steps(this Case value, string? id = null, Stock? stock = null) => new StepsPlanner(value).Plan(FrameOf(value, id), stock, Stamp, "");

    /// <summary>True when a case has no fault.</summary>
    public static bool IsValid(Case value) => !CaseValidity.Rules.SelectMany(rule => rule(value)).Any();

    /// <summary>The stock without what a test takes away.</summary>
    public static Stock Without(this Stock stock, Func<StockItem, bool> gone) => stock with { Items = [.. stock.Items.Where(i => !gone(i))] };

    public static Stock Stock(string csv) =>
        StockReader.Read(Encoding.UTF8.GetBytes(csv), "test.csv") is { Stock: Stock stock } ? stock : throw new InvalidDataException("The stock of a test has faults.");

    private static Frame FrameOf(Case value, string? id) => id is null ? value.Frames[0] : value.Frames.First(f => f.Id == id);

    private static Case Read(string name) => new CaseReader(CaseValidity.Rules).Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", name))).Case!;
}
