using Microsoft.AspNetCore.Antiforgery;

namespace Trimwright.App.Gate;

/// <summary>
/// In the place of the framework's tokens against forms of other sites. What comes in has shown the word and its origin
/// (<see cref="Gatekeeper"/>), which is more; the framework's would bring a cookie of its own to every port of the machine, and a
/// second rule for frames beside the policy.
/// </summary>
internal sealed class NoTokens : IAntiforgery
{
    private static readonly AntiforgeryTokenSet None = new(null, null, "none", null);

    public AntiforgeryTokenSet GetAndStoreTokens(HttpContext httpContext) => None;

    public AntiforgeryTokenSet GetTokens(HttpContext httpContext) => None;

    public Task<bool> IsRequestValidAsync(HttpContext httpContext) => Task.FromResult(true);

    public void SetCookieTokenAndHeader(HttpContext httpContext)
    {
        // There is none to set.
    }

    public Task ValidateRequestAsync(HttpContext httpContext) => Task.CompletedTask;
}
