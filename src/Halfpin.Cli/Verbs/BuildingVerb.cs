using System.CommandLine;
using Halfpin.Cli.Output;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Stocks;

namespace Halfpin.Cli.Verbs;

/// <summary>A verb on the building of one frame, from a stock or without one.</summary>
internal abstract class BuildingVerb : Verb
{
    private readonly Argument<string> _path = CaseArgument();
    private readonly Option<string> _frame = new("--frame") { Description = "The id of the frame.", Required = true };
    private readonly Option<string?> _stock = new("--stock") { Description = "Your own catalogue with quantities, JSON or CSV (docs/stock-file.md)." };

    protected BuildingVerb(Terminal terminal, string name, string description, params string[] examples)
        : base(name, description, examples)
    {
        Terminal = terminal;
        Arguments.Add(_path);
        Options.Add(_frame);
        Options.Add(_stock);
        SetAction(run => WithCase(run.GetValue(_path)!, run.GetValue(Json), terminal, (value, reading) =>
        {
            string id = run.GetValue(_frame)!;
            if (!HasFrame(value, id, terminal))
            {
                return ExitCodes.Usage;
            }

            StockReading? stock = run.GetValue(_stock) is string file ? StockSource.Read(file) : null;
            if (stock is { Stock: null })
            {
                FaultPrinter.Print(run.GetValue(_stock)!, stock.Faults, run.GetValue(Json), terminal);
                return ExitCodes.InvalidInput;
            }

            return Build(run, value, value.Frames.First(f => f.Id == id), reading, stock);
        }));
    }

    /// <summary>The streams of the run.</summary>
    protected Terminal Terminal { get; }

    /// <summary>Does the verb's work on a frame of a good case and a good stock.</summary>
    protected abstract int Build(ParseResult run, Case value, Frame frame, CaseReading reading, StockReading? stock);
}
