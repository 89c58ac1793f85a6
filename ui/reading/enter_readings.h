// Writes what was measured in a photo as readings of its prints: one step that can be undone. A reading of the same
// moment and spot is replaced (the history keeps the old one), as on the Bench.
#pragma once

#include "core/density/reading_rows.h"
#include "core/store/writer.h"

#include "ui/common/desk.h"
#include "ui/reading/marked_photo.h"

namespace washfast::ui {

struct EnteredReadings {
    int rows = 0;
    QStringList refused; // a sentence each
};

/// `only` is the print that regions belong to when nothing is outlined.
[[nodiscard]] EnteredReadings enterReadings(
    Desk& desk, const MarkedPhoto& photo, qint64 only, const QString& when, density::ReadChannel channel);

} // namespace washfast::ui
