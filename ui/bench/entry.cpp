#include "ui/bench/entry.h"

#include "core/store/print_fields.h"
#include "ui/bench/words.h"

namespace washfast::ui {

namespace {

QString choiceLabel(const Catalogue& catalogue, Entity entity, QStringView column, const QString& key)
{
    return catalogue.columnField(entity, column).choiceLabel(key);
}

void addWeighings(std::vector<Entry>& entries, const Catalogue& catalogue)
{
    const auto& mass = catalogue.columnField(Entity::Weighing, u"weigh_mass_g");
    for (const auto& state : catalogue.columnField(Entity::Weighing, u"weigh_state").choices) {
        Entry entry { Entry::Kind::Weighing, weighId(state.key), BenchWords::tr("Mass, %1").arg(state.label), &mass,
            state.key, {}, {}, false };
        entry.starts_group = state.key == QLatin1String("bare");
        entries.push_back(entry);
    }
}

void addReadings(std::vector<Entry>& entries, const Catalogue& catalogue)
{
    const auto& density = catalogue.columnField(Entity::Reading, u"reading_density");
    const auto add = [&](const QString& when, const QString& where) {
        Entry entry { Entry::Kind::Reading, readId(when, where),
            BenchWords::tr("Density, %1, %2")
                .arg(choiceLabel(catalogue, Entity::Reading, u"reading_when", when),
                    choiceLabel(catalogue, Entity::Reading, u"reading_where", where)),
            &density, {}, when, where, false };
        for (const auto& there : entries)
            if (there.id == entry.id)
                return;
        entry.starts_group = entries.back().kind != Entry::Kind::Reading;
        entries.push_back(entry);
    };
    // The two tones that decide, and what they are measured from.
    for (const auto& [when, where] : { std::pair("before_rinse", "deepest"), std::pair("before_rinse", "covered"),
             std::pair("day_after", "deepest"), std::pair("day_after", "paper") })
        add(QLatin1String(when), QLatin1String(where));
    for (const auto& when : catalogue.columnField(Entity::Reading, u"reading_when").choices)
        for (const auto& where : catalogue.columnField(Entity::Reading, u"reading_where").choices)
            if (where.key != QLatin1String("step")) // a wedge has many of them: that is not one number a print
                add(when.key, where.key);
}

void addFields(std::vector<Entry>& entries, const Catalogue& catalogue)
{
    for (const auto station : { Station::About, Station::Coat, Station::Dry, Station::Expose, Station::Hold,
             Station::Rinse, Station::Read }) {
        bool first = true;
        for (const auto* field : catalogue.recordable(station)) {
            const auto child = field->source ? field->source->child : std::nullopt;
            const bool above = child == Entity::Weighing || child == Entity::Reading || child == Entity::Meter;
            const bool typed = field->kind != Kind::Link && !(field->entity == Entity::Session);
            if (above || !typed || !store::isWritablePrintField(catalogue, *field))
                continue;
            entries.push_back({ Entry::Kind::PrintField, fieldId(field->key), field->label, field, {}, {}, {}, first });
            first = false;
        }
    }
}

} // namespace

std::vector<Entry> entriesOf(const Catalogue& catalogue)
{
    std::vector<Entry> entries;
    entries.push_back({ Entry::Kind::Light, lightId(), BenchWords::tr("Light, all that are exposed now"),
        &catalogue.columnField(Entity::Meter, u"meter_uva_w_m2"), {}, {}, {}, false });
    addWeighings(entries, catalogue);
    addReadings(entries, catalogue);
    addFields(entries, catalogue);
    return entries;
}

QString lightId()
{
    return QStringLiteral("light");
}

QString weighId(const QString& state)
{
    return QStringLiteral("weigh:") + state;
}

QString readId(const QString& when, const QString& where)
{
    return QStringLiteral("read:%1:%2").arg(when, where);
}

QString fieldId(const QString& key)
{
    return QStringLiteral("field:") + key;
}

QString weighStateFor(const SheetStates& states)
{
    const auto stage = [&](Station station) { return stateAt(states, station).stage; };
    const auto begun
        = [&](Station station) { return stage(station) == Stage::Running || stage(station) == Stage::Done; };
    if (begun(Station::Rinse))
        return QStringLiteral("oven_dry");
    if (begun(Station::Hold) || stage(Station::Expose) == Stage::Done)
        return QStringLiteral("before_rinse");
    if (stage(Station::Dry) == Stage::Done || stage(Station::Expose) == Stage::Running)
        return QStringLiteral("before_expose");
    if (stage(Station::Dry) == Stage::Running)
        return QStringLiteral("drying");
    return begun(Station::Coat) ? QStringLiteral("coated") : QStringLiteral("bare");
}

bool wasInLight(const SheetStates& states)
{
    const auto begun = [&](Station station) {
        const auto stage = stateAt(states, station).stage;
        return stage == Stage::Running || stage == Stage::Done;
    };
    const bool control = stateAt(states, Station::Expose).stage == Stage::Passed
        && stateAt(states, Station::Dry).stage != Stage::Waiting
        && stateAt(states, Station::Dry).stage != Stage::Running;
    return begun(Station::Expose) || begun(Station::Hold) || control;
}

QString readIdFor(const SheetStates& states)
{
    const auto rinse = stateAt(states, Station::Rinse).stage;
    QString when = QStringLiteral("coated");
    if (rinse == Stage::Running || rinse == Stage::Done || rinse == Stage::Passed)
        when = QStringLiteral("day_after");
    else if (wasInLight(states))
        when = QStringLiteral("before_rinse");
    return readId(when, QStringLiteral("deepest"));
}

Known entered(const Desk& desk, qint64 print, const Entry& entry)
{
    switch (entry.kind) {
    case Entry::Kind::Light:
        return {};
    case Entry::Kind::Weighing:
        return desk.get(print, QStringLiteral("mass_%1_g").arg(entry.weigh_state));
    case Entry::Kind::Reading:
        return desk.get(print, QStringLiteral("density_%1_%2").arg(entry.when, entry.where));
    case Entry::Kind::PrintField:
        return desk.get(print, entry.field->key);
    }
    return {};
}

Held heldBy(const Desk& desk, qint64 print, const Entry& entry, const ReadHow& by)
{
    if (entry.kind == Entry::Kind::Weighing && entry.weigh_state == QLatin1String("drying"))
        return {}; // a new one is added
    if (entry.kind != Entry::Kind::Reading)
        return { entered(desk, print, entry), {} };
    const auto there = readingsOf(desk.notebook(), print);
    const auto* same = sameReading(there, { entry.when, entry.where, by.method, by.channel });
    return same ? Held { same->density, sourceWords(desk.catalogue(), same->kind) } : Held {};
}

Outcome writeEntry(store::Writer& writer, qint64 print, const Entry& entry, const Known& value, const QString& method,
    const QString& channel, const Instant& now, const std::optional<Known>& seen)
{
    switch (entry.kind) {
    case Entry::Kind::Light:
        return addLight(writer, print, value, now);
    case Entry::Kind::Weighing:
        return enterWeighing(writer, print, entry.weigh_state, value, now, seen);
    case Entry::Kind::Reading:
        return enterReading(writer, print, { entry.when, entry.where, method, channel }, value, now, seen);
    case Entry::Kind::PrintField:
        break;
    }
    return store::setPrintField(writer, PrintId { print }, entry.field->key, value, true, seen);
}

} // namespace washfast::ui
