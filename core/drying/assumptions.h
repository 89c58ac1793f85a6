// What is taken for granted about drying where nothing was measured or published. None of these numbers has a
// published source for coated paper: they are this program's own assumptions, the person can change each, and whatever
// rests on one says so.
#pragma once

#include "core/drying/touch.h"

#include <QStringList>

namespace washfast::drying {

struct Assumptions {
    /// Solids by mass of the mix when it does not say: 25 g + 10 g in 200 mL of water (traditional recipe as published
    /// by Ware, "The new cyanotype", alternativephotography.com), and how far other mixes lie from that (95 of 100).
    double solids_pct = 100.0 * 35.0 / 235.0;
    double solids_within_pct = 6.0;
    /// Share of the coat's water that stays in a sheet that dries no further in a room, and how far off that may be.
    double residual_pct = 2.0;
    double residual_within_pct = 2.0;
    /// One weighing is off by this much (95 of 100): the last digit of a balance of 0.01 g, and handling.
    double weighing_within_g = 0.015;
    /// A sheet counts as dry at this share of the coat's water; above the other one it is called damp.
    double dry_pct = 5.0;
    double damp_pct = 10.0;
    /// Air above this makes a dry coat take up water; surely so above the second.
    double redampens_above_pct = 75.0;
    double surely_redampens_above_pct = 80.0;
    /// A weighing or touch up to so long before a moment counts for that moment.
    double counts_for_min = 5.0;
    /// Drying time goes as (1 / vapour pressure deficit) to this power, give or take (95 of 100).
    double deficit_power = 1.0;
    double deficit_power_within = 0.4;
    TouchRanges touch;

    /// A sentence for each of the numbers above, with its value; for the screen and for reports.
    [[nodiscard]] QStringList sentences() const;
};

/// Speed of the air over a sheet that dries by this method (a key of dry_method), m/s: an assumption as well.
[[nodiscard]] double airSpeed_m_s(const QString& dry_method);
/// Whether the air over the sheet is hotter than the room's (hot dryer, warm plate or oven).
[[nodiscard]] bool isHeated(const QString& dry_method);

} // namespace washfast::drying
