#include "core/chemistry/mix_record.h"

#include "core/chemistry/recorded.h"
#include "core/chemistry/words.h"

#include <algorithm>
#include <map>

namespace washfast::chemistry {

namespace {

bool isRetired(const Notebook& notebook, Entity entity, qint64 id, const char* column)
{
    return at(notebook, { entity, id }, column).yes().value_or(false);
}

std::vector<qint64> partsOf(const Notebook& notebook, qint64 mix)
{
    std::vector<qint64> parts;
    const auto& table = notebook.table(Entity::MixPart);
    for (const int row : notebook.children(Entity::MixPart, mix))
        parts.push_back(table.id(row));
    return parts;
}

std::vector<qint64> printsOf(const Notebook& notebook, const QString& link, qint64 target)
{
    std::vector<qint64> prints;
    const auto& table = notebook.prints();
    const int column = notebook.catalogue().column(Entity::Print, link);
    for (int row = 0; row < table.rows(); ++row)
        if (table.link(row, column) == target)
            prints.push_back(table.id(row));
    return prints;
}

/// What the written words and the bottle's label say together.
std::optional<FoundSubstance> substanceOfPart(const Notebook& notebook, qint64 part)
{
    const auto written
        = findSubstance(at(notebook, { Entity::MixPart, part }, "part_substance").text().value_or(QString()));
    if (written && !written->form_assumed)
        return *written;
    if (const auto bottle = at(notebook, { Entity::MixPart, part }, "part_chemical").link())
        if (const auto key = substanceInBottle(notebook, *bottle); !key.isEmpty())
            return *findSubstance(key);
    return written ? std::optional(*written) : std::nullopt;
}

double daysBetween(const Instant& a, const Instant& b)
{
    return minutesBetween(a, b) / (24 * 60);
}

QString dayOf(const Instant& time)
{
    return time.toDateTime().date().toString(Qt::ISODate);
}

} // namespace

QString substanceInBottle(const Notebook& notebook, qint64 chemical)
{
    for (const char* column : { "chemical_formula", "chemical_name" }) {
        const auto written = at(notebook, { Entity::Chemical, chemical }, column).text().value_or(QString());
        if (written.isEmpty())
            continue;
        if (const auto found = findSubstance(written); found && substanceByKey(found->substance.key))
            return found->substance.key;
    }
    return {};
}

Batch batchOf(const Notebook& notebook, qint64 mix)
{
    Batch batch;
    batch.volume_ml = at(notebook, { Entity::Mix, mix }, "mix_water_ml").number();
    for (const auto part : partsOf(notebook, mix)) {
        Weighed weighed;
        weighed.substance = at(notebook, { Entity::MixPart, part }, "part_substance").text().value_or(QString());
        if (const auto found = substanceOfPart(notebook, part))
            weighed.substance = found->substance.key;
        weighed.mass_g = at(notebook, { Entity::MixPart, part }, "part_mass_g").number();
        if (const auto bottle = at(notebook, { Entity::MixPart, part }, "part_chemical").link())
            weighed.purity_pct = at(notebook, { Entity::Chemical, *bottle }, "chemical_purity_pct").number();
        batch.parts.push_back(weighed);
    }
    return batch;
}

qint64 mixOfSession(const Notebook& notebook, qint64 session)
{
    std::map<qint64, int> counts;
    for (const auto print : printsOf(notebook, QStringLiteral("print_session"), session))
        if (const auto mix = at(notebook, { Entity::Print, print }, "print_mix").link())
            ++counts[*mix];
    const auto most = std::max_element(
        counts.begin(), counts.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    return most == counts.end() ? 0 : most->first;
}

QStringList substancesOfSession(const Notebook& notebook, qint64 session)
{
    QStringList keys;
    QList<qint64> seen;
    for (const auto print : printsOf(notebook, QStringLiteral("print_session"), session)) {
        const auto mix = at(notebook, { Entity::Print, print }, "print_mix").link();
        if (!mix || seen.contains(*mix))
            continue;
        seen << *mix;
        keys << reckon(batchOf(notebook, *mix)).substances();
    }
    keys.removeDuplicates();
    return keys;
}

std::vector<qint64> bottlesOf(const Notebook& notebook, const QString& substance)
{
    const auto* wanted = substanceByKey(substance);
    std::vector<std::pair<qint64, qint64>> found; // opened, id
    const auto& table = notebook.table(Entity::Chemical);
    for (int row = 0; row < table.rows(); ++row) {
        const auto id = table.id(row);
        if (isRetired(notebook, Entity::Chemical, id, "chemical_retired"))
            continue;
        if (wanted && substanceInBottle(notebook, id) == wanted->key) {
            const auto opened = at(notebook, { Entity::Chemical, id }, "chemical_opened").time();
            found.emplace_back(opened ? opened->ms_utc : 0, id);
        }
    }
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<qint64> ids;
    for (const auto& [opened, id] : found)
        ids.push_back(id);
    return ids;
}

QString warningWord(ShelfWarning warning)
{
    switch (warning) {
    case ShelfWarning::Old:
        return Words::tr("old");
    case ShelfWarning::Low:
        return Words::tr("low");
    case ShelfWarning::NoLabel:
        break;
    }
    return Words::tr("no label noted");
}

BottleState bottleState(const Notebook& notebook, qint64 chemical, const Instant& now)
{
    BottleState state;
    const auto seen = at(notebook, { Entity::Chemical, chemical }, "chemical_left_g").number();
    const auto counted = at(notebook, { Entity::Chemical, chemical }, "chemical_counted").time();
    const auto full = at(notebook, { Entity::Chemical, chemical }, "chemical_bottle_g").number();
    const bool since_seen = seen && counted;
    int unknown = 0;
    const auto& parts = notebook.table(Entity::MixPart);
    for (int row = 0; row < parts.rows(); ++row) {
        if (at(notebook, { Entity::MixPart, parts.id(row) }, "part_chemical").link() != chemical)
            continue;
        const auto made = at(notebook, { Entity::Mix, parts.owner(row) }, "mix_made").time();
        if (since_seen && made && *made <= *counted)
            continue;
        const auto mass = at(notebook, { Entity::MixPart, parts.id(row) }, "part_mass_g").number();
        if (!mass || (since_seen && !made))
            ++unknown;
        else
            state.weighed_out_g += *mass;
    }
    const auto number = [](double grams) { return QString::number(grams, 'f', 1); };
    if (since_seen) {
        state.left_g = std::max(0.0, *seen - state.weighed_out_g);
        state.says = Words::tr("%1 g seen on %2, %3 g weighed out since.")
                         .arg(number(*seen), dayOf(*counted), number(state.weighed_out_g));
    } else if (seen) {
        state.left_g = seen;
        state.weighed_out_g = 0;
        state.says = Words::tr("%1 g, seen on an unknown day: what was weighed out since cannot be taken off.")
                         .arg(number(*seen));
    } else if (full) {
        state.left_g = std::max(0.0, *full - state.weighed_out_g);
        state.says = Words::tr("%1 g when new, %2 g weighed out.").arg(number(*full), number(state.weighed_out_g));
    } else {
        state.says = Words::tr("Not recorded.");
    }
    if (unknown > 0 && (since_seen || full))
        state.says += QLatin1Char(' ') + Words::tr("Some weighings have no mass or day, so that there is less.");

    const auto best_before = at(notebook, { Entity::Chemical, chemical }, "chemical_best_before").time();
    const auto opened = at(notebook, { Entity::Chemical, chemical }, "chemical_opened").time();
    if (best_before ? *best_before < now : opened && daysBetween(*opened, now) > openedBottleKeepsDays)
        state.warnings.push_back(ShelfWarning::Old);
    const auto low = at(notebook, { Entity::Chemical, chemical }, "chemical_low_g").number();
    if (state.left_g && (low ? *state.left_g < *low : *state.left_g <= 0))
        state.warnings.push_back(ShelfWarning::Low);
    if (at(notebook, { Entity::Chemical, chemical }, "chemical_labelled").yes() == false)
        state.warnings.push_back(ShelfWarning::NoLabel);
    return state;
}

MixState mixState(const Notebook& notebook, qint64 mix, const Instant& now)
{
    MixState state;
    const auto made = at(notebook, { Entity::Mix, mix }, "mix_made").time();
    if (made)
        state.age_days = daysBetween(*made, now);
    const auto seen = at(notebook, { Entity::Mix, mix }, "mix_left_ml").number();
    const auto seen_on = at(notebook, { Entity::Mix, mix }, "mix_left_seen").time();
    const auto whole = at(notebook, { Entity::Mix, mix }, "mix_water_ml").number();
    const bool since_seen = seen && seen_on;
    double used = 0;
    for (const auto print : printsOf(notebook, QStringLiteral("print_mix"), mix)) {
        ++state.prints;
        const auto coated = at(notebook, { Entity::Print, print }, "coat_start").time();
        if (since_seen && coated && *coated <= *seen_on)
            continue;
        if (const auto volume = at(notebook, { Entity::Print, print }, "coat_volume_ml").number())
            used += *volume;
        else
            state.at_most = true;
    }
    const auto number = [](double ml) { return QString::number(ml, 'f', 1); };
    if (since_seen || whole) {
        state.left_ml = std::max(0.0, (since_seen ? *seen : *whole) - used);
        state.says = since_seen
            ? Words::tr("%1 mL seen on %2, %3 mL painted on since.").arg(number(*seen), dayOf(*seen_on), number(used))
            : Words::tr("%1 mL made, %2 mL painted on.").arg(number(*whole), number(used));
        if (state.at_most)
            state.says += QLatin1Char(' ') + Words::tr("Some coats have no volume, so that there is less.");
    } else {
        state.says = Words::tr("Not recorded.");
    }
    const auto keys = reckon(batchOf(notebook, mix)).substances();
    const double keeps
        = keys.contains(QStringLiteral("(NH4)3[Fe(C2O4)3].3H2O")) ? oxalateMixKeepsDays : citrateMixKeepsDays;
    if (state.age_days && *state.age_days > keeps)
        state.warnings.push_back(ShelfWarning::Old);
    if (state.left_ml && *state.left_ml < lowMixMl)
        state.warnings.push_back(ShelfWarning::Low);
    if (!at(notebook, { Entity::Mix, mix }, "mix_labelled").yes().value_or(false))
        state.warnings.push_back(ShelfWarning::NoLabel);
    return state;
}

std::vector<AgePoint> densityWithAge(const PrintReader& reader, qint64 mix)
{
    std::vector<AgePoint> points;
    const auto& notebook = reader.notebook();
    for (const auto print : printsOf(notebook, QStringLiteral("print_mix"), mix)) {
        const int row = notebook.prints().find(print);
        const auto age = reader.get(row, u"mix_age_h").number();
        const auto net = reader.get(row, u"net_density").number();
        if (age && net)
            points.push_back({ *age, *net, print });
    }
    std::sort(points.begin(), points.end(), [](const AgePoint& a, const AgePoint& b) { return a.age_h < b.age_h; });
    return points;
}

} // namespace washfast::chemistry
