#include "core/causes/settings.h"

#include <algorithm>
#include <array>

namespace washfast::causes {

namespace {

template <std::size_t N> bool startsWithAny(const QString& name, const std::array<const char*, N>& starts)
{
    return std::any_of(
        starts.begin(), starts.end(), [&](const char* start) { return name.startsWith(QLatin1String(start)); });
}

// Beginnings of catalogue keys.
constexpr std::array as_it_is { "session_", "site_", "term_", "sun_", "cloud", "sky_", "room_", "uv_index", "uva_clear",
    "light_loss_sun", "light_loss_cloud", "print_maker", "air_" };
constexpr std::array halves { "expose_", "dose_", "uva_", "cover", "light_loss_", "negative_", "hold_", "rinse_",
    "bath", "touch_", "moisture_", "dry_", "redampened", "meter" };

constexpr std::array followed { "moisture_", "touch_", "dose_", "uva_", "redampened", "light_loss_", "mix_age" };

} // namespace

bool isMeasuredOnly(const QString& factor)
{
    return startsWithAny(factor, followed);
}

bool canBeChosen(const QString& factor)
{
    return !startsWithAny(factor, as_it_is);
}

bool canDifferWithinASheet(const QString& factor)
{
    return canBeChosen(factor) && startsWithAny(factor, halves);
}

} // namespace washfast::causes
