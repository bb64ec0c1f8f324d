using System.Collections.Immutable;
using System.Text.Json;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Json;

namespace Halfpin.Cli.Output;

/// <summary>Tells everything that is wrong with a case in one answer.</summary>
internal static class FaultPrinter
{
    public static void Print(string path, ImmutableArray<Fault> faults, bool json, Terminal terminal)
    {
        if (json)
        {
            terminal.Out.WriteLine(JsonSerializer.Serialize(
                new { format = "halfpin-faults", formatVersion = 1, faults }, HalfpinJson.Options));
            return;
        }

        string name = path == "-" ? "the case" : path;
        terminal.Error.WriteLine(faults.Length == 1 ? $"{name} cannot be used: 1 fault." : $"{name} cannot be used: {faults.Length} faults.");
        foreach (Fault fault in faults)
        {
            terminal.Error.WriteLine();
            terminal.Error.WriteLine($"  {(fault.Pointer.Length == 0 ? "(whole file)" : fault.Pointer)}  [{fault.Code}]");
            terminal.Error.WriteLine($"    {fault.Message}");
            terminal.Error.WriteLine($"    Allowed: {fault.Allowed}");
            terminal.Error.WriteLine($"    Try: {fault.Try}");
        }
    }
}
