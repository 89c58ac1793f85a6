#include "core/exchange/contradictions.h"

#include "core/exchange/words.h"
#include "core/quantity/time_span.h"
#include "core/quantity/value_text.h"
#include "core/trial/print_reader.h"

namespace washfast::exchange {

namespace {

/// What must not be before what. The second of each pair is the field to look at.
struct Order {
    const char* earlier;
    const char* later;
};
constexpr Order orders[] = {
    { "coat_start", "coat_end" },
    { "dry_start", "dry_end" },
    { "expose_start", "expose_end" },
    { "hold_start", "hold_end" },
    { "rinse_start", "rinse_end" },
    { "term_start", "term_end" },
    { "mix_made", "coat_start" },
    { "coat_start", "dry_start" },
    { "coat_end", "expose_start" },
    { "expose_end", "hold_start" },
    { "expose_end", "rinse_start" },
    { "hold_start", "rinse_start" },
};

class Looking {
public:
    Looking(const Catalogue& catalogue, const std::function<Known(const QString&)>& get)
        : catalogue_(catalogue)
        , get_(get)
    {
    }

    std::vector<Contradiction> all()
    {
        for (const auto& order : orders)
            inOrder(QLatin1String(order.earlier), QLatin1String(order.later));
        for (const auto& field : catalogue_.printFields())
            if (field.began)
                notTooLate(field);
        const QString bare = QStringLiteral("mass_bare_g");
        notLighter(bare, QStringLiteral("mass_coated_g"), true);
        // Paper that dries below the room's humidity may lose more water of its own than the coat adds solids.
        notLighter(bare, QStringLiteral("mass_before_expose_g"), false);
        notLighter(bare, QStringLiteral("mass_before_rinse_g"), false);
        outcome();
        kept();
        return std::move(found_);
    }

private:
    [[nodiscard]] QString label(const QString& key) const
    {
        const auto* field = catalogue_.findPrintField(key);
        return field ? field->label : key;
    }
    [[nodiscard]] QString shown(const QString& key, const Known& value) const
    {
        const auto* field = catalogue_.findPrintField(key);
        const QString text = field ? isoText(*field, value.value) : QString();
        return field && !field->unit.isEmpty() ? text + QLatin1Char(' ') + field->unit : text;
    }
    void inOrder(const QString& earlier, const QString& later)
    {
        const auto a = get_(earlier);
        const auto b = get_(later);
        if (!a.time() || !b.time() || *a.time() <= *b.time())
            return;
        found_.push_back({ later,
            Words::tr("“%1” (%2) is before “%3” (%4).")
                .arg(label(later), shown(later, b), label(earlier), shown(earlier, a)),
            true });
    }
    void notTooLate(const Field& end_field)
    {
        const auto start = get_(end_field.began->column).time();
        const auto end = get_(end_field.key).time();
        if (endsTooLate(end_field, start, end))
            found_.push_back({ end_field.key, tooLateSentence(end_field, label(end_field.began->column), *start, *end),
                false, true });
    }
    void notLighter(const QString& bare, const QString& now, bool impossible)
    {
        const auto a = get_(bare);
        const auto b = get_(now);
        if (!a.number() || !b.number() || *a.number() <= *b.number())
            return;
        found_.push_back({ now,
            Words::tr("“%1” (%2) is less than “%3” (%4).").arg(label(now), shown(now, b), label(bare), shown(bare, a)),
            impossible });
    }
    void outcome()
    {
        const QString key = QStringLiteral("print_outcome");
        const auto* field = catalogue_.findPrintField(key);
        const auto text = get_(key).text();
        if (!field || !text)
            return;
        const auto held = splitSet(*text);
        const QString kept = QStringLiteral("kept");
        const QString gone = QStringLiteral("ran_off");
        if (held.contains(kept) && held.contains(gone))
            found_.push_back({ key,
                Words::tr("The outcome is both “%1” and “%2”.").arg(field->choiceLabel(kept), field->choiceLabel(gone)),
                true });
    }
    /// The rinse cannot add blue; air does, by finishing what light began. More than a third more is a mistake in a
    /// reading. Limit: common practice, no source.
    void kept()
    {
        constexpr double most = 1.3;
        const QString key = QStringLiteral("kept");
        const auto share = get_(key).number();
        if (share && *share > most)
            found_.push_back({ key,
                Words::tr("More is kept (%1) than was formed; one of the two readings is not right.")
                    .arg(QString::number(*share, 'f', 2)),
                false });
        if (share && *share < 0)
            found_.push_back({ key,
                Words::tr("Less than nothing is kept (%1); one of the readings is not right.")
                    .arg(QString::number(*share, 'f', 2)),
                false });
    }

    const Catalogue& catalogue_;
    const std::function<Known(const QString&)>& get_;
    std::vector<Contradiction> found_;
};

void findImplausible(
    const Notebook& notebook, int row, const PrintReader& reader, const QString& code, std::vector<Finding>& found)
{
    const auto& fields = notebook.catalogue().printFields();
    for (int i = 0; i < int(fields.size()); ++i) {
        const auto& field = fields[size_t(i)];
        const bool own = field.source && field.source->via.isEmpty() && field.source->after.isEmpty();
        if (field.kind != Kind::Number || !own)
            continue; // linked records are looked at once each
        if (const auto number = reader.get(row, i).number())
            if (const auto says = outsideRange(field, *number))
                found.push_back({ code, field.key, *says });
    }
}

/// Stations that last too long, in every row of one kind.
void findTooLong(const Notebook& notebook, Entity entity, std::vector<Finding>& found)
{
    const auto& catalogue = notebook.catalogue();
    const auto& table = notebook.table(entity);
    for (const auto& field : catalogue.columns(entity)) {
        if (!field.began)
            continue;
        const auto& start_field = catalogue.columnField(entity, field.began->column);
        for (int row = 0; row < table.rows(); ++row) {
            const auto start = table.at(row, start_field.ordinal).time();
            const auto end = table.at(row, field.ordinal).time();
            if (!endsTooLate(field, start, end))
                continue;
            const auto owner = ownerOf(entity);
            const Ref print = owner ? Ref(owner->entity, table.owner(row)) : Ref(entity, table.id(row));
            found.push_back(
                { notebook.nameOf(print), field.key, tooLateSentence(field, start_field.label, *start, *end) });
        }
    }
}

bool belongsToPrint(Entity entity)
{
    const auto owner = ownerOf(entity);
    return entity == Entity::Print || (owner && owner->entity == Entity::Print);
}

/// Sessions, mixes, papers and the others that prints point at.
void findInLinked(const Notebook& notebook, Entity entity, std::vector<Finding>& found)
{
    const auto& table = notebook.table(entity);
    for (const auto& field : notebook.catalogue().columns(entity)) {
        if (field.kind != Kind::Number)
            continue;
        for (int row = 0; row < table.rows(); ++row)
            if (const auto number = table.at(row, field.ordinal).number())
                if (const auto says = outsideRange(field, *number)) {
                    const QString name = notebook.nameOf({ entity, table.id(row) });
                    found.push_back(
                        { {}, field.key, QStringLiteral("%1 %2: %3").arg(entityLabel(entity), name, *says) });
                }
    }
}

/// Links to a record that is not there any more: it was removed, or the file was changed by another program.
void findLoose(const Notebook& notebook, Entity entity, std::vector<Finding>& found)
{
    const auto& table = notebook.table(entity);
    for (const auto& field : notebook.catalogue().columns(entity)) {
        if (field.kind != Kind::Link)
            continue;
        for (int row = 0; row < table.rows(); ++row) {
            const auto id = table.link(row, field.ordinal);
            if (id == 0 || notebook.table(*field.target).find(id) >= 0)
                continue;
            const Ref ref(entity, table.id(row));
            const QString name = notebook.nameOf(ref);
            found.push_back({ entity == Entity::Print ? name : QString(), field.key,
                Words::tr("%1 %2 points at a %3 that is not there any more.")
                    .arg(entityLabel(entity), name.isEmpty() ? QString::number(ref.id) : name,
                        entityLabel(*field.target)) });
        }
    }
}

} // namespace

std::vector<Contradiction> contradictions(const Catalogue& catalogue, const std::function<Known(const QString&)>& get)
{
    return Looking(catalogue, get).all();
}

std::vector<Finding> findContradictions(const Notebook& notebook)
{
    std::vector<Finding> found;
    for (const auto& problem : notebook.problems)
        found.push_back({ {}, {}, problem });
    const PrintReader reader(notebook);
    const auto code = reader.notebook().catalogue().identity(Entity::Print)->ordinal;
    const auto& prints = notebook.prints();
    for (int row = 0; row < prints.rows(); ++row) {
        const QString name = prints.at(row, code).text().value_or(QString());
        const std::function<Known(const QString&)> get = [&](const QString& key) { return reader.get(row, key); };
        for (const auto& one : contradictions(notebook.catalogue(), get))
            if (!one.too_long) // found in the rows, of which a print may have several
                found.push_back({ name, one.field, one.says });
        findImplausible(notebook, row, reader, name, found);
    }
    for (const auto entity : allEntities()) {
        findTooLong(notebook, entity, found);
        if (!belongsToPrint(entity))
            findInLinked(notebook, entity, found);
        findLoose(notebook, entity, found);
    }
    return found;
}

} // namespace washfast::exchange
