// One print with everything that a lesson writes down about it, as rows that any writer can take: the print, its
// exposure, two baths, four weighings, four density readings and two light readings. Invented values that differ from
// print to print.
#pragma once

#include "core/store/writer.h"

#include <array>

namespace washfast::test {

struct Row {
    Entity entity;
    std::vector<store::FieldValue> values;
};

/// Records that prints point at; 0 for none.
struct Shared {
    qint64 session = 0, mix = 0, paper = 0, cover = 0;
};

inline constexpr int childrenOfWholePrint = 13;

inline store::FieldValue measured(const char* column, double value)
{
    return { QString::fromLatin1(column), Known { value } };
}
inline store::FieldValue chosen(const char* column, const char* key)
{
    return { QString::fromLatin1(column), Known { QString::fromLatin1(key) } };
}
inline store::FieldValue linked(const char* column, qint64 id)
{
    return { QString::fromLatin1(column), id > 0 ? Known { Link { id } } : Known {} };
}
/// Minutes after 08:00 of a day in May.
inline store::FieldValue moment(const char* column, double minutes)
{
    constexpr qint64 eight = 1'777'874'400'000; // 2026-05-04T08:00:00+02:00
    return { QString::fromLatin1(column), Known { Instant { eight + qint64(minutes * 60'000), 7200 } } };
}

/// The first row is the print, the others belong to it.
inline std::vector<Row> wholePrint(const QString& code, int n, const Shared& shared = {})
{
    const double small = double(n % 17) / 17.0;
    std::vector<Row> rows;
    rows.push_back({ Entity::Print,
        { { QStringLiteral("print_code"), Known { code } }, linked("print_session", shared.session),
            linked("print_mix", shared.mix), linked("print_paper", shared.paper), chosen("print_maker", "K4"),
            measured("print_width_mm", 100), measured("print_height_mm", 150), chosen("print_method", "contact"),
            measured("dose_goal_j_cm2", 2.5 + small), moment("coat_start", n), moment("coat_end", n + 1.5),
            chosen("coat_tool", "brush"), measured("coat_volume_ml", 0.6 + small / 10), measured("coat_passes", 3),
            moment("dry_start", n + 2), moment("dry_end", n + 30 + small), chosen("dry_method", "hung"),
            { QStringLiteral("dry_temperature_c"), Known { 21.5 + small, Evidence::Estimated } },
            { QStringLiteral("dry_covered"), Known { n % 5 == 0 } }, moment("rinse_start", n + 60),
            moment("rinse_end", n + 75) } });
    rows.push_back({ Entity::Exposure,
        { measured("expose_number", 1), moment("expose_start", n + 40), moment("expose_end", n + 52 + small),
            chosen("expose_place", "open_sky"), linked("expose_cover", shared.cover),
            { QStringLiteral("cloud_start_eighths"), Known { double(n % 9), Evidence::Estimated } } } });
    for (int bath = 1; bath <= 2; ++bath)
        rows.push_back({ Entity::Bath,
            { measured("bath_position", bath), chosen("bath_water", "tap"), measured("bath_minutes", 5 * bath + small),
                measured("bath_litres", 2), measured("bath_temperature_c", 17 + small) } });
    constexpr std::array states { "bare", "coated", "before_expose", "before_rinse" };
    for (size_t i = 0; i < states.size(); ++i)
        rows.push_back({ Entity::Weighing,
            { moment("weigh_time", n + 10 * double(i)), chosen("weigh_state", states[i]),
                measured("weigh_mass_g", 4.5 + small + double(i) / 10) } });
    constexpr std::array spots { "deepest", "paper" };
    for (const char* when : { "before_rinse", "day_after" })
        for (const char* where : spots)
            rows.push_back({ Entity::Reading,
                { moment("reading_time", n + 55), chosen("reading_when", when), chosen("reading_where", where),
                    chosen("reading_channel", "red"), measured("reading_density", 0.1 + small),
                    measured("reading_spread", 0.01), chosen("reading_method", "scan") } });
    for (int reading = 1; reading <= 2; ++reading)
        rows.push_back({ Entity::Meter,
            { measured("meter_number", reading), measured("meter_exposure", 1), moment("meter_time", n + 40 + reading),
                measured("meter_uva_w_m2", 30 + small), chosen("meter_instrument", "U2") } });
    return rows;
}

/// Adds these rows; gives the id of the print.
inline Result<qint64> addRows(store::Writer& writer, const std::vector<Row>& rows)
{
    qint64 print = 0;
    for (const auto& row : rows) {
        const auto id = writer.add(row.entity, print, row.values);
        if (!id)
            return id;
        if (print == 0)
            print = *id;
    }
    return print;
}

} // namespace washfast::test
