// Sheets with made-up records for the tests of drying: 0.60 g of a mix with 20 % solids on a sheet of 5.00 g, so 0.48 g
// of water, drying from 10:00.
#pragma once

#include "core/drying/moisture.h"

namespace washfast::drying {

inline Instant clock(int minutes_after_ten)
{
    const auto ten = Instant::fromIso(std::string_view("2026-05-04T10:00:00Z")).value();
    return { ten.ms_utc + qint64(minutes_after_ten) * 60'000, 0 };
}

/// The mass at which this share of the coat's water is left.
inline double massOf(double moisture_pct)
{
    return 5.0 + 0.12 + 0.48 * moisture_pct / 100.0;
}

inline Sheet coatedSheet()
{
    Sheet sheet;
    sheet.bare_g = knownNumber(5.0);
    sheet.coated_g = knownNumber(5.6);
    sheet.solids_pct = knownNumber(20.0);
    sheet.coated_at = sheet.dry_start = clock(0);
    sheet.paper = QStringLiteral("paper P");
    sheet.dry_method = QStringLiteral("flat");
    sheet.print_method = QStringLiteral("contact");
    sheet.deficit_kpa = knownNumber(1.17);
    return sheet;
}

inline void weigh(Sheet& sheet, int minute, double moisture_pct, const char* state = "drying")
{
    sheet.weighings.push_back({ clock(minute), QString::fromLatin1(state), massOf(moisture_pct), Evidence::Measured });
}

inline void touch(Sheet& sheet, int minute, const char* state)
{
    sheet.touches.push_back({ clock(minute), QStringLiteral("drying"), QString::fromLatin1(state) });
}

} // namespace washfast::drying
