using System.Collections.Immutable;

namespace Halfpin.Web.Api.Problems;

/// <summary>A kind of problem that the API answers with (RFC 9457).</summary>
/// <param name="Name">Last part of its stable address below /problems/.</param>
/// <param name="Status">HTTP status.</param>
/// <param name="Title">What it is, the same each time.</param>
/// <param name="Cure">What to do about it.</param>
internal sealed record ProblemKind(string Name, int Status, string Title, string Cure)
{
    public static readonly ProblemKind NotJson = new("not-json", 400, "The body cannot be read.", "Send UTF-8 JSON (RFC 8259), or parts as the operation describes them.");
    public static readonly ProblemKind NoKey = new("no-key", 401, "The access key is missing.", "Give the key that halfpin serve printed in the header Halfpin-Key, or open the printed address in a browser.");
    public static readonly ProblemKind ForeignOrigin = new("foreign-origin", 403, "The request comes from a page of another origin.", "Programs leave Origin out and give the key in the header Halfpin-Key; pages of others may not use this server.");
    public static readonly ProblemKind NotFound = new("not-found", 404, "There is nothing at this address.", "Check the id; what has ended or was deleted is forgotten after a while.");
    public static readonly ProblemKind PreconditionFailed = new("precondition-failed", 412, "The case has changed since you read it.", "Read it again, make your change on what is there now, and send its new ETag in If-Match.");
    public static readonly ProblemKind TooLarge = new("too-large", 413, "The body is too large.", "Check that it is the file it should be.");
    public static readonly ProblemKind MediaType = new("media-type", 415, "The body is of a kind that this operation does not take.", "Send the case as application/json, uncompressed.");
    public static readonly ProblemKind ForeignHost = new("foreign-host", 421, "This server answers only on its own loopback address.", "Use the address that halfpin serve printed.");
    public static readonly ProblemKind InvalidCase = new("invalid-case", 422, "The case has faults.", "Mend every entry of errors; each says where, what is allowed and what to try.");
    public static readonly ProblemKind InvalidStock = new("invalid-stock", 422, "The stock has faults.", "Mend every entry of errors; each says where, what is allowed and what to try.");
    public static readonly ProblemKind InvalidGait = new("invalid-gait", 422, "The table of gait has faults.", "Mend every entry of errors; each says where, what is allowed and what to try.");
    public static readonly ProblemKind InvalidParameter = new("invalid-parameter", 422, "The request's parameters have faults.", "Mend every entry of errors; its pointer names the parameter.");
    public static readonly ProblemKind KeyTaken = new("key-taken", 422, "The Idempotency-Key belongs to another request.", "Use a new key for a new request; the same key only to repeat one.");
    public static readonly ProblemKind PreconditionRequired = new("precondition-required", 428, "The change does not say what it is based on.", "Send the ETag that you read in If-Match.");
    public static readonly ProblemKind TooMany = new("too-many", 429, "As much long work runs as may.", "Wait for one to end, or stop one by DELETE; then try again.");
    public static readonly ProblemKind TookTooLong = new("took-too-long", 503, "The answer took longer than is allowed.", "Try again when less is going on; send fewer frames at once.");

    public static ImmutableArray<ProblemKind> All { get; } =
    [
        NotJson, NoKey, ForeignOrigin, NotFound, PreconditionFailed, TooLarge, MediaType, ForeignHost, InvalidCase, InvalidStock, InvalidGait,
        InvalidParameter, KeyTaken, PreconditionRequired, TooMany, TookTooLong,
    ];

    /// <summary>Its stable address.</summary>
    public string Address => $"/problems/{Name}";
}
