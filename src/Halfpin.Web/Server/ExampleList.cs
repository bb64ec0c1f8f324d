using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Cases;

namespace Halfpin.Web.Server;

/// <summary>The example cases, read once, beside whatever goes on meanwhile.</summary>
internal sealed class ExampleList(WorkbenchOptions options)
{
    private readonly Task<ImmutableArray<(string Name, Case Case)>> _reading = Task.Run(() => Read(options));

    /// <summary>The examples by name; waits until they are read.</summary>
    public ImmutableArray<(string Name, Case Case)> All => _reading.GetAwaiter().GetResult();

    private static ImmutableArray<(string Name, Case Case)> Read(WorkbenchOptions options) =>
        [.. options.Examples.Select(e => (e.Name, new CaseReader(CaseValidity.Rules).Read(e.Json).Case ?? throw new InvalidDataException($"Example {e.Name} has faults.")))];
}
