#include "core/exchange/export.h"

#include "core/exchange/dictionary.h"
#include "core/exchange/export_parts.h"
#include "core/exchange/words.h"

#include <QFileInfo>
#include <QJsonArray>
#include <algorithm>
#include <set>

namespace washfast::exchange {

namespace {

Error noSuchTerm(const Notebook& notebook, const QString& wanted)
{
    QStringList names;
    const auto& terms = notebook.table(Entity::Term);
    for (int row = 0; row < terms.rows(); ++row)
        names << notebook.nameOf({ Entity::Term, terms.id(row) });
    return { Trouble::NotFound,
        names.isEmpty()
            ? Words::tr("There is no term “%1”: the notebook has no terms.").arg(wanted)
            : Words::tr("There is no term “%1”. The terms are: %2.").arg(wanted, names.join(QStringLiteral(", "))),
        {} };
}

/// The row of another table that a print points at, or -1.
int linkedRow(const Notebook& notebook, int print, const char* column, Entity entity)
{
    const int link = notebook.catalogue().column(Entity::Print, QString::fromLatin1(column));
    const auto id = link < 0 ? 0 : notebook.prints().link(print, link);
    return id == 0 ? -1 : notebook.table(entity).find(id);
}

void sortByTime(const Notebook& notebook, Entity entity, const char* column, std::vector<int>& rows)
{
    const int ordinal = notebook.catalogue().column(entity, QString::fromLatin1(column));
    const auto at = [&](int row) { return notebook.table(entity).at(row, ordinal).time(); };
    std::stable_sort(rows.begin(), rows.end(), [&](int a, int b) { return at(a) < at(b); });
}

bool hasAny(const PrintReader& reader, const std::vector<int>& prints, int field)
{
    return std::any_of(prints.begin(), prints.end(), [&](int print) { return reader.get(print, field).has(); });
}

} // namespace

Result<ExportSelection> selectForExport(const Notebook& notebook, const std::optional<QString>& term)
{
    ExportSelection selection;
    selection.notebook = &notebook;
    std::optional<qint64> wanted;
    if (term) {
        wanted = notebook.byName(Entity::Term, *term);
        if (!wanted)
            return noSuchTerm(notebook, *term);
        selection.term = notebook.nameOf({ Entity::Term, *wanted });
    }
    const auto& catalogue = notebook.catalogue();
    const auto& sessions = notebook.table(Entity::Session);
    const int of_term = catalogue.column(Entity::Session, u"session_term");
    const auto inTerm = [&](int session) { return session >= 0 && sessions.link(session, of_term) == *wanted; };
    std::set<int> mixes;
    for (int print = 0; print < notebook.prints().rows(); ++print) {
        if (wanted && !inTerm(linkedRow(notebook, print, "print_session", Entity::Session)))
            continue;
        selection.prints.push_back(print);
        if (const int mix = linkedRow(notebook, print, "print_mix", Entity::Mix); mix >= 0)
            mixes.insert(mix);
        const auto readings = notebook.children(Entity::Reading, notebook.prints().id(print));
        selection.readings.insert(selection.readings.end(), readings.begin(), readings.end());
    }
    for (int session = 0; session < sessions.rows(); ++session)
        if (!wanted || inTerm(session))
            selection.sessions.push_back(session);
    for (int mix = 0; mix < notebook.table(Entity::Mix).rows(); ++mix)
        if (!wanted || mixes.contains(mix))
            selection.mixes.push_back(mix);
    sortByTime(notebook, Entity::Session, "session_start", selection.sessions);
    sortByTime(notebook, Entity::Mix, "mix_made", selection.mixes);
    const PrintReader reader(notebook);
    const int code = catalogue.printField(catalogue.identity(Entity::Print)->key);
    for (int field = 0; field < int(catalogue.printFields().size()); ++field)
        if (field == code || hasAny(reader, selection.prints, field))
            selection.fields.push_back(field);
    return selection;
}

MadeFiles makeExport(const ExportSelection& selection, const QString& path)
{
    const QString ending = QFileInfo(path).suffix().toLower();
    if (ending == QLatin1String("xlsx"))
        return makeWorkbook(selection, path);
    if (ending == QLatin1String("csv"))
        return makeCsv(selection, path);
    if (ending == QLatin1String("json"))
        return makeJson(selection, path);
    return Error { Trouble::BadInput,
        Words::tr("A file must end in .xlsx, .csv or .json, so that it is clear what is wanted."), path };
}

Result<ExportDone> writeExport(
    const ExportSelection& selection, const std::vector<files::FileToWrite>& files, files::Existing existing)
{
    if (auto done = files::writeFiles(files, existing); !done)
        return done.error();
    ExportDone report { int(selection.prints.size()), {} };
    for (const auto& file : files)
        report.files << file.path;
    return report;
}

Result<ExportDone> exportPrints(const ExportSelection& selection, const QString& path, files::Existing existing)
{
    const auto made = makeExport(selection, path);
    if (!made)
        return made.error();
    return writeExport(selection, *made, existing);
}

QString notMeasuredText(const ExportSelection& selection, const std::vector<Known>& values)
{
    QStringList parts;
    for (size_t i = 0; i < values.size(); ++i)
        if (values[i].has() && values[i].evidence != Evidence::Measured)
            parts << selection.field(i).key + QLatin1Char(':') + evidenceKey(values[i].evidence);
    return parts.join(QStringLiteral("; "));
}

Known named(const Notebook& notebook, const Field& field, const Known& known)
{
    const auto link = known.link();
    if (field.kind != Kind::Link || !link)
        return known;
    const QString name = notebook.nameOf({ *field.target, *link });
    return name.isEmpty() ? Known {} : Known { name, known.evidence };
}

QJsonValue jsonValue(const Notebook& notebook, const Field& field, const Known& known)
{
    const auto value = named(notebook, field, known);
    if (!value.has())
        return QJsonValue::Null;
    if (const auto yes = value.yes())
        return *yes;
    if (const auto number = value.number())
        return *number;
    if (const auto time = value.time())
        return time->toIso();
    const QString text = value.text().value_or(QString());
    return field.kind == Kind::ChoiceSet ? QJsonValue(QJsonArray::fromStringList(splitSet(text))) : QJsonValue(text);
}

std::vector<const Field*> shownColumns(const ExportSelection& selection, Entity entity, const std::vector<int>& rows)
{
    const auto& table = selection.notebook->table(entity);
    std::vector<const Field*> shown;
    for (const auto& field : selection.catalogue().columns(entity)) {
        const bool any
            = std::any_of(rows.begin(), rows.end(), [&](int row) { return table.at(row, field.ordinal).has(); });
        if (!field.hidden && (any || field.identity))
            shown.push_back(&field);
    }
    return shown;
}

std::vector<Known> printValues(const ExportSelection& selection, const PrintReader& reader, int print)
{
    std::vector<Known> values;
    values.reserve(selection.fields.size());
    for (const int field : selection.fields)
        values.push_back(reader.get(print, field));
    return values;
}

} // namespace washfast::exchange
