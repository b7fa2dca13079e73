using System.Collections.Immutable;
using System.Globalization;
using Trimwright.Core.Box;
using Trimwright.Core.Design;
using Trimwright.Core.Strength;

namespace Trimwright.Core.Ballast;

/// <summary>How a set of hooks differs from the lure's own.</summary>
public enum HookChange
{
    Own,
    SizeUp,
    SizeDown,
    Singles,
    None,
}

/// <summary>A hook that hangs at a place.</summary>
/// <param name="Place"><c>line_tie</c>, a hanger's name or <c>tail_loop</c>.</param>
/// <param name="Hook">Its name; null: none.</param>
public readonly record struct HookAt(string Place, string? Hook);

/// <summary>A set of hooks to hang on a lure.</summary>
/// <param name="Change">How it differs from the lure's own.</param>
/// <param name="Changed">The places where it does; empty for the own set.</param>
/// <param name="Hooks">Every hook of the set.</param>
/// <param name="Design">The lure with them.</param>
public sealed record HookSet(HookChange Change, ImmutableArray<string> Changed, ImmutableArray<HookAt> Hooks, LureDesign Design)
{
    /// <summary>Where its hooks reach each other, the back or the leader, and the lure's own do not.</summary>
    public HookReach? ReachesAnew(LureStrength? own)
    {
        if (own is null || Change is HookChange.Own or HookChange.None || LureStrength.Of(Design) is not { } now) return null;
        return new([], New(own.Reach.Hooks, now.Reach.Hooks), New(own.Reach.Back, now.Reach.Back), New(own.Reach.Leader, now.Reach.Leader));
    }

    private static ImmutableArray<Meeting> New(ImmutableArray<Meeting> own, ImmutableArray<Meeting> now) =>
        [.. now.Where(m => m.Meets && !own.Any(o => o.Meets && o.Hook.HangsFrom == m.Hook.HangsFrom && o.Other?.HangsFrom == m.Other?.HangsFrom))];

    // Hooks nearer in weight than this share of it are of one size.
    private const double SameSize = 0.03;

    // A single takes the place of a treble three sizes down: common practice.
    private const double SizesUp = 3;

    /// <summary>
    /// Every set worth trying: the own hooks; a size up and a size down at each place and at all; single hooks likewise, three
    /// sizes up from a treble; none. Sizes are the box's own, by weight.
    /// </summary>
    public static ImmutableArray<HookSet> All(LureDesign design, MakersBox box)
    {
        (int Index, HardwareItem Item)[] hooks = [.. design.Hardware.Select((item, i) => (i, item)).Where(h => Tackle.KindOf(h.item.Name) == TackleKind.Hook)];
        var sets = ImmutableArray.CreateBuilder<HookSet>();
        sets.Add(Of(design, HookChange.Own, []));
        if (hooks.Length == 0) return sets.ToImmutable();
        foreach (HookChange change in (HookChange[])[HookChange.SizeUp, HookChange.SizeDown, HookChange.Singles])
        {
            (int Index, HardwareItem? To)[] at = [.. hooks.Select(h => (h.Index, Other(h.Item, change, box))).Where(h => h.Item2 is not null)];
            foreach ((int Index, HardwareItem? To) one in at) sets.Add(Of(design, change, [one]));
            if (at.Length > 1) sets.Add(Of(design, change, at));
        }
        sets.Add(Of(design, HookChange.None, [.. hooks.Select(h => (h.Index, (HardwareItem?)null))]));
        return sets.ToImmutable();
    }

    private static HookSet Of(LureDesign design, HookChange change, IReadOnlyList<(int Index, HardwareItem? To)> swaps)
    {
        HardwareItem?[] items = [.. design.Hardware];
        foreach ((int index, HardwareItem? to) in swaps) items[index] = to;
        IEnumerable<HookAt> Hooks()
        {
            for (int i = 0; i < items.Length; i++)
                if (Tackle.KindOf(design.Hardware[i].Name) == TackleKind.Hook) yield return new(design.Hardware[i].HangsFrom, items[i]?.Name);
        }
        return new(change, [.. swaps.Select(s => design.Hardware[s.Index].HangsFrom).Distinct()], [.. Hooks()],
            design with { Hardware = [.. items.OfType<HardwareItem>()] });
    }

    /// <summary>The hook of the box that takes this one's place; null when there is none.</summary>
    public static HardwareItem? Other(HardwareItem own, HookChange change, MakersBox box)
    {
        bool single = own.Name.Contains("single", StringComparison.OrdinalIgnoreCase);
        IEnumerable<BoxHook> there = box.Hooks.Where(h => h.IsThere);
        IEnumerable<BoxHook> alike = there.Where(h => h.Kind == (single ? HookKind.Single : HookKind.Treble));
        BoxHook? other = change switch
        {
            HookChange.SizeUp => alike.Where(h => h.MassG > (1 + SameSize) * own.MassG).MinBy(h => h.MassG),
            HookChange.SizeDown => alike.Where(h => h.MassG < (1 - SameSize) * own.MassG).MaxBy(h => h.MassG),
            HookChange.Singles when !single => SingleFor(own, [.. there.Where(h => h.Kind == HookKind.Single)], alike),
            _ => null,
        };
        return other?.Hanging(own.HangsFrom);
    }

    private static BoxHook? SingleFor(HardwareItem treble, BoxHook[] singles, IEnumerable<BoxHook> trebles)
    {
        // A name without a size takes that of the box's treble of nearest weight.
        double? size = SizeIn(treble.Name) ?? (trebles.MinBy(h => Math.Abs(h.MassG - treble.MassG))?.Size is { } known ? SizeIn(known) : null);
        BoxHook[] sized = [.. singles.Where(s => SizeIn(s.Size ?? s.Name) is not null)];
        return size is { } n && sized.Length > 0
            ? sized.MinBy(s => (Math.Abs(SizeIn(s.Size ?? s.Name)!.Value - n - SizesUp), s.MassG))
            : singles.MinBy(s => Math.Abs(s.MassG - treble.MassG));
    }

    /// <summary>The size in a name such as "treble 3/0"; sizes without the stroke run down from 1; null where none is told.</summary>
    private static double? SizeIn(string name)
    {
        foreach (string word in name.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string digits = word.EndsWith("/0", StringComparison.Ordinal) ? word[..^2] : word;
            if (!int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out int n) || n is < 1 or > 30) continue;
            return digits.Length < word.Length ? n : 1 - n;
        }
        return null;
    }
}
