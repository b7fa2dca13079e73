namespace Trimwright.Core.Finish;

/// <summary>
/// Where the air's water settles: on work no warmer than the dew point, and under a coat as haze well before that.
/// <para>
/// Magnus formula with the coefficients of Alduchov &amp; Eskridge 1996, Journal of Applied Meteorology 35, 601:
/// γ = ln(h) + a·T/(b + T), T_d = b·γ/(a − γ), a = 17.625, b = 243.04 °C, over water, −40 to 50 °C.
/// </para>
/// </summary>
public static class DewPoint
{
    /// <summary>Work is kept this much warmer than the dew point, K; common practice, no source.</summary>
    public const double Margin = 3;

    private const double A = 17.625;
    private const double B = 243.04;

    /// <summary>The dew point, °C.</summary>
    /// <param name="temperatureC">Of the air, °C, −40 to 50.</param>
    /// <param name="humidity">Relative, a fraction over 0, up to 1.</param>
    public static double Of(double temperatureC, double humidity)
    {
        double gamma = Math.Log(humidity) + A * temperatureC / (B + temperatureC);
        return B * gamma / (A - gamma);
    }

    /// <summary>The humidity at which work as warm as the air stands just <see cref="Margin"/> over the dew point, a fraction.</summary>
    public static double MostHumidity(double temperatureC)
    {
        double dew = temperatureC - Margin;
        return Math.Exp(A * dew / (B + dew) - A * temperatureC / (B + temperatureC));
    }
}
