using Trimwright.Core.Design;
using Trimwright.Core.Numerics;
using Trimwright.Core.Strength;

namespace Trimwright.Tests.Strength;

/// <summary>Geometry of swinging hooks, against closed forms.</summary>
public class HookReachTests
{
    [Fact]
    public void Round_a_cylinder_the_thread_runs_straight_to_the_tangent_and_then_along_the_arc()
    {
        // From h under the axis of a round bar of radius r: √(h² − r²) to the tangent, then r·(π − arccos(r/h)) to the top.
        const double r = 12;
        var bar = Lures.Solid(0.5, 200, [(0, r), (200, r)], [(0, -r), (200, -r)], [(0, r), (200, r)]).Body.Surface();
        foreach (double h in new[] { 12.5, 16, 24, 40 })
        {
            double way = HookReach.WayOverTheBack(bar, new Vec3(100, 0, -h));
            double closed = Math.Sqrt(h * h - r * r) + r * (Math.PI - Math.Acos(r / h));
            TestContext.Current.TestOutputHelper?.WriteLine($"h {h}: {way:F4}, closed form {closed:F4}");
            Assert.Equal(closed, way, 1e-3 * closed);
        }
    }

    [Fact]
    public void Towards_a_thin_end_the_way_over_the_back_is_shorter_and_never_less_than_straight()
    {
        foreach (LureDesign design in Lures.Demos)
        {
            var body = design.Body.Surface();
            Meeting back = Assert.Single(LureStrength.Of(design)!.Reach.Back);
            Vec3 from = back.Hook.HangPoint;
            double straight = Enumerable.Range(0, 201).Min(i => (new Vec3(body.Length * i / 200, 0, body.BackAt(body.Length * i / 200)) - from).Length);
            Assert.InRange(back.Way, straight, 2 * straight);
        }
    }

    [Fact]
    public void A_hook_that_hangs_from_the_back_has_no_way_over_it()
    {
        LureDesign design = Lures.Demo("slipway-150");
        WireDesign wire = design.Wire!;
        Hanger above = wire.Hangers[0] with { Eye = wire.Hangers[0].Eye with { HangAtMm = [48, 0, 24] } };
        Assert.Empty(LureStrength.Of(design with { Wire = wire with { Hangers = [above] } })!.Reach.Back);
    }

    [Fact]
    public void Two_hooks_may_tangle_when_their_chains_together_outreach_their_hang_points()
    {
        LureDesign design = Lures.Demo("slipway-150");
        Meeting pair = Assert.Single(LureStrength.Of(design)!.Reach.Hooks);
        // Swivel 18, ring 10, treble 48; ring 10, treble 43.
        Assert.Equal(18 + 10 + 48 + 10 + 43, pair.Reach);
        Assert.Equal((pair.Hook.HangPoint - pair.Other!.HangPoint).Length, pair.Way);
        Assert.True(pair.Meets);
        // Turned round: the reach at which they just don't, by shorter hooks.
        LureDesign shorter = design with { Hardware = [.. design.Hardware.Select(h => h.Name.StartsWith("treble", StringComparison.Ordinal) ? h with { LengthMm = h.LengthMm - (pair.Reach - pair.Way) / 2 - 0.01 } : h)] };
        Meeting apart = Assert.Single(LureStrength.Of(shorter)!.Reach.Hooks);
        Assert.False(apart.Meets);
        Assert.Equal(0.02, apart.Room, 1e-9);
    }

    [Fact]
    public void A_hook_comes_to_the_leader_over_the_rings_at_the_line_tie()
    {
        LureDesign design = Lures.Demo("tidegate-185");
        Meeting leader = LureStrength.Of(design)!.Reach.Leader.Single(m => m.Hook.HangsFrom == "belly");
        Assert.Equal(18 + 10 + 48 + 8 + 10, leader.Reach);
        LureDesign ringless = design with { Hardware = [.. design.Hardware.Where(h => h.HangsFrom != "line_tie")] };
        Meeting without = LureStrength.Of(ringless)!.Reach.Leader.Single(m => m.Hook.HangsFrom == "belly");
        Assert.Equal(leader.Reach - 18, without.Reach);
        Assert.Equal(leader.Way, without.Way);
    }
}
