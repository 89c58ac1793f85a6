// Numbers of the Curves view as people read them, and the translation context of what is no QObject.
#pragma once

#include "core/density/characteristic.h"

#include <QCoreApplication>
#include <QLocale>
#include <cmath>

namespace washfast::ui::curves {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Curves)
};

[[nodiscard]] inline QString figure(double value, int decimals)
{
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    const double tiny = 0.5 * std::pow(10.0, -decimals);
    return locale.toString(std::abs(value) < tiny ? 0.0 : value, 'f', decimals); // never "-0"
}
/// A dose to three figures or so: 0.052, 0.86, 12.4.
[[nodiscard]] inline QString doseFigure(double j_cm2)
{
    return figure(j_cm2, j_cm2 < 0.0995 ? 3 : j_cm2 < 9.995 ? 2 : 1);
}
/// The same from its logarithm; a dash where it is not known.
[[nodiscard]] inline QString doseFigure(const std::optional<double>& log_h)
{
    return log_h ? doseFigure(std::pow(10, *log_h)) : QString(QChar(0x2013));
}
/// "0.81 to 1.02"; empty where neither end is known, a dash for an end that is not.
[[nodiscard]] inline QString doseInterval(const std::optional<double>& low, const std::optional<double>& high)
{
    return low || high ? Words::tr("%1 to %2").arg(doseFigure(low), doseFigure(high)) : QString();
}
[[nodiscard]] inline QString interval(const density::Interval& ends, int decimals)
{
    const auto end
        = [&](const std::optional<double>& value) { return value ? figure(*value, decimals) : QString(QChar(0x2013)); };
    return ends.low || ends.high ? Words::tr("%1 to %2").arg(end(ends.low), end(ends.high)) : QString();
}

} // namespace washfast::ui::curves
