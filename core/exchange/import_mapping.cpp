#include "core/exchange/import_mapping.h"

#include "core/exchange/words.h"
#include "core/quantity/number_text.h"

#include <QSet>

namespace washfast::exchange {

namespace {

const QString dayKey = QStringLiteral("date");
const QString notMeasuredKey = QStringLiteral("not_measured");

/// Takes headings to the fields that they may mean.
class Headings {
public:
    explicit Headings(const Catalogue& catalogue)
        : fields_(catalogue.printFields())
    {
        for (int i = 0; i < int(fields_.size()); ++i) {
            const auto& field = fields_[size_t(i)];
            by_key_.insert(field.key, i);
            enter(field.key, i);
            enter(field.label, i);
            const auto stem = splitHeading(field.key);
            if (stem.from == UnitFrom::Suffix && canonicalUnit(stem.unit) == canonicalUnit(field.unit))
                enter(stem.name, i); // coat_volume of coat_volume_ml: the unit may be another
        }
    }
    [[nodiscard]] int byKey(const QString& key) const { return by_key_.value(key, -1); }
    /// One field, or none, or several that it may mean; what can be recorded goes before what is worked out.
    [[nodiscard]] QList<int> meant(const QString& text) const
    {
        const auto all = by_text_.value(foldedHeading(text));
        QList<int> recorded;
        for (const int index : all)
            if (!fields_[size_t(index)].derived())
                recorded << index;
        return recorded.isEmpty() ? all : recorded;
    }
    [[nodiscard]] const Field& field(int index) const { return fields_[size_t(index)]; }

private:
    void enter(const QString& text, int index)
    {
        auto& all = by_text_[foldedHeading(text)];
        if (!all.contains(index))
            all << index;
    }

    const std::vector<Field>& fields_;
    QHash<QString, int> by_key_;
    QHash<QString, QList<int>> by_text_;
};

void useField(MappedColumn& column, const Headings& headings, int index)
{
    const auto& field = headings.field(index);
    column.field = index;
    if (field.derived()) {
        column.use = ColumnUse::WorkedOut;
        column.says = Words::tr("%1 is worked out by the program and not read from a table.").arg(field.label);
    } else if (!isImportable(field)) {
        column.use = ColumnUse::LeftOut;
        column.says = Words::tr("%1 cannot be read from a table.").arg(field.label);
    } else {
        column.use = ColumnUse::Field;
    }
}

/// A share from 0 to 1 may be given in per cent.
QString unitFor(const Field& field)
{
    const bool share = field.unit.isEmpty() && field.low == 0.0 && field.high == 1.0;
    return share ? QStringLiteral("1") : field.unit;
}

/// Takes the unit in a heading over, or says what is wrong with it. `by_hand`: a person said what the column is.
void useUnit(MappedColumn& column, const Field& field, const Heading& heading, bool by_hand)
{
    if (column.use != ColumnUse::Field || field.kind != Kind::Number || heading.unit.isEmpty())
        return;
    const QString wanted = unitFor(field);
    if (heading.unit == field.unit || convert(1.0, heading.unit, wanted)) {
        column.unit = heading.unit;
        return;
    }
    if (heading.from == UnitFrom::Suffix && !heading.unit_known)
        return;
    const QString own = field.unit.isEmpty() ? Words::tr("no unit") : field.unit;
    if (heading.unit_known) {
        column.fault = true;
        column.says = Words::tr("“%1” is given in %2, which cannot be turned into the %3 of %4.")
                          .arg(column.heading, heading.unit, own, field.label);
    } else if (!by_hand) {
        column.use = ColumnUse::Unknown;
        column.says
            = Words::tr("The unit in “%1” is not understood. Map the column to %2 by hand if its numbers are in %3.")
                  .arg(column.heading, field.key, own);
    }
}

void propose(MappedColumn& column, const Headings& headings)
{
    const QString text = column.heading.trimmed();
    if (text.isEmpty()) {
        column.use = ColumnUse::LeftOut;
        column.says = Words::tr("A column without a heading is not read.");
        return;
    }
    if (const int exact = headings.byKey(text); exact >= 0) {
        useField(column, headings, exact);
        return;
    }
    const QString folded = foldedHeading(text);
    if (folded == foldedHeading(notMeasuredKey)) {
        column.use = ColumnUse::NotMeasured;
        return;
    }
    if (folded == dayKey || folded == QLatin1String("day")) {
        column.use = ColumnUse::Day;
        return;
    }
    const auto heading = splitHeading(text);
    auto meant = headings.meant(text);
    if (meant.isEmpty()) {
        meant = headings.meant(heading.name);
        if (meant.size() > 1 && heading.unit_known) // bath1_seconds: the time, not the volume
            meant.removeIf(
                [&](int index) { return !convert(1.0, heading.unit, unitFor(headings.field(index))).has_value(); });
    }
    if (meant.size() > 1) {
        QStringList keys;
        for (const int index : meant)
            keys << headings.field(index).key;
        column.says
            = Words::tr("“%1” may mean several fields: %2. Map it by hand.").arg(text, keys.join(QStringLiteral(", ")));
    } else if (meant.size() == 1) {
        useField(column, headings, meant.front());
        // Signs such as % and ″ do not count when headings are compared, so the whole heading may have fitted with its
        // unit.
        if (headings.meant(heading.name).contains(meant.front()))
            useUnit(column, headings.field(meant.front()), heading, false);
    } else {
        column.says = Words::tr("“%1” is the name of no field. Map it by hand to have it read.").arg(text);
    }
}

void choose(MappedColumn& column, const Headings& headings, const QString& key)
{
    const QString wanted = key.trimmed();
    if (wanted.isEmpty()) {
        column.use = ColumnUse::LeftOut;
        column.says = Words::tr("“%1” is left out, as was asked.").arg(column.heading);
    } else if (wanted == dayKey) {
        column.use = ColumnUse::Day;
    } else if (wanted == notMeasuredKey) {
        column.use = ColumnUse::NotMeasured;
    } else if (const int index = headings.byKey(wanted); index >= 0) {
        useField(column, headings, index);
        useUnit(column, headings.field(index), splitHeading(column.heading), true);
        column.fault = column.fault || column.use != ColumnUse::Field;
    } else {
        column.fault = true;
        column.says = Words::tr("“%1” cannot be mapped to %2: there is no such field.").arg(column.heading, wanted);
    }
}

/// The choice for a heading: as it stands, else whatever the case and the signs.
std::optional<QString> choiceFor(const QString& heading, const HeadingChoices& choices, QSet<QString>& taken)
{
    for (const bool exact : { true, false })
        for (auto it = choices.begin(); it != choices.end(); ++it)
            if (exact ? it.key() == heading : foldedHeading(it.key()) == foldedHeading(heading) && !heading.isEmpty()) {
                taken.insert(it.key());
                return it.value();
            }
    return std::nullopt;
}

/// Two columns for one thing: which of them counts is for the person to say.
void refuseDoubles(ImportMapping& mapping, const Catalogue& catalogue)
{
    for (size_t i = 0; i < mapping.columns.size(); ++i) {
        auto& column = mapping.columns[i];
        const bool once
            = column.use == ColumnUse::Field || column.use == ColumnUse::Day || column.use == ColumnUse::NotMeasured;
        for (size_t j = 0; once && j < i; ++j) {
            const auto& other = mapping.columns[j];
            if (other.use != column.use || other.field != column.field)
                continue;
            const QString what = column.use == ColumnUse::Field ? catalogue.printFields()[size_t(column.field)].label
                : column.use == ColumnUse::Day                  ? dayKey
                                                                : notMeasuredKey;
            column.fault = true;
            column.says = Words::tr("“%1” and “%2” are both read as %3. Leave one of them out.")
                              .arg(other.heading, column.heading, what);
            break;
        }
    }
}

} // namespace

QString foldedHeading(const QString& heading)
{
    QString folded;
    for (const QChar c : heading.normalized(QString::NormalizationForm_KC).toCaseFolded())
        if (c.isLetterOrNumber())
            folded += c;
    return folded;
}

bool isImportable(const Field& field)
{
    return !field.derived() && field.source.has_value() && !field.hidden && field.kind != Kind::Link;
}

int ImportMapping::columnOf(int field) const
{
    for (size_t i = 0; i < columns.size(); ++i)
        if (columns[i].use == ColumnUse::Field && columns[i].field == field)
            return int(i);
    return -1;
}

int ImportMapping::columnFor(ColumnUse use) const
{
    for (size_t i = 0; i < columns.size(); ++i)
        if (columns[i].use == use)
            return int(i);
    return -1;
}

QStringList ImportMapping::faults() const
{
    QStringList all;
    for (const auto& column : columns)
        if (column.fault)
            all << column.says;
    if (all.isEmpty() && columnFor(ColumnUse::Field) < 0)
        all << Words::tr("No heading of this table names a field, so there is nothing to import.");
    return all;
}

QStringList ImportMapping::notImported() const
{
    QStringList all;
    QStringList worked_out;
    for (const auto& column : columns) {
        if (!column.fault && column.use == ColumnUse::WorkedOut)
            worked_out << column.heading;
        else if (!column.fault && !column.says.isEmpty())
            all << column.says;
    }
    if (!worked_out.isEmpty())
        all << Words::tr("Worked out by the program, so not read from the table: %1.")
                   .arg(worked_out.join(QStringLiteral(", ")));
    return all;
}

ImportMapping mapHeadings(const QStringList& headings, const Catalogue& catalogue, const HeadingChoices& choices)
{
    const Headings known(catalogue);
    ImportMapping mapping;
    QSet<QString> taken;
    for (const auto& heading : headings) {
        auto& column = mapping.columns.emplace_back();
        column.heading = heading;
        if (const auto chosen = choiceFor(heading, choices, taken))
            choose(column, known, *chosen);
        else
            propose(column, known);
    }
    for (auto it = choices.begin(); it != choices.end(); ++it) {
        if (taken.contains(it.key()))
            continue;
        auto& column = mapping.columns.emplace_back();
        column.heading = it.key();
        column.use = ColumnUse::LeftOut;
        column.fault = true;
        column.says = Words::tr("The table has no column “%1” that could be mapped.").arg(it.key());
    }
    refuseDoubles(mapping, catalogue);
    return mapping;
}

} // namespace washfast::exchange
