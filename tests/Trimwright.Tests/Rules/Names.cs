using System.Text.RegularExpressions;

namespace Trimwright.Tests.Rules;

/// <summary>Rules on names that a reader leans on to find things.</summary>
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
    public void Tests_mirror_the_sources_by_folder()
    {
        string[] own = ["Frozen", "Reference", "Released", "Repro", "Rules"];
        string[] mirrored = [.. Sources.Folders("src").Select(f => Path.GetFileName(f)!)];
        foreach (string folder in Sources.Folders("tests/Trimwright.Tests"))
            Assert.True(own.Contains(folder.Split('/')[2]) || mirrored.Contains(Path.GetFileName(folder)),
                $"{folder} mirrors no folder of src; name it after the folder whose code it tests.");
    }
}
