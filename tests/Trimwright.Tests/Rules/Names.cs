using System.Text.RegularExpressions;

namespace Trimwright.Tests.Rules;

/// <summary>House rules on names and sizes that a reader leans on to find things.</summary>
public class Names
{
    [Fact]
    public void A_file_is_named_after_a_type_in_it()
    {
        foreach (string file in Sources.Files("src", ".cs"))
        {
            string name = Path.GetFileName(file).Split('.')[0];
            // The program's entry has no type of its own.
            if (name == "Program") continue;
            bool there = Sources.Code(file).Any(l => Regex.IsMatch(l.Code, $@"\b(class|record|struct|interface|enum|record struct|record class)\s+{name}\b"));
            Assert.True(there, $"{file} holds no type called {name}; name the file after its main type.");
        }
    }

    [Fact]
    public void No_folder_is_called_by_a_word_that_says_nothing()
    {
        string[] empty = ["common", "shared", "helpers", "utils", "utilities", "managers", "services", "misc"];
        foreach (string folder in new[] { "src", "tests", "benchmarks" }.SelectMany(Sources.Folders))
            Assert.False(empty.Contains(Path.GetFileName(folder).ToLowerInvariant()),
                $"{folder}: if a thing can't be named it isn't a module yet; put its files where they are used.");
    }

    [Fact]
    public void Tests_mirror_the_sources_by_folder()
    {
        string[] own = ["Reference", "Repro", "Rules"];
        string[] mirrored = [.. Sources.Folders("src").Select(f => Path.GetFileName(f)!)];
        foreach (string folder in Sources.Folders("tests/Trimwright.Tests"))
            Assert.True(own.Contains(folder.Split('/')[2]) || mirrored.Contains(Path.GetFileName(folder)),
                $"{folder} mirrors no folder of src; name it after the folder whose code it tests.");
    }

    [Fact]
    public void The_front_door_stays_short()
    {
        int lines = Sources.Text("src/Core/Prediction.cs").TrimEnd().Split('\n').Length;
        Assert.True(lines < 80, $"src/Core/Prediction.cs has {lines} lines of at most 79; it shows the stages in order, one line each: move the rest into its stage's folder.");
    }
}
