using System.Text;
using CsCheck;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Gaits;
using Xunit;

namespace Halfpin.Storage.Tests;

public class GaitReaderTests
{
    private const string Header = "phase,fxN,fyN,fzN,mxNm,myNm,mzNm";

    [Fact]
    public void Example_read_givesItsPhasesAndSaysThatTheyAreInvented()
    {
        GaitReading reading = GaitReader.Read(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", "05-gait-invented.csv")));

        Assert.Empty(reading.Faults);
        Assert.Equal(5, reading.Gait!.Phases.Length);
        Assert.All(reading.Gait.Phases, p => Assert.StartsWith("invented", p.Phase, StringComparison.Ordinal));
    }

    [Fact]
    public void Columns_inAnotherOrder_areFoundByName()
    {
        GaitReading reading = Read("mzNm,phase,fzN,fyN,fxN,myNm,mxNm\r\n7.5,\"late, 60 %\",-613.25,2,1,5,4\r\n");

        Assert.Equal(new() { Phase = "late, 60 %", FxN = 1, FyN = 2, FzN = -613.25, MxNm = 4, MyNm = 5, MzNm = 7.5 }, Assert.Single(reading.Gait!.Phases));
    }

    [Fact]
    public void Faults_ofAllKinds_comeInOneAnswerWithRowAndColumn()
    {
        Fault[] faults = [.. Read($"{Header}\na,1,2,3,4,5\n\nb,1,x,99999,4,5,NaN\nb,1,2,3,\"4,5\",,7\n,1,2,3,4,5,6\n").Faults];

        Assert.Equal(
            [
                ("/2", FaultCodes.Format), ("/4/fyN", FaultCodes.Type), ("/4/fzN", FaultCodes.Range), ("/4/mzNm", FaultCodes.Type),
                ("/5/mxNm", FaultCodes.Type), ("/5/myNm", FaultCodes.Missing), ("/6/phase", FaultCodes.Range), ("/5/phase", FaultCodes.DuplicateId),
            ],
            faults.Select(f => (f.Pointer, f.Code)));
    }

    [Theory]
    [InlineData("phase,fxN,fyN,FZ,mxNm,myNm,mzNm\na,1,2,3,4,5,6", "/1/4 /1/fzN")]
    [InlineData("phase,fxN,fyN,fzN,mxNm,myNm,mzNm,fxN\na,1,2,3,4,5,6,7", "/1/8")]
    [InlineData("phase;fxN;fyN;fzN;mxNm;myNm;mzNm\na;1;2;3;4;5;6", "/1")]
    [InlineData("a,1,2,3,4,5,6", "/1/1 /1/2 /1/3 /1/4 /1/5 /1/6 /1/7")]
    public void Header_thatIsWrong_isToldByItsPlace(string text, string pointers) =>
        Assert.Equal(pointers.Split(' '), Read(text).Faults.Select(f => f.Pointer).Where(p => p.Length > 0).Take(pointers.Split(' ').Length));

    [Theory]
    [InlineData("")]
    [InlineData("\n\n")]
    [InlineData(Header)]
    public void Table_withoutPhases_isRefused(string text) => Assert.NotEmpty(Read(text).Faults);

    [Fact]
    public void Table_ofTooManyPhases_isRefused()
    {
        string rows = string.Concat(Enumerable.Range(0, 1001).Select(i => $"{i},0,0,0,0,0,0\n"));

        Assert.Equal(FaultCodes.Range, Assert.Single(Read($"{Header}\n{rows}").Faults).Code);
    }

    [Fact]
    public void Bytes_thatAreNoText_areRefused() => Assert.Equal(FaultCodes.Syntax, Assert.Single(GaitReader.Read(new byte[] { 0xFF, 0x00, 0xC3 }).Faults).Code);

    // Whatever a file holds, the answer is a gait or faults, never an exception.
    [Fact]
    public void AnyText_isReadOrRefused() => Gen.String[Gen.Char["phasefxyzNm,;\"\n\r-.17 é\0"], 0, 200].Sample(text =>
    {
        GaitReading reading = Read(text);
        return reading.Gait is null == !reading.Faults.IsEmpty;
    });

    [Fact]
    public void ByteOrderMark_atTheStart_isPassedOver() => Assert.Empty(Read($"\uFEFF{Header}\n0,0,0,-1,0,0,0").Faults);

    private static GaitReading Read(string text) => GaitReader.Read(Encoding.UTF8.GetBytes(text));
}
