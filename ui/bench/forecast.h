// What the models of light and drying say of a sheet under way: the dose so far and the minutes left in the light, the
// moisture left and the minutes until it is dry. Reckoned anew when the record changes, and from time to time.
#pragma once

#include "core/drying/moisture.h"
#include "core/light/exposure_light.h"
#include "core/trial/print_reader.h"

namespace washfast::ui {

/// The dose of all exposures of a print until now, and how long the one that runs has to go on.
struct DoseNow {
    Known dose_j_cm2; // unknown where one of the exposures is
    std::optional<light::TimeNeeded> left; // with a goal and an exposure that runs
};
[[nodiscard]] DoseNow doseNow(const PrintReader& reader, int print_row, const Instant& now);

/// Temperature and humidity of the session's room, when both were recorded.
[[nodiscard]] std::optional<drying::Air> roomAir(const PrintReader& reader, int print_row);

struct DryNow {
    std::optional<drying::Moisture> moisture;
    std::optional<drying::Bracket> left_min; // until dry; infinite under film
};
/// `learnt`: rates from other prints; nothing is guessed without.
[[nodiscard]] DryNow dryNow(
    const PrintReader& reader, int print_row, const Instant& now, const drying::LearntRates* learnt);

struct Forecast {
    DoseNow dose;
    DryNow dry;
};
/// Of the stations that the sheet is at; what has ended is in the record.
[[nodiscard]] Forecast forecastOf(
    const PrintReader& reader, int print_row, const Instant& now, const drying::LearntRates* learnt);

/// What to say when a damp sheet is started into exposure or rinse, with the number; nothing when it is dry or unknown.
[[nodiscard]] std::optional<QString> dampAt(const PrintReader& reader, int print_row, const Instant& now,
    drying::NextStep next, const drying::LearntRates* learnt);

} // namespace washfast::ui
