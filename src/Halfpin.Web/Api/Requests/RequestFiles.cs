using Halfpin.Stability;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Gaits;
using Halfpin.Storage.Stocks;
using Halfpin.Web.Api.Problems;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Net.Http.Headers;

namespace Halfpin.Web.Api.Requests;

/// <summary>The files that a request carries, read with every fault.</summary>
/// <param name="Case">The case; null when there is none.</param>
/// <param name="Stock">The stock; null when there is none.</param>
/// <param name="Gait">The table of gait; null when there is none.</param>
/// <param name="Problem">Why the request cannot be answered; null when it can.</param>
internal sealed record RequestFiles(CaseReading? Case, StockReading? Stock, GaitReading? Gait, Problem? Problem)
{
    /// <summary>Most bytes of a request with several files and what is between them.</summary>
    public const int MaxFormBytes = CaseReader.MaxBytes + StockReader.MaxBytes + (64 * 1024);

    private const string Json = "application/json";
    private const string Form = "multipart/form-data";

    private static readonly CaseReader _reader = new(CaseValidity.Rules);

    /// <summary>Reads the body of a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="further">Parts that may come with the case: stock or gait; null when none may.</param>
    /// <param name="mayBeEmpty">True when there need be no case.</param>
    public static async Task<RequestFiles> ReadAsync(HttpRequest request, string? further, bool mayBeEmpty)
    {
        string encoding = request.Headers.ContentEncoding.ToString();
        bool isJson = MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type) && type.MediaType.Equals(Json, StringComparison.OrdinalIgnoreCase);
        bool isForm = type is not null && further is not null && type.MediaType.Equals(Form, StringComparison.OrdinalIgnoreCase);
        if (request.ContentType is null && mayBeEmpty && request.ContentLength is null or 0 && !request.Headers.ContainsKey(HeaderNames.TransferEncoding))
        {
            return new(null, null, null, null);
        }

        if (encoding.Length > 0 || !(isJson || isForm))
        {
            string kinds = further is null ? Json : $"{Json}, or {Form} with parts case and {further}";
            return Refuse(ProblemKind.MediaType, $"The body is {(encoding.Length > 0 ? "compressed" : request.ContentType is null ? "of no stated type" : "of another type")}; {kinds} is taken.");
        }

        try
        {
            return isForm ? await ReadFormAsync(request, further!).ConfigureAwait(false) : await ReadJsonAsync(request).ConfigureAwait(false);
        }
        catch (BadHttpRequestException e) when (e.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            return TooLarge(MaxFormBytes);
        }
        catch (Exception e) when (e is InvalidDataException or IOException)
        {
            return Refuse(ProblemKind.NotJson, isForm ? "The parts of the body cannot be told apart." : "The body did not arrive whole.");
        }
    }

    private static async Task<RequestFiles> ReadJsonAsync(HttpRequest request)
    {
        if (request.ContentLength > CaseReader.MaxBytes)
        {
            return TooLarge(CaseReader.MaxBytes);
        }

        byte[]? body = await UpToAsync(request.Body, CaseReader.MaxBytes, (int)(request.ContentLength ?? 0), request.HttpContext.RequestAborted).ConfigureAwait(false);
        return body is null ? TooLarge(CaseReader.MaxBytes) : Of(_reader.Read(body), null, null);
    }

    private static async Task<RequestFiles> ReadFormAsync(HttpRequest request, string further)
    {
        if (request.ContentLength > MaxFormBytes)
        {
            return TooLarge(MaxFormBytes);
        }

        // Kept in memory: nothing of a request is written to disk.
        FormOptions options = new()
        {
            MemoryBufferThreshold = MaxFormBytes,
            MultipartBodyLengthLimit = MaxFormBytes,
            BufferBodyLengthLimit = MaxFormBytes,
            ValueCountLimit = 4,
            ValueLengthLimit = 0,
            MultipartHeadersCountLimit = 8,
            MultipartHeadersLengthLimit = 4096,
        };
        IFormCollection form = await request.ReadFormAsync(options, request.HttpContext.RequestAborted).ConfigureAwait(false);
        string[] strangers = [.. form.Keys.Concat(form.Files.Select(f => f.Name)).Where(n => n != ProblemError.Case && n != further)];
        if (strangers.Length > 0 || form.Files.GroupBy(f => f.Name).Any(g => g.Count() > 1) || form.Files[ProblemError.Case] is not IFormFile first)
        {
            return Refuse(ProblemKind.NotJson, $"The parts are to be files named case and {further}, each once; case is required.");
        }

        StockReading? stock = null;
        GaitReading? gait = null;
        if (form.Files[further] is IFormFile second)
        {
            byte[] bytes = await BytesAsync(second).ConfigureAwait(false);
            (stock, gait) = further == ProblemError.Stock ? (StockReader.Read(bytes, StockName(second)), null) : ((StockReading?)null, GaitReader.Read(bytes));
        }

        return Of(_reader.Read(await BytesAsync(first).ConfigureAwait(false)), stock, gait);
    }

    private static RequestFiles Of(CaseReading reading, StockReading? stock, GaitReading? gait) => new(reading, stock, gait,
        !reading.Faults.IsEmpty ? Problems.Problem.Of(ProblemKind.InvalidCase, ProblemError.Case, reading.Faults)
        : stock is { Faults.IsEmpty: false } ? Problems.Problem.Of(ProblemKind.InvalidStock, ProblemError.Stock, stock.Faults)
        : gait is { Faults.IsEmpty: false } ? Problems.Problem.Of(ProblemKind.InvalidGait, ProblemError.Gait, gait.Faults)
        : null);

    // The reader takes the kind and a title from the file's name; it opens nothing.
    private static string StockName(IFormFile file) =>
        file.ContentType.StartsWith("text/csv", StringComparison.OrdinalIgnoreCase) && !file.FileName.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) ? "stock.csv" : Path.GetFileName(file.FileName);

    private static async Task<byte[]> BytesAsync(IFormFile file)
    {
        using MemoryStream copy = new((int)file.Length);
        await file.CopyToAsync(copy).ConfigureAwait(false);
        return copy.ToArray();
    }

    // Null when there is more than may be.
    private static async Task<byte[]?> UpToAsync(Stream body, int most, int expected, CancellationToken left)
    {
        using MemoryStream all = new(expected);
        byte[] buffer = new byte[32 * 1024];
        int read;
        while ((read = await body.ReadAsync(buffer, left).ConfigureAwait(false)) > 0)
        {
            if (all.Length + read > most)
            {
                return null;
            }

            all.Write(buffer, 0, read);
        }

        return all.ToArray();
    }

    private static RequestFiles TooLarge(int most) => Refuse(ProblemKind.TooLarge, $"At most {most} bytes are taken.");

    private static RequestFiles Refuse(ProblemKind kind, string detail) => new(null, null, null, new(kind, detail));
}
