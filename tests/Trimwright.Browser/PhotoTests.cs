using System.Globalization;
using System.Text;
using Microsoft.Playwright;

namespace Trimwright.Browser;

/// <summary>A photo is redrawn before it leaves the page, without what it says of its place, and two marks scale it.</summary>
[Collection("browser")]
public class PhotoTests
{
    private const string Secret = "GPSLatitude 54.321 GPSLongitude 12.345";

    [Fact]
    public async Task A_photo_loses_what_it_says_of_its_place_and_is_scaled_by_two_marks_with_mouse_and_keys()
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, new Way(1440, "mouse", false));
        IPage page = await visit.Start("Tidegate 185");
        await page.Locator("#photo-side").SetInputFilesAsync(new FilePayload { Name = "evening.jpg", MimeType = "image/jpeg", Buffer = await Photo(page) });
        await page.Locator(".marks image").WaitForAsync();

        IAPIResponse kept = await page.Context.APIRequest.GetAsync(server.At((await page.Locator(".marks image").GetAttributeAsync("href"))!).ToString());
        byte[] bytes = await kept.BodyAsync();
        Assert.Equal("image/jpeg", kept.Headers["content-type"]);
        string raw = Encoding.Latin1.GetString(bytes);
        Assert.DoesNotContain("Exif", raw);
        Assert.DoesNotContain("GPS", raw);
        Assert.Equal("0 0 2048 683", await page.Locator(".marks").GetAttributeAsync("viewBox"));

        // By mouse: the second mark to elsewhere, and the length between them typed.
        LocatorBoundingBoxResult box = (await page.Locator(".mark[data-mark=b]").BoundingBoxAsync())!;
        Assert.True(box.Width >= 24 && box.Height >= 24, $"{box.Width} by {box.Height}");
        await page.Mouse.MoveAsync(box.X + box.Width / 2, box.Y + box.Height / 2);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(box.X + box.Width / 2 - 40, box.Y + box.Height / 2 + 6, new() { Steps = 4 });
        await page.Mouse.UpAsync();
        await page.Locator("[data-field='photo-length side']").FillAsync("170");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForFunctionAsync("() => " + Drawn + ".length.toFixed(1) === '170.0'");
        Assert.Equal(170.0, await page.EvaluateAsync<double>(Drawn + ".length"), 0.5);
        Assert.Equal(0.0, await page.EvaluateAsync<double>(Drawn + ".level"), 0.5);

        // By keys: the first mark on and down; still 170 mm from mark to mark.
        double before = await page.EvaluateAsync<double>("() => +document.querySelector('.mark[data-mark=a]').dataset.x"), matrix = await page.EvaluateAsync<double>(Drawn + ".scale");
        await page.Locator(".mark[data-mark=a]").FocusAsync();
        for (int i = 0; i < 3; i++) await page.Keyboard.PressAsync("Shift+ArrowRight");
        await page.Keyboard.PressAsync("ArrowDown");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForFunctionAsync($"() => Math.abs({Drawn}.scale - {matrix.ToString(CultureInfo.InvariantCulture)}) > 1e-6");
        Assert.True(await page.EvaluateAsync<double>("() => +document.querySelector('.mark[data-mark=a]').dataset.x") > before);
        Assert.Equal(170.0, await page.EvaluateAsync<double>(Drawn + ".length"), 0.5);

        // What is no picture is said beside the field; away and back again.
        await page.Locator("#photo-plan").SetInputFilesAsync(new FilePayload { Name = "notes.jpg", MimeType = "image/jpeg", Buffer = "no picture"u8.ToArray() });
        await Assertions.Expect(page.Locator(".trace .fault")).ToContainTextAsync("“notes.jpg” is no picture that this browser can read");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it away" }).ClickAsync();
        await Assertions.Expect(page.Locator(".behind image")).ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Button, new() { Name = "Bring the last one back" }).ClickAsync();
        await Assertions.Expect(page.Locator(".behind image")).ToHaveCountAsync(1);
        Assert.Empty(visit.Errors);
    }

    [Fact]
    public async Task On_a_phone_a_photo_taken_upright_stands_upright_and_everything_about_it_can_be_touched()
    {
        using TheServer server = await TheServer.Start();
        await using Visit visit = await Visit.Begin(server, new Way(360, "touch", true));
        IPage page = await visit.Start("Tidegate 185");
        LocatorBoundingBoxResult field = (await page.Locator("#photo-plan").BoundingBoxAsync())!;
        Assert.True(field.Width > 200 && field.Height >= 44, $"the file's field is {field.Width} by {field.Height}");
        // As a phone held upright writes it: lying, with a word (0x0112, 6) that it is to be turned a quarter, and a place (0x8825).
        byte[] jpeg = await Photo(page), tiff =
        [
            .. "II*\0"u8, 8, 0, 0, 0, 2, 0, 0x12, 0x01, 3, 0, 1, 0, 0, 0, 6, 0, 0, 0, 0x25, 0x88, 4, 0, 1, 0, 0, 0, 38, 0, 0, 0, 0, 0, 0, 0,
            1, 0, 1, 0, 2, 0, 2, 0, 0, 0, (byte)'N', 0, 0, 0, 0, 0, 0, 0,
        ];
        byte[] told = [.. "Exif\0\0"u8, .. tiff], turned = [.. jpeg[..2], 0xFF, 0xE1, 0, (byte)(told.Length + 2), .. told, .. jpeg[(4 + (jpeg[4] << 8 | jpeg[5]))..]];
        await page.Locator("#photo-plan").SetInputFilesAsync(new FilePayload { Name = "upright.jpg", MimeType = "image/jpeg", Buffer = turned });
        await page.Locator(".marks image").WaitForAsync();
        Assert.Equal("0 0 683 2048", await page.Locator(".marks").GetAttributeAsync("viewBox"));
        string raw = Encoding.Latin1.GetString(await (await page.Context.APIRequest.GetAsync(server.At((await page.Locator(".marks image").GetAttributeAsync("href"))!).ToString())).BodyAsync());
        Assert.DoesNotContain("Exif", raw);
        string[] small = await page.EvaluateAsync<string[]>("""
            () => [...document.querySelectorAll(".trace summary, .trace .mark, .trace button, .trace select, .trace .box input, .trace input[type=file], .trace label.tick")]
              .map((e) => [e, e.getBoundingClientRect()]).filter(([, b]) => Math.round(b.width) < 44 || Math.round(b.height) < 44).map(([e, b]) => `${b.width} by ${b.height}: ${e.outerHTML.slice(0, 60)}`)
            """);
        Assert.True(small.Length == 0, string.Join('\n', small));
        await FirstSessionTests.Audit(page, "a photo on a phone");
        Assert.Empty(visit.Errors);
    }

    // How far apart the two marks lie on the sheet, whose units are millimetres.
    private const string Drawn = """
        (() => { const m = document.querySelector(".behind image").transform.baseVal.consolidate().matrix;
          const [a, b] = ["a", "b"].map((k) => { const e = document.querySelector(`.mark[data-mark=${k}]`); return new DOMPoint(+e.dataset.x, +e.dataset.y).matrixTransform(m); });
          return { length: Math.hypot(b.x - a.x, b.y - a.y), level: b.y - a.y, scale: Math.hypot(m.a, m.b) }; })()
        """;

    // A real picture, larger than is needed, that says where it was taken in the segment that cameras write.
    private static async Task<byte[]> Photo(IPage page)
    {
        string drawn = await page.EvaluateAsync<string>("""
            async () => { const c = document.createElement("canvas"); [c.width, c.height] = [3000, 1000]; const p = c.getContext("2d");
              p.fillStyle = "#cfe0dd"; p.fillRect(0, 0, 3000, 1000); p.fillStyle = "#a77b4a"; p.beginPath(); p.ellipse(1500, 500, 1250, 200, 0, 0, 7); p.fill();
              return c.toDataURL("image/jpeg", 0.9).split(",")[1]; }
            """);
        byte[] jpeg = Convert.FromBase64String(drawn), told = [.. "Exif\0\0II*\0"u8, .. Encoding.ASCII.GetBytes(Secret)];
        return [.. jpeg[..2], 0xFF, 0xE1, (byte)((told.Length + 2) >> 8), (byte)(told.Length + 2), .. told, .. jpeg[2..]];
    }
}
