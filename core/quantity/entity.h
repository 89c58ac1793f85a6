// The kinds of record in a notebook, and a typed id for each.
#pragma once

#include <QString>
#include <array>
#include <compare>
#include <optional>

namespace washfast {

enum class Entity : quint8 {
    Site,
    Term,
    Session,
    Chemical,
    Formula,
    FormulaPart,
    Mix,
    MixPart,
    Paper,
    Cover,
    Negative,
    NegativeStep,
    Lamp,
    Card,
    CardPatch,
    Print,
    Weighing,
    Touch,
    Exposure,
    Meter,
    Bath,
    Reading,
    Sign,
    Photo
};
inline constexpr int entityCount = 24;

[[nodiscard]] constexpr std::array<Entity, entityCount> allEntities()
{
    std::array<Entity, entityCount> all {};
    for (int i = 0; i < entityCount; ++i)
        all[size_t(i)] = static_cast<Entity>(i);
    return all;
}

/// The table's name in the store, and the key in files: session, mix, print ...
[[nodiscard]] QString entityKey(Entity entity);
[[nodiscard]] std::optional<Entity> entityFromKey(QStringView key);
/// For people, singular: "session".
[[nodiscard]] QString entityLabel(Entity entity);
/// The link column by which rows of this entity belong to another record (a bath to its print); none for the others.
struct Owner {
    Entity entity;
    QString column;
};
[[nodiscard]] std::optional<Owner> ownerOf(Entity entity);

/// The id of one row of one table; ids of different tables do not mix.
template <Entity E> struct Id {
    qint64 value = 0;
    [[nodiscard]] constexpr bool valid() const { return value > 0; }
    friend constexpr auto operator<=>(const Id&, const Id&) = default;
};

using SessionId = Id<Entity::Session>;
using MixId = Id<Entity::Mix>;
using PrintId = Id<Entity::Print>;
using TermId = Id<Entity::Term>;
using PhotoId = Id<Entity::Photo>;

/// A row whose table is known only while the program runs.
struct Ref {
    Entity entity = Entity::Print;
    qint64 id = 0;
    Ref() = default;
    Ref(Entity e, qint64 i)
        : entity(e)
        , id(i)
    {
    }
    template <Entity E>
    Ref(Id<E> typed)
        : entity(E)
        , id(typed.value)
    {
    }
    friend constexpr auto operator<=>(const Ref&, const Ref&) = default;
};

} // namespace washfast
