#include "ui/bench/steps.h"

#include "core/store/readings.h"
#include "ui/bench/words.h"

#include <algorithm>

namespace washfast::ui {

namespace {

using store::FieldValue;
using store::Writer;

QString key(const char* text)
{
    return QString::fromLatin1(text);
}

Known timeOf(const Instant& time)
{
    return { Value(time), Evidence::Measured };
}

/// The rows of one kind that belong to a print, as they stand in the file.
Result<std::vector<Record>> childrenOf(Writer& writer, Entity entity, qint64 print)
{
    const auto ids = writer.children(entity, print);
    if (!ids)
        return ids.error();
    std::vector<Record> rows;
    for (const auto id : *ids) {
        auto record = writer.read({ entity, id });
        if (!record)
            return record.error();
        if (*record)
            rows.push_back(std::move(**record));
    }
    return rows;
}

const Known& in(const Writer& writer, const Record& record, QStringView column)
{
    return record.values[size_t(writer.catalogue().column(record.ref.entity, column))];
}

double highest(const Writer& writer, const std::vector<Record>& rows, QStringView column)
{
    double most = 0;
    for (const auto& row : rows)
        most = std::max(most, in(writer, row, column).number().value_or(0.0));
    return most;
}

bool runs(const Writer& writer, const Record& exposure)
{
    return in(writer, exposure, u"expose_start").has() && !in(writer, exposure, u"expose_end").has();
}

/// Ends the exposures that run, but for those that began before `from`: what followed them says that they are long
/// over.
Outcome endExposures(
    Writer& writer, qint64 print, const Instant& now, const std::optional<Instant>& from = std::nullopt)
{
    const auto rows = childrenOf(writer, Entity::Exposure, print);
    if (!rows)
        return rows.error();
    for (const auto& row : *rows)
        if (runs(writer, row) && !(from && in(writer, row, u"expose_start").time() < from))
            if (auto done = writer.set(row.ref, key("expose_end"), timeOf(now), Known {}); !done)
                return done;
    return Done {};
}

Outcome startExposure(Writer& writer, qint64 print, const Instant& now)
{
    const auto rows = childrenOf(writer, Entity::Exposure, print);
    if (!rows)
        return rows.error();
    for (const auto& row : *rows)
        if (!in(writer, row, u"expose_start").has() && !in(writer, row, u"expose_end").has())
            return writer.set(row.ref, key("expose_start"), timeOf(now), Known {});
    const double number = highest(writer, *rows, u"expose_number") + 1;
    const auto added = writer.add(Entity::Exposure, print,
        { { key("expose_number"), knownNumber(number) }, { key("expose_start"), timeOf(now) } });
    return added ? Outcome(Done {}) : Outcome(added.error());
}

/// When the sheet was last put to a station, as far as that says where it is now; nothing when it was forgotten there.
Result<std::optional<Instant>> lastBegun(Writer& writer, const Record& sheet, const Instant& now)
{
    std::optional<Instant> last;
    const auto take = [&](Station station, const Known& start) {
        if (const auto time = start.time(); time && !endForgotten(station, *time, now) && (!last || *last < *time))
            last = time;
    };
    for (const auto station : { Station::Coat, Station::Dry, Station::Hold, Station::Rinse })
        take(station, in(writer, sheet, startKey(station)));
    const auto exposures = childrenOf(writer, Entity::Exposure, sheet.ref.id);
    if (!exposures)
        return exposures.error();
    for (const auto& row : *exposures)
        take(Station::Expose, in(writer, row, u"expose_start"));
    return last;
}

/// Ends what the sheet leaves now. A station that was left earlier, without a note, stays without an end: to write the
/// present moment there would be an invention.
Outcome endOthers(Writer& writer, qint64 print, Station station, const Instant& now)
{
    const auto sheet = writer.read({ Entity::Print, print });
    if (!sheet)
        return sheet.error();
    if (!*sheet)
        return Done {}; // removed meanwhile: starting it says so
    const auto last = lastBegun(writer, **sheet, now);
    if (!last)
        return last.error();
    if (!*last)
        return Done {};
    for (const auto other : { Station::Coat, Station::Dry, Station::Hold, Station::Rinse }) {
        const auto start = in(writer, **sheet, startKey(other)).time();
        if (other == station || start != *last || in(writer, **sheet, endKey(other)).has())
            continue;
        if (auto done = writer.set({ Entity::Print, print }, endKey(other), timeOf(now), Known {}); !done)
            return done;
    }
    return endExposures(writer, print, now, *last);
}

Error changedElsewhere()
{
    return { Trouble::Conflict,
        BenchWords::tr(
            "Someone else changed this value first. Their value was kept; check it, then enter yours again if "
            "needed."),
        {} };
}

/// A new value in place of an old one; both unknown or the same changes nothing.
Outcome replace(
    Writer& writer, const Record& row, const QString& column, const Known& value, const std::optional<Known>& seen)
{
    if (seen && in(writer, row, column) != *seen)
        return changedElsewhere();
    return writer.set(row.ref, column, value);
}

Outcome addRow(Writer& writer, Entity entity, qint64 print, const std::vector<FieldValue>& values)
{
    const auto added = writer.add(entity, print, values);
    return added ? Outcome(Done {}) : Outcome(added.error());
}

} // namespace

Press pressOn(const CellState& state, Station station)
{
    if (station == Station::Read || station == Station::About)
        return Press::Nothing;
    switch (state.stage) {
    case Stage::Waiting:
        return Press::Start;
    case Stage::Running:
        return Press::End;
    case Stage::Done:
        return station == Station::Expose ? Press::Again : Press::Nothing;
    case Stage::Begun:
    case Stage::Passed:
        break;
    }
    return Press::Nothing;
}

PressPlan planPress(Station station, const CellState& current, const std::vector<Chosen>& chosen)
{
    PressPlan plan;
    plan.press = pressOn(current, station);
    for (const auto& one : chosen) {
        if (plan.press != Press::Nothing && pressOn(one.state, station) == plan.press)
            plan.prints << one.print;
        else
            ++plan.left_alone;
    }
    return plan;
}

QString pressLabel(Press press, Station station, int prints, const QString& code)
{
    const auto whom = prints == 1 && !code.isEmpty() ? code : BenchWords::prints(prints);
    switch (press) {
    case Press::Start:
        return BenchWords::tr("Start %1, %2").arg(stationLabel(station), whom);
    case Press::End:
        return BenchWords::tr("End %1, %2").arg(stationLabel(station), whom);
    case Press::Again:
        return BenchWords::tr("Start a further exposure, %1").arg(whom);
    case Press::Nothing:
        break;
    }
    return {};
}

QString pressRefusal(const CellState& state, Station station)
{
    if (station == Station::Read)
        return BenchWords::tr("Readings have no start and end: type them in.");
    if (state.stage == Stage::Passed)
        return BenchWords::tr("The sheet has gone on without %1. Its times can be entered in the form.")
            .arg(stationLabel(station));
    return BenchWords::tr("%1 is done. Its times can be changed in the form.").arg(stationLabel(station));
}

Outcome startStation(Writer& writer, qint64 print, Station station, const Instant& now)
{
    if (auto done = endOthers(writer, print, station, now); !done)
        return done;
    if (station == Station::Expose)
        return startExposure(writer, print, now);
    if (auto done = writer.set({ Entity::Print, print }, startKey(station), timeOf(now), Known {}); !done)
        return done;
    if (station != Station::Rinse)
        return Done {};
    const auto baths = writer.children(Entity::Bath, print);
    if (!baths)
        return baths.error();
    if (!baths->empty())
        return Done {};
    const auto added = writer.add(Entity::Bath, print, { { key("bath_position"), knownNumber(1) } });
    return added ? Outcome(Done {}) : Outcome(added.error());
}

Outcome endStation(Writer& writer, qint64 print, Station station, const Instant& now)
{
    if (station == Station::Expose)
        return endExposures(writer, print, now);
    return writer.set({ Entity::Print, print }, endKey(station), timeOf(now), Known {});
}

Outcome addTouch(Writer& writer, qint64 print, const QString& state, const Instant& now)
{
    const auto exposures = childrenOf(writer, Entity::Exposure, print);
    if (!exposures)
        return exposures.error();
    const bool exposed = std::any_of(exposures->begin(), exposures->end(),
        [&](const Record& row) { return in(writer, row, u"expose_start").has(); });
    const auto& field = writer.catalogue().columnField(Entity::Touch, u"touch_state");
    const auto added = writer.add(Entity::Touch, print,
        { { key("touch_time"), timeOf(now) },
            { key("touch_moment"), Known { Value(exposed ? key("before_rinse") : key("drying")) } },
            { field.key, Known { Value(state), field.nature } } });
    return added ? Outcome(Done {}) : Outcome(added.error());
}

Outcome addLight(Writer& writer, qint64 print, const Known& uva_w_m2, const Instant& now)
{
    const auto meters = childrenOf(writer, Entity::Meter, print);
    if (!meters)
        return meters.error();
    const auto exposures = childrenOf(writer, Entity::Exposure, print);
    if (!exposures)
        return exposures.error();
    std::vector<FieldValue> values { { key("meter_number"),
                                         knownNumber(highest(writer, *meters, u"meter_number") + 1) },
        { key("meter_time"), timeOf(now) }, { key("meter_uva_w_m2"), uva_w_m2 } };
    for (const auto& row : *exposures)
        if (runs(writer, row))
            values.emplace_back(key("meter_exposure"), in(writer, row, u"expose_number"));
    if (values.size() > 4) // two exposures that run at once: it cannot be said for which it was read
        values.resize(3);
    const auto added = writer.add(Entity::Meter, print, values);
    return added ? Outcome(Done {}) : Outcome(added.error());
}

Outcome enterWeighing(Writer& writer, qint64 print, const QString& state, const Known& mass_g, const Instant& now,
    const std::optional<Known>& seen)
{
    const auto rows = childrenOf(writer, Entity::Weighing, print);
    if (!rows)
        return rows.error();
    const Known wanted { Value(state) };
    const auto found = std::find_if(rows->rbegin(), rows->rend(),
        [&](const Record& row) { return in(writer, row, u"weigh_state").value == wanted.value; });
    if (found == rows->rend() || state == QLatin1String("drying"))
        return addRow(writer, Entity::Weighing, print,
            { { key("weigh_state"), wanted }, { key("weigh_mass_g"), mass_g }, { key("weigh_time"), timeOf(now) } });
    if (auto done = replace(writer, *found, key("weigh_mass_g"), mass_g, seen); !done)
        return done;
    return writer.set(found->ref, key("weigh_time"), timeOf(now));
}

Outcome enterReading(Writer& writer, qint64 print, const ReadingKind& kind, const Known& density, const Instant& now,
    const std::optional<Known>& seen)
{
    const auto there = store::readingsOf(writer, print);
    if (!there)
        return there.error();
    std::vector<FieldValue> values { { key("reading_density"), density }, { key("reading_time"), timeOf(now) } };
    if (!kind.method.isEmpty())
        values.emplace_back(key("reading_method"), Known { Value(kind.method) });
    if (!kind.channel.isEmpty())
        values.emplace_back(key("reading_channel"), Known { Value(kind.channel) });
    for (const auto& one : *there) // there is a tone after all
        if (one.kind.when == kind.when && one.kind.where == kind.where && one.kind.method == nothingToReadKey())
            if (auto done = writer.remove({ Entity::Reading, one.id }); !done)
                return done;
    const auto* same = sameReading(*there, kind);
    if (!same) {
        values.insert(values.begin(),
            { { key("reading_when"), Known { Value(kind.when) } },
                { key("reading_where"), Known { Value(kind.where) } } });
        return addRow(writer, Entity::Reading, print, values);
    }
    if (seen && same->density != *seen)
        return changedElsewhere();
    if (same->density.has() && same->density != density) { // what was measured with the old value goes with it
        for (const char* column : { "reading_spread", "reading_lab_l", "reading_lab_a", "reading_lab_b" })
            values.emplace_back(key(column), Known {});
        if (same->photo != 0)
            values.emplace_back(key("reading_photo"), Known {});
        if (same->photo != 0 && kind.method.isEmpty())
            values.emplace_back(key("reading_method"), Known {});
    }
    for (const auto& [column, value] : values)
        if (auto done = writer.set({ Entity::Reading, same->id }, column, value); !done)
            return done;
    return Done {};
}

Outcome enterNothingToRead(Writer& writer, qint64 print, const Instant& now)
{
    const ReadingKind kind { key("day_after"), key("deepest"), nothingToReadKey(), {} };
    const auto there = store::readingsOf(writer, print);
    if (!there)
        return there.error();
    if (sameReading(*there, kind))
        return Done {};
    return addRow(writer, Entity::Reading, print,
        { { key("reading_when"), Known { Value(kind.when) } }, { key("reading_where"), Known { Value(kind.where) } },
            { key("reading_method"), Known { Value(kind.method) } }, { key("reading_time"), timeOf(now) } });
}

} // namespace washfast::ui
