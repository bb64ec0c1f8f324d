using System.Text;
using Halfpin.Cli;

Console.OutputEncoding = Encoding.UTF8;
return new HalfpinCommand(new(Console.OpenStandardInput(), Console.Out, Console.Error, !Console.IsOutputRedirected)).Run(args);
