// What a key press on the Bench means for a sheet, and how it is written. A sheet is at one station at a time: starting
// one ends the one that runs, at the same moment. All functions that write take the Writer of a step, so that one key
// press is one step, whatever it touches.
#pragma once

#include "core/store/writer.h"
#include "core/trial/same_reading.h"
#include "ui/bench/cell_state.h"

#include <QVector>

namespace washfast::ui {

enum class Press {
    Start,
    End,
    Again, // a further exposure
    Nothing // the station is done, passed or has no times
};

/// What Space does at this station to a sheet in this state.
[[nodiscard]] Press pressOn(const CellState& state, Station station);

struct Chosen {
    qint64 print = 0;
    CellState state;
};

struct PressPlan {
    Press press = Press::Nothing;
    QVector<qint64> prints; // those that it concerns
    int left_alone = 0; // chosen, but in another state
};

/// The current sheet decides what is done; of the chosen ones, those in a state to which it can be done take part.
[[nodiscard]] PressPlan planPress(Station station, const CellState& current, const std::vector<Chosen>& chosen);
/// "Start Expose, 12 prints"; with one print its code.
[[nodiscard]] QString pressLabel(Press press, Station station, int prints, const QString& code);
/// Why Space does nothing here, for the person.
[[nodiscard]] QString pressRefusal(const CellState& state, Station station);

/// Starts a station now and ends what else runs. Rinse gets its first bath, Expose its next exposure: a row that has
/// been made for its cover but never started is used. Error Conflict when somebody else has started it meanwhile.
[[nodiscard]] Outcome startStation(store::Writer& writer, qint64 print, Station station, const Instant& now);
[[nodiscard]] Outcome endStation(store::Writer& writer, qint64 print, Station station, const Instant& now);

/// Adds a touch state: while drying, or before the rinse once the sheet has been exposed.
[[nodiscard]] Outcome addTouch(store::Writer& writer, qint64 print, const QString& state, const Instant& now);
/// Adds a light reading to the exposure that runs, numbered after those that the print has.
[[nodiscard]] Outcome addLight(store::Writer& writer, qint64 print, const Known& uva_w_m2, const Instant& now);
/// Enters a mass. A weighing while drying is one of a row and is added; of the other states there is one, which is put
/// right. With `seen`, only if the mass that is there is still that one (unknown: none is there); else error Conflict.
[[nodiscard]] Outcome enterWeighing(store::Writer& writer, qint64 print, const QString& state, const Known& mass_g,
    const Instant& now, const std::optional<Known>& seen = std::nullopt);

/// Enters a density; puts the one right that the print has of this kind, and adds one beside those that were read by
/// another instrument or in another channel. `seen` as for a weighing.
[[nodiscard]] Outcome enterReading(store::Writer& writer, qint64 print, const ReadingKind& kind, const Known& density,
    const Instant& now, const std::optional<Known>& seen = std::nullopt);
/// Records that somebody looked a day after and there is no tone to read.
[[nodiscard]] Outcome enterNothingToRead(store::Writer& writer, qint64 print, const Instant& now);

} // namespace washfast::ui
