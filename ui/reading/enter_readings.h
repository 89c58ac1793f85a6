// Writes what was measured in a photo as readings of its prints, together with what was marked in it: one step that can
// be undone. A reading of the same moment and spot is replaced (the history keeps the old one), as on the Bench; but
// one by a densitometer stays.
#pragma once

#include "core/density/reading_rows.h"
#include "core/store/writer.h"

#include "ui/common/desk.h"
#include "ui/reading/marked_photo.h"

namespace washfast::ui {

struct EnteredReadings {
    int rows = 0;
    bool marks_kept = false; // with the stored photo
    QStringList refused; // a sentence for each reason
};

/// State, channel and references are those of the photo; `only`: the print that regions belong to when nothing is
/// outlined.
[[nodiscard]] EnteredReadings enterReadings(Desk& desk, const MarkedPhoto& photo, qint64 only);

} // namespace washfast::ui
