#include "ui/bench/cell_state.h"

#include "core/trial/day_after.h"

#include <algorithm>
#include <limits>

namespace washfast::ui {

namespace {

constexpr double forgottenAfterMinutes = 36 * 60;

CellState& at(SheetStates& states, Station station)
{
    return states[size_t(station) - size_t(Station::Coat)];
}

/// A station with one start and one end.
CellState between(const Known& start, const Known& end, const Instant& now)
{
    CellState state;
    state.since = start.time();
    state.until = end.time();
    if (!state.since && !state.until)
        return state;
    state.stage = state.until ? Stage::Done : Stage::Running;
    if (state.since && state.until) {
        state.contradicts = *state.until < *state.since;
        if (!state.contradicts)
            state.minutes = minutesBetween(*state.since, *state.until);
    } else if (state.since) {
        state.minutes = std::max(0.0, minutesBetween(*state.since, now));
    }
    return state;
}

void setFigure(CellState& state, const PrintReader& reader, int row, const QString& key)
{
    if (state.figure.has())
        return;
    state.figure = reader.get(row, key);
    state.figure_key = state.figure.has() ? key : QString();
}

/// The last touch state of a sheet, in the order of time.
Known lastTouch(const PrintReader& reader, int row)
{
    const auto& notebook = reader.notebook();
    const auto& table = notebook.table(Entity::Touch);
    const int time = notebook.catalogue().column(Entity::Touch, u"touch_time");
    const int state = notebook.catalogue().column(Entity::Touch, u"touch_state");
    Known last;
    std::optional<Instant> when;
    for (const int child : notebook.children(Entity::Touch, notebook.prints().id(row))) {
        const auto touched = table.at(child, time).time();
        const auto felt = table.at(child, state);
        if (!felt.has() || (when && touched && *touched < *when))
            continue;
        last = felt;
        when = touched ? touched : when;
    }
    return last;
}

/// Minutes as an interval; a high end that is not reached is infinite.
std::optional<drying::Bracket> bracketOf(const std::optional<light::TimeNeeded>& needed)
{
    if (!needed || needed->unknown)
        return std::nullopt;
    constexpr double never = std::numeric_limits<double>::infinity();
    return drying::Bracket { needed->low.value_or(never), needed->minutes.value_or(never),
        needed->high.value_or(never) };
}

/// Exposures together. While one runs the dose is that of the forecast, after that the catalogue's.
CellState exposures(const PrintReader& reader, int row, const Instant& now, const DoseNow& dose_now)
{
    const auto& notebook = reader.notebook();
    const auto& table = notebook.table(Entity::Exposure);
    const auto column = [&](QStringView key) { return notebook.catalogue().column(Entity::Exposure, key); };
    CellState all;
    double minutes = 0;
    bool minutes_known = true;
    for (const int child : notebook.children(Entity::Exposure, notebook.prints().id(row))) {
        auto one = between(table.at(child, column(u"expose_start")), table.at(child, column(u"expose_end")), now);
        if (one.stage == Stage::Waiting)
            continue; // the row is there for its cover only
        ++all.count;
        const double pause = table.at(child, column(u"expose_pause_min")).number().value_or(0.0);
        minutes_known = minutes_known && one.minutes && *one.minutes >= pause;
        minutes += one.minutes.value_or(0.0) - pause;
        all.contradicts = all.contradicts || one.contradicts;
        const bool first = all.count == 1;
        if (one.stage == Stage::Running && all.stage != Stage::Running) {
            all.stage = Stage::Running;
            all.since = one.since;
            all.until.reset();
        } else if (all.stage != Stage::Running) {
            all.stage = Stage::Done;
            all.since = first ? one.since : all.since;
            all.until = one.until;
        }
    }
    if (all.stage == Stage::Waiting)
        return all;
    if (minutes_known)
        all.minutes = minutes;
    if (all.stage == Stage::Done) {
        setFigure(all, reader, row, QStringLiteral("dose_j_cm2"));
    } else if (dose_now.dose_j_cm2.has()) {
        all.figure = dose_now.dose_j_cm2;
        all.figure_key = QStringLiteral("dose_j_cm2");
        all.left_min = bracketOf(dose_now.left);
    }
    all.goal = reader.get(row, u"dose_goal_j_cm2").number();
    if (const auto dose = all.figure.number(); dose && all.goal && *all.goal > 0)
        all.goal_share = *dose / *all.goal;
    return all;
}

CellState readings(const PrintReader& reader, int row, const ToneAfter& tone)
{
    CellState state;
    state.count = int(reader.notebook().children(Entity::Reading, reader.notebook().prints().id(row)).size());
    const auto outcome = reader.get(row, u"print_outcome");
    state.failed = reader.get(row, u"failed").yes().value_or(false);
    if (tone.state == ToneAfter::State::Read || (outcome.has() && !tone.waits()))
        state.stage = Stage::Done;
    else if (state.count > 0)
        state.stage = Stage::Begun;
    if (state.failed)
        setFigure(state, reader, row, QStringLiteral("print_outcome"));
    for (const char* key : { "kept", "net_density", "density_day_after_deepest", "print_outcome", "formed",
             "density_before_rinse_deepest", "density_coated_deepest" })
        setFigure(state, reader, row, QLatin1String(key));
    return state;
}

/// A sheet that has gone on is not here any more, although nobody noted when it left.
void endNotNoted(CellState& state)
{
    state.stage = Stage::Done;
    state.end_missing = true;
    state.minutes.reset();
    state.goal_share.reset();
    state.left_min.reset();
    if (state.figure_key == QLatin1String("dose_j_cm2")) { // it counted on until now
        state.figure = {};
        state.figure_key.clear();
    }
}

/// `rinsed`: the tone of the day after was read. An outcome alone says nothing of where the sheet is: it may be noted
/// early.
void markOrder(SheetStates& states, bool rinsed)
{
    int furthest = rinsed ? int(states.size()) - 1 : -1;
    for (int i = 0; i + 1 < int(states.size()); ++i)
        if (states[size_t(i)].stage == Stage::Running || states[size_t(i)].stage == Stage::Done)
            furthest = std::max(furthest, i);
    for (int i = 0; i < furthest; ++i) {
        auto& state = states[size_t(i)];
        if (state.stage == Stage::Waiting)
            state.stage = Stage::Passed;
        else if (state.stage == Stage::Running)
            endNotNoted(state);
    }
    for (auto& state : states)
        if (state.stage == Stage::Waiting || state.stage == Stage::Begun) {
            state.next = true;
            break;
        }
}

/// Rinsed with a tone from before: it is not finished without the one of the day after.
void markDayAfter(CellState& read, const CellState& rinse, const ToneAfter& tone, const Instant& now)
{
    const bool out = rinse.stage == Stage::Done || rinse.stage == Stage::Passed;
    read.waits_day_after = read.stage == Stage::Begun && tone.waits() && out;
    read.due = read.waits_day_after && tone.due(now);
}

} // namespace

SheetStates sheetStates(const PrintReader& reader, int row, const Instant& now, const Forecast* forecast)
{
    SheetStates states;
    if (row < 0)
        return states;
    const auto own = forecast ? Forecast {} : forecastOf(reader, row, now, nullptr);
    const auto& coming = forecast ? *forecast : own;
    for (const auto station : { Station::Coat, Station::Dry, Station::Hold, Station::Rinse })
        at(states, station) = between(reader.get(row, startKey(station)), reader.get(row, endKey(station)), now);
    at(states, Station::Expose) = exposures(reader, row, now, coming.dose);
    const auto tone = toneAfter(reader, row);
    at(states, Station::Read) = readings(reader, row, tone);

    auto& coat = at(states, Station::Coat);
    if (coat.stage != Stage::Waiting)
        setFigure(coat, reader, row, QStringLiteral("coat_per_area_ml_m2"));
    auto& dry = at(states, Station::Dry);
    // What the finger felt is shown as it was felt, not as the range that it stands for.
    if (dry.stage == Stage::Done) {
        const auto moisture = drying::moistureAtExpose(drying::sheetOf(reader, row));
        if (moisture && moisture->from != drying::MoistureFrom::Touch)
            setFigure(dry, reader, row, QStringLiteral("moisture_at_expose_pct"));
    }
    if (dry.stage == Stage::Running && coming.dry.moisture
        && coming.dry.moisture->from != drying::MoistureFrom::Touch) {
        dry.figure = knownNumber(coming.dry.moisture->pct.likely, coming.dry.moisture->evidence);
        dry.figure_key = QStringLiteral("moisture_at_expose_pct");
        dry.left_min = coming.dry.left_min;
    }
    if (!dry.figure.has()) {
        dry.figure = lastTouch(reader, row);
        dry.figure_key = dry.figure.has() ? QStringLiteral("touch_state") : QString();
    }
    auto& rinse = at(states, Station::Rinse);
    rinse.count = int(reader.notebook().children(Entity::Bath, reader.notebook().prints().id(row)).size());
    if (rinse.stage != Stage::Waiting)
        setFigure(rinse, reader, row, QStringLiteral("rinse_litres"));

    auto& expose = at(states, Station::Expose);
    if (expose.stage == Stage::Waiting && reader.get(row, u"print_method").text() == QStringLiteral("control")) {
        expose.stage = Stage::Passed;
        if (at(states, Station::Hold).stage == Stage::Waiting)
            at(states, Station::Hold).stage = Stage::Passed;
    }
    markOrder(states, tone.state == ToneAfter::State::Read);
    for (const auto station : printStations) {
        auto& state = at(states, station);
        if (state.stage == Stage::Running && state.since && endForgotten(station, *state.since, now))
            endNotNoted(state);
    }
    markDayAfter(at(states, Station::Read), rinse, tone, now);
    return states;
}

CellState cellState(const PrintReader& reader, int print_row, Station station, const Instant& now)
{
    return stateAt(sheetStates(reader, print_row, now), station);
}

const CellState& stateAt(const SheetStates& states, Station station)
{
    return states[size_t(station) - size_t(Station::Coat)];
}

std::optional<Station> runningAt(const SheetStates& states)
{
    // The furthest one, should the record say that it is at two.
    for (auto station = printStations.rbegin(); station != printStations.rend(); ++station)
        if (stateAt(states, *station).stage == Stage::Running)
            return *station;
    return std::nullopt;
}

bool endForgotten(Station station, const Instant& since, const Instant& now)
{
    return station != Station::Hold && minutesBetween(since, now) > forgottenAfterMinutes;
}

QString startKey(Station station)
{
    return station == Station::Read || station == Station::About ? QString()
                                                                 : stationKey(station) + QLatin1String("_start");
}

QString endKey(Station station)
{
    return station == Station::Read || station == Station::About ? QString()
                                                                 : stationKey(station) + QLatin1String("_end");
}

} // namespace washfast::ui
