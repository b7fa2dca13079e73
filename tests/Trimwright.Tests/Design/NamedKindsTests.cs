using System.Text;
using Trimwright.Core.Box;
using Trimwright.Core.Design;

namespace Trimwright.Tests.Design;

/// <summary>A file without kinds is read by its names, once, and says for what it took them.</summary>
public class NamedKindsTests
{
    private static Reading<LureDesign> Read(int version, string hardware, string finish = "[]")
    {
        string demo = File.ReadAllText(Path.Combine(Here.Root, "demo", "tidegate-185.lure.json"));
        LureDesign sound = Lures.Read(demo);
        string plain = Encoding.UTF8.GetString(LureFile.Write(sound with { Hardware = [], Finish = [] }));
        int end = plain.LastIndexOf('}');
        string with = string.Concat(plain.AsSpan(0, end).TrimEnd(), $",\n\"hardware\": {hardware}, \"finish\": {finish}}}");
        return LureFile.Read(Encoding.UTF8.GetBytes(with.Replace("\"trimwright\": 2", $"\"trimwright\": {version}", StringComparison.Ordinal)));
    }

    private static HardwareItem Item(string name) =>
        Read(1, $$"""[{ "name": "{{name}}", "hangs_from": "belly", "mass_g": 2 }]""") is { Value: { } lure } ? lure.Hardware[0] : throw new ArgumentException(name);

    [Theory]
    [InlineData("split ring 8", HardwareKind.SplitRing, null)]
    [InlineData("Solid Ring", HardwareKind.SolidRing, null)]
    [InlineData("belly swivel 2/0", HardwareKind.Swivel, null)]
    [InlineData("treble 3/0", HardwareKind.Treble, "3/0")]
    [InlineData("treble3/0", HardwareKind.Treble, null)]
    [InlineData("inline single 7/0", HardwareKind.Single, "7/0")]
    [InlineData("hook", HardwareKind.Treble, null)]
    [InlineData("assist hook", HardwareKind.Single, null)]
    // Whole words: 0.1.0 found a ring in it, good for 108 kgf.
    [InlineData("snap with spring", HardwareKind.Snap, null)]
    [InlineData("string", HardwareKind.Other, null)]
    [InlineData("tail spinner", HardwareKind.Other, null)]
    [InlineData("Ringe", HardwareKind.Other, null)]
    public void By_its_name(string name, HardwareKind kind, string? size) => Assert.Equal((kind, size), (Item(name).Kind, Item(name).Size));

    [Fact]
    public void What_was_taken_for_what_is_said_once()
    {
        Reading<LureDesign> reading = Read(1, """
            [{ "name": "split ring", "hangs_from": "belly", "mass_g": 1 }, { "name": "split ring", "hangs_from": "tail_loop", "mass_g": 1 },
             { "name": "treble 3/0", "hangs_from": "belly", "mass_g": 9 }]
            """, """[{ "name": "white primer", "thickness_mm": 0.05 }]""");
        Warning[] told = [.. reading.Warnings.Where(w => w.Path is "hardware" or "finish")];
        Assert.Equal(["hardware", "finish"], told.Select(w => w.Path));
        Assert.Equal("without \"kind\", so taken by name: “split ring” for a split ring, “treble 3/0” for a treble, size 3/0; give \"kind\" where that is wrong", told[0].Text);
        Assert.Equal("without \"use\", so taken by name: “white primer” for colour; give \"use\" where that is wrong", told[1].Text);
        Assert.Equal(FinishUse.Colour, reading.Value!.Finish[0].Use);
    }

    [Fact]
    public void What_the_file_says_outranks_its_name_and_is_written_back_without_a_word()
    {
        LureDesign lure = Read(2, """[{ "name": "treble ring swivel", "kind": "other", "hangs_from": "belly", "mass_g": 1 }]""").Value!;
        Assert.Equal(HardwareKind.Other, lure.Hardware[0].Kind);
        Reading<LureDesign> again = LureFile.Read(LureFile.Write(lure));
        Assert.DoesNotContain(again.Warnings, w => w.Path is "hardware" or "finish");
        Assert.Equal(lure.Hardware[0], again.Value!.Hardware[0]);
        Assert.Contains("\"trimwright\": 2", Encoding.UTF8.GetString(LureFile.Write(lure)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_word_that_is_no_kind_is_a_fault_with_the_words_that_are()
    {
        Fault fault = Assert.Single(Read(2, """[{ "name": "x", "kind": "hook", "hangs_from": "belly", "mass_g": 1 }]""").Faults);
        Assert.Equal("hardware[0].kind", fault.Path);
        Assert.Contains("split_ring, solid_ring, swivel, treble, single, snap, other", fault.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_key_that_meant_nothing_in_the_first_version_is_kept_as_a_note()
    {
        Reading<LureDesign> first = Read(1, """[{ "name": "treble", "kind": "my favourite", "size": 12, "hangs_from": "belly", "mass_g": 1 }]""");
        Assert.Equal(HardwareKind.Treble, first.Value!.Hardware[0].Kind);
        Assert.Contains(first.Warnings, w => w.Path == "hardware[0].kind");
        string written = Encoding.UTF8.GetString(LureFile.Write(first.Value));
        Assert.Contains("\"x-kind\": \"my favourite\"", written, StringComparison.Ordinal);
        Assert.Contains("\"x-size\": 12", written, StringComparison.Ordinal);
        Assert.Empty(LureFile.Read(Encoding.UTF8.GetBytes(written)).Faults);
    }

    [Fact]
    public void A_box_without_kinds_is_read_likewise()
    {
        Reading<MakersBox> reading = BoxFile.Read("""
            { "trimwright_box": 1, "name": "mine",
              "hooks": [{ "id": "a", "name": "single 7/0", "mass_g": 6, "length_mm": 50 }, { "id": "b", "name": "Drilling", "mass_g": 6, "length_mm": 50 }],
              "rings": [{ "id": "c", "name": "solid ring", "mass_g": 1, "length_mm": 9 }, { "id": "d", "name": "Ring", "kind": "split", "mass_g": 1, "length_mm": 9 }],
              "snaps": [{ "id": "e", "name": "snap", "mass_g": 1, "length_mm": 9 }, { "id": "f", "name": "blade", "kind": "other", "mass_g": 1, "length_mm": 9 }] }
            """u8);
        MakersBox box = reading.Value!;
        Assert.Equal([HardwareKind.Single, HardwareKind.Treble], box.Hooks.Select(h => h.Kind));
        Assert.Equal("7/0", box.Hooks[0].Size);
        Assert.Equal([HardwareKind.SolidRing, HardwareKind.SplitRing], box.Rings.Select(r => r.Kind));
        Assert.Equal([HardwareKind.Snap, HardwareKind.Other], box.Snaps.Select(s => s.Kind));
        Assert.Equal(["hooks", "rings", "snaps"], reading.Warnings.Select(w => w.Path));
        Assert.Empty(BoxFile.Read(BoxFile.Write(box)).Warnings);
    }
}
