using Halfpin.Storage.Tables;
using Parquet;
using Xunit;

namespace Halfpin.Storage.Tests;

public sealed class StudyTableTests : IDisposable
{
    private static readonly WorkKind _kind = new("reckoning", "ruler and lamp");

    private readonly string _folder = Directory.CreateTempSubdirectory("halfpin-test").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Journal_tornInItsLastChunk_givesTheWholeOnesAndGoesOn()
    {
        string path = Path.Combine(_folder, "s.part");
        using (RowJournal journal = RowJournal.Begin(path, "study 17"))
        {
            journal.Append([1, 2, 3]);
            journal.Append([4, 5, 6, 7]);
        }

        File.WriteAllBytes(path, File.ReadAllBytes(path)[..^2]);
        List<byte[]> taken = [];
        using (RowJournal journal = RowJournal.GoOn(path, "study 17", _kind, taken.Add))
        {
            journal.Append([8]);
            Assert.Equal([[1, 2, 3], [8]], journal.Chunks());
        }

        Assert.Equal([[1, 2, 3]], taken);
    }

    [Fact]
    public void Journal_withAFlippedBit_dropsThatChunk()
    {
        string path = Path.Combine(_folder, "s.part");
        using (RowJournal journal = RowJournal.Begin(path, "study 17"))
        {
            journal.Append([1, 2, 3]);
        }

        byte[] bytes = File.ReadAllBytes(path);
        bytes[^1] ^= 4;
        File.WriteAllBytes(path, bytes);
        List<byte[]> taken = [];
        RowJournal.GoOn(path, "study 17", _kind, taken.Add).Dispose();

        Assert.Empty(taken);
    }

    [Fact]
    public void Journal_ofAnotherStudy_isRefused()
    {
        string path = Path.Combine(_folder, "s.part");
        RowJournal.Begin(path, "study 17").Dispose();

        Assert.Contains("another reckoning: ruler and lamp must be the same", Assert.Throws<IOException>(() => RowJournal.GoOn(path, "study 18", _kind, _ => { })).Message, StringComparison.Ordinal);
        Assert.Throws<IOException>(() => RowJournal.Begin(path, "study 17"));
    }

    [Fact]
    public async Task Parquet_readBack_hasEveryRowAndNullForWhatIsMissing()
    {
        string path = Path.Combine(_folder, "t.parquet");
        Write(path, TableWriter.GroupRows + 37);
        await using ParquetReader reader = await ParquetReader.CreateAsync(path, cancellationToken: TestContext.Current.CancellationToken);

        Assert.Equal(2, reader.RowGroupCount);
        using ParquetRowGroupReader last = reader.OpenRowGroupReader(1);
        Assert.Equal(37, last.RowCount);
        double?[] numbers = new double?[37];
        await last.ReadAsync<double>(reader.Schema.DataFields[1], numbers, cancellationToken: TestContext.Current.CancellationToken);
        Assert.Null(numbers[^2]);
        Assert.Equal(1 / (double)(TableWriter.GroupRows + 37), numbers[^1]);
    }

    [Theory]
    [InlineData("t.csv")]
    [InlineData("t.parquet")]
    public void Table_writtenTwice_hasTheSameBytes(string name)
    {
        string path = Path.Combine(_folder, name);
        Write(path, 500);
        byte[] first = File.ReadAllBytes(path);
        Write(path, 500);

        Assert.Equal(first, File.ReadAllBytes(path));
    }

    [Fact]
    public void Csv_cells_areInFullAndEmptyWhereMissing()
    {
        string path = Path.Combine(_folder, "t.csv");
        Write(path, 3);

        Assert.Equal("row,numberMm,word\n0,1,even\n1,,\n2,0.3333333333333333,even\n", File.ReadAllText(path));
    }

    [Fact]
    public void Table_thatWasNotFinished_leavesNothing()
    {
        using (TableWriter writer = TableWriter.Create(Path.Combine(_folder, "t.csv"), [new("row", ColumnKind.Whole)]))
        {
            writer.Set(0, 5L);
            writer.EndRow();
        }

        Assert.Empty(Directory.GetFiles(_folder));
    }

    // The last but one number and every odd word are missing.
    private static void Write(string path, int rows)
    {
        using TableWriter writer = TableWriter.Create(path, [new("row", ColumnKind.Whole), new("numberMm", ColumnKind.Number), new("word", ColumnKind.Word)]);
        for (int i = 0; i < rows; i++)
        {
            writer.Set(0, (long)i);
            writer.Set(1, i == rows - 2 ? double.NaN : 1.0 / (i + 1));
            writer.Set(2, i % 2 == 0 ? "even" : null);
            writer.EndRow();
        }

        writer.Finish();
    }
}
