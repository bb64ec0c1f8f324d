using Halfpin.TestKit.CrossProgram;
using Xunit;

namespace Halfpin.CrossProgram.Tests;

/// <summary>Skips a test, with a plain message, where the program that it compares with is not installed.</summary>
internal static class Need
{
    public static void Z88Program() => Assert.SkipUnless(Z88.IsInstalled, Z88.Missing);

    public static void CalculixProgram() => Assert.SkipUnless(Calculix.IsInstalled, Calculix.Missing);
}
