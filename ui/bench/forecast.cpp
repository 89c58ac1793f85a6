#include "ui/bench/forecast.h"

#include "core/light/print_light.h"

#include <algorithm>

namespace washfast::ui {

namespace {

struct Running {
    light::PrintLight print;
    bool any = false; // one of its exposures has begun
    bool still = false; // the last of them has no end
};

/// An exposure that goes on counts as one that ends now, so that what was seen and read meanwhile belongs to it.
Running lightUntil(const PrintReader& reader, int row, const Instant& now)
{
    Running running;
    std::vector<Known> inputs;
    for (const auto& key : light::printInputs())
        inputs.push_back(reader.get(row, key));
    const auto asked = light::printRows();
    auto tables = reader.rows(row, asked);
    const auto start = asked.front().columns.indexOf(QLatin1String("expose_start"));
    const auto end = asked.front().columns.indexOf(QLatin1String("expose_end"));
    auto& exposures = tables.front();
    // A row without a start is there for its cover only.
    exposures.erase(std::remove_if(exposures.begin(), exposures.end(),
                        [&](const auto& exposure) { return !exposure[size_t(start)].has(); }),
        exposures.end());
    for (auto& exposure : exposures) {
        running.any = true;
        const auto began = exposure[size_t(start)].time();
        if (exposure[size_t(end)].has() || !began)
            continue;
        exposure[size_t(end)] = Known { Value(std::max(*began, now)), Evidence::Measured };
        running.still = true;
    }
    running.print = light::readPrintLight(inputs, tables);
    return running;
}

} // namespace

DoseNow doseNow(const PrintReader& reader, int print_row, const Instant& now)
{
    DoseNow result;
    const auto running = lightUntil(reader, print_row, now);
    if (!running.any)
        return result;
    double sum = 0;
    auto evidence = running.still ? Evidence::Estimated : running.print.times;
    for (const auto& exposure : running.print.exposures) {
        const auto dose = light::exposureDose(exposure);
        if (!dose.dose_j_cm2)
            return {};
        sum += *dose.dose_j_cm2;
        evidence = weaker(evidence, dose.evidence);
    }
    result.dose_j_cm2 = knownNumber(sum, evidence);
    const auto goal = running.print.goal_j_cm2;
    if (running.still && goal && *goal > sum)
        result.left = light::timeNeeded(running.print.exposures.back(), *goal - sum, now);
    return result;
}

std::optional<drying::Air> roomAir(const PrintReader& reader, int print_row)
{
    const auto warm = reader.get(print_row, u"room_temperature_c").number();
    const auto humid = reader.get(print_row, u"room_humidity_pct").number();
    if (!warm || !humid)
        return std::nullopt;
    drying::Air air;
    air.temperature_c = *warm;
    air.humidity_pct = *humid;
    return air;
}

DryNow dryNow(const PrintReader& reader, int print_row, const Instant& now, const drying::LearntRates* learnt)
{
    const auto sheet = drying::sheetOf(reader, print_row);
    const auto room = roomAir(reader, print_row);
    return { drying::moistureAt(sheet, now, {}, learnt, room), drying::minutesUntilDry(sheet, now, {}, learnt, room) };
}

Forecast forecastOf(const PrintReader& reader, int print_row, const Instant& now, const drying::LearntRates* learnt)
{
    Forecast forecast;
    const auto runs = [&](QStringView start, QStringView end) {
        return reader.get(print_row, start).has() && !reader.get(print_row, end).has();
    };
    if (!reader.get(print_row, u"rinse_start").has())
        forecast.dose = doseNow(reader, print_row, now);
    if (runs(u"dry_start", u"dry_end"))
        forecast.dry = dryNow(reader, print_row, now, learnt);
    return forecast;
}

std::optional<QString> dampAt(const PrintReader& reader, int print_row, const Instant& now, drying::NextStep next,
    const drying::LearntRates* learnt)
{
    const auto dry = dryNow(reader, print_row, now, learnt);
    return dry.moisture ? drying::dampWarning(*dry.moisture, next) : std::nullopt;
}

} // namespace washfast::ui
