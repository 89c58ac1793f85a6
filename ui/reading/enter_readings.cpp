#include "ui/reading/enter_readings.h"

namespace washfast::ui {

namespace {

QString tr(const char* text)
{
    return QCoreApplication::translate("Reading", text);
}

struct Row {
    qint64 print = 0;
    QString where;
    density::ReadingFields fields;
};

Outcome write(store::Writer& writer, const Row& row, const QString& when, const Instant& now)
{
    const Known moment { Value(when) }, spot { Value(row.where) };
    auto fields = row.fields;
    fields.emplace_back(QStringLiteral("reading_time"), Known { Value(now) });
    const auto there = writer.children(Entity::Reading, row.print);
    if (!there)
        return there.error();
    const auto& catalogue = writer.catalogue();
    const auto when_at = size_t(catalogue.column(Entity::Reading, u"reading_when"));
    const auto where_at = size_t(catalogue.column(Entity::Reading, u"reading_where"));
    for (const auto id : *there) {
        const auto record = writer.read({ Entity::Reading, id });
        if (!record)
            return record.error();
        if (!*record || (*record)->values[when_at] != moment || (*record)->values[where_at] != spot)
            continue;
        for (const auto& [key, value] : fields)
            if (auto set = writer.set({ Entity::Reading, id }, key, value); !set)
                return set;
        return Done {};
    }
    std::vector<store::FieldValue> values { { QStringLiteral("reading_when"), moment },
        { QStringLiteral("reading_where"), spot } };
    for (const auto& field : fields)
        if (field.second.has())
            values.push_back(field);
    const auto added = writer.add(Entity::Reading, row.print, values);
    return added ? Outcome(Done {}) : Outcome(added.error());
}

bool readByDensitometer(const Notebook& notebook, qint64 print, const QString& when, const QString& where)
{
    const auto& table = notebook.table(Entity::Reading);
    for (const int row : notebook.children(Entity::Reading, print)) {
        const Ref reading { Entity::Reading, table.id(row) };
        const auto is
            = [&](QStringView key, const QString& value) { return notebook.get(reading, key).text() == value; };
        if (is(u"reading_when", when) && is(u"reading_where", where)
            && is(u"reading_method", QStringLiteral("densitometer")))
            return true;
    }
    return false;
}

} // namespace

EnteredReadings enterReadings(Desk& desk, const MarkedPhoto& photo, const EnterChoices& choices)
{
    EnteredReadings out;
    std::vector<Row> rows;
    for (size_t i = 0; photo.measured && i < photo.marks.size() && i < photo.measured->regions.size(); ++i) {
        const auto where = whereKey(photo.marks[i].role);
        if (where.isEmpty())
            continue;
        const auto print = printOf(photo, i, choices.only);
        if (print == 0) {
            out.refused << markName(photo, i) + QStringLiteral(": ")
                    + tr("it lies in no outline that is assigned to a print.");
            continue;
        }
        if (std::any_of(
                rows.begin(), rows.end(), [&](const Row& row) { return row.print == print && row.where == where; })) {
            out.refused << markName(photo, i) + QStringLiteral(": ")
                    + tr("this spot of the print is marked twice; the first one was taken.");
            continue;
        }
        if (readByDensitometer(desk.notebook(), print, choices.when, where)) {
            out.refused << markName(photo, i) + QStringLiteral(": ")
                    + tr("a densitometer has read this spot of the print already, and that reading stays.");
            continue;
        }
        const auto fields
            = density::readingFields(*photo.measured, photo.measured->regions[i], choices.channel, choices.cards);
        if (fields)
            rows.push_back({ print, where, *fields });
        else
            out.refused << fields.error().sentence();
    }
    if (rows.empty())
        return out;
    const auto now = desk.now();
    const bool done = desk.perform(tr("Enter readings from a photo"), [&](store::Writer& writer) -> Outcome {
        for (const auto& row : rows)
            if (auto written = write(writer, row, choices.when, now); !written)
                return written;
        return Done {};
    });
    out.rows = done ? int(rows.size()) : 0;
    return out;
}

} // namespace washfast::ui
