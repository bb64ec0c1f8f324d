namespace Halfpin.Storage.Tables;

/// <summary>A kind of long work whose rows are kept.</summary>
/// <param name="Word">What it is called.</param>
/// <param name="Same">What must be the same to go on with it, listed in words.</param>
public sealed record WorkKind(string Word, string Same);
