#include "core/quantity/entity.h"

#include <QCoreApplication>

namespace washfast {

namespace {
struct Row {
    const char* key;
    const char* label;
};
// In the order of the enumeration.
constexpr std::array<Row, entityCount> rows { {
    { "site", QT_TRANSLATE_NOOP("Entity", "site") },
    { "term", QT_TRANSLATE_NOOP("Entity", "term") },
    { "session", QT_TRANSLATE_NOOP("Entity", "session") },
    { "chemical", QT_TRANSLATE_NOOP("Entity", "chemical") },
    { "formula", QT_TRANSLATE_NOOP("Entity", "formula") },
    { "formula_part", QT_TRANSLATE_NOOP("Entity", "ingredient of a formula") },
    { "mix", QT_TRANSLATE_NOOP("Entity", "mix") },
    { "mix_part", QT_TRANSLATE_NOOP("Entity", "part of a mix") },
    { "paper", QT_TRANSLATE_NOOP("Entity", "paper") },
    { "cover", QT_TRANSLATE_NOOP("Entity", "cover") },
    { "negative", QT_TRANSLATE_NOOP("Entity", "negative or wedge") },
    { "negative_step", QT_TRANSLATE_NOOP("Entity", "step of a wedge") },
    { "lamp", QT_TRANSLATE_NOOP("Entity", "lamp") },
    { "card", QT_TRANSLATE_NOOP("Entity", "reference card") },
    { "card_patch", QT_TRANSLATE_NOOP("Entity", "patch of a card") },
    { "print", QT_TRANSLATE_NOOP("Entity", "print") },
    { "weighing", QT_TRANSLATE_NOOP("Entity", "weighing") },
    { "touch", QT_TRANSLATE_NOOP("Entity", "touch state") },
    { "exposure", QT_TRANSLATE_NOOP("Entity", "exposure") },
    { "meter", QT_TRANSLATE_NOOP("Entity", "light reading") },
    { "bath", QT_TRANSLATE_NOOP("Entity", "bath") },
    { "reading", QT_TRANSLATE_NOOP("Entity", "density reading") },
    { "sign", QT_TRANSLATE_NOOP("Entity", "sign") },
    { "photo", QT_TRANSLATE_NOOP("Entity", "photo") },
} };
} // namespace

QString entityKey(Entity entity)
{
    return QLatin1String(rows[size_t(entity)].key);
}

std::optional<Entity> entityFromKey(QStringView key)
{
    for (const auto entity : allEntities())
        if (key == QLatin1String(rows[size_t(entity)].key))
            return entity;
    return std::nullopt;
}

QString entityLabel(Entity entity)
{
    return QCoreApplication::translate("Entity", rows[size_t(entity)].label);
}

std::optional<Owner> ownerOf(Entity entity)
{
    switch (entity) {
    case Entity::FormulaPart:
        return Owner { Entity::Formula, QStringLiteral("formula") };
    case Entity::CardPatch:
        return Owner { Entity::Card, QStringLiteral("card") };
    case Entity::MixPart:
        return Owner { Entity::Mix, QStringLiteral("mix") };
    case Entity::NegativeStep:
        return Owner { Entity::Negative, QStringLiteral("negative") };
    case Entity::Weighing:
    case Entity::Touch:
    case Entity::Exposure:
    case Entity::Meter:
    case Entity::Bath:
    case Entity::Reading:
    case Entity::Sign:
    case Entity::Photo:
        return Owner { Entity::Print, QStringLiteral("print") };
    default:
        return std::nullopt;
    }
}

} // namespace washfast
