// Writes what was measured in a photo as readings of its prints, together with what was marked in it: one step that can
// be undone. A reading of the same spot by the same means is there already: it is only replaced when the person says
// so. Readings by other means (a scan) or in another channel stay beside it; one by a densitometer stays alone.
#pragma once

#include "core/density/reading_rows.h"
#include "core/store/writer.h"

#include "ui/common/desk.h"
#include "ui/reading/marked_photo.h"

namespace washfast::ui {

struct EnteredReadings {
    int rows = 0; // that were written
    int kept = 0; // readings that were there and stayed, so that nothing was written
    QString marks; // kept with the stored photo; empty when they are not
    QStringList refused; // a sentence for each reason
    QStringList beside; // what the prints have as well, and which of two readings counts; a sentence each
};

/// A reading that a measured one would replace.
struct ReplacedReading {
    QString print, spot; // "A1-01", "deepest", "step 3 of a wedge"
    QString old_value, new_value; // with how they came to be: "0.98 (scan, red)"
};

/// What there is to write, before anything is.
class ReadingsToEnter {
public:
    /// State, channel and references are those of the photo; `only`: the print that regions belong to when nothing is
    /// outlined.
    ReadingsToEnter(Desk& desk, const MarkedPhoto& photo, qint64 only);

    /// Those that are there and say something else.
    [[nodiscard]] const std::vector<ReplacedReading>& replaced() const { return replaced_; }
    [[nodiscard]] QString question() const;
    /// Writes them; without `replace` those stay as they are.
    [[nodiscard]] EnteredReadings enter(bool replace);

private:
    struct Row {
        qint64 print = 0;
        QString where;
        int step = 0; // 0: none
        QString channel;
        density::ReadingFields fields {};
        qint64 there = 0; // the reading that it would replace; 0 for none
        std::optional<Known> seen {}; // what that one holds
        bool asks = false; // it holds something else
    };

    void gather(qint64 only);
    void compare(Row& row);
    [[nodiscard]] Outcome write(store::Writer& writer, const Row& row) const;
    [[nodiscard]] Outcome writeMarks(store::Writer& writer, EnteredReadings& out) const;
    [[nodiscard]] QString spotName(const Row& row) const;

    Desk& desk_;
    const MarkedPhoto& photo_;
    bool stored_ = false;
    std::vector<Row> rows_;
    std::vector<ReplacedReading> replaced_;
    QStringList refused_, beside_;
};

} // namespace washfast::ui
