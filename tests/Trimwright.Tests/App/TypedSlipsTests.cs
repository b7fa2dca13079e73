using CsCheck;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.App;

/// <summary>Slips at the keyboard are said in our words, with what was most likely meant.</summary>
public class TypedSlipsTests
{
    private static readonly string Lure = Path.Combine(Here.Root, "demo", "tidegate-185.lure.json");

    [Theory]
    [InlineData("predct x", "predct: got a word that is no command; allowed: the commands of trimwright --help. Did you mean predict?")]
    [InlineData("predict", "predict: got no FILE; allowed: a lure file, NAME.lure.json. Write for example: trimwright predict FILE.")]
    [InlineData("predict LURE --rg bare", "predict: got \"--rg\"; allowed: --stage, --rig,", "Did you mean --rig?")]
    [InlineData("predict LURE --water", "--water: got nothing after it; allowed: WATER: tap, lake, brackish,", "Write --water WATER.")]
    [InlineData("predict LURE --water --json", "\"got\": \"nothing after it\"")]
    [InlineData("predict LURE LURE", "besides; allowed: FILE.")]
    [InlineData("predict LURE --rig bare --rig rigged", "--rig: got it twice; allowed: it once.")]
    [InlineData("predict LURE --force=yes", "--force: got \"yes\" with it; allowed: the option alone.")]
    [InlineData("predict LURE --=x", "predict: got \"--\"; allowed: --stage,")]
    [InlineData("predict LURE -x", "predict: got \"-x\"; allowed: --stage,")]
    [InlineData("plan LURE --take 1.5", "--take: got \"1.5\"; allowed: a whole number.")]
    [InlineData("plan LURE --wall 2,5", "--wall: got \"2,5\"; allowed: a number with a dot.")]
    [InlineData("sheets LURE", "sheets: got no --out; allowed: DIR: folder to write to. Add --out DIR.")]
    [InlineData("store lst", "store: got \"lst\"; allowed: list, check, backup, restore, export, import. Did you mean list?")]
    [InlineData("store", "store: got nothing after it; allowed: list,")]
    [InlineData("LURE", "To look into a file, say what for: trimwright predict")]
    [InlineData("predict LURE --picture p.png", "--picture: got p.png; allowed: a name that ends in .svg. Write --picture p.svg.")]
    [InlineData("buildplan LURE --pdf plan.txt", "--pdf: got plan.txt; allowed: a name that ends in .pdf.")]
    [InlineData("readings - --log -", "-: got standard input twice; allowed: once.")]
    public void Each_is_told(string typed, params string[] says)
    {
        var ran = TheProgram.Run(typed.Split(' ').Select(word => word == "LURE" ? Lure : word));
        Assert.Equal(2, ran.Exit);
        foreach (string part in says) Assert.Contains(part, ran.Said);
    }

    // No dash alone: it would wait for somebody to type.
    private static readonly string[] Words =
    [
        "predict", "plan", "swap", "strength", "check", "new", "buildplan", "sheets", "readings", "copy", "next", "learn", "notices", "nothing",
        "x.lure.json", "--stage", "--rig", "--water", "--json", "--force", "--out", "--take", "--wall", "--keep", "--log", "--box", "--units", "--=", "--:",
        "--", "-h1", "---", "=", "", " ", "--take=", "--take:x", "--json=1", "\u202eevil", "7", "-7", "tap",
    ];

    // What no maker writes: words of the library that reads the line, of .NET, or a stack.
    private static readonly string[] NotOurs = ["nullable", "exception", "unknown option", "unknown command", "failed to convert", "does not have a name", "missing required argument",
        "parameter '", "could not match", "   at ", "our own fault"];

    [Fact]
    public void Whatever_is_typed_is_answered_in_our_own_words()
    {
        // What is typed well by chance may write.
        using var temp = new TempStore();
        Gen.Int[0, Words.Length - 1].Array[1, 6].Sample(picks =>
        {
            string[] typed = [.. picks.Select(i => Words[i])];
            // Those would serve a page, or write the demo.
            if (typed[0] is "--" or "---" or "=" or "" or " ") return;
            var ran = TheProgram.RunIn(temp.Folder, 80, typed);
            string said = ran.Out + ran.Error;
            Assert.True(ran.Exit is 0 or 1 or 2 or 3 or 4, $"{string.Join(' ', typed)}: {ran.Exit}: {said}");
            foreach (string word in NotOurs) Assert.DoesNotContain(word, said, StringComparison.OrdinalIgnoreCase);
        }, iter: 150, threads: 1);
    }

    [Fact]
    public void A_lure_may_come_by_standard_input_or_by_a_pipe()
    {
        string text = File.ReadAllText(Lure), straight = TheProgram.Start("predict", Lure).Out;
        Assert.Equal(straight, TheProgram.Fed(text, "predict", "-").Out);
        Assert.SkipWhen(OperatingSystem.IsWindows(), "no /dev/stdin there");
        Assert.Equal(straight, TheProgram.Fed(text, "predict", "/dev/stdin").Out);
        // What is wrong with it is said of it by a name that a maker knows.
        Assert.Contains("standard input: got a box; allowed: a lure.", TheProgram.Fed(File.ReadAllText(Path.Combine(Here.Root, "demo", "kitchen.box.json")), "predict", "-").Said);
    }

    [Fact]
    public void A_file_may_go_to_standard_output_and_stands_there_alone()
    {
        var ran = TheProgram.Start("predict", Lure, "--picture", "-");
        Assert.Equal(0, ran.Exit);
        Assert.StartsWith("<svg", ran.Out);
        Assert.EndsWith("</svg>", ran.Out.TrimEnd());
        Assert.StartsWith("Tidegate 185", ran.Error);
        var folder = TheProgram.Start("sheets", Lure, "--out", "-");
        Assert.Contains("--out: got -; allowed: a folder.", folder.Said);
    }
}
