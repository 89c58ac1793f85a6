#include "core/drying/touch.h"

namespace washfast::drying {

std::optional<Bracket> TouchRanges::of(const QString& touch_state) const
{
    if (touch_state == QLatin1String("wet_shine"))
        return wet_shine;
    if (touch_state == QLatin1String("clings"))
        return clings;
    if (touch_state == QLatin1String("cool"))
        return cool;
    if (touch_state == QLatin1String("dry"))
        return dry;
    if (touch_state == QLatin1String("crisp"))
        return crisp;
    return std::nullopt;
}

} // namespace washfast::drying
