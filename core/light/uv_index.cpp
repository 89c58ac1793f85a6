#include "core/light/uv_index.h"

#include "core/light/words.h"

#include <cmath>
#include <numbers>

namespace washfast::light {

namespace {

struct BandText {
    const char* key;
    const char* name;
    const char* caution;
};

const BandText& textOf(UvBand band)
{
    static const BandText texts[] = {
        { "low", QT_TRANSLATE_NOOP("Light", "low"),
            QT_TRANSLATE_NOOP("Light", "No protection is needed; snow and water add to it.") },
        { "moderate", QT_TRANSLATE_NOOP("Light", "moderate"),
            QT_TRANSLATE_NOOP("Light", "Hat, long sleeves, sunscreen and sunglasses; wait in the shade.") },
        { "high", QT_TRANSLATE_NOOP("Light", "high"),
            QT_TRANSLATE_NOOP("Light",
                "Hat, long sleeves, sunscreen and sunglasses; keep to the shade around noon, and let nobody look after "
                "the sheets for long.") },
        { "very_high", QT_TRANSLATE_NOOP("Light", "very high"),
            QT_TRANSLATE_NOOP("Light",
                "Stay in the shade around noon; outside only for minutes, covered, with sunscreen, hat and "
                "sunglasses.") },
        { "extreme", QT_TRANSLATE_NOOP("Light", "extreme"),
            QT_TRANSLATE_NOOP(
                "Light", "Do not be outside around noon; bare skin and eyes are harmed within minutes.") },
    };
    return texts[size_t(band)];
}

} // namespace

double uvIndex(double zenith_deg, double ozone_du)
{
    const double mu = std::cos(zenith_deg * std::numbers::pi / 180);
    if (!(mu > 0) || !(ozone_du > 0))
        return 0;
    return 12.5 * std::pow(mu, 2.42) * std::pow(ozone_du / 300, -1.23);
}

UvBand uvBand(double uv_index)
{
    const double whole = std::round(uv_index);
    if (whole < 3)
        return UvBand::Low;
    if (whole < 6)
        return UvBand::Moderate;
    if (whole < 8)
        return UvBand::High;
    return whole < 11 ? UvBand::VeryHigh : UvBand::Extreme;
}

QString uvBandKey(UvBand band)
{
    return QString::fromLatin1(textOf(band).key);
}

QString uvBandName(UvBand band)
{
    return Words::tr(textOf(band).name);
}

QString uvCaution(UvBand band)
{
    return Words::tr(textOf(band).caution);
}

std::optional<double> erythemalMinutes(double uv_index, double standard_doses)
{
    if (!(uv_index > 0))
        return std::nullopt;
    return standard_doses * 100 / (uv_index * 0.025) / 60;
}

} // namespace washfast::light
