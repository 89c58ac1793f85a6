// What a print's record says about its drying: weighings, touch, times, air.
#pragma once

#include "core/drying/assumptions.h"
#include "core/quantity/field.h"
#include "core/trial/print_reader.h"

#include <optional>
#include <vector>

namespace washfast::drying {

struct SheetWeighing {
    std::optional<Instant> at;
    QString state; // key of weigh_state
    double mass_g = 0.0;
    Evidence evidence = Evidence::Measured;
};

struct SheetTouch {
    std::optional<Instant> at;
    QString moment, state; // keys of touch_moment and touch_state
};

struct Sheet {
    Known bare_g, coated_g, before_expose_g, before_rinse_g, solids_pct;
    std::optional<Instant> coated_at; // coating ended (else began)
    std::optional<Instant> dry_start, dry_end, expose_start, expose_end, rinse_start;
    std::optional<bool> covered; // dried under film
    QString dry_method, print_method, paper; // empty when not recorded
    Known deficit_kpa, coat_ml_m2, touch_at_expose, touch_at_rinse, redampened;
    std::vector<SheetWeighing> weighings;
    std::vector<SheetTouch> touches;

    /// Drying began: as logged, else the end of coating, else the first weighing of the coated sheet.
    [[nodiscard]] std::optional<Instant> dryingFrom() const;
    /// Until when it dried before this moment: drying's end, the exposure, or the moment itself.
    [[nodiscard]] Instant dryingUntil(const Instant& moment) const;
};

/// The print fields and child rows that a Sheet is made of, and making it of their values in that order.
[[nodiscard]] QStringList sheetFields();
[[nodiscard]] std::vector<RowsOf> sheetRows();
[[nodiscard]] Sheet sheetFrom(std::span<const Known> fields, std::span<const ChildRows> rows);
/// From a print of a notebook whose catalogue has the fields of this room.
[[nodiscard]] Sheet sheetOf(const PrintReader& reader, int print_row);

} // namespace washfast::drying
