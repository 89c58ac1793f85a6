// Writes what was measured in a photo as readings of its prints: one step that can be undone. A reading of the same
// moment and spot is replaced (the history keeps the old one), as on the Bench; but one by a densitometer stays.
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

/// What the person chose for all regions of a photo.
struct EnterChoices {
    qint64 only = 0; // the print that regions belong to when nothing is outlined
    QString when; // key of reading_when
    density::ReadChannel channel = density::ReadChannel::Red;
    Evidence cards = Evidence::Assumed; // how the densities of the cards are known
};

[[nodiscard]] EnteredReadings enterReadings(Desk& desk, const MarkedPhoto& photo, const EnterChoices& choices);

} // namespace washfast::ui
