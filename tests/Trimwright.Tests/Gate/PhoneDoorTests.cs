using Trimwright.App.Gate;
using Trimwright.Tests.Workshop;

namespace Trimwright.Tests.Gate;

/// <summary>Codes for phones: one phone, two minutes, eight tries; and phones that are sent away.</summary>
public class PhoneDoorTests
{
    private static SetClock Clock() => new(new DateTimeOffset(2026, 3, 29, 0, 59, 0, TimeSpan.Zero));

    [Fact]
    public void A_code_lets_one_phone_in_and_is_used_up()
    {
        var door = new PhoneDoor(Clock());
        Assert.Null(door.Join(null, "early"));
        string code = door.NewCode();
        Assert.Equal(22, code.Length);
        Assert.Matches("^[A-Za-z0-9_-]+$", code);
        Assert.NotEqual(code, new PhoneDoor(Clock()).NewCode());
        (string cookie, string word) = door.Join(code, "Android\u202e <b>")!.Value;
        Assert.Equal("Android b", door.Of(cookie, word)!.Name);
        Assert.Null(door.Join(code, "second"));
        Assert.Null(door.Of(code, word));
        Assert.Null(door.Of(cookie + "x", word));
        // The browser hands the cookie to every port of the desk's machine; alone it is worth nothing.
        foreach (string? other in new[] { null, "", "x", cookie, word + "x", code }) Assert.Null(door.Of(cookie, other));
        (string second, string others) = door.Join(door.NewCode(), "second")!.Value;
        Assert.Null(door.Of(second, word));
        door.SendAway(door.Of(second, others)!.Id);
        Assert.Single(door.Phones);
    }

    [Fact]
    public void After_two_minutes_it_lets_nobody_in()
    {
        var hands = Clock();
        var door = new PhoneDoor(hands);
        string code = door.NewCode();
        hands.Now += TimeSpan.FromSeconds(119);
        Assert.True(door.Left > TimeSpan.Zero);
        hands.Now += TimeSpan.FromSeconds(1);
        Assert.Null(door.Left);
        Assert.Null(door.Join(code, "late"));
        // A new one makes the old one no better.
        string next = door.NewCode();
        Assert.Null(door.Join(code, "late"));
        Assert.NotNull(door.Join(next, "in time"));
    }

    [Fact]
    public void Eight_wrong_tries_make_it_void_and_the_eighth_right_one_is_let_in()
    {
        var door = new PhoneDoor(Clock());
        string code = door.NewCode();
        for (int i = 0; i < PhoneDoor.Tries - 1; i++) Assert.Null(door.Join(code[..^1] + "!", "guess"));
        Assert.NotNull(door.Join(code, "eighth"));
        code = door.NewCode();
        for (int i = 0; i < PhoneDoor.Tries; i++) Assert.Null(door.Join("guess", "guess"));
        Assert.Null(door.Join(code, "ninth"));
        Assert.Null(door.Left);
    }

    [Fact]
    public void A_phone_that_is_sent_away_is_a_stranger_at_once_and_the_others_stay()
    {
        var door = new PhoneDoor(Clock());
        int told = 0;
        door.Changed += () => told++;
        (string Cookie, string Word) first = door.Join(door.NewCode(), "one")!.Value, second = door.Join(door.NewCode(), "two")!.Value;
        door.SendAway(door.Of(first.Cookie, first.Word)!.Id);
        Assert.Null(door.Of(first.Cookie, first.Word));
        Assert.Equal("two", door.Of(second.Cookie, second.Word)!.Name);
        Assert.Equal(["two"], door.Phones.Select(p => p.Name));
        door.Shut();
        Assert.Null(door.Of(second.Cookie, second.Word));
        Assert.Equal(4, told);
    }

    [Theory]
    [InlineData("192.168.1.7", true)]
    [InlineData("10.0.0.1", true)]
    [InlineData("172.16.0.1", true)]
    [InlineData("172.32.0.1", false)]
    [InlineData("169.254.3.4", true)]
    [InlineData("8.8.8.8", false)]
    [InlineData("0.0.0.0", false)]
    [InlineData("::1", false)]
    public void Only_addresses_of_ones_own_network_are_offered(string address, bool own) =>
        Assert.Equal(own, OwnAddresses.IsPrivate(System.Net.IPAddress.Parse(address)));
}
