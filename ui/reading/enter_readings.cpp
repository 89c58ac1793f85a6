#include "ui/reading/enter_readings.h"

#include "core/trial/same_reading.h"
#include "ui/reading/kept_marks.h"
#include "ui/reading/words.h"

#include <QLocale>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr double sameDensity = 0.0005; // below this two readings say the same

Known fieldOf(const density::ReadingFields& fields, QStringView key)
{
    for (const auto& [name, value] : fields)
        if (name == key)
            return value;
    return {};
}

/// "0.98 (scan, red, assumed)".
QString withSource(const Catalogue& catalogue, const Known& density, const ReadingKind& kind)
{
    QStringList words;
    if (const auto source = sourceWords(catalogue, kind); !source.isEmpty())
        words << source;
    if (density.evidence == Evidence::Assumed)
        words << ReadingWords::tr("assumed");
    if (density.evidence == Evidence::Estimated)
        words << ReadingWords::tr("estimated");
    const auto number = QLocale().toString(density.number().value_or(0), 'f', 2);
    return words.isEmpty() ? number : ReadingWords::tr("%1 (%2)").arg(number, words.join(QStringLiteral(", ")));
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
                who = ReadingWords::tr("%1 and %n more", nullptr, int(names.size() - shown)).arg(who);
            out << who + QStringLiteral(": ") + reason;
        }
        return out;
    }

private:
    std::vector<std::pair<QString, QStringList>> all_;
};

} // namespace

ReadingsToEnter::ReadingsToEnter(Desk& desk, const MarkedPhoto& photo, qint64 only)
    : desk_(desk)
    , photo_(photo)
    , stored_(photo.stored != 0 && desk.notebook().table(Entity::Photo).find(photo.stored) >= 0)
{
    gather(only);
    for (auto& row : rows_)
        compare(row);
}

QString ReadingsToEnter::spotName(const Row& row) const
{
    if (row.step > 0)
        return ReadingWords::tr("step %1 of the wedge").arg(row.step);
    return desk_.catalogue().columnField(Entity::Reading, u"reading_where").choiceLabel(row.where);
}

void ReadingsToEnter::gather(qint64 only)
{
    Refusals refusals;
    const auto channel = static_cast<density::ReadChannel>(photo_.channel);
    for (size_t i = 0; photo_.measured && i < photo_.spots.size() && i < photo_.measured->regions.size(); ++i) {
        const auto& spot = photo_.spots[i];
        if (spot.kind == Spot::Kind::Patch)
            continue;
        const bool step = spot.kind == Spot::Kind::Step;
        Row row { printOf(photo_, spot, only), step ? QStringLiteral("step") : whereKey(photo_.marks[spot.of].role),
            step ? spot.number : 0, density::channelKey(channel) };
        if (row.where.isEmpty())
            continue;
        const auto sameSpot = [&](const Row& other) {
            return row.print == other.print && row.where == other.where && row.step == other.step;
        };
        const auto there = readingsOf(desk_.notebook(), row.print);
        const bool by_densitometer = std::any_of(there.begin(), there.end(), [&](const ReadingThere& one) {
            return one.kind.when == photo_.when && one.kind.where == row.where
                && one.kind.step.value_or(0) == double(row.step) && one.kind.method == QLatin1String("densitometer");
        });
        if (row.print == 0)
            refusals.add(spot.name, ReadingWords::tr("it lies in no outline that is assigned to a print."));
        else if (std::any_of(rows_.begin(), rows_.end(), sameSpot))
            refusals.add(
                spot.name, ReadingWords::tr("this spot of the print is marked twice; the first one was taken."));
        else if (by_densitometer)
            refusals.add(spot.name,
                ReadingWords::tr("a densitometer has read this spot of the print already, and that reading stays."));
        else if (const auto fields = density::readingFields(
                     *photo_.measured, photo_.measured->regions[i], channel, photo_.references.evidence());
                 fields) {
            row.fields = *fields;
            rows_.push_back(std::move(row));
        } else
            refusals.add(spot.name, fields.error().says);
    }
    refused_ = refusals.sentences();
}

/// What the print has of this spot: the reading that would be replaced, and those that stay beside it.
void ReadingsToEnter::compare(Row& row)
{
    const auto& catalogue = desk_.catalogue();
    const auto there = readingsOf(desk_.notebook(), row.print);
    const ReadingKind kind { photo_.when, row.where, QStringLiteral("photo"), row.channel,
        row.step > 0 ? std::optional(double(row.step)) : std::nullopt };
    const auto density = fieldOf(row.fields, u"reading_density");
    const auto print = desk_.notebook().nameOf({ Entity::Print, row.print });
    if (const auto* same = sameReading(there, kind)) {
        row.there = same->id;
        row.seen = same->density;
        const bool alike = same->density.has() && density.has()
            && std::abs(*same->density.number() - *density.number()) < sameDensity;
        row.asks = same->density.has() && !(alike && density.evidence <= same->density.evidence);
        if (row.asks)
            replaced_.push_back({ print, spotName(row), withSource(catalogue, same->density, same->kind),
                withSource(catalogue, density, kind) });
    }
    for (const auto& one : there) {
        const bool spot = one.kind.when == kind.when && one.kind.where == kind.where && one.kind.step == kind.step;
        if (!spot || one.id == row.there || !one.density.has())
            continue;
        const auto name
            = ReadingWords::tr("%1, %2: %3").arg(print, spotName(row), withSource(catalogue, one.density, one.kind));
        beside_ << (countsBefore(one, { 0, kind, density })
                ? ReadingWords::tr("%1 is recorded as well, and it is the one that counts.").arg(name)
                : ReadingWords::tr("%1 is recorded as well; the photo's reading is the one that counts.").arg(name));
    }
}

QString ReadingsToEnter::question() const
{
    constexpr size_t shown = 6;
    QStringList lines;
    for (size_t i = 0; i < std::min(shown, replaced_.size()); ++i) {
        const auto& one = replaced_[i];
        lines << ReadingWords::tr("%1, %2: %3 is recorded, the photo says %4.")
                     .arg(one.print, one.spot, one.old_value, one.new_value);
    }
    if (replaced_.size() > shown)
        lines << ReadingWords::tr("And %n more.", nullptr, int(replaced_.size() - shown));
    return lines.join(QLatin1Char('\n'));
}

Outcome ReadingsToEnter::write(store::Writer& writer, const Row& row) const
{
    auto fields = row.fields;
    fields.emplace_back(QStringLiteral("reading_photo"), stored_ ? Known { Value(Link { photo_.stored }) } : Known {});
    const Known now { Value(desk_.now()) };
    if (row.there != 0) {
        const Ref ref { Entity::Reading, row.there };
        const auto density = fieldOf(fields, u"reading_density");
        if (row.seen && row.seen->value != density.value)
            fields.emplace_back(QStringLiteral("reading_time"), now);
        for (const auto& [key, value] : fields)
            if (auto set = writer.set(
                    ref, key, value, key == QLatin1String("reading_density") ? row.seen : std::optional<Known>());
                !set)
                return set;
        return Done {};
    }
    std::vector<store::FieldValue> values { { QStringLiteral("reading_when"), Known { Value(photo_.when) } },
        { QStringLiteral("reading_where"), Known { Value(row.where) } } };
    if (row.step > 0)
        values.emplace_back(QStringLiteral("reading_step"), knownNumber(row.step));
    values.emplace_back(QStringLiteral("reading_time"), now);
    for (const auto& field : fields)
        if (field.second.has())
            values.push_back(field);
    const auto added = writer.add(Entity::Reading, row.print, values);
    return added ? Outcome(Done {}) : Outcome(added.error());
}

/// What was marked in the photo, unless another window has kept other marks with it in the meantime.
Outcome ReadingsToEnter::writeMarks(store::Writer& writer, EnteredReadings& out) const
{
    const Ref ref { Entity::Photo, photo_.stored };
    const auto record = writer.read(ref);
    if (!record)
        return record.error();
    if (!*record)
        return Done {};
    const auto held
        = [&](QStringView key) { return (*record)->values[size_t(writer.catalogue().column(Entity::Photo, key))]; };
    if (const auto card = photo_.references.card; card && held(u"photo_card").link().value_or(card) == card) {
        if (auto set = writer.set(ref, QStringLiteral("photo_card"), Known { Value(Link { card }) }); !set)
            return set;
    } else if (card) {
        out.beside << ReadingWords::tr("Another card is recorded for this photo, and that record was kept: %1.")
                          .arg(desk_.notebook().nameOf({ Entity::Card, *held(u"photo_card").link() }));
    }
    if (photo_.kept_marks_unread)
        return Done {};
    if (const auto marks = held(u"photo_marks").text(); marks && !photo_.marks_seen.contains(*marks)) {
        out.beside << ReadingWords::tr(
            "Other marks were kept with this photo from another window. They stay; yours are "
            "not kept.");
        return Done {};
    }
    out.marks = writeKeptMarks(photo_, { photo_.photo->width(), photo_.photo->height() }, desk_.notebook());
    return writer.set(ref, QStringLiteral("photo_marks"), Known { Value(out.marks) });
}

EnteredReadings ReadingsToEnter::enter(bool replace)
{
    EnteredReadings out;
    out.refused = refused_;
    if (rows_.empty())
        return out;
    std::vector<Row> wanted;
    for (const auto& row : rows_)
        if (!row.asks || replace)
            wanted.push_back(row);
    out.kept = int(rows_.size() - wanted.size());
    out.beside = beside_;
    const auto label = wanted.size() == 1
        ? ReadingWords::tr("Enter 1 reading from a photo")
        : ReadingWords::tr("Enter %n readings from a photo", nullptr, int(wanted.size()));
    const bool done = desk_.perform(label, [&](store::Writer& writer) -> Outcome {
        for (const auto& row : wanted)
            if (auto written = write(writer, row); !written)
                return written;
        return stored_ ? writeMarks(writer, out) : Outcome(Done {});
    });
    out.rows = done ? int(wanted.size()) : 0;
    out.marks = done ? out.marks : QString();
    return out;
}

} // namespace washfast::ui
