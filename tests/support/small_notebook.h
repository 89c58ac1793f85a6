// A notebook in memory, without a store, filled row by row in a test.
//
//     SmallNotebook book;
//     const auto mix = book.add(Entity::Mix, { { "mix_code", "M7" } });
//     const auto print = book.print("P1", { { "print_mix", mix }, { "coat_volume_ml", 0.62 } });
//     book.add(Entity::Bath, { { "bath_position", 1 }, { "bath_minutes", 5 } }, print);
//     EXPECT_EQ(book.text(print, "mix_code"), "M7");
//
// Values are given by the column's kind: a number for a number or a link, a text for a text, a choice's key or an ISO
// time. What a column cannot take, and a key that is not there, are failures of the test.
#pragma once

#include "core/trial/print_columns.h"

#include <gtest/gtest.h>
#include <initializer_list>
#include <memory>

namespace washfast::test {

/// A value as a test writes it; the column says what it becomes.
class Given {
public:
    Given(const char* text)
        : value_(QString::fromUtf8(text))
    {
    }
    Given(const QString& text)
        : value_(text)
    {
    }
    Given(double number)
        : value_(number)
    {
    }
    Given(int number)
        : value_(double(number))
    {
    }
    Given(qint64 id)
        : value_(double(id))
    {
    }
    Given(bool yes)
        : value_(yes)
    {
    }
    Given(Instant time)
        : value_(time)
    {
    }
    Given(Known known)
        : value_(std::move(known.value))
        , evidence_(known.evidence)
    {
    }

    [[nodiscard]] Known forField(const Field& field) const
    {
        Known known { value_, evidence_.value_or(field.nature) };
        if (field.kind == Kind::Link && std::holds_alternative<double>(value_))
            known.value = Link { qint64(std::get<double>(value_)) };
        if (field.kind == Kind::Time && std::holds_alternative<QString>(value_)) {
            const auto time = Instant::fromIso(QStringView(std::get<QString>(value_)));
            EXPECT_TRUE(time) << "not an ISO time: " << std::get<QString>(value_).toStdString();
            known.value = time.value_or(Instant {});
        }
        if (field.kind == Kind::Choice && std::holds_alternative<QString>(value_)) {
            EXPECT_GE(field.choiceIndex(std::get<QString>(value_)), 0)
                << std::get<QString>(value_).toStdString() << " is no choice of " << field.key.toStdString();
        }
        EXPECT_TRUE(!known.has() || fits(field.kind, known.value)) << "wrong kind for " << field.key.toStdString();
        return known;
    }

private:
    static bool fits(Kind kind, const Value& value)
    {
        switch (kind) {
        case Kind::Number:
            return std::holds_alternative<double>(value);
        case Kind::YesNo:
            return std::holds_alternative<bool>(value);
        case Kind::Time:
            return std::holds_alternative<Instant>(value);
        case Kind::Link:
            return std::holds_alternative<Link>(value);
        case Kind::Choice:
        case Kind::ChoiceSet:
        case Kind::Text:
            return std::holds_alternative<QString>(value);
        }
        return false;
    }

    Value value_;
    std::optional<Evidence> evidence_;
};

struct Cell {
    const char* key;
    Given given;
};
using Cells = std::initializer_list<Cell>;

/// An ISO 8601 time; a text that is none fails the test.
inline Instant at(const char* iso)
{
    const auto time = Instant::fromIso(std::string_view(iso));
    EXPECT_TRUE(time) << iso;
    return time.value_or(Instant {});
}

class SmallNotebook {
public:
    SmallNotebook()
        : SmallNotebook(standardCatalogue())
    {
    }
    explicit SmallNotebook(Catalogue catalogue)
        : catalogue_(std::make_unique<Catalogue>(std::move(catalogue)))
        , notebook_(std::make_unique<Notebook>(*catalogue_))
    {
        notebook_->complete = true;
    }

    [[nodiscard]] const Catalogue& catalogue() const { return *catalogue_; }
    [[nodiscard]] Notebook& notebook() { return *notebook_; }
    [[nodiscard]] const Notebook& notebook() const { return *notebook_; }

    /// Adds a row with the next id and gives the id.
    qint64 add(Entity entity, Cells cells, qint64 owner = 0)
    {
        const qint64 id = next_id_[size_t(entity)]++;
        addAs(id, entity, cells, owner);
        return id;
    }
    void addAs(qint64 id, Entity entity, Cells cells, qint64 owner = 0)
    {
        EXPECT_EQ(ownerOf(entity).has_value(), owner != 0) << "owner of " << entityKey(entity).toStdString();
        Record record { Ref(entity, id), owner, {}, {} };
        record.values.resize(catalogue_->columns(entity).size());
        for (const auto& cell : cells)
            if (const auto* field = column(entity, cell.key))
                record.values[size_t(field->ordinal)] = cell.given.forField(*field);
        notebook_->edit(entity).insert(record);
    }
    void set(Ref ref, const char* key, const Given& given)
    {
        const int row = notebook_->table(ref.entity).find(ref.id);
        ASSERT_GE(row, 0);
        if (const auto* field = column(ref.entity, key))
            notebook_->edit(ref.entity).set(row, field->ordinal, given.forField(*field));
    }

    qint64 print(const char* code, Cells cells = {})
    {
        const qint64 id = add(Entity::Print, cells);
        set(Ref(Entity::Print, id), "print_code", code);
        return id;
    }
    qint64 reading(qint64 print, const char* when, const char* where, double density, const char* method = "scan")
    {
        return add(Entity::Reading,
            { { "reading_when", when }, { "reading_where", where }, { "reading_density", density },
                { "reading_method", method } },
            print);
    }
    qint64 weighing(qint64 print, const char* state, double grams)
    {
        return add(Entity::Weighing, { { "weigh_state", state }, { "weigh_mass_g", grams } }, print);
    }

    [[nodiscard]] int row(qint64 print) const { return notebook_->prints().find(print); }
    /// A print field of a print, read anew. A key that is not there fails the test.
    [[nodiscard]] Known get(qint64 print, const char* key) const
    {
        const auto wide = QString::fromUtf8(key);
        EXPECT_GE(catalogue_->printField(wide), 0) << "no print field " << key;
        return PrintReader(*notebook_).get(row(print), wide);
    }
    [[nodiscard]] std::optional<double> number(qint64 print, const char* key) const { return get(print, key).number(); }
    [[nodiscard]] std::optional<std::string> text(qint64 print, const char* key) const
    {
        const auto text = get(print, key).text();
        return text ? std::optional(text->toStdString()) : std::nullopt;
    }

private:
    [[nodiscard]] const Field* column(Entity entity, const char* key) const
    {
        const int ordinal = catalogue_->column(entity, QString::fromUtf8(key));
        EXPECT_GE(ordinal, 0) << entityKey(entity).toStdString() << " has no column " << key;
        return ordinal < 0 ? nullptr : &catalogue_->columns(entity)[size_t(ordinal)];
    }

    std::unique_ptr<Catalogue> catalogue_; // stays where it is when the book is moved
    std::unique_ptr<Notebook> notebook_;
    std::array<qint64, entityCount> next_id_ = [] {
        std::array<qint64, entityCount> first {};
        first.fill(1);
        return first;
    }();
};

} // namespace washfast::test
