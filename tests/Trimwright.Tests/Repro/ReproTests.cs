using Trimwright.Core.Design;
using Trimwright.Tests.Design;

namespace Trimwright.Tests.Repro;

/// <summary>Each file here once broke something; what should happen is said beside it.</summary>
public class ReproTests
{
    private static byte[] Bytes(string name) => File.ReadAllBytes(Path.Combine(Here.Tests, "Repro", name + ".lure.json"));

    /// <summary>It weighed NaN, and the search for a rest never ended: what a section keeps beyond a cut next to its side was a
    /// difference of two roundings.</summary>
    [Fact]
    public void A_flat_nose_as_fine_as_a_thought_weighs_something()
    {
        Examiner.Outcome outcome = Examiner.Examine(Bytes("fine-flat-nose"));
        Assert.True(outcome.Accepted, string.Join("; ", outcome.Faults));
        Assert.Null(outcome.Complaint);
    }

    /// <summary>Files that were taken for sound, or refused for the wrong thing.</summary>
    [Theory]
    // Weighed −6 g: more wood was cut than there is.
    [InlineData("clearance-beyond-the-body", "geometry", "ballast[0]")]
    // Weighed −34 g, and displaced less than nothing: the slot is larger than the body that it is cut from.
    [InlineData("slot-beyond-the-body", "geometry", "wire.hangers[0]")]
    // Weighed −225 g: a slot for 1.5 m of wire in a body of 100 mm.
    [InlineData("wire-that-never-ends", "geometry", "wire.run_mm")]
    // Never ended: no wood was left of the narrower half.
    [InlineData("sawn-unequal-halves", "geometry", "joint")]
    // Was two coats without a word.
    [InlineData("one-coat-and-a-half", "range", "finish[0].coats")]
    // The back dived under the belly between two of the stations that were looked at.
    [InlineData("dip-between-stations", "geometry", "body.back")]
    // Weighed nothing.
    [InlineData("ball-bored-away", "geometry", "ballast[0].bore_mm")]
    // One level more than the limit went through.
    [InlineData("thirty-three-levels", "too-deep", "x-deep[0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0][0]")]
    // Besides the wrong type, every key of the body was called missing.
    [InlineData("wrong-type-once", "wrong-type", "body")]
    public void A_file_that_was_taken_for_sound_is_refused_for_its_one_fault(string file, string kind, string path)
    {
        Reading<LureDesign> reading = LureFile.Read(Bytes(file));
        Fault fault = Assert.Single(reading.Faults);
        TestContext.Current.TestOutputHelper?.WriteLine(fault.ToString());
        Assert.Equal((kind, path), (fault.Kind, fault.Path));
    }
}
