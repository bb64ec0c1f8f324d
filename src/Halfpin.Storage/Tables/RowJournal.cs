using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace Halfpin.Storage.Tables;

/// <summary>
/// What long work, a study or a search, has done so far, appended to a file, so that work that was stopped or killed goes on from there. A chunk torn by a crash fails its checksum and is dropped with what follows. A workspace.
/// </summary>
/// <remarks>The file: "HPJ1", then chunks of length (4 bytes, little end first), SHA-256 (32) and content. The first chunk says which work it is.</remarks>
public sealed class RowJournal : IDisposable
{
    private const int Head = 36;

    private static readonly byte[] _mark = "HPJ1"u8.ToArray();

    private readonly FileStream _file;

    private RowJournal(FileStream file)
    {
        _file = file;
    }

    /// <summary>The journal that belongs to a table.</summary>
    public static string PathFor(string table) => $"{table}.part";

    /// <summary>Begins a journal.</summary>
    /// <param name="path">Its file, which must not exist: it would be unfinished work.</param>
    /// <param name="name">What makes the work this and no other, in a text.</param>
    /// <exception cref="IOException">It exists or cannot be written.</exception>
    public static RowJournal Begin(string path, string name)
    {
        RowJournal journal = new(new(path, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.Read));
        journal._file.Write(_mark);
        journal.Append(Encoding.UTF8.GetBytes(name));
        return journal;
    }

    /// <summary>Opens a journal to go on with it, cut back to its last whole chunk.</summary>
    /// <param name="path">Its file.</param>
    /// <param name="name">What it was begun with; that of other work is refused.</param>
    /// <param name="kind">Of what kind the work is and what makes it the same, for a refusal.</param>
    /// <param name="take">Is given each chunk in its order.</param>
    /// <exception cref="IOException">It cannot be read, is no journal, or belongs to other work.</exception>
    public static RowJournal GoOn(string path, string name, WorkKind kind, Action<byte[]> take)
    {
        FileStream file = new(path, FileMode.Open, FileAccess.ReadWrite, FileShare.Read);
        try
        {
            byte[] mark = new byte[_mark.Length];
            if (file.ReadAtLeast(mark, mark.Length, throwOnEndOfStream: false) < mark.Length || !mark.AsSpan().SequenceEqual(_mark))
            {
                throw new IOException($"{path} is not what was kept of a {kind.Word}. Name another file.");
            }

            if (Next(file) is not byte[] begun || Encoding.UTF8.GetString(begun) != name)
            {
                throw new IOException($"{path} belongs to another {kind.Word}: {kind.Same} must be the same. Delete it to start anew.");
            }

            long good = file.Position;
            while (Next(file) is byte[] chunk)
            {
                take(chunk);
                good = file.Position;
            }

            file.SetLength(good);
            file.Position = good;
            return new(file);
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    /// <summary>Appends a chunk and waits until the disk has it.</summary>
    public void Append(ReadOnlySpan<byte> content)
    {
        byte[] chunk = new byte[Head + content.Length];
        BinaryPrimitives.WriteInt32LittleEndian(chunk, content.Length);
        SHA256.HashData(content, chunk.AsSpan(4));
        content.CopyTo(chunk.AsSpan(Head));
        _file.Write(chunk);
        _file.Flush(flushToDisk: true);
    }

    /// <summary>All chunks of rows from the first on.</summary>
    public IEnumerable<byte[]> Chunks()
    {
        long end = _file.Position;
        _file.Position = _mark.Length;
        Next(_file);
        while (_file.Position < end && Next(_file) is byte[] chunk)
        {
            yield return chunk;
        }

        _file.Position = end;
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    // The chunk at the file's position; null at the end or where it is torn.
    private static byte[]? Next(FileStream file)
    {
        byte[] head = new byte[Head];
        if (file.ReadAtLeast(head, Head, throwOnEndOfStream: false) < Head)
        {
            return null;
        }

        int length = BinaryPrimitives.ReadInt32LittleEndian(head);
        if (length < 0 || length > file.Length - file.Position)
        {
            return null;
        }

        byte[] content = new byte[length];
        file.ReadExactly(content);
        return SHA256.HashData(content).AsSpan().SequenceEqual(head.AsSpan(4)) ? content : null;
    }
}
