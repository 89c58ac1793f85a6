#include "ui/sunlight/year_state.h"

#include "ui/sunlight/day_state.h"
#include "ui/sunlight/words.h"

#include <algorithm>

namespace washfast::ui::sunlight {

namespace {

constexpr double step_min = 60.0 / YearState::rowsPerHour;

QDate mondayOf(int year, int week)
{
    const QDate fourth(year, 1, 4); // always in week 1
    return fourth.addDays(1 - fourth.dayOfWeek() + 7 * (week - 1));
}

} // namespace

YearState::YearState(const LightAsk& ask)
    : ask_(ask)
{
    (void)ask.date.weekNumber(&year_);
    const int count = QDate(year_, 12, 28).weekNumber(); // always in the last week
    const auto sheet = sheetBehindPane(ask_);
    for (int week = 1; week <= count; ++week) {
        auto& rows_of_week = cells_.emplace_back(size_t(rows));
        const auto thursday = monday(week).addDays(3);
        const auto begins = Instant::from(thursday.startOfDay(ask_.site.zone));
        const auto ends = Instant::from(thursday.addDays(1).startOfDay(ask_.site.zone));
        const auto steps = static_cast<size_t>(minutesBetween(begins, ends) / step_min);
        const auto light = light::lightOver(sheet, begins, step_min * 60, steps);
        // Only while the sun is up is there something to add up.
        const auto up = [](const light::LightNow& now) { return now.sun.apparent_zenith_deg < 90; };
        const auto first = std::find_if(light.begin(), light.end(), up);
        const auto last = std::find_if(light.rbegin(), light.rend(), up);
        if (first == light.end())
            continue;
        const auto from = size_t(first - light.begin());
        const auto lit = light.size() - size_t(last - light.rbegin()) - from;
        const auto needed = light::timesNeeded(
            sheet, ask_.dose.j_cm2, later(begins, double(from) * step_min), step_min * 60, lit, longestUseful_min / 60);
        for (size_t i = 0; i < lit; ++i) {
            if (!up(light[from + i]))
                continue;
            const auto at = light::inZone(later(begins, double(from + i) * step_min), ask_.site.zone);
            const auto clock = at.toDateTime().time();
            const auto row = size_t(clock.hour() * rowsPerHour + clock.minute() / int(step_min));
            rows_of_week[row] = YearCell { needed[i], light[from + i].at_paper_w_m2 };
        }
    }
}

QDate YearState::monday(int week) const
{
    return mondayOf(year_, week);
}

std::pair<int, int> YearState::litRows() const
{
    int low = rows, high = -1;
    for (const auto& week : cells_)
        for (int row = 0; row < rows; ++row)
            if (week[size_t(row)]) {
                low = std::min(low, row);
                high = std::max(high, row);
            }
    return high < 0 ? std::pair(0, rows - 1) : std::pair(low, high);
}

std::optional<double> YearState::quickest_min() const
{
    std::optional<double> best;
    for (const auto& week : cells_)
        for (const auto& cell : week)
            if (cell && cell->needed.minutes && (!best || *cell->needed.minutes < *best))
                best = cell->needed.minutes;
    return best;
}

std::vector<WeekRun> YearState::printable(int row, double within_min) const
{
    std::vector<WeekRun> runs;
    for (int week = 1; week <= weeks(); ++week) {
        const auto& one = cell(week, row);
        if (!one || !one->needed.minutes || *one->needed.minutes > within_min)
            continue;
        if (!runs.empty() && runs.back().last == week - 1)
            runs.back().last = week;
        else
            runs.push_back({ week, week });
    }
    return runs;
}

QString YearState::printableSentence(int row, double within_min) const
{
    const auto runs = printable(row, within_min);
    const auto within = minutesWords(within_min);
    if (runs.empty())
        return Words::tr("At %1 no week of %2 gives a print within %3.").arg(hourWords(row)).arg(year_).arg(within);
    if (runs.size() == 1 && runs[0].first == 1 && runs[0].last == weeks())
        return Words::tr("At %1 every week of %2 gives a print within %3.").arg(hourWords(row)).arg(year_).arg(within);
    QStringList parts;
    const auto day = [](QDate date) { return QLocale().toString(date, QStringLiteral("d MMMM")); };
    for (const auto& run : runs)
        parts << (run.first == run.last ? Words::tr("week %1 (from %2)").arg(run.first).arg(day(monday(run.first)))
                                        : Words::tr("weeks %1 to %2 (%3 to %4)")
                                              .arg(run.first)
                                              .arg(run.last)
                                              .arg(day(monday(run.first)), day(monday(run.last).addDays(6))));
    QString weeks_listed = parts.front();
    for (qsizetype i = 1; i < parts.size(); ++i)
        weeks_listed = Words::tr("%1 and %2").arg(weeks_listed, parts[i]);
    return Words::tr("At %1 a print is likely done within %2 in %3.").arg(hourWords(row), within, weeks_listed);
}

QString YearState::heading() const
{
    return Words::tr("%1, %2: minutes that a print needs for %3 J/cm²%4")
        .arg(ask_.site.name)
        .arg(year_)
        .arg(roughFigure(ask_.dose.j_cm2), ask_.pane ? Words::tr(", behind %1").arg(ask_.pane->name) : QString());
}

QString YearState::weekWords(int week) const
{
    const auto first = monday(week), last = first.addDays(6);
    const auto begin
        = QLocale().toString(first, first.month() == last.month() ? QStringLiteral("d") : QStringLiteral("d MMMM"));
    return Words::tr("week %1 (%2 to %3)").arg(week).arg(begin, QLocale().toString(last, QStringLiteral("d MMMM")));
}

QString YearState::hourWords(int row)
{
    return QTime(row / rowsPerHour, row % rowsPerHour * int(step_min)).toString(QStringLiteral("HH:mm"));
}

QString YearState::readout(int week, int row) const
{
    const auto& one = cell(week, row);
    return QStringLiteral("%1  ·  %2  ·  %3")
        .arg(weekWords(week), hourWords(row),
            one ? Words::tr("%1  ·  %2 W/m²").arg(DayState::neededWords(one->needed), figure(one->uva_w_m2, 1))
                : Words::tr("the sun is down"));
}

} // namespace washfast::ui::sunlight
