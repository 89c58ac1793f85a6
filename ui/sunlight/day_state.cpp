#include "ui/sunlight/day_state.h"

#include "ui/sunlight/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace washfast::ui::sunlight {

std::optional<LessonAsk> lessonOf(const Notebook& notebook, qint64 session, double length_min)
{
    const Ref ref { Entity::Session, session };
    const auto starts = notebook.get(ref, u"session_start").time();
    if (!starts)
        return std::nullopt;
    LessonAsk lesson { notebook.nameOf(ref), *starts, length_min, {} };
    const auto& prints = notebook.prints();
    const int of = notebook.catalogue().column(Entity::Print, u"print_session");
    const auto& exposures = notebook.table(Entity::Exposure);
    const int start = notebook.catalogue().column(Entity::Exposure, u"expose_start");
    const int end = notebook.catalogue().column(Entity::Exposure, u"expose_end");
    for (int row = 0; row < prints.rows(); ++row) {
        if (prints.link(row, of) != session)
            continue;
        for (const int at : notebook.children(Entity::Exposure, prints.id(row)))
            if (const auto from = exposures.at(at, start).time())
                lesson.exposed.push_back(
                    { notebook.nameOf({ Entity::Print, prints.id(row) }), *from, exposures.at(at, end).time() });
    }
    return lesson;
}

DayState::DayState(const LightAsk& ask, const std::optional<LessonAsk>& lesson)
    : ask_(ask)
    , sun_(light::sunDay(ask.date, ask.site.zone, ask.site.place))
    , length_min_(minutesBetween(sun_.begins, sun_.ends))
{
    findClockChange();
    sample();
    if (lesson)
        layLesson(*lesson);
}

Instant DayState::at(double minute) const
{
    return light::inZone(later(sun_.begins, minute), ask_.site.zone);
}

void DayState::findClockChange()
{
    if (!sun_.clock_changes)
        return;
    const auto next = ask_.site.zone.nextTransition(sun_.begins.toDateTime());
    if (!next.atUtc.isValid())
        return;
    const Instant moment { next.atUtc.toMSecsSinceEpoch(), sun_.begins.offset_s };
    const double hours = double(sun_.ends.offset_s - sun_.begins.offset_s) / 3600;
    ClockChange change;
    change.minute = minuteOf(moment);
    const auto amount = figure(std::abs(hours), std::abs(hours) == std::floor(std::abs(hours)) ? 0 : 1);
    change.label = hours > 0 ? Words::tr("clock +%1 h").arg(amount) : Words::tr("clock −%1 h").arg(amount);
    change.sentence = hours > 0
        ? Words::tr("The clock goes forward by %1 h at %2: this day has %3 hours.")
              .arg(amount, clockText(moment), figure(length_min_ / 60, 0))
        : Words::tr("The clock goes back by %1 h at %2: this day has %3 hours, and one hour comes twice.")
              .arg(amount, clockText(moment), figure(length_min_ / 60, 0));
    change_ = change;
}

void DayState::sample()
{
    const auto count = static_cast<size_t>(std::lround(length_min_ / stepMinutes)) + 1;
    constexpr double step_s = stepMinutes * 60.0;
    constexpr double most_h = longestUseful_min / 60;
    const auto open = openSheet(ask_);
    const auto behind = sheetBehindPane(ask_);
    const auto light_open = light::lightOver(open, sun_.begins, step_s, count);
    const auto needed = light::timesNeeded(open, ask_.dose.j_cm2, sun_.begins, step_s, count, most_h);
    const auto light_behind
        = ask_.pane ? light::lightOver(behind, sun_.begins, step_s, count) : std::vector<light::LightNow>();
    const auto needed_behind = ask_.pane
        ? light::timesNeeded(behind, ask_.dose.j_cm2, sun_.begins, step_s, count, most_h)
        : std::vector<light::TimeNeeded>();
    samples_.reserve(count);
    for (size_t i = 0; i < count && i < light_open.size(); ++i) {
        const auto& now = light_open[i];
        DaySample one;
        one.minute = static_cast<double>(i) * stepMinutes;
        one.at = at(one.minute);
        one.height_deg = now.sun.apparent_elevation_deg();
        one.azimuth_deg = now.sun.azimuth_deg;
        one.clear_w_m2 = now.clear_w_m2;
        one.low_w_m2 = now.low_w_m2;
        one.likely_w_m2 = now.at_paper_w_m2;
        one.high_w_m2 = now.high_w_m2;
        one.needed = needed[i];
        if (i < light_behind.size()) {
            one.behind_low_w_m2 = light_behind[i].low_w_m2;
            one.behind_w_m2 = light_behind[i].at_paper_w_m2;
            one.behind_high_w_m2 = light_behind[i].high_w_m2;
            one.needed_behind = needed_behind[i];
        }
        one.uv_index = light::uvIndex(now.sun.apparent_zenith_deg, open.atmosphere.ozone_du);
        if (one.height_deg <= 0) // nobody lays a sheet out to wait for the dawn
            one.needed = one.needed_behind = {};
        samples_.push_back(one);
    }
    // Bands while the sun is up, each from halfway between two samples.
    for (const auto& one : samples_) {
        if (one.height_deg <= 0)
            continue;
        const auto band = light::uvBand(one.uv_index);
        const double from = std::max(0.0, one.minute - stepMinutes / 2.0);
        const double to = std::min(length_min_, one.minute + stepMinutes / 2.0);
        if (!uv_runs_.empty() && uv_runs_.back().band == band && uv_runs_.back().to_min >= from)
            uv_runs_.back().to_min = to;
        else
            uv_runs_.push_back({ from, to, band });
    }
}

void DayState::layLesson(const LessonAsk& lesson)
{
    const auto there = light::inZone(lesson.starts, ask_.site.zone).toDateTime();
    LaidLesson laid;
    laid.code = lesson.code;
    laid.that_day = there.date() == ask_.date;
    const auto starts
        = laid.that_day ? lesson.starts : Instant::from(QDateTime(ask_.date, there.time(), ask_.site.zone));
    laid.from_min = minuteOf(starts);
    laid.to_min = laid.from_min + lesson.length_min;
    if (laid.that_day)
        for (const auto& exposed : lesson.exposed) {
            const double from = minuteOf(exposed.from);
            if (from < 0 || from > length_min_)
                continue;
            laid.marks.push_back({ exposed.print, from,
                exposed.to && *exposed.to > exposed.from ? std::optional(minuteOf(*exposed.to)) : std::nullopt });
        }
    lesson_ = std::move(laid);
}

std::vector<DayState::Tick> DayState::ticks(int every) const
{
    // By the quarter hour: the offset of a place need not be whole hours.
    std::vector<Tick> ticks;
    for (double minute = 0; minute <= length_min_ + 0.5; minute += 15) {
        const auto clock = at(minute).toDateTime().time();
        const bool last = minute >= length_min_;
        if (clock.minute() == 0 && clock.hour() % every == 0)
            ticks.push_back(
                { minute, last && clock.hour() == 0 ? QStringLiteral("24") : QString::number(clock.hour()) });
    }
    return ticks;
}

double DayState::uvPeak() const
{
    double peak = 0;
    for (const auto& one : samples_)
        peak = std::max(peak, one.uv_index);
    return peak;
}

const DaySample& DayState::near(double minute) const
{
    const auto last = static_cast<double>(samples_.size() - 1);
    return samples_[static_cast<size_t>(std::clamp(std::round(minute / stepMinutes), 0.0, last))];
}

const DaySample* DayState::quickest() const
{
    const DaySample* best = nullptr;
    for (const auto& one : samples_)
        if (one.needed.minutes && (!best || *one.needed.minutes < *best->needed.minutes))
            best = &one;
    return best;
}

} // namespace washfast::ui::sunlight
