using Halfpin.Web.Tests;
using Xunit;

// One server for all; tests take turns, so that none waits for the places that another has taken.
[assembly: AssemblyFixture(typeof(RunningWorkbench))]
[assembly: CollectionBehavior(CollectionBehavior.CollectionPerAssembly)]
