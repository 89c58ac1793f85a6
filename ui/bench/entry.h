// What can be entered row by row, one number or word a print: masses, densities, light, and every other recordable
// field. Says which there are, what a print has so far, and writes what was typed. No widget.
#pragma once

#include "ui/bench/steps.h"
#include "ui/common/desk.h"

namespace washfast::ui {

struct Entry {
    enum class Kind { Weighing, Reading, Light, PrintField };
    Kind kind = Kind::PrintField;
    QString id; // tells one from another: "weigh:coated", "read:before_rinse:deepest", "light", "field:coat_volume_ml"
    QString label;
    const Field* field = nullptr; // how it is typed; the catalogue's
    QString weigh_state; // Weighing
    QString when, where; // Reading
    bool starts_group = false; // a line is drawn above it
};

/// All of them: light, masses, densities (the telling ones first), then the fields in the order of the stations.
[[nodiscard]] std::vector<Entry> entriesOf(const Catalogue& catalogue);
[[nodiscard]] QString weighId(const QString& state);
[[nodiscard]] QString readId(const QString& when, const QString& where);
[[nodiscard]] QString fieldId(const QString& key);
[[nodiscard]] QString lightId();

/// True from the exposure on; for a control, which gets no light, once it is dry.
[[nodiscard]] bool wasInLight(const SheetStates& states);
/// What is most likely weighed now: bare, just coated, while drying, before exposure, before the rinse.
[[nodiscard]] QString weighStateFor(const SheetStates& states);
/// What is most likely read now: the deepest tone, coated, before the rinse or a day after.
[[nodiscard]] QString readIdFor(const SheetStates& states);

/// What the print has of it; unknown for a weighing while drying, which is always a new one, and for light.
[[nodiscard]] Known entered(const Desk& desk, qint64 print, const Entry& entry);
/// How a density was read and in which channel: keys, or empty when it is not said.
struct ReadHow {
    QString method, channel;
};
/// The value that would be replaced. A density that was read by another instrument or in another channel is none: the
/// new one goes beside it.
struct Held {
    Known value;
    QString source; // "scan, red"; empty when it is not recorded
};
[[nodiscard]] Held heldBy(const Desk& desk, qint64 print, const Entry& entry, const ReadHow& by);
/// `method` and `channel` go with a density; they may be empty. With `seen`, only if what is there is still that; else
/// error Conflict.
[[nodiscard]] Outcome writeEntry(store::Writer& writer, qint64 print, const Entry& entry, const Known& value,
    const QString& method, const QString& channel, const Instant& now, const std::optional<Known>& seen = std::nullopt);

} // namespace washfast::ui
