using System.Runtime.InteropServices;

namespace Halfpin.Cli;

/// <summary>Ctrl-C asks a study to stop after the batch under way; a second one ends the program at once.</summary>
internal sealed class StopSignal : IDisposable
{
    private readonly CancellationTokenSource _source = new();
    private readonly PosixSignalRegistration[] _registrations;

    public StopSignal()
    {
        _registrations = [PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop), PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop)];
    }

    public CancellationToken Token => _source.Token;

    public void Dispose()
    {
        foreach (PosixSignalRegistration registration in _registrations)
        {
            registration.Dispose();
        }

        _source.Dispose();
    }

    private void Stop(PosixSignalContext context)
    {
        if (!_source.IsCancellationRequested)
        {
            context.Cancel = true;
            _source.Cancel();
        }
    }
}
