using System.Diagnostics;
using System.Globalization;
using Trimwright.Pairs;

// What Core does most, timed in two builds of it that take turns.
//   work DEMOS                      does what is asked on standard input, a line for each: the time it took and how often it cut
//   pair NEWER OLDER DEMOS PAIRS    asks both builds by turns, prints a table, ends badly when this one is slower by more than a tenth
switch (args)
{
    case ["work", var demos]:
        Works.Attend(demos, Console.In, Console.Out);
        return 0;

    case ["pair", var newer, var older, var demos, var pairs]:
        return Pair(newer, older, demos, int.Parse(pairs, CultureInfo.InvariantCulture)) ? 0 : 1;

    default:
        Console.Error.WriteLine("work DEMOS, or pair NEWER OLDER DEMOS PAIRS");
        return 2;
}

static bool Pair(string newer, string older, string demos, int pairs)
{
    const double Most = 1.10;
    using Process now = Start(newer, demos), then = Start(older, demos);
    bool held = true;
    Console.WriteLine("| what | older, ms | this, ms | this / older: lower quartile | median | cuts, older and this |");
    Console.WriteLine("| --- | --- | --- | --- | --- | --- |");
    foreach (string work in Works.Names)
    {
        var ratios = new List<double>();
        var (best, bestOlder) = (double.MaxValue, double.MaxValue);
        (long cuts, long cutsOlder) = (0, 0);
        // The first two of each warm up. Who begins changes from pair to pair.
        for (int i = -2; i < pairs; i++)
        {
            double mine = 0, theirs = 0;
            if (i % 2 == 0) (mine, cuts) = Ask(now, work);
            (theirs, cutsOlder) = Ask(then, work);
            if (i % 2 != 0) (mine, cuts) = Ask(now, work);
            if (i < 0) continue;
            ratios.Add(mine / theirs);
            (best, bestOlder) = (Math.Min(best, mine), Math.Min(bestOlder, theirs));
        }
        ratios.Sort();
        double quartile = ratios[ratios.Count / 4];
        held &= quartile <= Most && cuts == cutsOlder;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"| {work} | {bestOlder:0.00} | {best:0.00} | {quartile:0.000} | {ratios[ratios.Count / 2]:0.000} | {cutsOlder} and {cuts} |"));
    }
    now.StandardInput.Close();
    then.StandardInput.Close();
    return held;
}

static Process Start(string program, string demos) =>
    Process.Start(new ProcessStartInfo("dotnet", [program, "work", demos]) { RedirectStandardInput = true, RedirectStandardOutput = true })!;

static (double Ms, long Cuts) Ask(Process process, string work)
{
    process.StandardInput.WriteLine(work);
    process.StandardInput.Flush();
    string[] said = (process.StandardOutput.ReadLine() ?? throw new InvalidOperationException($"{work} broke off")).Split(' ');
    return (double.Parse(said[0], CultureInfo.InvariantCulture), long.Parse(said[1], CultureInfo.InvariantCulture));
}
