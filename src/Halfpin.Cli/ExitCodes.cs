using Halfpin.Domain.Assessments;

namespace Halfpin.Cli;

/// <summary>Exit codes. Documented in the README; scripts rely on them.</summary>
internal static class ExitCodes
{
    public const int Done = 0;
    public const int Internal = 1;
    public const int Usage = 2;
    public const int InvalidInput = 3;
    public const int CannotAnalyse = 4;
    public const int File = 5;
    public const int VerificationMismatch = 7;

    /// <summary>Stopped by the user: 128 and the number of the signal, as shells have it.</summary>
    public const int Interrupted = 130;

    /// <summary>What frames of these statuses end a verb with.</summary>
    public static int Of(IEnumerable<FrameStatus> frames) =>
        frames.Any(s => s is FrameStatus.Mechanism or FrameStatus.Invalid) ? CannotAnalyse : Done;
}
