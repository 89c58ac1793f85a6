// What to print on film so that the tones on paper follow a straight scale: from the curve of a mix on a paper and the
// film's own steps, measured in the ultraviolet.
//
// The file is a CSV of our own with these columns, one row a tone:
//   tone_percent    wanted tone: 0 is the lightest that this film gives, 100 the darkest
//   print_density   density on paper, in equal steps from 0 to 100 percent
//   log_h           log10 of the exposure in J/cm2 that this density needs
//   film_density    ultraviolet density the film has to have there
//   film_value      value of the film step that gives it, as it stands in the film's own table, between its steps
#pragma once

#include "core/density/characteristic.h"

#include <QByteArray>

namespace washfast::density {

struct FilmStep {
    double value = 0; // what was sent to the printer, such as a percentage of ink
    double density = 0; // in the ultraviolet
};

struct ToneRow {
    double tone_percent = 0, print_density = 0, log_h = 0, film_density = 0, film_value = 0;
};

struct ToneTable {
    double exposure_log_h = 0; // to give: behind no film at all
    std::vector<ToneRow> rows;
    QStringList warnings;
};

/// With this exposure, or with one under which the clearest film just reaches the shoulder of the curve. Refused when
/// the film's steps do not rise, or the tones fall outside the curve's own steps.
[[nodiscard]] Result<ToneTable> toneTable(const CurveFit& curve, const std::vector<FilmStep>& film,
    std::optional<double> exposure_log_h = std::nullopt, int rows = 21);

[[nodiscard]] QByteArray writeToneTable(const ToneTable& table);

} // namespace washfast::density
