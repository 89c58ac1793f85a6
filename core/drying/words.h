// Sentences of this room: translated, with numbers as people write them.
#pragma once

#include "core/drying/bracket.h"

#include <QCoreApplication>
#include <QLocale>
#include <cmath>

namespace washfast::drying {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Drying)
};

/// A number in the person's locale.
[[nodiscard]] inline QString figure(double value, int decimals = 0)
{
    if (std::isinf(value))
        return Words::tr("never");
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    const double tiny = 0.5 * std::pow(10.0, -decimals);
    return locale.toString(std::abs(value) < tiny ? 0.0 : value, 'f', decimals); // never "-0"
}

[[nodiscard]] inline QString fromTo(const Bracket& bracket, int decimals = 0)
{
    return Words::tr("%1 to %2").arg(figure(bracket.low, decimals), figure(bracket.high, decimals));
}

} // namespace washfast::drying
