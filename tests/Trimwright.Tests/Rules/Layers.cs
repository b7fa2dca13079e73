using System.Reflection;
using System.Text.RegularExpressions;
using Trimwright.Core;
using Trimwright.Drawing;

namespace Trimwright.Tests.Rules;

/// <summary>
/// ARCHITECTURE.md as tests, finer than <see cref="HouseTests"/>: line by line, comments and strings left out, with the uses
/// that need no using. Each message says where, and what to do instead.
/// </summary>
public class Layers
{
    private static readonly string[] Core = [.. Rooms.Core.Select(room => room.Split('.')[0])];

    private static string Folder(string file) => file.Split('/') is [_, _, var folder, _, ..] ? folder : Path.GetFileNameWithoutExtension(file);

    [Fact]
    public void No_layer_of_Core_mentions_a_later_one_in_any_way()
    {
        var wrong = new List<string>();
        int mentions = 0;
        foreach (string file in Sources.Files("src/Core", ".cs"))
        {
            string own = Folder(file);
            foreach ((int line, string code) in Sources.Code(file))
                foreach (string used in Mentions(code).Where(u => u != own))
                {
                    mentions++;
                    if (Array.IndexOf(Core, used) > Array.IndexOf(Core, own))
                        wrong.Add($"{file}:{line}: {own} uses {used}, which comes after it. Move what both need into {own} or above, or let {used} do the asking.");
                }
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{mentions} mentions of another folder");
        Assert.True(mentions > 100, "the scan sees too few uses to mean anything; mend it");
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    // A namespace by its whole name, by its last part before a type, or the front door's own types, which need no using.
    private static IEnumerable<string> Mentions(string code)
    {
        foreach (string layer in Core)
            if (layer == "Prediction" ? Regex.IsMatch(code, @"\b(Prediction|Circumstances)\b")
                : Regex.IsMatch(code, $@"Trimwright\.Core\.{layer}\b|(?<![\w.]){layer}\.[A-Z]\w*\.[A-Z]"))
                yield return layer;
    }

    [Theory]
    [InlineData("Core", "MathNet.Numerics")]
    [InlineData("Drawing", "Trimwright.Core", "PdfSharp", "PdfSharp.System")]
    [InlineData("Workshop", "Trimwright.Core", "Microsoft.Data.Sqlite", "SQLitePCLRaw.core")]
    [InlineData("App", "Trimwright.Core", "Trimwright.Drawing", "Trimwright.Workshop", "Spectre.Console", "Spectre.Console.Cli", "Ical.Net", "QRCoder")]
    public void A_project_refers_to_the_base_library_and_to_nothing_but_these(string project, params string[] allowed)
    {
        Assembly assembly = project switch
        {
            "Core" => typeof(Prediction).Assembly,
            "Drawing" => typeof(Svg).Assembly,
            "Workshop" => typeof(global::Trimwright.Workshop.Store).Assembly,
            _ => typeof(global::Trimwright.App.Faults.Exit).Assembly,
        };
        foreach (string name in assembly.GetReferencedAssemblies().Select(r => r.Name!))
            Assert.True(name.StartsWith("System.", StringComparison.Ordinal) || allowed.Contains(name) || (project == "App" && IsOfThePage(name)),
                $"src/{project} refers to {name}; it may use {string.Join(", ", allowed)}. Put what needs {name} into App, or into a project of its own beside Drawing.");
    }

    // The page stands on the web framework that comes with .NET.
    private static bool IsOfThePage(string name) => name.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal)
        || name.StartsWith("Microsoft.Extensions.", StringComparison.Ordinal) || name is "Microsoft.JSInterop" or "Microsoft.Win32.Primitives" || name == "Microsoft.Net.Http.Headers";

    [Fact]
    public void Commands_and_pages_ask_and_compute_nothing_themselves()
    {
        // What starts a computation or a drawing; loading, and reading the records that come out, is a command's business.
        string[] starts =
        [
            "Prediction.Of", "Bookkeeper", "RestSearch", "Equilibrium", "FloatingBody", "FallingBody", "Falls.", "Touch.Of",
            "BodyMesh", "SolidProperties", "LureStrength.Of", "Planner.", "Knowing.Of", "Unseen.Of", "SwapTable.", "BuildPlan.Of", "Svg.", "LureInWater", "Stl.", "SheetSet", "Pager", "Pdf.",
        ];
        foreach (string file in Sources.Files("src/App", ".cs").Where(f => f.Contains("/Commands/", StringComparison.Ordinal) || f.Contains("/Pages/", StringComparison.Ordinal)))
            foreach ((int line, string code) in Sources.Code(file))
                foreach (string start in starts)
                    Assert.False(code.Contains(start, StringComparison.Ordinal),
                        $"{file}:{line} calls {start.TrimEnd('.')}; let a question in src/App/Questions do that and hand back the record.");
    }

    [Fact]
    public void Pages_and_sessions_have_what_takes_time_worked_out_by_the_scheduler()
    {
        string[] starts = ["Look.At(", "Look.Following(", ".With(unsure", "Unsure.Of(", "ThinWood.Of(", "Drawn.InTheRound("];
        foreach (string file in Sources.Files("src/App", ".cs").Concat(Sources.Files("src/App", ".razor")).Where(f => f.Contains("/Pages/", StringComparison.Ordinal) || f.Contains("/Sessions/", StringComparison.Ordinal) || f.Contains("/Gate/", StringComparison.Ordinal)))
            foreach ((int line, string code) in Sources.Code(file))
                foreach (string start in starts)
                    Assert.False(code.Contains(start, StringComparison.Ordinal), $"{file}:{line} calls {start.TrimEnd('(')} itself; ask the scheduler, with a question from src/App/Questions.");
    }

    [Fact]
    public void What_is_begun_and_not_awaited_fails_nowhere_unseen()
    {
        foreach (string file in Sources.Files("src", ".cs").Concat(Sources.Files("src", ".razor")))
            foreach ((int line, string code) in Sources.Code(file))
                Assert.False(Regex.IsMatch(code, @"\basync\s+void\b"), $"{file}:{line} is async void: what it throws ends the process. Return a Task.");
    }
}
