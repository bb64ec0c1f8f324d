using System.Globalization;
using Halfpin.Domain.Assessments;
using Spectre.Console;

namespace Halfpin.Cli.Output;

/// <summary>A dynamisation report on the screen.</summary>
internal static class DynamisationTables
{
    public static void Print(DynamisationReport report, IAnsiConsole console)
    {
        console.WriteLine(report.CaseTitle);
        console.WriteLine($"{FrameTables.Sign(report.Gate.Verdict)} {report.Gate.Message} {report.Gate.Cure}".TrimEnd());
        if (report.Stages.IsEmpty)
        {
            console.WriteLine("No frame of this case has stages. Add them under stages, or name a frame to look for clamps to loosen.");
        }

        foreach (IGrouping<string, StageResult> frame in report.Stages.GroupBy(s => s.Frame))
        {
            console.Write(new Rule(Markup.Escape(frame.Key)) { Justification = Justify.Left });
            Stages([.. frame], console);
            foreach (LooseningSearched search in report.Searches.Where(s => s.Frame == frame.Key))
            {
                Proposals(search, report, console);
            }

            console.WriteLine();
        }

        console.WriteLine(report.SafetyNote);
    }

    private static void Stages(StageResult[] stages, IAnsiConsole console)
    {
        Table table = new() { Border = TableBorder.Rounded };
        table.AddColumn("Stage");
        foreach (string heading in new[] { "Axial\nN/mm", "Kept AP / ML\n%", "Kept torsion\n%", "Axial / shear\nmm", "Twist\n°", "Frame\ncarries" })
        {
            table.AddColumn(new TableColumn(heading).RightAligned());
        }

        foreach (StageResult s in stages)
        {
            if (s.Fractures.IsEmpty)
            {
                table.AddRow([.. Row(s.Name, s.Stiffness, s.Kept, s.Motion).Select(Markup.Escape)]);
            }

            for (int i = 0; i < s.Fractures.Length; i++)
            {
                StageFracture f = s.Fractures[i];
                string least = s.Id != stages[0].Id && s.LeastKeptFracture == i + 1 ? " (keeps least)" : "";
                table.AddRow([.. Row($"{s.Name}, fracture {i + 1}{least}", f.Stiffness, f.Kept, f.Motion).Select(Markup.Escape)]);
            }
        }

        console.Write(table);
        foreach (StageResult s in stages)
        {
            if (s.Diagnosis is Diagnosis d)
            {
                console.WriteLine($"{s.Name}: {d.Message} Try: {d.Try}");
            }

            foreach ((string at, BoneContact? contact) in s.Fractures.IsEmpty ? [("", s.Contact)] : s.Fractures.Select((f, i) => ($", fracture {i + 1}", f.Contact)))
            {
                foreach (string line in ContactLines.Stiffness(contact))
                {
                    console.WriteLine($"{s.Name}{at}: {line}");
                }
            }

            if (s.FirstLimit is FirstLimit first)
            {
                console.WriteLine($"{s.Name}: first limit as an axial load grows once (not a load to allow): {LoadWords.Limit(first, null)}.");
            }

            foreach (string warning in s.Warnings)
            {
                console.WriteLine($"! {s.Name}: {warning}");
            }
        }
    }

    private static IEnumerable<string> Row(string name, FourStiffnesses? stiffness, KeptStiffness? kept, FractureMotion? motion)
    {
        yield return name;
        yield return stiffness is FourStiffnesses f ? f.AxialNPerMm == 0 ? "free" : N(f.AxialNPerMm, "0") : "–";
        yield return kept is KeptStiffness k ? $"{N(100 * k.Ap, "0")} / {N(100 * k.Ml, "0")}" : "–";
        yield return kept is KeptStiffness t ? N(100 * t.Torsion, "0") : "–";
        yield return motion is { LoadN: > 0 } m ? $"{N(m.AxialMm, "0.00")} / {N(m.ShearMm, "0.00")}" : "–";
        yield return motion is { LoadN: > 0 } w ? N(Math.Abs(w.TwistDeg), "0.00") : "–";
        yield return motion?.FrameShare is double share ? N(100 * share, "0") + " %" : "–";
    }

    private static void Proposals(LooseningSearched search, DynamisationReport report, IAnsiConsole console)
    {
        console.WriteLine(search.Message);
        foreach (LooseningProposal p in report.Proposals.Where(p => p.Frame == search.Frame))
        {
            console.WriteLine($"- {string.Join(", ", p.Clamps)}: keeps AP {N(100 * p.Kept.Ap, "0")} %, ML {N(100 * p.Kept.Ml, "0")} %, torsion {N(100 * p.Kept.Torsion, "0")} %{(p.ClosingMm is double mm ? $"; closes by {N(mm, "0.00")} mm" : "")}");
        }
    }

    private static string N(double value, string digits) => value.ToString(digits, CultureInfo.InvariantCulture);
}
