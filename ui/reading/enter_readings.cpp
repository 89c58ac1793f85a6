#include "ui/reading/enter_readings.h"

#include "ui/reading/kept_marks.h"
#include "ui/reading/words.h"

namespace washfast::ui {

namespace {

struct Row {
    qint64 print = 0;
    QString where;
    int step = 0; // 0: none
    density::ReadingFields fields;

    [[nodiscard]] Known stepValue() const { return step > 0 ? knownNumber(step) : Known {}; }
    [[nodiscard]] bool sameSpot(const Row& other) const
    {
        return print == other.print && where == other.where && step == other.step;
    }
};

Outcome write(store::Writer& writer, const Row& row, const QString& when)
{
    const Known moment { Value(when) }, spot { Value(row.where) };
    const auto there = writer.children(Entity::Reading, row.print);
    if (!there)
        return there.error();
    const auto& catalogue = writer.catalogue();
    const auto when_at = size_t(catalogue.column(Entity::Reading, u"reading_when"));
    const auto where_at = size_t(catalogue.column(Entity::Reading, u"reading_where"));
    const auto step_at = size_t(catalogue.column(Entity::Reading, u"reading_step"));
    for (const auto id : *there) {
        const auto record = writer.read({ Entity::Reading, id });
        if (!record)
            return record.error();
        if (!*record || (*record)->values[when_at] != moment || (*record)->values[where_at] != spot
            || (*record)->values[step_at].number() != row.stepValue().number())
            continue;
        for (const auto& [key, value] : row.fields)
            if (auto set = writer.set({ Entity::Reading, id }, key, value); !set)
                return set;
        return Done {};
    }
    std::vector<store::FieldValue> values { { QStringLiteral("reading_when"), moment },
        { QStringLiteral("reading_where"), spot } };
    if (row.step > 0)
        values.emplace_back(QStringLiteral("reading_step"), row.stepValue());
    for (const auto& field : row.fields)
        if (field.second.has())
            values.push_back(field);
    const auto added = writer.add(Entity::Reading, row.print, values);
    return added ? Outcome(Done {}) : Outcome(added.error());
}

bool readByDensitometer(const Notebook& notebook, const Row& row, const QString& when)
{
    const auto& table = notebook.table(Entity::Reading);
    for (const int at : notebook.children(Entity::Reading, row.print)) {
        const Ref reading { Entity::Reading, table.id(at) };
        const auto is
            = [&](QStringView key, const QString& value) { return notebook.get(reading, key).text() == value; };
        if (is(u"reading_when", when) && is(u"reading_where", row.where)
            && notebook.get(reading, u"reading_step").number() == row.stepValue().number()
            && is(u"reading_method", QStringLiteral("densitometer")))
            return true;
    }
    return false;
}

/// Names that are refused for one reason stand in one sentence.
class Refusals {
public:
    void add(const QString& name, const QString& why)
    {
        for (auto& [reason, names] : all_)
            if (reason == why) {
                names << name;
                return;
            }
        all_.push_back({ why, { name } });
    }
    [[nodiscard]] QStringList sentences() const
    {
        constexpr qsizetype shown = 3;
        QStringList out;
        for (const auto& [reason, names] : all_) {
            auto who = names.mid(0, shown).join(QStringLiteral("; "));
            if (names.size() > shown)
                who = ReadingWords::tr("%1 and %2 more").arg(who).arg(names.size() - shown);
            out << who + QStringLiteral(": ") + reason;
        }
        return out;
    }

private:
    std::vector<std::pair<QString, QStringList>> all_;
};

std::vector<Row> rowsOf(Desk& desk, const MarkedPhoto& photo, qint64 only, Refusals& refusals)
{
    std::vector<Row> rows;
    for (size_t i = 0; photo.measured && i < photo.spots.size() && i < photo.measured->regions.size(); ++i) {
        const auto& spot = photo.spots[i];
        if (spot.kind == Spot::Kind::Patch)
            continue;
        const bool step = spot.kind == Spot::Kind::Step;
        Row row { printOf(photo, spot, only), step ? QStringLiteral("step") : whereKey(photo.marks[spot.of].role),
            step ? spot.number : 0, {} };
        if (row.where.isEmpty())
            continue;
        if (row.print == 0)
            refusals.add(spot.name, ReadingWords::tr("it lies in no outline that is assigned to a print."));
        else if (std::any_of(rows.begin(), rows.end(), [&](const Row& other) { return other.sameSpot(row); }))
            refusals.add(
                spot.name, ReadingWords::tr("this spot of the print is marked twice; the first one was taken."));
        else if (readByDensitometer(desk.notebook(), row, photo.when))
            refusals.add(spot.name,
                ReadingWords::tr("a densitometer has read this spot of the print already, and that reading stays."));
        else if (const auto fields = density::readingFields(*photo.measured, photo.measured->regions[i],
                     static_cast<density::ReadChannel>(photo.channel), photo.references.evidence());
                 fields) {
            row.fields = *fields;
            rows.push_back(std::move(row));
        } else
            refusals.add(spot.name, fields.error().says);
    }
    return rows;
}

} // namespace

EnteredReadings enterReadings(Desk& desk, const MarkedPhoto& photo, qint64 only)
{
    EnteredReadings out;
    Refusals refusals;
    auto rows = rowsOf(desk, photo, only, refusals);
    out.refused = refusals.sentences();
    if (rows.empty())
        return out;
    const bool stored = photo.stored != 0 && desk.notebook().table(Entity::Photo).find(photo.stored) >= 0;
    const auto now = desk.now();
    for (auto& row : rows) {
        row.fields.emplace_back(QStringLiteral("reading_time"), Known { Value(now) });
        row.fields.emplace_back(
            QStringLiteral("reading_photo"), stored ? Known { Value(Link { photo.stored }) } : Known {});
    }
    const bool keeps = stored && !photo.kept_marks_unread;
    const auto marks
        = keeps ? writeKeptMarks(photo, { photo.photo->width(), photo.photo->height() }, desk.notebook()) : QString();
    const bool done
        = desk.perform(ReadingWords::tr("Enter readings from a photo"), [&](store::Writer& writer) -> Outcome {
              for (const auto& row : rows)
                  if (auto written = write(writer, row, photo.when); !written)
                      return written;
              if (!stored)
                  return Done {};
              const Ref ref { Entity::Photo, photo.stored };
              if (const auto card = photo.references.card) // another card that somebody saw in it stays
                  if (auto set = writer.set(ref, QStringLiteral("photo_card"), Known { Value(Link { card }) }); !set)
                      return set;
              return keeps ? writer.set(ref, QStringLiteral("photo_marks"), Known { Value(marks) }) : Outcome(Done {});
          });
    out.rows = done ? int(rows.size()) : 0;
    out.marks_kept = done && keeps;
    return out;
}

} // namespace washfast::ui
