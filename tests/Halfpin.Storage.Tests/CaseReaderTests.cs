using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Domain.Validity;
using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Xunit;

namespace Halfpin.Storage.Tests;

public class CaseReaderTests
{
    private static readonly CaseReader _reader = new(CaseValidity.Rules);
    private static readonly string _example = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "examples", "01-oblique-fracture.json"));

    [Fact]
    public void Example_read_givesItsCase()
    {
        CaseReading reading = Read(_example);

        Assert.Empty(reading.Faults);
        Assert.Equal(7, reading.Case!.Frames.Length);
        Assert.Equal(352, reading.Case.Limb.LengthMm);
        Assert.IsType<TwoPlane>(reading.Case.Frames[4].Construct);
        Assert.Equal(PinPlacement.NearFar, reading.Case.Frames[1].Construct!.Placement);
    }

    [Fact]
    public void LeftOutMembers_takeTheirDefaults()
    {
        Case value = Read(_example).Case!;

        Assert.Equal(new FoundationFixity(), value.Model.PinFixity);
        Assert.Equal(new SpringClamp(), value.Model.Clamp);
        Assert.Empty(value.PlannedIncisions);
        Assert.Equal(0, value.Loading.TorsionNm);
    }

    [Fact]
    public void Hash_isThatOfTheBytes() =>
        Assert.Equal("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855", _reader.Read(Array.Empty<byte>()).Sha256);

    [Fact]
    public void NotesAndOwnMembers_anywhere_areLeftAlone()
    {
        JsonNode file = JsonNode.Parse(_example)!;
        file["x-own"] = new JsonObject { ["anything"] = 1 };
        file["limb"]!["notes"] = new JsonArray("kept");
        file["frames"]![0]!["construct"]!["x-own"] = 3;

        Assert.Empty(Read(file.ToJsonString()).Faults);
    }

    // A line for each line of a text, entry of a list and member of an object; what has no text gives none.
    [Theory]
    [InlineData("\"one\\n two \\r\\n\\nthree\"", "one|two|three")]
    [InlineData("[\"one\", 2.50, true, null, [\"<b>deep</b>\"]]", "one|2.50|true|<b>deep</b>")]
    [InlineData("{ \"by\": \"teacher\", \"for\": { \"year\": 3, \"class\": [\"a\", \"b\"] }, \"empty\": \"\" }", "by: teacher|for, year: 3|for, class: a|for, class: b")]
    [InlineData("null", "")]
    public void Notes_whateverTheyAre_areReadAsLines(string notes, string lines)
    {
        JsonNode file = JsonNode.Parse(_example)!;
        file.AsObject().Remove("notes");
        string bare = file.ToJsonString();

        CaseReading reading = Read(bare.Replace("\"limb\":", $"\"notes\":{notes},\"limb\":", StringComparison.Ordinal));

        Assert.Empty(reading.Faults);
        Assert.Equal(lines.Split('|', StringSplitOptions.RemoveEmptyEntries), reading.Case!.Notes);
    }

    [Theory]
    [InlineData("title", "\"half \\ud800\"", "/title")]
    [InlineData("notes", "[\"whole\", \"\\udc00 half\"]", "/notes/1")]
    [InlineData("notes", "{\"half \\ud800\": 1}", "/notes")]
    public void HalfASurrogatePair_isRefusedPolitely(string at, string json, string pointer)
    {
        string bare = With(at, "\"here\"");

        Fault fault = Assert.Single(Read(bare.Replace("\"here\"", json, StringComparison.Ordinal)).Faults);

        Assert.Equal((pointer, FaultCodes.Syntax), (fault.Pointer, fault.Code));
    }

    [Fact]
    public void NoNotes_giveNoLines()
    {
        JsonNode file = JsonNode.Parse(_example)!;
        file.AsObject().Remove("notes");

        Assert.Empty(Read(file.ToJsonString()).Case!.Notes);
    }

    [Fact]
    public void ByteOrderMark_isPassedOver() => Assert.Empty(_reader.Read(Encoding.UTF8.GetBytes("\uFEFF" + _example)).Faults);

    [Fact]
    public void Comments_arePassedOver() => Assert.Empty(Read("// a comment\n" + _example).Faults);

    // One thing wrong: pointer, code.
    [Theory]
    [InlineData("limb/side", "\"lft\"", "/limb/side", FaultCodes.Choice)]
    [InlineData("limb/lengthMm", "-352", "/limb/lengthMm", FaultCodes.Range)]
    [InlineData("limb/lengthMm", "\"352\"", "/limb/lengthMm", FaultCodes.Type)]
    [InlineData("limb/lengthMm", "1e999", "/limb/lengthMm", FaultCodes.Range)]
    [InlineData("limb/lengthMm", "null", "/limb/lengthMm", FaultCodes.Type)]
    [InlineData("fractures", "[]", "/fractures", FaultCodes.Range)]
    [InlineData("fractures/0/gapMm", "true", "/fractures/0/gapMm", FaultCodes.Type)]
    [InlineData("frames/1/construct/pin/diameterMm", "50", "/frames/1/construct/pin/diameterMm", FaultCodes.Range)]
    [InlineData("frames/1/construct/kind", "\"single-rodd\"", "/frames/1/construct/kind", FaultCodes.Choice)]
    [InlineData("frames/1/construct/azimutDeg", "3", "/frames/1/construct/azimutDeg", FaultCodes.UnknownMember)]
    [InlineData("frames/1/construct/rodSpacingMm", "30", "/frames/1/construct/rodSpacingMm", FaultCodes.UnknownMember)]
    [InlineData("frames/1/construct/pinsPerFragment", "2.5", "/frames/1/construct/pinsPerFragment", FaultCodes.Type)]
    [InlineData("frames/1/id", "\"no spaces\"", "/frames/1/id", FaultCodes.Type)]
    [InlineData("frames/1/id", "\"far-far\"", "/frames/1/id", FaultCodes.DuplicateId)]
    [InlineData("frames/1/construct/farMm", "300", "/frames/1/construct/farMm", FaultCodes.OutsideBone)]
    [InlineData("frames/1/construct/nearMm", "4", "/frames/1/construct", FaultCodes.ThroughFracture)]
    [InlineData("model", "{\"contactFriction\":-0.1}", "/model/contactFriction", FaultCodes.Range)]
    [InlineData("healing", "{\"weeks\":[]}", "/healing/weeks", FaultCodes.Range)]
    [InlineData("healing", "{\"weeks\":[{\"week\":3}]}", "/healing/weeks/0/callusModulusMPa", FaultCodes.Missing)]
    [InlineData("healing", "{\"weeks\":[{\"week\":\"3\",\"callusModulusMPa\":2}]}", "/healing/weeks/0/week", FaultCodes.Type)]
    [InlineData("healing", "{\"callusPoissonRatio\":0.5}", "/healing/callusPoissonRatio", FaultCodes.Range)]
    [InlineData("healing", "{\"collarDiameterMm\":9}", "/healing/collarDiameterMm", FaultCodes.Inconsistent)]
    [InlineData("model", "{\"clamp\":{\"kind\":\"spring\",\"rotationalNmPerRad\":0}}", "/model/clamp/rotationalNmPerRad", FaultCodes.Range)]
    public void OneThingWrong_isNamedAtItsPlace(string at, string json, string pointer, string code)
    {
        CaseReading reading = Read(With(at, json));

        Assert.Null(reading.Case);
        Assert.Contains(reading.Faults, f => f.Pointer == pointer && f.Code == code);
        Assert.All(reading.Faults, f => Assert.NotEmpty(f.Try));
    }

    [Fact]
    public void MissingMember_isNamedWithItsMeaning()
    {
        JsonNode file = JsonNode.Parse(_example)!;
        file["limb"]!.AsObject().Remove("lengthMm");

        Fault fault = Assert.Single(Read(file.ToJsonString()).Faults);
        Assert.Equal(("/limb/lengthMm", FaultCodes.Missing), (fault.Pointer, fault.Code));
        Assert.Contains("joint line", fault.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void DuplicateMember_isNamed()
    {
        string twice = _example.Replace("\"side\": \"left\",", "\"side\": \"left\", \"side\": \"right\",", StringComparison.Ordinal);

        Fault fault = Assert.Single(Read(twice).Faults);
        Assert.Equal(("/limb/side", FaultCodes.DuplicateMember), (fault.Pointer, fault.Code));
    }

    [Fact]
    public void NearMiss_isGuessed()
    {
        Fault fault = Assert.Single(Read(With("frames/1/construct/azimutDeg", "3")).Faults);

        Assert.Equal("Did you mean \"azimuthDeg\"?", fault.Try);
    }

    [Fact]
    public void FormAndContentWrongAtOnce_areToldInOneAnswer()
    {
        JsonNode file = JsonNode.Parse(_example)!;
        file["limb"]!["side"] = "lft";
        file["limb"]!["patientMassKg"] = -4;
        file["frames"]![0]!["construct"]!["pin"]!["diameterMm"] = 50;
        file["frames"]![1]!["construct"]!["pin"]!["material"] = "steal";
        file["frames"]![2]!["construct"]!["farMm"] = 400;
        file["frames"]![3]!["construct"]!["kind"] = "singlerod";
        file["frames"]![4]!["construct"]!["secondAzimuthDeg"] = 25;

        // Planes 5° apart also bring the ends of a link within 10 mm of each other: that is told of the construct.
        string[] pointers = [.. Read(file.ToJsonString()).Faults.Select(f => f.Pointer)];

        Assert.Equal(
            [
                "/frames/0/construct/pin/diameterMm", "/frames/1/construct/pin/material", "/frames/2/construct/farMm", "/frames/3/construct/kind",
                "/frames/4/construct", "/frames/4/construct/secondAzimuthDeg", "/limb/patientMassKg", "/limb/side",
            ],
            pointers.Distinct().Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("", FaultCodes.Syntax)]
    [InlineData("{", FaultCodes.Syntax)]
    [InlineData("[1,2]", FaultCodes.Format)]
    [InlineData("{}", FaultCodes.Format)]
    [InlineData("{\"format\":\"something-else\"}", FaultCodes.Format)]
    [InlineData("{\"format\":\"halfpin-case\",\"formatVersion\":2}", FaultCodes.NewerVersion)]
    [InlineData("{\"format\":\"halfpin-case\",\"formatVersion\":1,\"title\":NaN}", FaultCodes.Syntax)]
    public void NoCase_isRefusedPolitely(string text, string code) => Assert.Equal(code, Assert.Single(Read(text).Faults).Code);

    [Fact]
    public void DeepNesting_isRefusedPolitely() =>
        Assert.Equal(FaultCodes.Syntax, Assert.Single(Read(string.Concat(Enumerable.Repeat("[", 100_000))).Faults).Code);

    [Fact]
    public void TenMegabytesOfNoise_isRefusedPolitely()
    {
        byte[] noise = new byte[10_000_000];
        new Random(7).NextBytes(noise);

        Assert.Equal(FaultCodes.TooLarge, Assert.Single(_reader.Read(noise).Faults).Code);
    }

    [Fact]
    public void InvalidUtf8_isRefusedPolitely() => Assert.Single(_reader.Read(new byte[] { 0x7B, 0x22, 0xFF, 0xFE, 0x22, 0x7D }).Faults);

    [Fact]
    public void AnyBytes_neverThrow() => Gen.Byte.Array[0, 400].Sample(bytes => _reader.Read(bytes).Case is null);

    [Fact]
    public void AnyDamageToAGoodCase_neverThrows() => Gen.Select(Gen.Int[0, _example.Length - 1], Gen.OneOf(Gen.Const(""), Gen.Const("0"), Gen.Const("\""), Gen.Const("{"), Gen.Const("]"), Gen.Const("null"), Gen.Const("-1"), Gen.Const("1e400"), Gen.Const(","), Gen.Const("\u0000"))).Array[1, 4].Sample(
        damages =>
        {
            string text = _example;
            foreach ((int at, string with) in damages)
            {
                int place = Math.Min(at, text.Length - 1);
                text = text[..place] + with + text[(place + 1)..];
            }

            CaseReading reading = Read(text);
            return reading.Case is null == !reading.Faults.IsEmpty;
        },
        iter: 2000);

    [Fact]
    public void AnyMemberReplaced_neverThrows()
    {
        string[] pointers = [.. Leaves(JsonNode.Parse(_example)!, "")];
        Gen.Select(Gen.Int[0, pointers.Length - 1], Gen.OneOf(Gen.Const("null"), Gen.Const("-7"), Gen.Const("1e308"), Gen.Const("\"x\""), Gen.Const("[]"), Gen.Const("{}"), Gen.Const("true"), Gen.Const("[[[]]]"))).Sample(
            (i, json) =>
            {
                CaseReading reading = Read(With(pointers[i], json));
                return reading.Case is null == !reading.Faults.IsEmpty;
            },
            iter: 2000);
    }

    private static CaseReading Read(string text) => _reader.Read(Encoding.UTF8.GetBytes(text));

    private static IEnumerable<string> Leaves(JsonNode node, string at) => node switch
    {
        JsonObject o => o.Where(m => m.Value is not null).SelectMany(m => Leaves(m.Value!, at + (at.Length > 0 ? "/" : "") + m.Key)).Append(at).Where(p => p.Length > 0),
        JsonArray a => a.SelectMany((v, i) => Leaves(v!, $"{at}/{i}")).Append(at),
        _ => [at],
    };

    // Text is spliced rather than set as a node, so that numbers no parser should accept can be tried too.
    private static string With(string at, string json)
    {
        JsonNode file = JsonNode.Parse(_example)!;
        string[] steps = at.Split('/');
        JsonNode holder = steps[..^1].Aggregate(file, (n, step) => n is JsonArray a ? a[int.Parse(step, System.Globalization.CultureInfo.InvariantCulture)]! : n[step]!);
        const string Mark = "\"@@@\"";
        if (holder is JsonArray list)
        {
            list[int.Parse(steps[^1], System.Globalization.CultureInfo.InvariantCulture)] = "@@@";
        }
        else
        {
            holder[steps[^1]] = "@@@";
        }

        return file.ToJsonString().Replace(Mark, json, StringComparison.Ordinal);
    }
}
