#include "core/density/tone_table.h"

#include "core/density/refuse.h"
#include "core/density/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::density {

Result<ToneTable> toneTable(
    const CurveFit& curve, const std::vector<FilmStep>& film, std::optional<double> exposure_log_h, int rows)
{
    if (film.size() < 3 || rows < 2)
        return refuse(QT_TRANSLATE_NOOP("Density", "A tone table needs at least three film steps and two rows."));
    auto steps = film;
    std::stable_sort(
        steps.begin(), steps.end(), [](const FilmStep& a, const FilmStep& b) { return a.density < b.density; });
    ToneTable table;
    const bool rising = steps.back().value > steps.front().value;
    std::vector<double> x, y; // density of the film, value
    for (const auto& step : steps) {
        if (!std::isfinite(step.density) || !std::isfinite(step.value))
            return refuse(QT_TRANSLATE_NOOP("Density", "Every film step needs a value and a density."));
        if (!x.empty() && step.density - x.back() < 1e-6)
            continue; // two steps of one density: the first will do
        x.push_back(step.density);
        y.push_back(rising ? step.value : -step.value);
    }
    const auto smooth = stats::isotonicMeans(y);
    if (smooth != y)
        table.warnings << Words::tr("The film's densities do not rise evenly with its values; "
                                    "they were smoothed.");
    if (x.size() < 3 || !(smooth.back() > smooth.front()))
        return refuse(QT_TRANSLATE_NOOP("Density", "The film's densities do not change with its values."));
    const stats::MonotoneCurve value_of(x, smooth);

    if (exposure_log_h)
        table.exposure_log_h = *exposure_log_h;
    else if (curve.shoulder_log_h)
        table.exposure_log_h = *curve.shoulder_log_h + x.front();
    else
        return refuse(QT_TRANSLATE_NOOP(
            "Density", "The curve does not reach its shoulder within its steps; say which exposure will be given."));
    // Tones beyond what the curve was measured for are not promised.
    const double darkest_at = std::min(table.exposure_log_h - x.front(), curve.highest());
    const double lightest_at = std::max(table.exposure_log_h - x.back(), curve.lowest());
    if (darkest_at <= lightest_at)
        return refuse(
            QT_TRANSLATE_NOOP("Density", "With this exposure no step of the film falls on the measured curve."));
    if (table.exposure_log_h - x.front() > curve.highest() + 1e-9)
        table.warnings << Words::tr("The clearest film gives more exposure than was measured; the darkest tone stops "
                                    "at the last measured step.");
    if (table.exposure_log_h - x.back() < curve.lowest() - 1e-9)
        table.warnings << Words::tr("The densest film gives less exposure than was measured; the "
                                    "lightest tone stops at the first measured step.");
    const double light = *curve.densityAt(lightest_at), dark = *curve.densityAt(darkest_at);
    if (!(dark > light))
        return refuse(QT_TRANSLATE_NOOP("Density", "The curve is flat over the range of this film."));
    for (int i = 0; i < rows; ++i) {
        ToneRow row;
        const double share = double(i) / (rows - 1);
        row.tone_percent = 100 * share;
        row.print_density = light + share * (dark - light);
        row.log_h = i == 0 ? lightest_at
            : i == rows - 1
            ? darkest_at
            : std::clamp(curve.exposureFor(row.print_density).value_or(darkest_at), lightest_at, darkest_at);
        row.film_density = std::clamp(table.exposure_log_h - row.log_h, x.front(), x.back());
        const double value = value_of.at(row.film_density).value_or(smooth.front());
        row.film_value = rising ? value : -value;
        table.rows.push_back(row);
    }
    return table;
}

QByteArray writeToneTable(const ToneTable& table)
{
    QByteArray bytes = "tone_percent,print_density,log_h,film_density,film_value\r\n";
    for (const auto& row : table.rows) {
        QByteArray line;
        for (const double value :
            { row.tone_percent, row.print_density, row.log_h, row.film_density, row.film_value }) {
            if (!line.isEmpty())
                line += ',';
            line += QByteArray::number(value, 'f', 4);
        }
        bytes += line + "\r\n";
    }
    return bytes;
}

} // namespace washfast::density
