#include "core/quantity/entity.h"

#include "core/quantity/words.h"

namespace washfast {

namespace {
struct Row {
    const char* key;
    const char* label;
};
// In the order of the enumeration.
constexpr std::array<Row, entityCount> rows { {
    { "site", QT_TRANSLATE_NOOP("Quantity", "site") },
    { "term", QT_TRANSLATE_NOOP("Quantity", "term") },
    { "session", QT_TRANSLATE_NOOP("Quantity", "session") },
    { "chemical", QT_TRANSLATE_NOOP("Quantity", "chemical") },
    { "formula", QT_TRANSLATE_NOOP("Quantity", "formula") },
    { "formula_part", QT_TRANSLATE_NOOP("Quantity", "ingredient of a formula") },
    { "mix", QT_TRANSLATE_NOOP("Quantity", "mix") },
    { "mix_part", QT_TRANSLATE_NOOP("Quantity", "part of a mix") },
    { "paper", QT_TRANSLATE_NOOP("Quantity", "paper") },
    { "cover", QT_TRANSLATE_NOOP("Quantity", "cover") },
    { "negative", QT_TRANSLATE_NOOP("Quantity", "negative or wedge") },
    { "negative_step", QT_TRANSLATE_NOOP("Quantity", "step of a wedge") },
    { "lamp", QT_TRANSLATE_NOOP("Quantity", "lamp") },
    { "card", QT_TRANSLATE_NOOP("Quantity", "reference card") },
    { "card_patch", QT_TRANSLATE_NOOP("Quantity", "patch of a card") },
    { "print", QT_TRANSLATE_NOOP("Quantity", "print") },
    { "weighing", QT_TRANSLATE_NOOP("Quantity", "weighing") },
    { "touch", QT_TRANSLATE_NOOP("Quantity", "touch state") },
    { "exposure", QT_TRANSLATE_NOOP("Quantity", "exposure") },
    { "meter", QT_TRANSLATE_NOOP("Quantity", "light reading") },
    { "bath", QT_TRANSLATE_NOOP("Quantity", "bath") },
    { "reading", QT_TRANSLATE_NOOP("Quantity", "density reading") },
    { "sign", QT_TRANSLATE_NOOP("Quantity", "sign") },
    { "photo", QT_TRANSLATE_NOOP("Quantity", "photo") },
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
    return QuantityWords::tr(rows[size_t(entity)].label);
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
