using System.Collections.Immutable;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Numerics;
using Trimwright.Core.Shape;

namespace Trimwright.Core.Strength;

/// <summary>A hook on its circle: how far its point comes from where its chain hangs, mm.</summary>
public sealed record Swing(string HangsFrom, string Hook, Vec3 HangPoint, double Reach);

/// <summary>One thing that a hook may come to.</summary>
/// <param name="Hook">The swinging hook.</param>
/// <param name="Other">The other hook; null for the back and the leader.</param>
/// <param name="Way">How far it is to there, mm.</param>
/// <param name="Reach">How far the hook, or both hooks together, come, mm.</param>
public sealed record Meeting(Swing Hook, Swing? Other, double Way, double Reach)
{
    /// <summary>mm to spare; negative where they meet.</summary>
    public double Room => Way - Reach;

    public bool Meets => Room <= 0;
}

/// <summary>
/// Where hooks can come to: circles about their hang points, of the length of their chains. A hook is taken as its length
/// only, without the spread of its points, and free to swing any way; so a meeting says "may", and room under a treble's
/// half width says little.
/// </summary>
/// <param name="Swings">Each hook, by where it hangs.</param>
/// <param name="Hooks">Every pair of hooks.</param>
/// <param name="Back">Each hanger's hook and the ridge of the back, by the shortest way round the side.</param>
/// <param name="Leader">Each hook and the leader's knot, its rings swung towards the hook.</param>
public sealed record HookReach(
    ImmutableArray<Swing> Swings, ImmutableArray<Meeting> Hooks, ImmutableArray<Meeting> Back, ImmutableArray<Meeting> Leader)
{
    // Stations and heights at which the way over the side is measured: finer moves it by less than 0.1 mm.
    private const int Stations = 160;
    private const int Heights = 80;

    internal static HookReach Of(LureDesign design, Body body, WireShape wire)
    {
        Swing[] swings = [.. wire.Places.Where(p => p.Place != Soundness.LineTie).Select(p => SwingOf(design, p)).OfType<Swing>()];
        var pairs = ImmutableArray.CreateBuilder<Meeting>();
        for (int i = 0; i < swings.Length; i++)
            for (int j = i + 1; j < swings.Length; j++)
                pairs.Add(new(swings[i], swings[j], (swings[i].HangPoint - swings[j].HangPoint).Length, swings[i].Reach + swings[j].Reach));
        double rings = design.Hardware.Where(h => h.HangsFrom == Soundness.LineTie && !h.Kind.IsHook()).Sum(h => h.LengthMm);
        Vec3 tie = wire.Places[0].At;
        return new([.. swings], pairs.ToImmutable(),
            [.. swings.Where(s => s.HangsFrom != Soundness.TailLoop && HangsUnder(body, s.HangPoint)).Select(s => new Meeting(s, null, WayOverTheBack(body, s.HangPoint), s.Reach))],
            [.. swings.Select(s => new Meeting(s, null, (s.HangPoint - tie).Length, s.Reach + rings))]);
    }

    private static bool HangsUnder(Body body, Vec3 p) =>
        p.Z < 0.5 * (body.BackAt(Math.Clamp(p.X, 0, body.Length)) + body.BellyAt(Math.Clamp(p.X, 0, body.Length)));

    private static Swing? SwingOf(LureDesign design, HangPlace place)
    {
        HardwareItem[] chain = [.. design.Hardware.Where(h => h.HangsFrom == place.Place)];
        return chain.Length == 0 ? null : new(place.Place, chain[^1].Name, place.At, chain.Sum(h => h.LengthMm));
    }

    /// <summary>
    /// Length of a taut thread from a point under the belly round the side to the ridge of the back, mm: at each station the
    /// section's convex side, with the way along the body beside it, and of all stations the shortest.
    /// </summary>
    internal static double WayOverTheBack(Body body, Vec3 from) => Enumerable.Range(0, Stations + 1)
        .Select(i => body.Length * i / Stations)
        .Min(x => Math.Sqrt(Math.Pow(Around(body.SectionAt(x), from.Z), 2) + (x - from.X) * (x - from.X)));

    private static double Around(Section section, double low)
    {
        // A part of the body that lies under the hang point is no hindrance.
        if (section.Back <= low) return low - section.Back;
        double bottom = Math.Max(section.Belly, low);
        var taut = new List<(double Y, double Z)> { (0, low) };
        for (int i = 0; i <= Heights; i++)
        {
            // Closer steps at belly and back, where a round section turns most.
            double z = bottom + (section.Back - bottom) * 0.5 * (1 - Math.Cos(Math.PI * i / Heights));
            Wind(taut, (i == Heights ? 0 : section.BreadthAt(z), z));
        }
        double length = 0;
        for (int i = 1; i < taut.Count; i++) length += Apart(taut[i - 1], taut[i]);
        return length;
    }

    // Points that the thread would leave on its way to the next one fall out (Andrew's monotone chain).
    private static void Wind(List<(double Y, double Z)> taut, (double Y, double Z) next)
    {
        while (taut.Count > 1 && Turns(taut[^2], taut[^1], next) <= 0) taut.RemoveAt(taut.Count - 1);
        taut.Add(next);
    }

    private static double Turns((double Y, double Z) a, (double Y, double Z) b, (double Y, double Z) c) =>
        (b.Y - a.Y) * (c.Z - a.Z) - (b.Z - a.Z) * (c.Y - a.Y);

    private static double Apart((double Y, double Z) a, (double Y, double Z) b) =>
        Math.Sqrt((b.Y - a.Y) * (b.Y - a.Y) + (b.Z - a.Z) * (b.Z - a.Z));
}
