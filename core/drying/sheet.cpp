#include "core/drying/sheet.h"

#include <algorithm>
#include <array>

namespace washfast::drying {

namespace {

enum Slot : size_t {
    Bare,
    Coated,
    BeforeExpose,
    BeforeRinse,
    Solids,
    CoatStart,
    CoatEnd,
    DryStart,
    DryEnd,
    ExposeStart,
    ExposeEnd,
    RinseStart,
    Covered,
    DryMethod,
    PrintMethod,
    Paper,
    Deficit,
    CoatPerArea,
    TouchAtExpose,
    TouchAtRinse,
    Redampened,
    SlotCount
};

constexpr std::array<const char*, SlotCount> slotKeys { "mass_bare_g", "mass_coated_g", "mass_before_expose_g",
    "mass_before_rinse_g", "mix_solids_pct", "coat_start", "coat_end", "dry_start", "dry_end", "expose_start",
    "expose_end", "rinse_start", "dry_covered", "dry_method", "print_method", "paper_name", "dry_vpd_kpa",
    "coat_per_area_ml_m2", "touch_at_expose", "touch_at_rinse", "redampened" };

QString textOf(const Known& known)
{
    return known.text().value_or(QString());
}

} // namespace

std::optional<Instant> Sheet::dryingFrom() const
{
    // The first weighing of the coated sheet says what 100 % is, so the clock starts there.
    for (const auto& weighing : weighings)
        if (weighing.state == QLatin1String("coated") && weighing.at)
            return weighing.at;
    return dry_start ? dry_start : coated_at;
}

Instant Sheet::dryingUntil(const Instant& moment) const
{
    Instant until = moment;
    for (const auto& end : { dry_end, expose_start })
        if (end && *end < until)
            until = *end;
    return until;
}

QStringList sheetFields()
{
    QStringList keys;
    for (const char* key : slotKeys)
        keys << QString::fromLatin1(key);
    return keys;
}

std::vector<RowsOf> sheetRows()
{
    return { { Entity::Weighing,
                 { QStringLiteral("weigh_time"), QStringLiteral("weigh_state"), QStringLiteral("weigh_mass_g") } },
        { Entity::Touch,
            { QStringLiteral("touch_time"), QStringLiteral("touch_moment"), QStringLiteral("touch_state") } } };
}

Sheet sheetFrom(std::span<const Known> fields, std::span<const ChildRows> rows)
{
    Sheet sheet;
    sheet.bare_g = fields[Bare];
    sheet.coated_g = fields[Coated];
    sheet.before_expose_g = fields[BeforeExpose];
    sheet.before_rinse_g = fields[BeforeRinse];
    sheet.solids_pct = fields[Solids];
    sheet.coated_at = fields[CoatEnd].has() ? fields[CoatEnd].time() : fields[CoatStart].time();
    sheet.dry_start = fields[DryStart].time();
    sheet.dry_end = fields[DryEnd].time();
    sheet.expose_start = fields[ExposeStart].time();
    sheet.expose_end = fields[ExposeEnd].time();
    sheet.rinse_start = fields[RinseStart].time();
    sheet.covered = fields[Covered].yes();
    sheet.dry_method = textOf(fields[DryMethod]);
    sheet.print_method = textOf(fields[PrintMethod]);
    sheet.paper = textOf(fields[Paper]);
    sheet.deficit_kpa = fields[Deficit];
    sheet.coat_ml_m2 = fields[CoatPerArea];
    sheet.touch_at_expose = fields[TouchAtExpose];
    sheet.touch_at_rinse = fields[TouchAtRinse];
    sheet.redampened = fields[Redampened];
    for (const auto& row : rows[0])
        if (const auto mass = row[2].number())
            sheet.weighings.push_back({ row[0].time(), textOf(row[1]), *mass, row[2].evidence });
    for (const auto& row : rows[1])
        if (row[2].has())
            sheet.touches.push_back({ row[0].time(), textOf(row[1]), textOf(row[2]) });
    // Untimed ones first: what has a time is then in order.
    std::stable_sort(sheet.weighings.begin(), sheet.weighings.end(),
        [](const auto& a, const auto& b) { return a.at.value_or(Instant {}) < b.at.value_or(Instant {}); });
    std::stable_sort(sheet.touches.begin(), sheet.touches.end(),
        [](const auto& a, const auto& b) { return a.at.value_or(Instant {}) < b.at.value_or(Instant {}); });
    return sheet;
}

Sheet sheetOf(const PrintReader& reader, int print_row)
{
    std::vector<Known> fields;
    for (const char* key : slotKeys)
        fields.push_back(reader.get(print_row, QString::fromLatin1(key)));
    const auto& notebook = reader.notebook();
    std::vector<ChildRows> tables;
    for (const auto& asked : sheetRows()) {
        auto& rows = tables.emplace_back();
        const auto& table = notebook.table(asked.entity);
        for (const int row : notebook.children(asked.entity, notebook.prints().id(print_row))) {
            auto& values = rows.emplace_back();
            for (const auto& column : asked.columns)
                values.push_back(table.at(row, notebook.catalogue().column(asked.entity, column)));
        }
    }
    return sheetFrom(fields, tables);
}

} // namespace washfast::drying
