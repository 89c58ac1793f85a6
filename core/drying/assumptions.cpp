#include "core/drying/assumptions.h"

#include "core/drying/words.h"

#include <algorithm>
#include <array>

namespace washfast::drying {

namespace {

struct Method {
    const char* key;
    double air_m_s;
    bool heated;
};

// Still air by a sheet that lies, a faint draught along one that hangs, a table fan, a hair dryer at arm's length.
constexpr std::array methods { Method { "flat", 0.1, false }, Method { "hung", 0.2, false },
    Method { "fan", 1.5, false }, Method { "dryer_cool", 3.0, false }, Method { "dryer_hot", 3.0, true },
    Method { "warm_plate", 0.2, true } };

const Method* methodOf(const QString& key)
{
    const auto* found = std::find_if(
        methods.begin(), methods.end(), [&](const Method& method) { return key == QLatin1String(method.key); });
    return found == methods.end() ? nullptr : found;
}

} // namespace

double airSpeed_m_s(const QString& dry_method)
{
    const auto* method = methodOf(dry_method);
    return method ? method->air_m_s : methods.front().air_m_s;
}

bool isHeated(const QString& dry_method)
{
    const auto* method = methodOf(dry_method);
    return method && method->heated;
}

QStringList Assumptions::sentences() const
{
    return {
        Words::tr("A mix that does not say counts as %1 % solids by mass, give or take %2.")
            .arg(figure(solids_pct, 1), figure(solids_within_pct)),
        Words::tr("%1 % of the coat's water stays in a sheet that dries no further, give or take %2.")
            .arg(figure(residual_pct), figure(residual_within_pct)),
        Words::tr("A weighing is right to %1 g.").arg(figure(weighing_within_g, 3)),
        Words::tr("A sheet is dry at %1 % of the coat's water, damp above %2 %.")
            .arg(figure(dry_pct), figure(damp_pct)),
        Words::tr("A dry coat takes up water in air above %1 % humidity, surely above %2 %.")
            .arg(figure(redampens_above_pct), figure(surely_redampens_above_pct)),
        Words::tr("What was weighed or felt up to %1 min before a moment counts for that moment.")
            .arg(figure(counts_for_min)),
        Words::tr("Drying time goes as the vapour pressure deficit to the power -%1, give or take %2.")
            .arg(figure(deficit_power, 1), figure(deficit_power_within, 1)),
        Words::tr("Water left by touch: wet %1 %, clings %2 %, cool %3 %, dry %4 %, crisp %5 %.")
            .arg(fromTo(touch.wet_shine), fromTo(touch.clings), fromTo(touch.cool), fromTo(touch.dry),
                fromTo(touch.crisp)),
    };
}

} // namespace washfast::drying
