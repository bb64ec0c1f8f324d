using System.Collections.Immutable;
using Halfpin.Domain.Cases;
using Halfpin.Stability;
using Halfpin.Storage.Cases;

namespace Halfpin.Web.Server;

/// <summary>The example cases, read once.</summary>
internal sealed class ExampleList(WorkbenchOptions options)
{
    /// <summary>The examples by name.</summary>
    public ImmutableArray<(string Name, Case Case)> All { get; } =
        [.. options.Examples.Select(e => (e.Name, new CaseReader(CaseValidity.Rules).Read(e.Json).Case ?? throw new InvalidDataException($"Example {e.Name} has faults.")))];
}
