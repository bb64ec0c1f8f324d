using System.Security.Cryptography;
using System.Text;
using Halfpin.Domain.Validity;
using Halfpin.Workbench.Documents;
using Xunit;

namespace Halfpin.Workbench.Tests;

public sealed class WorkStockTests : IDisposable
{
    private readonly Works _works = new();

    [Fact]
    public void Stock_ofAnotherRun_isTheOneTaken()
    {
        byte[] file = Works.Example("demo-stock.csv");
        Workspace work = _works.Begin();
        Assert.Empty(work.TakeStock("demo-stock.csv", file));
        Workspace again = _works.Open().Find(work.Id)!;
        Assert.Equal(file, again.StockFile!.Bytes);
        Assert.Equal(work.Stock!.Items, again.Stock!.Items);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(file)), again.StockSha256);
    }

    [Fact]
    public void Stock_withFaults_leavesTheOneHeld()
    {
        Workspace work = _works.Begin();
        work.TakeStock("demo-stock.json", Works.Example("demo-stock.json"));
        string? before = work.StockSha256;
        Assert.Contains(work.TakeStock("mine.csv", Encoding.UTF8.GetBytes("kind,name,quantity,diameterMm\nrod,Rod,many,11\n")), f => f.Pointer == "row 2, column quantity" && f.Code == FaultCodes.Type);
        Assert.Equal(before, work.StockSha256);
    }

    [Fact]
    public void Stock_dropped_isGoneInAnotherRun()
    {
        Workspace work = _works.Begin();
        work.TakeStock("demo-stock.csv", Works.Example("demo-stock.csv"));
        work.DropStock();
        Assert.Null(work.Stock);
        Assert.Null(_works.Open().Find(work.Id)!.StockFile);
    }

    [Fact]
    public void Stock_ofADeletedWork_goesWithIt()
    {
        WorkspaceList list = _works.Open();
        Workspace work = list.Begin(Works.Demo, "opened for a test");
        work.TakeStock("demo-stock.csv", Works.Example("demo-stock.csv"));
        list.Delete(work.Id);
        Assert.Null(_works.Store().FindStock(work.Id));
    }

    [Fact]
    public void Stock_taken_isNoStepOfUndo()
    {
        Workspace work = _works.Begin();
        int told = 0;
        work.Changed += () => told++;
        work.TakeStock("demo-stock.csv", Works.Example("demo-stock.csv"));
        Assert.Null(work.UndoWords);
        Assert.Equal(1, told);
    }

    public void Dispose() => _works.Dispose();
}
