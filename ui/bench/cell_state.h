// Where a sheet is, worked out from its record alone: for each of the six stations whether it waits, is under way or
// is done, since when, and the one number that says most about it. No widget, no clock of its own.
//
//     const auto states = sheetStates(desk.reader(), row, desk.now());
//     stateAt(states, Station::Expose).stage      // Stage::Running
//     stateAt(states, Station::Expose).minutes    // 4.5, so far
//     stateAt(states, Station::Expose).goal_share // 0.62 of the dose that is wanted
#pragma once

#include "core/trial/print_reader.h"
#include "ui/bench/forecast.h"

#include <QLocale>
#include <QMetaType>
#include <QStringList>
#include <array>

namespace washfast::ui {

enum class Stage {
    Waiting, // nothing recorded, and the sheet can still come here
    Running, // begun, not ended
    Done, // ended; at Read: the tone a day after is there, or an outcome and no tone before the rinse that waits for it
    Begun, // at Read: some readings are there, not the last ones
    Passed // nothing recorded, but the sheet has gone on without it, or does not come here at all
};

struct CellState {
    Stage stage = Stage::Waiting;
    bool next = false; // the first station that the sheet waits for
    std::optional<Instant> since; // when it began; of several exposures, the one that runs, else the first
    std::optional<Instant> until; // when it ended
    std::optional<double> minutes; // so far while running, else how long it took; exposures together, without pauses
    Known figure; // the number or word that says most; see figure_key
    QString
        figure_key; // catalogue key of `figure`: coat_per_area_ml_m2, touch_state, dose_j_cm2, rinse_litres, kept ...
    std::optional<double> goal; // Expose: J/cm2 that are wanted
    std::optional<double> goal_share; // Expose: dose so far over the goal; nothing where one of them is not known
    std::optional<drying::Bracket> left_min; // running: until the goal is reached, or until it is dry; may be infinite
    int count = 0; // Expose: how many exposures; Rinse: how many baths; Read: how many readings
    bool failed = false; // Read: an outcome other than kept was noted
    bool waits_day_after = false; // Read: rinsed, and the tone a day after is not read yet
    bool due = false; // Read: its day has come
    bool contradicts = false; // it ends before it begins
    bool end_missing = false; // the sheet has left without anybody noting when

    friend bool operator==(const CellState&, const CellState&) = default;
};

using SheetStates = std::array<CellState, printStations.size()>;

/// All six stations of one print, in the order of printStations. Without a forecast it is reckoned here, by this
/// print's record alone.
[[nodiscard]] SheetStates sheetStates(
    const PrintReader& reader, int print_row, const Instant& now, const Forecast* forecast = nullptr);
[[nodiscard]] CellState cellState(const PrintReader& reader, int print_row, Station station, const Instant& now);
[[nodiscard]] const CellState& stateAt(const SheetStates& states, Station station);
/// The station at which the sheet is now, if it is at one.
[[nodiscard]] std::optional<Station> runningAt(const SheetStates& states);
/// True when a station that began then and has no end is not running any more: but for Hold, which may last until the
/// next lesson, nothing takes a day and a half.
[[nodiscard]] bool endForgotten(Station station, const Instant& since, const Instant& now);
/// Keys of the print fields that hold the start and the end of a station; empty for Read.
[[nodiscard]] QString startKey(Station station);
[[nodiscard]] QString endKey(Station station);

/// Minutes as a clock shows them: 04:31, from an hour 1:04:31. Parts of a second are dropped; below zero is zero.
[[nodiscard]] QString clockText(double minutes);
/// The first word or number of a cell: "waiting", "04:31", "12 min", "not logged" ...
[[nodiscard]] QString stateText(const CellState& state, const QLocale& locale);
/// "about 4 min left", "dry in about 12 min", "not reached today"; empty when it is not known or over.
[[nodiscard]] QString leftText(const CellState& state, const QLocale& locale);
/// Its second, from the longest way to say it to the shortest: "≈0.62 / 1.50 J/cm²", "≈0.62 / 1.50", "41 %"; empty when
/// there is nothing to say.
[[nodiscard]] QStringList figureTexts(const CellState& state, const Catalogue& catalogue, const QLocale& locale);
/// One sentence for a tool tip and for a screen reader.
[[nodiscard]] QString stateSentence(
    const CellState& state, Station station, const Catalogue& catalogue, const QLocale& locale);

/// How many sheets are where: the station at which each one is now, else the one it waits for, else finished. With the
/// tone before the rinse only a sheet is not finished.
struct BenchCounts {
    int all = 0;
    int not_begun = 0;
    int finished = 0;
    std::array<int, printStations.size()> running {};
    std::array<int, printStations.size()> waiting {}; // begun, and between two stations
    int day_after = 0; // rinsed, the tone a day after is still to come
    int due = 0; // the tone a day after can be read now
};
[[nodiscard]] BenchCounts countSheets(const std::vector<SheetStates>& sheets);
/// "24 prints: 4 not begun · 6 at Dry · 9 at Expose · 3 waiting for Rinse · 2 finished".
[[nodiscard]] QString countsText(const BenchCounts& counts);

} // namespace washfast::ui

Q_DECLARE_METATYPE(washfast::ui::CellState)
