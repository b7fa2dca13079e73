using System.Collections.Immutable;
using Trimwright.Core.Design;

namespace Trimwright.Core.Box;

/// <summary>From JSON to records: keys, types, ranges and defaults. What needs more than one key is in <see cref="BoxSoundness"/>.</summary>
internal sealed class BoxReader(Findings findings)
{
    internal const int MostItems = 1000;
    internal const int MostBoards = 100;
    internal const int MostKeys = 20;
    internal const int LongestId = 60;
    private const double Lightest = 0.01;
    private const double Densest = 25;
    private const double Longest = 1_000_000;

    public MakersBox Read(ObjectReader file)
    {
        // A newer version has been refused before; there is none older.
        file.Number(BoxFile.VersionKey, BoxFile.Version, BoxFile.Version);
        ImmutableArray<T> Hung<T>(string list, string meaning, T blank, (string Word, HardwareKind Kind)[] kinds)
            where T : BoxHardware
        {
            var named = new NamedKinds(file, findings);
            ImmutableArray<T> items = file.Each(list, MostItems, meaning, r => ReadHardware(r, blank, kinds, named));
            named.Tell(list);
            return items;
        }
        return new MakersBox
        {
            Name = file.Text("name", "what you call this box"),
            Currency = file.TextOrNone("currency", "what prices are in"),
            LabourPerHour = file.NumberOrNone("labour_per_h", 0, 1_000_000),
            NoLead = file.Truth("no_lead", false),
            SyringeStepMl = file.NumberOrNone("syringe_step_ml", 0.01, 100),
            Woods = file.Each("woods", MostItems, "a list of woods", ReadWood),
            Wires = file.Each("wires", MostItems, "a list of wires", ReadWire),
            Weights = file.Each("weights", MostItems, "a list of weights", ReadWeight),
            Stock = file.Each("stock", MostItems, "a list of rod, sheet and wire to cut weights from", ReadStock),
            Hooks = Hung("hooks", "a list of hooks", new BoxHook { Id = "", Name = "", MassG = 0, LengthMm = 0 }, [("treble", HardwareKind.Treble), ("single", HardwareKind.Single)]),
            Rings = Hung("rings", "a list of rings", new BoxRing { Id = "", Name = "", MassG = 0, LengthMm = 0 }, [("split", HardwareKind.SplitRing), ("solid", HardwareKind.SolidRing)]),
            Swivels = Hung("swivels", "a list of swivels", new BoxSwivel { Id = "", Name = "", MassG = 0, LengthMm = 0 }, []),
            Snaps = Hung("snaps", "a list of snaps and whatever else hangs", new BoxSnap { Id = "", Name = "", MassG = 0, LengthMm = 0 }, [("snap", HardwareKind.Snap), ("other", HardwareKind.Other)]),
            Leaders = file.Each("leaders", MostItems, "a list of leaders", ReadLeader),
            Finishes = file.Each("finishes", MostItems, "a list of sealers, paints and clear coats", ReadFinish),
            Cutters = file.Each("cutters", MostItems, "a list of drills, bits and gouges", ReadCutter),
            Scales = file.Each("scales", MostItems, "a list of scales", ReadScale),
            Instruments = file.Find("instruments") is null ? null : ReadInstruments(file),
            Kept = file.Close(),
        };
    }

    /// <summary>An item with what every item has, once its own keys are read: what is left over is kept.</summary>
    private T Whole<T>(ObjectReader r, T item)
        where T : BoxItem => item with
        {
            Id = Id(r),
            Name = r.Text("name", "what you call it"),
            Source = r.Choice("source", Source.Typical, ("typical", Source.Typical), ("published", Source.Published), ("measured", Source.Measured)),
            Measured = Keys(r, "measured"),
            Published = Keys(r, "published"),
            Price = r.NumberOrNone("price", 0, 1_000_000),
            Kept = r.Close(),
        };

    private T Counted<T>(ObjectReader r, T item)
        where T : CountedItem => Whole(r, item with { Count = r.Find("count") is null ? null : r.Count("count", 0, 1_000_000, 0) });

    private string Id(ObjectReader r)
    {
        const string Allowed = "1 to 60 of a-z, 0-9 and -, the first a letter or digit";
        string id = r.Text("id", Allowed);
        if (r.Find("id") is { Kind: JsonKind.Text } tree && !IsId(tree.Text))
            findings.Add("range", tree.Path, tree.Shown, Allowed, "Write a short name of small letters, such as lead-rod-8.");
        return id;
    }

    private static bool IsId(string id) =>
        id.Length is > 0 and <= LongestId && id[0] != '-' && id.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');

    private ImmutableArray<string> Keys(ObjectReader r, string key)
    {
        var keys = ImmutableArray.CreateBuilder<string>();
        foreach (JsonTree item in r.Items(key, MostKeys, "a list of this item's own keys"))
            if (item.Kind == JsonKind.Text) keys.Add(item.Text);
            else findings.Add("wrong-type", item.Path, item.Shown, "a key of this item, in double quotes", "Name the key, such as \"mass_g\".");
        return keys.ToImmutable();
    }

    private ImmutableArray<Instrument> ReadInstruments(ObjectReader file)
    {
        Dictionary<string, Instrument> words = Enum.GetValues<Instrument>().ToDictionary(ObjectWriter.Word);
        string allowed = string.Join(", ", words.Keys);
        var found = ImmutableArray.CreateBuilder<Instrument>();
        foreach (JsonTree item in file.Items("instruments", words.Count, "a list of what you measure with"))
            if (item.Kind == JsonKind.Text && words.TryGetValue(item.Text, out Instrument instrument)) found.Add(instrument);
            else findings.Add(item.Kind == JsonKind.Text ? "range" : "wrong-type", item.Path, item.Shown, allowed, "Choose from these words.");
        return found.ToImmutable();
    }

    private BoxWood ReadWood(ObjectReader r)
    {
        ImmutableArray<Board> boards = r.Each("boards", MostBoards, "a list of boards, measured and weighed", board => new Board
        {
            Name = board.TextOrNone("name", "what is pencilled on the board"),
            LengthMm = board.Number("length_mm", 1, 10_000),
            WidthMm = board.Number("width_mm", 1, 10_000),
            ThicknessMm = board.Number("thickness_mm", 0.5, 10_000),
            MassG = board.Number("mass_g", 0.01, 100_000),
            Kept = board.Close(),
        });
        bool weighed = r.Find("boards") is { Kind: JsonKind.Array, Items.Count: > 0 };
        return Whole(r, new BoxWood
        {
            Id = "", Name = "", Boards = boards,
            DensityGPerCm3 = weighed ? r.NumberOrNone("density_g_cm3", Lightest, Densest) : r.Number("density_g_cm3", Lightest, Densest),
            DensitySdGPerCm3 = r.NumberOrNone("density_sd_g_cm3", 0, Densest),
        });
    }

    private BoxWire ReadWire(ObjectReader r) => Whole(r, new BoxWire
    {
        Id = "", Name = "",
        DiameterMm = r.Number("diameter_mm", 0.2, 6),
        Grade = r.TextOrNone("grade", "the wire's grade"),
        DensityGPerCm3 = r.Number("density_g_cm3", 0.5, Densest, BoxWire.Stainless),
        TensileMpa = r.NumberOrNone("tensile_mpa", 10, 5000),
        LengthMm = r.NumberOrNone("length_mm", 0, Longest),
    });

    private BoxWeight ReadWeight(ObjectReader r)
    {
        BallastForm kind = r.Choice("kind", BallastForm.Rod, [.. BallastForm.All.Select(f => (f.Word, f))]);
        FormSizes needs = kind.Needs;
        double? mass = r.NumberOrNone("mass_g", 0.001, 10_000);
        return Counted(r, new BoxWeight
        {
            Id = "", Name = "", Kind = kind, MassG = mass,
            DiameterMm = Size(r, "diameter_mm", needs.Diameter),
            LengthMm = Size(r, "length_mm", needs.Length),
            WidthMm = Size(r, "width_mm", needs.Sides),
            ThicknessMm = Size(r, "thickness_mm", needs.Sides),
            BoreMm = needs.Bore ? r.Number("bore_mm", 0.1, 100) : r.NumberOrNone("bore_mm", 0, 100),
            DensityGPerCm3 = mass is null ? r.Number("density_g_cm3", Lightest, Densest) : r.NumberOrNone("density_g_cm3", Lightest, Densest),
            IsLead = r.TruthNeeded("is_lead"),
        });
    }

    private BoxStock ReadStock(ObjectReader r)
    {
        StockKind kind = r.Choice("kind", StockKind.Rod, ("rod", StockKind.Rod), ("sheet", StockKind.Sheet), ("wire", StockKind.Wire));
        bool sheet = kind == StockKind.Sheet;
        double? mass = r.NumberOrNone("mass_g", 0.001, 100_000);
        return Whole(r, new BoxStock
        {
            Id = "", Name = "", Kind = kind, MassG = mass,
            DiameterMm = Size(r, "diameter_mm", !sheet),
            BoreMm = r.NumberOrNone("bore_mm", 0, 100),
            WidthMm = Size(r, "width_mm", sheet),
            ThicknessMm = Size(r, "thickness_mm", sheet),
            LengthMm = mass is null ? r.NumberOrNone("length_mm", 1, Longest) : r.Number("length_mm", 1, Longest),
            StepMm = r.Number("step_mm", 0.01, 100, BoxStock.UsualStepMm),
            DensityGPerCm3 = mass is null ? r.Number("density_g_cm3", Lightest, Densest) : r.NumberOrNone("density_g_cm3", Lightest, Densest),
            IsLead = r.TruthNeeded("is_lead"),
        });
    }

    private static double? Size(ObjectReader r, string key, bool needed) => needed ? r.Number(key, 0.1, 500) : r.NumberOrNone(key, 0, 500);

    private T ReadHardware<T>(ObjectReader r, T item, (string Word, HardwareKind Kind)[] kinds, NamedKinds named)
        where T : BoxHardware
    {
        item = Counted(r, item with
        {
            Kind = kinds.Length > 0 ? r.Choice("kind", item.Kind, kinds) : item.Kind,
            Size = r.TextOrNone("size", "the size on the packet"),
            MassG = r.Number("mass_g", 0.001, 2000),
            LengthMm = r.Number("length_mm", 0.5, 1000),
            DensityGPerCm3 = r.Number("density_g_cm3", 0.05, Densest, BoxHardware.Steel),
            StrengthKg = r.NumberOrNone("strength_kg", 0, 10_000),
        });
        if (kinds.Length == 0 || r.Has("kind")) return item;
        // Of what its list may hold, as its name says; else as most of them are.
        HardwareKind said = ByName.Hardware(item.Name);
        if (kinds.Any(k => k.Kind == said)) item = item with { Kind = said };
        if (item.Kind.IsHook() && item.Size is null) item = item with { Size = HookSize.In(item.Name) };
        named.Take(item.Name, item.Kind, item.Size);
        return item;
    }

    private BoxLeader ReadLeader(ObjectReader r) => Whole(r, new BoxLeader
    {
        Id = "", Name = "",
        Material = r.TextOrNone("material", "what the leader is made of"),
        DiameterMm = r.Number("diameter_mm", 0.05, 10),
        DensityGPerCm3 = r.Number("density_g_cm3", 0.5, Densest, BoxLeader.Fluorocarbon),
        StrengthKg = r.NumberOrNone("strength_kg", 0, 10_000),
    });

    private BoxFinish ReadFinish(ObjectReader r) => Whole(r, new BoxFinish
    {
        Id = "", Name = "",
        DensityGPerCm3 = r.Number("density_g_cm3", 0.05, Densest, BoxFinish.Epoxy),
        ThicknessMm = r.Number("thickness_mm", 0.001, 5),
        Use = r.Choice("use", FinishUse.NotSaid, ("sealer", FinishUse.Sealer), ("colour", FinishUse.Colour), ("clear", FinishUse.Clear), ("glue", FinishUse.Glue)),
        ResinDensityGPerCm3 = r.NumberOrNone("resin_density_g_cm3", 0.5, 5),
        HardenerDensityGPerCm3 = r.NumberOrNone("hardener_density_g_cm3", 0.5, 5),
        Solids = r.NumberOrNone("solids", 0.05, 1),
        Losses = r.NumberOrNone("losses", 0, 5),
        PotMinimumG = r.NumberOrNone("pot_minimum_g", 0, 10_000),
        SandFromH = r.NumberOrNone("sand_from_h", 0, 10_000),
        TurnH = r.NumberOrNone("turn_h", 0, 10_000),
        RatioByVolume = r.Numbers("ratio_by_volume", 2, 0.01, 1000),
        RatioByWeight = r.Numbers("ratio_by_weight", 2, 0.01, 1000),
        PotLifeMin = r.NumberOrNone("pot_life_min", 0.1, 100_000),
        RecoatFromH = r.NumberOrNone("recoat_from_h", 0, 10_000),
        RecoatUntilH = r.NumberOrNone("recoat_until_h", 0, 10_000),
        CureH = r.NumberOrNone("cure_h", 0, 10_000),
        TimesAtC = r.NumberOrNone("times_at_c", -20, 80),
    });

    private BoxCutter ReadCutter(ObjectReader r)
    {
        var diameters = ImmutableArray.CreateBuilder<double>();
        foreach (JsonTree item in r.ItemsNeeded("diameters_mm", 200, "a list of diameters, such as [8, 10, 12]"))
            diameters.Add(ObjectReader.Number(item, 0.1, 200, findings) ?? 1);
        return Whole(r, new BoxCutter
        {
            Id = "", Name = "", DiametersMm = diameters.ToImmutable(),
            Kind = r.Choice("kind", CutterKind.Twist, ("twist", CutterKind.Twist), ("flat_bit", CutterKind.FlatBit),
                ("round_nose", CutterKind.RoundNose), ("gouge", CutterKind.Gouge)),
            SpurMm = r.NumberOrNone("spur_mm", 0, 50),
            ReachMm = r.NumberOrNone("reach_mm", 1, 1000),
        });
    }

    private BoxScale ReadScale(ObjectReader r) => Whole(r, new BoxScale
    {
        Id = "", Name = "",
        ResolutionG = r.Number("resolution_g", 0.0001, 1000),
        CapacityG = r.Number("capacity_g", 1, 1_000_000),
    });
}
