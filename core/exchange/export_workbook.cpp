// A workbook for people who work in a spreadsheet: labels with units for headings, choices as labels, estimates in
// italics.
#include "core/exchange/dictionary.h"
#include "core/exchange/export_parts.h"
#include "core/exchange/words.h"
#include "core/exchange/workbook.h"
#include "core/quantity/value_text.h"

#include <algorithm>
#include <array>
#include <functional>
#include <map>

namespace washfast::exchange {

namespace {

SheetColumn columnFor(const Field& field)
{
    return { field.labelWithUnit(), field.kind == Kind::Number ? numberFormat(field.decimals) : QString(), {} };
}

QString labels(const Field& field, const QString& text)
{
    if (field.kind == Kind::Choice)
        return field.choiceLabel(text);
    if (field.kind != Kind::ChoiceSet)
        return text;
    QStringList all;
    for (const auto& key : splitSet(text))
        all << field.choiceLabel(key);
    return all.join(QStringLiteral("; "));
}

SheetCell cellFor(const Notebook& notebook, const Field& field, const Known& known)
{
    const auto value = named(notebook, field, known);
    SheetCell cell;
    cell.italic = value.has() && value.evidence != Evidence::Measured;
    if (value.yes())
        cell.value = isoText(field, value.value);
    else if (const auto number = value.number())
        cell.value = *number;
    else if (const auto time = value.time())
        cell.value = time->toDateTime();
    else if (const auto text = value.text())
        cell.value = labels(field, *text);
    return cell;
}

SheetCell textCell(const QString& text)
{
    return text.isEmpty() ? SheetCell {} : SheetCell { text, false };
}

Sheet& addPrints(Workbook& book, const ExportSelection& selection)
{
    std::vector<SheetColumn> columns;
    for (size_t i = 0; i < selection.fields.size(); ++i)
        columns.push_back(columnFor(selection.field(i)));
    columns.push_back({ notMeasuredHeading(), {}, {} });
    auto& sheet = book.addSheet(Words::tr("Prints"), std::move(columns));
    const PrintReader reader(*selection.notebook);
    for (const int print : selection.prints) {
        const auto values = printValues(selection, reader, print);
        std::vector<SheetCell> cells;
        for (size_t i = 0; i < values.size(); ++i)
            cells.push_back(cellFor(*selection.notebook, selection.field(i), values[i]));
        cells.push_back(textCell(notMeasuredText(selection, values)));
        sheet.addRow(cells);
    }
    return sheet;
}

/// A table of the notebook; `first` and `last` are headings of cells that `extra` gives for a row, before and behind
/// its own.
struct Extra {
    std::vector<SheetColumn> first, last;
    std::function<std::pair<std::vector<SheetCell>, std::vector<SheetCell>>(int row)> cells;
};

void addTable(Workbook& book, const ExportSelection& selection, Entity entity, const QString& name,
    const std::vector<int>& rows, const Extra& extra)
{
    const auto shown = shownColumns(selection, entity, rows);
    auto columns = extra.first;
    for (const auto* field : shown)
        columns.push_back(columnFor(*field));
    columns.insert(columns.end(), extra.last.begin(), extra.last.end());
    auto& sheet = book.addSheet(name, std::move(columns));
    const auto& table = selection.notebook->table(entity);
    for (const int row : rows) {
        auto [cells, last] = extra.cells(row);
        for (const auto* field : shown)
            cells.push_back(cellFor(*selection.notebook, *field, table.at(row, field->ordinal)));
        cells.insert(cells.end(), last.begin(), last.end());
        sheet.addRow(cells);
    }
}

void addSessions(Workbook& book, const ExportSelection& selection)
{
    const auto& notebook = *selection.notebook;
    std::map<qint64, int> prints;
    const int link = selection.catalogue().column(Entity::Print, u"print_session");
    for (const int print : selection.prints)
        ++prints[notebook.prints().link(print, link)];
    Extra extra;
    extra.last = { { Words::tr("Number of prints"), numberFormat(0), {} } };
    extra.cells = [&](int row) {
        const auto found = prints.find(notebook.table(Entity::Session).id(row));
        return std::pair(std::vector<SheetCell> {},
            std::vector<SheetCell> { { double(found == prints.end() ? 0 : found->second), false } });
    };
    addTable(book, selection, Entity::Session, Words::tr("Sessions"), selection.sessions, extra);
}

void addMixes(Workbook& book, const ExportSelection& selection)
{
    const auto& notebook = *selection.notebook;
    const auto& catalogue = selection.catalogue();
    const auto& substance = catalogue.columnField(Entity::MixPart, u"part_substance");
    const auto& mass = catalogue.columnField(Entity::MixPart, u"part_mass_g");
    Extra extra;
    extra.last = { { Words::tr("Weighed"), {}, {} } };
    extra.cells = [&](int row) {
        QStringList parts;
        const auto& table = notebook.table(Entity::MixPart);
        for (const int part : notebook.children(Entity::MixPart, notebook.table(Entity::Mix).id(row))) {
            const QString what = table.at(part, substance.ordinal).text().value_or(QStringLiteral("?"));
            const auto grams = table.at(part, mass.ordinal).number();
            parts << (grams ? QStringLiteral("%1 %2 %3").arg(what, isoNumber(*grams), mass.unit) : what);
        }
        return std::pair(
            std::vector<SheetCell> {}, std::vector<SheetCell> { textCell(parts.join(QStringLiteral("; "))) });
    };
    addTable(book, selection, Entity::Mix, Words::tr("Mixes"), selection.mixes, extra);
}

void addReadings(Workbook& book, const ExportSelection& selection)
{
    const auto& notebook = *selection.notebook;
    const auto& catalogue = selection.catalogue();
    const int link = catalogue.column(Entity::Print, u"print_session");
    Extra extra;
    extra.first = { { catalogue.identity(Entity::Print)->label, {}, {} },
        { catalogue.identity(Entity::Session)->label, {}, {} } };
    extra.cells = [&](int row) {
        const auto print = notebook.table(Entity::Reading).owner(row);
        const int at = notebook.prints().find(print);
        const auto session = at < 0 ? 0 : notebook.prints().link(at, link);
        return std::pair(std::vector<SheetCell> { textCell(notebook.nameOf({ Entity::Print, print })),
                             textCell(notebook.nameOf({ Entity::Session, session })) },
            std::vector<SheetCell> {});
    };
    addTable(book, selection, Entity::Reading, Words::tr("Readings"), selection.readings, extra);
}

/// The column of a print field, when the file has it.
int columnOf(const ExportSelection& selection, QStringView key)
{
    for (size_t i = 0; i < selection.fields.size(); ++i)
        if (selection.field(i).key == key)
            return int(i);
    return -1;
}

void addChart(Workbook& book, const ExportSelection& selection, const Sheet& prints)
{
    struct Pair {
        const char* x;
        const char* y;
    };
    // The best that these prints can show.
    constexpr std::array pairs { Pair { "dose_j_cm2", "net_density" }, Pair { "dose_j_cm2", "kept" },
        Pair { "dose_j_cm2", "formed" }, Pair { "expose_minutes", "net_density" }, Pair { "expose_minutes", "kept" },
        Pair { "expose_minutes", "formed" } };
    const PrintReader reader(*selection.notebook);
    for (const auto& pair : pairs) {
        const int x = columnOf(selection, QString::fromLatin1(pair.x));
        const int y = columnOf(selection, QString::fromLatin1(pair.y));
        const auto both = [&](int print) {
            return reader.get(print, selection.fields[size_t(x)]).has()
                && reader.get(print, selection.fields[size_t(y)]).has();
        };
        if (x < 0 || y < 0 || std::count_if(selection.prints.begin(), selection.prints.end(), both) < 2)
            continue;
        const auto& across = selection.field(size_t(x));
        const auto& up = selection.field(size_t(y));
        const QString title = Words::tr("%1 against %2").arg(up.label, across.label.toLower());
        auto& sheet = book.addSheet(Words::tr("Chart"), { { title, {}, {} } });
        ScatterChart chart;
        chart.title = title;
        chart.x_title = across.labelWithUnit();
        chart.y_title = up.labelWithUnit();
        chart.series = { { &prints, x, y, Words::tr("Prints") } };
        book.addScatter(sheet, 2, 0, chart);
        return;
    }
}

void addDictionary(Workbook& book, const ExportSelection& selection)
{
    std::vector<SheetColumn> columns;
    for (const auto& heading : dictionaryHeadings())
        columns.push_back({ heading, {}, {} });
    auto& sheet = book.addSheet(Words::tr("Data dictionary"), std::move(columns));
    const auto number = [](std::optional<double> value) { return value ? SheetCell { *value, false } : SheetCell {}; };
    const auto add = [&](const Field& field) {
        const auto entry = dictionaryEntry(field);
        sheet.addRow({ textCell(entry.key), textCell(entry.label), textCell(entry.unit), textCell(entry.kind),
            textCell(entry.station), textCell(entry.of), textCell(entry.choices), number(entry.low), number(entry.high),
            textCell(entry.evidence), textCell(entry.worked_out_from), textCell(entry.description) });
    };
    QStringList told;
    for (size_t i = 0; i < selection.fields.size(); ++i) {
        add(selection.field(i));
        told << selection.field(i).key;
    }
    const auto rest = [&](Entity entity, const std::vector<int>& rows) {
        for (const auto* field : shownColumns(selection, entity, rows))
            if (!told.contains(field->key))
                add(*field);
    };
    rest(Entity::Session, selection.sessions);
    rest(Entity::Mix, selection.mixes);
    rest(Entity::Reading, selection.readings);
    const auto evidence = notMeasuredColumn();
    sheet.addRow({ textCell(evidence.name), {}, {}, textCell(kindLabel(Kind::Text)), {}, {}, {}, {}, {}, {}, {},
        textCell(evidence.description) });
}

} // namespace

MadeFiles makeWorkbook(const ExportSelection& selection, const QString& path)
{
    WorkbookProperties properties;
    properties.title = selection.term.isEmpty() ? Words::tr("Prints") : Words::tr("Prints of %1").arg(selection.term);
    properties.comments = Words::tr(
        "An empty cell was not recorded. Values in italics were estimated or assumed. Times are those of the clock "
        "they were read from.");
    Workbook book(properties);
    const auto& prints = addPrints(book, selection);
    addSessions(book, selection);
    addMixes(book, selection);
    addReadings(book, selection);
    addChart(book, selection, prints);
    addDictionary(book, selection);
    const auto bytes = book.bytes();
    if (!bytes)
        return Error { bytes.error().code, bytes.error().says,
            bytes.error().where.isEmpty() ? path : bytes.error().where };
    return std::vector<files::FileToWrite> { { path, *bytes } };
}

} // namespace washfast::exchange
