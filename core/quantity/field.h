// One thing that can be recorded or derived: its key, label, unit, kind, station, plausible range, description, and how
// to get it from a print. Forms, tables, comparison, import, export and the search for causes all read these.
#pragma once

#include "core/quantity/entity.h"
#include "core/quantity/value.h"

#include <QString>
#include <QStringList>
#include <functional>
#include <initializer_list>
#include <optional>
#include <span>
#include <vector>

namespace washfast {

enum class Kind : quint8 { Number, Choice, ChoiceSet, YesNo, Time, Text, Link };
[[nodiscard]] QString kindKey(Kind kind);
[[nodiscard]] QString kindLabel(Kind kind);

/// The six steps that a sheet passes; About holds what belongs to none of them.
enum class Station : quint8 { About, Coat, Dry, Expose, Hold, Rinse, Read };
inline constexpr std::array<Station, 6> printStations { Station::Coat, Station::Dry, Station::Expose, Station::Hold,
    Station::Rinse, Station::Read };
[[nodiscard]] QString stationKey(Station station);
[[nodiscard]] QString stationLabel(Station station);

struct Choice {
    QString key; // in the store and in files
    QString label; // for people
};

/// The rows of one kind that a derivation asked for: row r, column c is rows[r][c] in the order of the asked columns.
using ChildRows = std::vector<std::vector<Known>>;

/// The rows that a derivation needs of one child table. A column may follow links: "expose_cover.cover_kind".
struct RowsOf {
    Entity entity;
    QStringList columns;
    QStringList owner {}; // links from the print to the record whose children they are; empty for the print's own
};

/// How a derived field is worked out: from other fields of the same print, and from the rows of child tables.
struct Derivation {
    using Inputs = std::span<const Known>;

    Derivation(
        QStringList needed, std::vector<RowsOf> tables, std::function<Known(Inputs, std::span<const ChildRows>)> how)
        : inputs(std::move(needed))
        , rows(std::move(tables))
        , compute(std::move(how))
    {
    }
    /// From the rows of one child table, or of none.
    Derivation(QStringList needed, std::optional<Entity> rows_of, QStringList columns,
        std::function<Known(Inputs, const ChildRows&)> how);

    QStringList inputs; // keys of other print fields
    std::vector<RowsOf> rows;
    std::function<Known(Inputs, std::span<const ChildRows>)> compute; // one ChildRows for each of `rows`
};

/// What decides between two rows of a child table that both fit: the choices of a column, the best first, those that
/// are equally good together (an empty text: not recorded). Without a column: how the value came to be, measured first.
struct Preference {
    QString column;
    QList<QStringList> order;
};

/// Where a print finds the field. From the print: follow `via` links, or take the child row that matches `match`, then
/// follow `after` links, then read `column`.
struct Source {
    QStringList via;
    std::optional<Entity> child;
    std::vector<std::pair<QString, Value>> match;
    QStringList after;
    QString column;
    /// Of several rows that fit, which one counts (core/trial/preferred.h); empty: the last one.
    std::vector<Preference> prefer {};
};

/// What a field means where prints failed: how its values come about, and what is published about prints that fail with
/// some of them. A field says what differs from the ordinary; causes::meaningOf() fills in the rest.
struct InCauses {
    /// Set: by hand, when the print is made. Measured: it follows from what is set and from the day. Weather: the sky,
    /// the room and the people are as they are.
    enum class Lever : quint8 { Unknown, Set, Measured, Weather };

    Lever lever = Lever::Unknown;
    bool within_sheet = false; // the halves of a sheet that is cut after coating can differ in it
    // Keys of signs (core/causes/published_signs.h): of prints that fail with the larger values or with yes, with the
    // smaller ones or with no, and with one of the choices. Empty: nothing is published.
    QString sign_of_more, sign_of_less;
    std::vector<std::pair<QString, QString>> sign_of_choice; // choice, sign

    [[nodiscard]] bool says() const { return *this != InCauses {}; }
    [[nodiscard]] bool operator==(const InCauses&) const = default;
};

/// Of a time that ends something: when that began, and how long it may plausibly have lasted.
struct Began {
    QString column; // of the same record
    double most_h = 0; // hours
};

struct Field {
    QString key;
    Entity entity = Entity::Print;
    Kind kind = Kind::Text;
    Station station = Station::About;
    QString label;
    QString unit; // empty for none
    std::optional<double> low, high; // plausible range, in the unit
    int decimals = 2;
    std::vector<Choice> choices;
    std::optional<Entity> target; // of a link
    QString description;
    Evidence nature = Evidence::Measured; // what a plain entry of this field counts as
    std::optional<std::pair<QString, QString>>
        estimated_when; // column and choice of the same row that make it an estimate
    std::optional<Began> began; // of the end of a station
    bool identity = false; // the name by which people and files point at the record
    bool factor = false; // can be a cause: taken by default when a batch is examined
    InCauses causes; // read through causes::meaningOf()
    bool hidden = false; // kept by the program, shown to nobody
    int group = 0; // order within the station
    int ordinal = -1; // column number within its entity; -1 for derived

    std::optional<Source> source; // print fields that are recorded
    std::optional<Derivation> derivation; // print fields that are worked out

    [[nodiscard]] bool derived() const { return derivation.has_value(); }
    [[nodiscard]] QString labelWithUnit() const
    {
        return unit.isEmpty() ? label : label + QStringLiteral(" [") + unit + QLatin1Char(']');
    }
    [[nodiscard]] int choiceIndex(QStringView choice) const; // -1 when there is none such
    [[nodiscard]] QString choiceLabel(const QString& choice) const; // the key itself when unknown

    // Builders, for the tables of fields.
    Field& in(Station s);
    Field& range(double from, double to);
    Field& digits(int n);
    Field& cause();
    Field& lever(InCauses::Lever how);
    /// What is published about prints that fail with any of its values.
    Field& sign(const char* any);
    /// With the larger values or yes, and with the smaller ones or no; "" for nothing.
    Field& sign(const char* more, const char* less);
    Field& signOf(std::initializer_list<const char*> which_choices, const char* sign);
    Field& names();
    Field& byEye();
    Field& keptByProgram();
    Field& inGroup(int g);
    Field& endsWithin(double most_h, const char* start);
    Field& estimatedWhen(const QString& column, const QString& choice);
};

[[nodiscard]] Field numberField(
    Entity entity, const char* key, const char* label, const char* unit, const char* description);
[[nodiscard]] Field choiceField(
    Entity entity, const char* key, const char* label, std::vector<Choice> choices, const char* description);
[[nodiscard]] Field choiceSetField(
    Entity entity, const char* key, const char* label, std::vector<Choice> choices, const char* description);
[[nodiscard]] Field yesNoField(Entity entity, const char* key, const char* label, const char* description);
[[nodiscard]] Field timeField(Entity entity, const char* key, const char* label, const char* description);
[[nodiscard]] Field textField(Entity entity, const char* key, const char* label, const char* description);
[[nodiscard]] Field linkField(
    Entity entity, const char* key, const char* label, Entity target, const char* description);
/// A choice from its key and its English label.
[[nodiscard]] Choice option(const char* key, const char* label);

/// The choices of a set, in the order of the catalogue, joined by "; " as they are stored.
[[nodiscard]] QString joinSet(const Field& field, const QStringList& keys);
[[nodiscard]] QStringList splitSet(const QString& stored);

} // namespace washfast
