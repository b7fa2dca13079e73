using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Tests.Workshop;
using Trimwright.Workshop;

namespace Trimwright.Frozen.Draw;

/// <summary>A store as somebody who worked with the program has it: lures with their edits, a box, photos, builds and what was read of them.</summary>
internal static class KeptStore
{
    private static readonly TimeZoneInfo Here = TimeZoneInfo.CreateCustomTimeZone("here", TimeSpan.FromHours(1), "here", "here");

    public static void Make(string demo, string store, string export)
    {
        var clock = new SetClock(new DateTimeOffset(2025, 3, 14, 18, 0, 0, TimeSpan.FromHours(1)), Here);
        int edits = 0;
        string Edit()
        {
            clock.Now += TimeSpan.FromMinutes(7);
            return $"frozen-{++edits:0000}";
        }
        LureDesign Lure(string name) => LureFile.Read(File.ReadAllBytes(Path.Combine(demo, name + ".lure.json"))).Value!;
        MakersBox box = BoxFile.Read(File.ReadAllBytes(Path.Combine(demo, "kitchen.box.json"))).Value!;
        static T Done<T>(Saved<T> saved, Func<Revision<T>, T> value)
            where T : class => value(((Saved<T>.Done)saved).Revision);

        string asOne = store + ".as-one";
        using (Store kept = Store.Open(store, clock))
        {
            LureDesign tidegate = Done(kept.NewLure(Lure("tidegate-185"), Edit(), "started from Tidegate 185"), r => r.Read().Value!);
            LureDesign heavier = tidegate with { Wood = tidegate.Wood with { DensityGPerCm3 = 0.52 } };
            Done(kept.Save(1, 1, heavier, Edit(), "wood 0.52 g/cm³"), r => r.Read().Value!);
            LureDesign soaked = heavier with { SoakedG = 1.4, Name = "Tidegate 185, second" };
            Done(kept.Save(1, 2, soaked, Edit(), "renamed"), r => r.Read().Value!);
            Done(kept.Undo(1, 3, Edit()), r => r.Read().Value!);
            Done(kept.Redo(1, 4, Edit()), r => r.Read().Value!);
            Done(kept.NewLure(Lure("mooring-post-210"), Edit(), "started from Mooring Post 210"), r => r.Read().Value!);
            Done(kept.NewLure(Lure("slipway-150"), Edit(), "from a file"), r => r.Read().Value!);
            kept.PutAway(3, true);
            Done(kept.SaveBox(0, box, Edit(), "first box"), r => r.Read().Value!);
            Done(kept.SaveBox(1, box with { LabourPerHour = 22 }, Edit(), "an hour costs 22"), r => r.Read().Value!);

            Build first = kept.NewBuild(1, 2, "the first", Edit())!;
            LogEntry weighed = kept.Log(first.Id, "reading", """{"kind":"weight","stage":"sealed","mass_g":72.4}""", Edit())!;
            kept.Log(first.Id, "reading", """{"kind":"weight","stage":"sealed","mass_g":71.9}""", Edit(), strikes: weighed.Id);
            kept.Log(first.Id, "reading", """{"kind":"under_water","stage":"sealed","sinker_g":210.4,"with_lure_g":191.2}""", Edit());
            kept.Log(first.Id, "reading", """{"kind":"drop","stage":"finished","rig":"rigged","depth_mm":900,"seconds":5.6}""", Edit());
            Batch batch = kept.NewBatch(2, 1, "for the spring", [], Edit())!;
            Build second = kept.NewBuild(2, 1, "spring 1", Edit(), batch.Id)!;
            kept.NewBuild(2, 1, "spring 2", Edit(), batch.Id);
            LogEntry wrong = kept.Log(second.Id, "reading", """{"kind":"tub","stage":"dry-fit","rig":"standins","sat":"stands","trim_deg":66,"nose_out_mm":51}""", Edit())!;
            kept.Strike(second.Id, wrong.Id, Edit());
            kept.Log(second.Id, "reading", """{"kind":"tub","stage":"dry-fit","rig":"standins","sat":"stands","trim_deg":64,"nose_out_mm":44}""", Edit());

            Photo side = kept.AddPhoto(1, "side", SamplePhotos.Jpeg(), h => $$"""{"AX":{{h.Width / 10}},"AY":{{h.Height / 2}},"BX":{{9 * h.Width / 10}},"BY":{{h.Height / 2}},"LengthMm":185,"AlongMm":0,"AcrossMm":0,"Level":true,"Strength":1}""", Edit()).Value!;
            kept.LayPhoto(side.Id, """{"AX":150,"AY":310,"BX":1450,"BY":304,"LengthMm":181.5,"AlongMm":2,"AcrossMm":0.5,"Level":true,"Strength":2}""", away: false);
            Photo plan = kept.AddPhoto(1, "plan", SamplePhotos.Png(), _ => """{"AX":0,"AY":300,"BX":1600,"BY":300,"LengthMm":185,"AlongMm":0,"AcrossMm":0,"Level":true,"Strength":0}""", Edit()).Value!;
            kept.LayPhoto(plan.Id, plan.Place, away: true);
            if (kept.Check() is { } fault) throw new InvalidOperationException(fault.ToString());
            kept.BackUp(asOne);
            kept.Export(export);
        }
        // What the journal holds goes into the file when it is put away as one.
        foreach (string left in (string[])[store, store + "-wal", store + "-shm"]) File.Delete(left);
        File.Move(asOne, store);
    }
}
