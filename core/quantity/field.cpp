#include "core/quantity/field.h"

#include "core/quantity/words.h"

#include <algorithm>

namespace washfast {

Derivation::Derivation(QStringList needed, std::optional<Entity> rows_of, QStringList columns,
    std::function<Known(Inputs, const ChildRows&)> how)
    : inputs(std::move(needed))
{
    if (rows_of)
        rows.push_back({ *rows_of, std::move(columns) });
    compute = [how = std::move(how)](Inputs in, std::span<const ChildRows> tables) {
        return tables.empty() ? how(in, {}) : how(in, tables.front());
    };
}

namespace {
Field base(Entity entity, Kind kind, const char* key, const char* label, const char* description)
{
    Field field;
    field.entity = entity;
    field.kind = kind;
    field.key = QLatin1String(key);
    field.label = QuantityWords::tr(label);
    field.description = QuantityWords::tr(description);
    return field;
}
} // namespace

QString kindKey(Kind kind)
{
    switch (kind) {
    case Kind::Number:
        return QStringLiteral("number");
    case Kind::Choice:
        return QStringLiteral("choice");
    case Kind::ChoiceSet:
        return QStringLiteral("several choices");
    case Kind::YesNo:
        return QStringLiteral("yes/no");
    case Kind::Time:
        return QStringLiteral("time");
    case Kind::Text:
        return QStringLiteral("text");
    case Kind::Link:
        return QStringLiteral("link");
    }
    return {};
}

QString kindLabel(Kind kind)
{
    switch (kind) {
    case Kind::Number:
        return QuantityWords::tr("number");
    case Kind::Choice:
        return QuantityWords::tr("choice");
    case Kind::ChoiceSet:
        return QuantityWords::tr("several choices");
    case Kind::YesNo:
        return QuantityWords::tr("yes/no");
    case Kind::Time:
        return QuantityWords::tr("time");
    case Kind::Text:
        return QuantityWords::tr("text");
    case Kind::Link:
        return QuantityWords::tr("link");
    }
    return {};
}

QString stationKey(Station station)
{
    switch (station) {
    case Station::About:
        return QStringLiteral("about");
    case Station::Coat:
        return QStringLiteral("coat");
    case Station::Dry:
        return QStringLiteral("dry");
    case Station::Expose:
        return QStringLiteral("expose");
    case Station::Hold:
        return QStringLiteral("hold");
    case Station::Rinse:
        return QStringLiteral("rinse");
    case Station::Read:
        return QStringLiteral("read");
    }
    return {};
}

QString stationLabel(Station station)
{
    switch (station) {
    case Station::About:
        return QuantityWords::tr("About");
    case Station::Coat:
        return QuantityWords::tr("Coat");
    case Station::Dry:
        return QuantityWords::tr("Dry");
    case Station::Expose:
        return QuantityWords::tr("Expose");
    case Station::Hold:
        return QuantityWords::tr("Hold");
    case Station::Rinse:
        return QuantityWords::tr("Rinse");
    case Station::Read:
        return QuantityWords::tr("Read");
    }
    return {};
}

int Field::choiceIndex(QStringView choice) const
{
    for (size_t i = 0; i < choices.size(); ++i)
        if (choices[i].key == choice)
            return int(i);
    return -1;
}

QString Field::choiceLabel(const QString& choice) const
{
    const int index = choiceIndex(choice);
    return index < 0 ? choice : choices[size_t(index)].label;
}

Field& Field::in(Station s)
{
    station = s;
    return *this;
}

Field& Field::range(double from, double to)
{
    low = from;
    high = to;
    return *this;
}

Field& Field::digits(int n)
{
    decimals = n;
    return *this;
}

Field& Field::cause()
{
    factor = true;
    return *this;
}

Field& Field::lever(InCauses::Lever how)
{
    causes.lever = how;
    return *this;
}

Field& Field::sign(const char* any)
{
    return sign(any, any);
}

Field& Field::sign(const char* more, const char* less)
{
    causes.sign_of_more = QLatin1String(more);
    causes.sign_of_less = QLatin1String(less);
    return *this;
}

Field& Field::signOf(std::initializer_list<const char*> which_choices, const char* sign)
{
    for (const char* choice : which_choices)
        causes.sign_of_choice.emplace_back(QLatin1String(choice), QLatin1String(sign));
    return *this;
}

Field& Field::names()
{
    identity = true;
    return *this;
}

Field& Field::keptByProgram()
{
    hidden = true;
    return *this;
}

Field& Field::inGroup(int g)
{
    group = g;
    return *this;
}

Field& Field::byEye()
{
    nature = Evidence::Estimated;
    return *this;
}

Field& Field::endsWithin(double most_h, const char* start)
{
    began = Began { QString::fromLatin1(start), most_h };
    return *this;
}

Field& Field::estimatedWhen(const QString& column, const QString& choice)
{
    estimated_when = std::pair { column, choice };
    return *this;
}

Field numberField(Entity entity, const char* key, const char* label, const char* unit, const char* description)
{
    Field field = base(entity, Kind::Number, key, label, description);
    field.unit = QString::fromUtf8(unit);
    return field;
}

Field choiceField(
    Entity entity, const char* key, const char* label, std::vector<Choice> choices, const char* description)
{
    Field field = base(entity, Kind::Choice, key, label, description);
    field.choices = std::move(choices);
    return field;
}

Field choiceSetField(
    Entity entity, const char* key, const char* label, std::vector<Choice> choices, const char* description)
{
    Field field = choiceField(entity, key, label, std::move(choices), description);
    field.kind = Kind::ChoiceSet;
    return field;
}

Field yesNoField(Entity entity, const char* key, const char* label, const char* description)
{
    return base(entity, Kind::YesNo, key, label, description);
}

Field timeField(Entity entity, const char* key, const char* label, const char* description)
{
    return base(entity, Kind::Time, key, label, description);
}

Field textField(Entity entity, const char* key, const char* label, const char* description)
{
    return base(entity, Kind::Text, key, label, description);
}

Field linkField(Entity entity, const char* key, const char* label, Entity target, const char* description)
{
    Field field = base(entity, Kind::Link, key, label, description);
    field.target = target;
    return field;
}

Choice option(const char* key, const char* label)
{
    return { QLatin1String(key), QuantityWords::tr(label) };
}

QString joinSet(const Field& field, const QStringList& keys)
{
    QStringList ordered;
    for (const auto& choice : field.choices)
        if (keys.contains(choice.key))
            ordered << choice.key;
    return ordered.join(QStringLiteral("; "));
}

QStringList splitSet(const QString& stored)
{
    QStringList keys;
    for (const auto& part : stored.split(QLatin1Char(';'), Qt::SkipEmptyParts))
        if (const auto key = part.trimmed(); !key.isEmpty())
            keys << key;
    return keys;
}

} // namespace washfast
