using Microsoft.EntityFrameworkCore;

namespace Halfpin.Storage.Work;

/// <summary>The tables behind <see cref="WorkStore"/>.</summary>
internal sealed class WorkDatabase(string path) : DbContext
{
    public DbSet<WorkRow> Works => Set<WorkRow>();

    public DbSet<RevisionRow> Revisions => Set<RevisionRow>();

    public DbSet<StockRow> Stocks => Set<StockRow>();

    protected override void OnConfiguring(DbContextOptionsBuilder options) => options.UseSqlite($"Data Source={path}");

    protected override void OnModelCreating(ModelBuilder model)
    {
        model.Entity<WorkRow>().HasKey(w => w.Id);
        model.Entity<RevisionRow>().HasKey(r => new { r.WorkId, r.Number });
        model.Entity<RevisionRow>().HasOne<WorkRow>().WithMany().HasForeignKey(r => r.WorkId).OnDelete(DeleteBehavior.Cascade);
        model.Entity<StockRow>().HasKey(s => s.WorkId);
        model.Entity<StockRow>().HasOne<WorkRow>().WithOne().HasForeignKey<StockRow>(s => s.WorkId).OnDelete(DeleteBehavior.Cascade);
    }
}

internal sealed class WorkRow
{
    public required string Id { get; init; }

    public required string Title { get; set; }

    public required DateTime ChangedUtc { get; set; }

    public required int Position { get; set; }
}

internal sealed class RevisionRow
{
    public required string WorkId { get; init; }

    public required int Number { get; init; }

    public required string Words { get; init; }

    public required byte[] CaseJson { get; init; }
}

internal sealed class StockRow
{
    public required string WorkId { get; init; }

    public required string FileName { get; init; }

    public required byte[] Bytes { get; init; }
}
