using System.Text.RegularExpressions;

namespace Trimwright.Tests.Rules;

/// <summary>The house as ARCHITECTURE.md draws it, held by tests: who may use whom, and what rooms are called.</summary>
public partial class HouseTests
{
    private static IEnumerable<string> Sources(string under) =>
        Directory.GetFiles(Path.Combine(Here.Root, "src", under), "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)
                && !f.Contains($"{Path.DirectorySeparatorChar}bin{Path.DirectorySeparatorChar}", StringComparison.Ordinal));

    private static string Shown(string file) => Path.GetRelativePath(Here.Root, file).Replace('\\', '/');

    [Fact]
    public void Each_folder_of_Core_uses_only_those_above_it()
    {
        foreach (string file in Sources("Core"))
        {
            string room = Path.GetRelativePath(Path.Combine(Here.Root, "src", "Core"), file).Replace('\\', '/').Split('/')[0];
            int own = Array.IndexOf(Rooms.Core, room);
            Assert.True(own >= 0, $"{Shown(file)}: {room} is not a room of Core; ARCHITECTURE.md lists them, in order");
            foreach (Match mention in CoreMention().Matches(File.ReadAllText(file)))
            {
                int other = Array.IndexOf(Rooms.Core, mention.Groups[1].Value);
                Assert.True(other < 0 || other <= own,
                    $"{Shown(file)} uses {mention.Groups[1].Value}, which stands below {room}; pass the value in, or move the code down");
            }
        }
    }

    [Fact]
    public void Core_knows_no_room_outside_it_and_only_one_library()
    {
        string project = File.ReadAllText(Path.Combine(Here.Root, "src", "Core", "Trimwright.Core.csproj"));
        string[] packages = [.. PackageReference().Matches(project).Select(m => m.Groups[1].Value)];
        Assert.Equal(["MathNet.Numerics", "Microsoft.CodeAnalysis.BannedApiAnalyzers"], packages.Order());
        Assert.DoesNotContain("ProjectReference", project);
    }

    [Fact]
    public void Drawing_uses_Core_only_and_commands_never_call_each_other()
    {
        foreach (string file in Sources("Drawing"))
            Assert.False(File.ReadAllText(file).Contains("Trimwright.App", StringComparison.Ordinal), $"{Shown(file)} uses App; give it a value instead");
        string[] commands = [.. Sources("App").Where(f => f.EndsWith("Command.cs", StringComparison.Ordinal)).Select(f => Path.GetFileNameWithoutExtension(f))];
        Assert.NotEmpty(commands);
        foreach (string file in Sources("App").Where(f => f.EndsWith("Command.cs", StringComparison.Ordinal)))
            foreach (string other in commands.Where(c => c != Path.GetFileNameWithoutExtension(file)))
                Assert.False(Regex.IsMatch(File.ReadAllText(file), $@"\b{other}\b"), $"{Shown(file)} uses {other}; put what they share into a file of its own");
    }

    [Fact]
    public void The_front_door_stays_short()
    {
        int lines = File.ReadAllLines(Path.Combine(Here.Root, "src", "Core", "Prediction.cs")).Length;
        Assert.True(lines < 80, $"Prediction.cs has {lines} lines; it shows the method in order, one call a stage, under 80");
    }

    [Fact]
    public void Rooms_have_names_that_say_what_is_in_them()
    {
        string[] nameless = ["Common", "Shared", "Helpers", "Utils", "Utilities", "Managers", "Services", "Misc", "Infrastructure"];
        foreach (string folder in Directory.GetDirectories(Path.Combine(Here.Root, "src"), "*", SearchOption.AllDirectories))
            Assert.False(nameless.Contains(Path.GetFileName(folder)), $"{Shown(folder)}: if it can't be named it isn't a room yet");
    }

    [Fact]
    public void No_file_names_a_package_registry_or_a_path_of_somebodys_machine()
    {
        // Written in two pieces, or this file would find itself.
        string[] never = ["nuget" + ".org", "registry." + "npmjs", "/home" + "/", "/work" + "/main"];
        string[] kinds = [".cs", ".md", ".json", ".props", ".csproj", ".slnx", ".sh", ".mjs", ".py", ".npmrc", ".yml"];
        foreach (string file in Directory.GetFiles(Here.Root, "*", SearchOption.AllDirectories))
        {
            string path = Shown(file);
            if (!kinds.Contains(Path.GetExtension(file)) || path.Split('/').Any(p => p is "bin" or "obj" or ".git" or "node_modules")) continue;
            string text = File.ReadAllText(file);
            foreach (string word in never) Assert.False(text.Contains(word, StringComparison.Ordinal), $"{path} names {word}");
        }
    }

    [GeneratedRegex(@"Trimwright\.Core\.(\w+)")]
    private static partial Regex CoreMention();

    [GeneratedRegex("PackageReference Include=\"([^\"]+)\"")]
    private static partial Regex PackageReference();
}
