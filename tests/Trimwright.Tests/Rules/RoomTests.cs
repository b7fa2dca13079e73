using System.Text.RegularExpressions;
using Mono.Cecil;

namespace Trimwright.Tests.Rules;

/// <summary>Who may use whom in App, as ARCHITECTURE.md says it, on what was compiled, components of pages included.</summary>
public partial class RoomTests
{
    [Fact]
    public void The_page_lists_the_rooms_that_there_are_and_one_direction_between_them()
    {
        string[] folders = [.. Sources.Files("src/App", ".cs").Concat(Sources.Files("src/App", ".razor")).Select(f => f.Split('/')).Where(p => p.Length > 3).Select(p => p[2]).Distinct().Order(StringComparer.Ordinal)];
        string[] listed = [.. Rooms.App.Select(r => r.Room)];
        Assert.Equal(folders, listed.Order(StringComparer.Ordinal));
        Assert.Equal(listed, Rooms.Under("App").Where(listed.Contains));
        Assert.Equal(folders, Compiled.RoomsInUse.Order(StringComparer.Ordinal));
        for (int i = 0; i < listed.Length; i++)
            Assert.All(Rooms.App[i].Rooms, used => Assert.True(Array.IndexOf(listed, used) is >= 0 and var at && at < i, $"ARCHITECTURE.md: {listed[i]} uses {used}, which does not stand above it"));
        Assert.Equal(Directory.GetDirectories(Path.Combine(Here.Root, "src", "Core")).Select(d => Path.GetFileName(d)!).Where(d => d is not ("bin" or "obj")).Order(StringComparer.Ordinal),
            Rooms.Core.Where(r => !r.Contains('.')).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Each_room_uses_what_the_page_says_and_the_page_says_no_more()
    {
        var wrong = new List<string>();
        foreach ((string room, string[] rooms, string[] projects) in Rooms.App)
        {
            HashSet<string> usedRooms = [], usedProjects = [];
            foreach (TypeDefinition type in Compiled.Of(room))
                foreach (TypeReference used in Compiled.Uses(type))
                    if (Compiled.RoomOf(used) is { } other)
                    {
                        if (other == room) continue;
                        usedRooms.Add(other);
                        if (!rooms.Contains(other)) wrong.Add($"{type.FullName} uses {used.FullName}: {room} may not use {other}");
                    }
                    else if (Project().Match(used.FullName) is { Success: true } project)
                    {
                        usedProjects.Add(project.Groups[1].Value);
                        if (!projects.Contains(project.Groups[1].Value)) wrong.Add($"{type.FullName} uses {used.FullName}: {room} may not use {project.Groups[1].Value}");
                    }
            wrong.AddRange(rooms.Except(usedRooms).Concat(projects.Except(usedProjects)).Select(never => $"ARCHITECTURE.md lets {room} use {never}, and it never does"));
        }
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    [Fact]
    public void Scheduling_knows_of_Core_the_pace_alone_and_Commands_of_Drawing_what_is_chosen()
    {
        Only("Scheduling", "Trimwright.Core.", ["Trimwright.Core.Numerics.Pace"]);
        Only("Commands", "Trimwright.Drawing.", ["Trimwright.Drawing.Nose", "Trimwright.Drawing.Sheets.PaperSize", "Trimwright.Drawing.Sheets.SheetOptions"]);

        static void Only(string room, string of, string[] allowed)
        {
            TypeDefinition[] types = [.. Compiled.Of(room)];
            Assert.NotEmpty(types);
            foreach (TypeDefinition type in types)
                foreach (TypeReference used in Compiled.Uses(type).Where(u => u.FullName.StartsWith(of, StringComparison.Ordinal)))
                    Assert.True(allowed.Contains(used.FullName), $"{type.FullName} uses {used.FullName}; let a question do that");
        }
    }

    [Fact]
    public void A_question_knows_no_file_console_culture_clock_or_machine()
    {
        int questions = 0;
        var wrong = new List<string>();
        foreach (TypeDefinition type in Compiled.Of("Questions"))
        {
            if (type.Interfaces.Any(i => i.InterfaceType.Name == "IQuestion`1")) questions++;
            wrong.AddRange(Compiled.Uses(type).Select(u => u.FullName).Where(IsOutside).Select(u => $"{type.FullName} uses {u}"));
            wrong.AddRange(Compiled.Calls(type).Where(Asks).Select(c => $"{type.FullName} calls {c.FullName}"));
        }
        Assert.True(questions >= 15, $"only {questions} questions were found");
        Assert.True(wrong.Count == 0, string.Join("\n", wrong) + "\nA question takes values: let who asks load, save, print and look at the clock.");
    }

    [Theory]
    [InlineData("System.Console")]
    [InlineData("System.IO.File")]
    [InlineData("System.IO.FileStream")]
    [InlineData("Spectre.Console.Cli.Command`1")]
    [InlineData("Microsoft.AspNetCore.Http.HttpContext")]
    public void What_is_outside_is_known_by_its_name(string type) => Assert.True(IsOutside(type));

    [Fact]
    public void No_text_of_a_question_names_an_option_an_exit_status_a_command_or_a_file()
    {
        int texts = 0;
        foreach (TypeDefinition type in Compiled.Of("Questions"))
            foreach (string text in Compiled.Texts(type))
            {
                texts++;
                Assert.False(OfTheCommandLine().IsMatch(text), $"{type.FullName} says \"{text}\"; the question names the thing, the command adds how it is said there");
            }
        Assert.True(texts > 50, "too few texts were found to mean anything");
    }

    [Theory]
    [InlineData("Write for example --wall 2.5.", true)]
    [InlineData("see readings --json", true)]
    [InlineData("trimwright store list", true)]
    [InlineData("NAME.lure.json", true)]
    [InlineData("exit status 3", true)]
    [InlineData("-//Trimwright//Build plan//EN", false)]
    [InlineData("Add \"wire\" to the file.", false)]
    public void An_option_is_known_in_a_sentence(string text, bool is_) => Assert.Equal(is_, OfTheCommandLine().IsMatch(text));

    [Fact]
    public void A_question_and_its_answer_hold_values_and_nothing_that_says_where_they_come_from()
    {
        foreach (TypeDefinition type in Compiled.Of("Questions").Where(t => t.Methods.Any(m => m.Name == "<Clone>$")))
            foreach (PropertyDefinition property in type.Properties)
            {
                Assert.False(Source().IsMatch(property.Name), $"{type.FullName} has {property.Name}: that is the business of who asks");
                Assert.True(property.SetMethod is null || property.SetMethod.ReturnType.FullName.Contains("IsExternalInit", StringComparison.Ordinal), $"{type.FullName}.{property.Name} can be changed afterwards");
            }
    }

    [Fact]
    public void No_method_that_is_begun_and_not_awaited_returns_nothing()
    {
        foreach ((string room, _, _) in Rooms.App)
            foreach (TypeDefinition type in Compiled.Of(room))
                foreach (MethodDefinition method in type.Methods.Where(m => m.ReturnType.FullName == "System.Void"))
                    Assert.False(method.CustomAttributes.Any(a => a.AttributeType.Name == "AsyncStateMachineAttribute"), $"{method.FullName} is async void: what it throws ends the process. Return a Task.");
    }

    [Fact]
    public void Only_the_scheduler_and_commands_have_a_question_worked_out()
    {
        foreach ((string room, _, _) in Rooms.App.Where(r => r.Room is not ("Scheduling" or "Questions" or "Commands")))
            foreach (TypeDefinition type in Compiled.Of(room))
                Assert.DoesNotContain(Compiled.Calls(type), c => c.Name == "Answer" && (c.DeclaringType.Name == "IQuestion`1" || Compiled.RoomOf(c.DeclaringType) == "Questions"));
    }

    [Fact]
    public void Pages_reach_what_is_kept_by_the_doors_that_the_page_lists()
    {
        foreach ((string door, string[] listed) in Rooms.Doors.Where(d => d.Value.Length > 0))
        {
            string[] used = [.. Compiled.Of("Pages").SelectMany(Compiled.Calls).Where(c => c.DeclaringType.Name == door && c.DeclaringType.Namespace.StartsWith("Trimwright.", StringComparison.Ordinal))
                .Select(c => c.Name.Split('_')[^1]).Distinct().Order(StringComparer.Ordinal)];
            Assert.Equal(listed.Order(StringComparer.Ordinal), used);
        }
        // And by no other way: no database, no file, nothing else of sessions that does something.
        string[] others = [.. Compiled.Of("Pages").SelectMany(Compiled.Calls).Select(c => c.DeclaringType).Where(t => Compiled.RoomOf(t) == "Sessions" || t.Namespace == "Trimwright.Workshop")
            .Where(t => t.Resolve() is { } type && !IsValue(type)).Select(t => t.Name).Distinct().Except(Rooms.Doors.Keys).Order(StringComparer.Ordinal)];
        Assert.Empty(others);
        foreach (TypeDefinition type in Compiled.Of("Pages"))
            Assert.DoesNotContain(Compiled.Uses(type), u => u.FullName is "System.IO.File" or "System.IO.FileStream" or "System.Console" || u.FullName.StartsWith("Microsoft.Data.", StringComparison.Ordinal));
    }

    private static bool IsValue(TypeDefinition type) => type.Methods.Any(m => m.Name is "<Clone>$" or "PrintMembers") || type.IsEnum;

    private static bool IsOutside(string type) =>
        type is "System.Console" or "System.TimeProvider" or "System.AppContext" || Outside().IsMatch(type);

    // The invariant culture is none; any other is the machine's. A clock is asked by name.
    private static bool Asks(MethodReference call) => call.DeclaringType.FullName switch
    {
        "System.Globalization.CultureInfo" => call.Name != "get_InvariantCulture",
        // A lazy sequence looks which thread begins it.
        "System.Environment" => call.Name != "get_CurrentManagedThreadId",
        "System.DateTime" or "System.DateTimeOffset" => call.Name is "get_Now" or "get_UtcNow" or "get_Today",
        _ => call.Name is "GetManifestResourceStream",
    };

    [GeneratedRegex(@"^Trimwright\.(Core|Drawing|Workshop)\.")]
    private static partial Regex Project();

    [GeneratedRegex(@"^System\.IO\.(File|Directory|Path|Drive|FileInfo|DirectoryInfo)|^System\.Diagnostics\.(Process|Stopwatch)|^System\.Net\.|^Spectre\.|^Microsoft\.(AspNetCore|JSInterop|Extensions|Data)\.")]
    private static partial Regex Outside();

    [GeneratedRegex(@"(^|[^\w-])--\w|\btrimwright \w|\.json\b|\bexit\b|\bcommand line\b", RegexOptions.IgnoreCase)]
    private static partial Regex OfTheCommandLine();

    [GeneratedRegex("^(File|Path|Folder|Out|Output|Force|Json|Exit|Option|Args)$|File$|Path$")]
    private static partial Regex Source();
}
