#include "core/store/print_fields.h"

#include "core/store/words.h"
#include "core/trial/preferred.h"
#include "core/trial/same_reading.h"

namespace washfast::store {

namespace {

/// The child row that a source reads from, or nothing.
Result<std::optional<qint64>> findChild(Writer& writer, PrintId print, const Source& source)
{
    const auto ids = writer.children(*source.child, print.value);
    if (!ids)
        return ids.error();
    std::optional<qint64> found;
    Rank best {};
    for (const auto id : *ids) {
        const auto record = writer.read({ *source.child, id });
        if (!record)
            return record.error();
        const auto in = [&](const QString& key) {
            return (*record)->values[size_t(writer.catalogue().column(*source.child, key))];
        };
        bool fits = record->has_value();
        for (const auto& [key, value] : source.match)
            fits = fits && in(key).value == value;
        if (!fits)
            continue;
        // The one that counts, else the last one, as in reading.
        const auto rank
            = source.prefer.empty() || !source.after.isEmpty() ? Rank {} : rankOf(source.prefer, in(source.column), in);
        if (found && best < rank)
            continue;
        found = id;
        best = rank;
    }
    return found;
}

/// What a source stands on: the print itself or a child of it. `first_link` is the link to set when it leads on from
/// there.
const QStringList& linksOf(const Source& source)
{
    return source.child ? source.after : source.via;
}

Outcome setLinked(Writer& writer, Ref base, const QString& link, const Field& name, const Known& value,
    bool make_missing, const std::optional<Known>& expected)
{
    std::optional<Known> expected_link;
    if (expected) {
        Known known;
        if (const auto text = expected->text()) {
            const auto id = writer.byName(name.entity, *text);
            if (!id)
                return id.error();
            if (*id)
                known.value = Link { **id };
        }
        expected_link = known;
    }
    if (!value.has())
        return writer.set(base, link, {}, expected_link);
    const auto wanted = value.text().value_or(QString());
    const auto existing = writer.byName(name.entity, wanted);
    if (!existing)
        return existing.error();
    qint64 id = existing->value_or(0);
    if (id == 0) {
        if (!make_missing)
            return Error { Trouble::NotFound,
                Words::tr("There is no %1 named %2.").arg(entityLabel(name.entity), wanted), name.label };
        const auto made = writer.add(
            name.entity, 0, { { writer.catalogue().identity(name.entity)->key, Known { wanted.trimmed() } } });
        if (!made)
            return made.error();
        id = *made;
    }
    return writer.set(base, link, Known { Link { id }, value.evidence }, expected_link);
}

} // namespace

bool isWritablePrintField(const Catalogue& catalogue, const Field& field)
{
    if (field.derived() || !field.source || field.hidden)
        return false;
    const auto& links = linksOf(*field.source);
    if (links.isEmpty())
        return true;
    const auto* identity = catalogue.identity(field.entity);
    return links.size() == 1 && identity && identity->key == field.source->column;
}

Outcome setPrintField(Writer& writer, PrintId print, const QString& key, const Known& value, bool make_missing,
    const std::optional<Known>& expected)
{
    const auto& catalogue = writer.catalogue();
    const auto* field = catalogue.findPrintField(key);
    if (!field || !isWritablePrintField(catalogue, *field))
        return Error { Trouble::BadInput,
            Words::tr("%1 cannot be entered for a print.").arg(field ? field->label : key), {} };
    const auto& source = *field->source;
    Ref base = print;
    if (source.child) {
        const auto child = findChild(writer, print, source);
        if (!child)
            return child.error();
        if (*child) {
            base = { *source.child, **child };
        } else {
            if (!value.has())
                return Done {};
            std::vector<FieldValue> match;
            for (const auto& [column, wanted] : source.match)
                match.emplace_back(column, Known { wanted, catalogue.columnField(*source.child, column).nature });
            const auto added = writer.add(*source.child, print.value, match);
            if (!added)
                return added.error();
            base = { *source.child, *added };
        }
    }
    const auto& links = linksOf(source);
    if (links.isEmpty() && base.entity == Entity::Reading && value.has()) { // there is something to read after all
        const auto row = writer.read(base);
        if (!row)
            return row.error();
        const auto method = QStringLiteral("reading_method");
        if (*row && (*row)->values[size_t(catalogue.column(Entity::Reading, method))].text() == nothingToReadKey())
            if (auto done = writer.set(base, method, {}); !done)
                return done;
    }
    if (links.isEmpty())
        return writer.set(base, source.column, value, expected);
    return setLinked(writer, base, links.first(), *field, value, make_missing, expected);
}

} // namespace washfast::store
