using System.CommandLine;
using Halfpin.Web.Server;

namespace Halfpin.Cli.Verbs;

/// <summary>Opens the workbench in the browser.</summary>
internal sealed class ServeVerb : Verb
{
    public ServeVerb(Terminal terminal)
        : base("serve", "Open the workbench in the browser.", "halfpin serve")
    {
        Option<int> port = new("--port") { DefaultValueFactory = _ => 5757 };
        Options.Add(port);
        SetAction(run => { WorkbenchServer.Build(run.GetValue(port)).Run(); return 0; });
    }
}
