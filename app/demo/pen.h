// Writing down: rows with gaps and rounded values, and a pen that stops at the first error.
#pragma once

#include "app/demo/chance.h"
#include "core/store/writer.h"

#include <cmath>

namespace washfast::demo {

/// A value rounded to whole steps, as an instrument shows it: 0.01 for a balance, 0.1 for a thermometer.
[[nodiscard]] inline double rounded(double value, double step)
{
    // Divided by the steps in one unit, so that 0.07 is written as 0.07.
    return step < 1.0 ? std::round(value / step) / std::round(1.0 / step) : std::round(value / step) * step;
}

/// The columns of one row that were written down. What is not put in is not recorded.
class Row {
public:
    Row(const Catalogue& catalogue, Entity entity)
        : catalogue_(&catalogue)
        , entity_(entity)
    {
    }

    Row& put(const char* column, const Value& value, std::optional<Evidence> evidence = std::nullopt)
    {
        const auto key = QString::fromLatin1(column);
        values_.emplace_back(key, Known { value, evidence.value_or(catalogue_->columnField(entity_, key).nature) });
        return *this;
    }
    Row& choice(const char* column, const char* key) { return put(column, QString::fromLatin1(key)); }
    Row& text(const char* column, const QString& words) { return words.isEmpty() ? *this : put(column, words); }
    Row& link(const char* column, qint64 id) { return put(column, Link { id }); }
    /// Written down with this probability.
    Row& noted(Chance& pencil, double probability, const char* column, const Value& value)
    {
        return pencil.happens(probability) ? put(column, value) : *this;
    }
    Row& notedChoice(Chance& pencil, double probability, const char* column, const char* key)
    {
        return noted(pencil, probability, column, QString::fromLatin1(key));
    }

    [[nodiscard]] Entity entity() const { return entity_; }
    [[nodiscard]] const std::vector<store::FieldValue>& values() const { return values_; }

private:
    const Catalogue* catalogue_;
    Entity entity_;
    std::vector<store::FieldValue> values_;
};

class Pen {
public:
    explicit Pen(store::Writer& writer)
        : writer_(&writer)
    {
    }

    [[nodiscard]] Row row(Entity entity) const { return { writer_->catalogue(), entity }; }
    /// The id of the new row; 0 after an error, and from then on.
    qint64 write(const Row& row, qint64 owner = 0)
    {
        if (trouble_)
            return 0;
        const auto id = writer_->add(row.entity(), owner, row.values());
        if (!id)
            trouble_ = id.error();
        return id ? *id : 0;
    }
    [[nodiscard]] Outcome outcome() const { return trouble_ ? Outcome(*trouble_) : Outcome(Done {}); }

private:
    store::Writer* writer_;
    std::optional<Error> trouble_;
};

} // namespace washfast::demo
