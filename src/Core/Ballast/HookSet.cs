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
        (int Index, HardwareItem Item)[] hooks = [.. design.Hardware.Select((item, i) => (i, item)).Where(h => h.item.Kind.IsHook())];
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
                if (design.Hardware[i].Kind.IsHook()) yield return new(design.Hardware[i].HangsFrom, items[i]?.Name);
        }
        return new(change, [.. swaps.Select(s => design.Hardware[s.Index].HangsFrom).Distinct()], [.. Hooks()],
            design with { Hardware = [.. items.OfType<HardwareItem>()] });
    }

    /// <summary>The hook of the box that takes this one's place; null when there is none.</summary>
    public static HardwareItem? Other(HardwareItem own, HookChange change, MakersBox box)
    {
        IEnumerable<BoxHook> there = box.Hooks.Where(h => h.IsThere);
        IEnumerable<BoxHook> alike = there.Where(h => h.Kind == own.Kind);
        BoxHook? other = change switch
        {
            HookChange.SizeUp => alike.Where(h => h.MassG > (1 + SameSize) * own.MassG).MinBy(h => h.MassG),
            HookChange.SizeDown => alike.Where(h => h.MassG < (1 - SameSize) * own.MassG).MaxBy(h => h.MassG),
            HookChange.Singles when own.Kind == HardwareKind.Treble => SingleFor(own, [.. there.Where(h => h.Kind == HardwareKind.Single)], alike),
            HookChange.Singles or HookChange.Own or HookChange.None => null,
        };
        return other?.Hanging(own.HangsFrom);
    }

    private static BoxHook? SingleFor(HardwareItem treble, BoxHook[] singles, IEnumerable<BoxHook> trebles)
    {
        // Without a size it takes that of the box's treble of nearest weight.
        double? size = HookSize.Number(treble.Size) ?? HookSize.Number(trebles.MinBy(h => Math.Abs(h.MassG - treble.MassG))?.Size);
        BoxHook[] sized = [.. singles.Where(s => HookSize.Number(s.Size) is not null)];
        return size is { } n && sized.Length > 0
            ? sized.MinBy(s => (Math.Abs(HookSize.Number(s.Size)!.Value - n - SizesUp), s.MassG))
            : singles.MinBy(s => Math.Abs(s.MassG - treble.MassG));
    }
}
