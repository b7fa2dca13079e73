using System.Diagnostics;
using System.Globalization;
using System.Text;
using Trimwright.Frozen;

// asks INPUTS                             what would be asked
// freeze PROGRAM FIXTURES [--only TEXT]   asks everything of FIXTURES/inputs, keeps the answers in FIXTURES/answers.zip
// compare PROGRAM FIXTURES [OPTIONS]      asks again and tells what differs
//   --findings FILE   what may differ; nothing when left out
//   --share quick|sixth|all
//   --only TEXT       only asks with this in their names
//   --started         starts a process for each command
//   --table           every change, each number in a row, with its finding
// attend PROGRAM                          answers what is asked on standard input, for tests
// PROGRAM is the folder that trimwright.dll lies in.
var output = new StreamWriter(Console.OpenStandardOutput(), new UTF8Encoding(false)) { AutoFlush = true };
string? Option(string name) => Array.IndexOf(args, name) is var i and >= 0 ? args[i + 1] : null;
try
{
    return Run();
}
catch (Exception e)
{
    // Standard error may lead elsewhere by now.
    output.WriteLine(e);
    return 70;
}

int Run()
{
    switch (args)
    {
        case ["asks", var inputs]:
            foreach (Ask ask in Asks.Of(inputs)) output.WriteLine($"{ask.Name}: {string.Join("; ", ask.Commands.Select(c => string.Join(' ', c)))}");
            return 0;

        case ["freeze", var folder, var fixtures, ..]:
            {
                string inputs = Path.GetFullPath(Path.Combine(fixtures, "inputs")), answers = Path.GetFullPath(Path.Combine(fixtures, "answers.zip"));
                Ask[] asks = [.. Asks.Of(inputs).Where(a => Option("--only") is not { } only || a.Name.Contains(only, StringComparison.Ordinal))];
                using var bench = new Bench(Loaded(folder), inputs);
                var took = new Dictionary<string, (int Count, TimeSpan Time)>();
                Archive.Write(answers, asks.Select(ask => (ask, Timed(ask, bench, took))));
                // What takes longest, for whoever wonders where the time went.
                foreach ((string what, (int count, TimeSpan time)) in took.OrderByDescending(t => t.Value.Time))
                    output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{time.TotalSeconds,8:F1} s for {count,4} × {what}"));
                return 0;
            }

        case ["compare", var folder, var fixtures, ..]:
            {
                string inputs = Path.GetFullPath(Path.Combine(fixtures, "inputs")), answers = Path.GetFullPath(Path.Combine(fixtures, "answers.zip"));
                Findings findings = Option("--findings") is { } list ? Findings.Read(File.ReadAllText(list)) : Findings.None;
                string share = Option("--share") ?? "all";
                string? only = Option("--only");
                Ask[] asks = [.. Comparison.Share(Archive.Asks(answers), share).Where(a => only is null || a.Name.Contains(only, StringComparison.Ordinal))];
                IProgram program = args.Contains("--started") ? new StartedProgram(folder) : Loaded(folder);
                using var bench = new Bench(program, inputs);
                var comparison = new Comparison(findings, output, args.Contains("--table"));
                comparison.Head();
                foreach ((Ask ask, Answer frozen) in Archive.Read(answers, asks)) comparison.Hold(ask, frozen, bench.Ask(ask));
                return comparison.Close(all: share == "all" && only is null) ? 0 : 1;
            }

        case ["attend", var folder]:
            Attendant.Attend(new LoadedProgram(folder), Console.In, output);
            return 0;

        default:
            output.WriteLine("asks INPUTS, freeze PROGRAM FIXTURES, compare PROGRAM FIXTURES [--findings FILE] [--share quick|sixth|all] [--only TEXT] [--started] [--table], or attend PROGRAM");
            return 2;
    }
}

static IProgram Loaded(string folder) => OperatingSystem.IsWindows() ? new StartedProgram(folder) : new LoadedProgram(folder);

static Answer Timed(Ask ask, Bench bench, Dictionary<string, (int Count, TimeSpan Time)> took)
{
    long from = Stopwatch.GetTimestamp();
    Answer answer = bench.Ask(ask);
    string what = $"{ask.Command} {ask.Rest.How} {ask.Pace}";
    (int count, TimeSpan time) = took.GetValueOrDefault(what);
    took[what] = (count + 1, time + Stopwatch.GetElapsedTime(from));
    return answer;
}
