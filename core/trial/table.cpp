#include "core/trial/table.h"

#include <algorithm>
#include <cmath>

namespace washfast {

namespace {

Column emptyColumn(Kind kind)
{
    switch (kind) {
    case Kind::Number:
    case Kind::YesNo:
        return NumberColumn {};
    case Kind::Time:
        return TimeColumn {};
    case Kind::Choice:
        return ChoiceColumn {};
    case Kind::Link:
        return LinkColumn {};
    case Kind::Text:
    case Kind::ChoiceSet:
        break;
    }
    return TextColumn {};
}

struct Unknown {
    void operator()(NumberColumn& c, size_t at) const { c.insert(c.begin() + std::ptrdiff_t(at), unknownNumber); }
    void operator()(TimeColumn& c, size_t at) const { c.insert(c.begin() + std::ptrdiff_t(at), Instant {}); }
    void operator()(ChoiceColumn& c, size_t at) const { c.insert(c.begin() + std::ptrdiff_t(at), qint16(-1)); }
    void operator()(TextColumn& c, size_t at) const { c.insert(c.begin() + std::ptrdiff_t(at), QString()); }
    void operator()(LinkColumn& c, size_t at) const { c.insert(c.begin() + std::ptrdiff_t(at), qint64(0)); }
};

qint64 evidenceKeyOf(qint64 id, int column)
{
    return id * 1024 + column;
}

} // namespace

Table::Table(const Catalogue& catalogue, Entity entity)
    : catalogue_(&catalogue)
    , entity_(entity)
{
    for (const auto& column : catalogue.columns(entity))
        columns_.push_back(emptyColumn(column.kind));
}

const Field& Table::field(int column) const
{
    return catalogue_->columns(entity_)[size_t(column)];
}

int Table::find(qint64 id) const
{
    const auto it = std::lower_bound(ids_.begin(), ids_.end(), id);
    return it != ids_.end() && *it == id ? int(it - ids_.begin()) : -1;
}

Evidence Table::evidenceAt(int row, int column) const
{
    const auto& f = field(column);
    if (!evidence_.empty())
        if (const auto it = evidence_.find(evidenceKeyOf(ids_[size_t(row)], column)); it != evidence_.end())
            return it->second;
    if (f.estimated_when) {
        const int other = catalogue_->column(entity_, f.estimated_when->first);
        if (at(row, other).text() == f.estimated_when->second)
            return Evidence::Estimated;
    }
    return f.nature;
}

Known Table::at(int row, int column) const
{
    const auto r = size_t(row);
    const auto& f = field(column);
    Known known;
    switch (f.kind) {
    case Kind::Number:
        if (const double v = std::get<NumberColumn>(columns_[size_t(column)])[r]; !std::isnan(v))
            known.value = v;
        break;
    case Kind::YesNo:
        if (const double v = std::get<NumberColumn>(columns_[size_t(column)])[r]; !std::isnan(v))
            known.value = v != 0.0;
        break;
    case Kind::Time:
        if (const auto v = std::get<TimeColumn>(columns_[size_t(column)])[r]; v.valid())
            known.value = v;
        break;
    case Kind::Choice:
        if (const auto v = std::get<ChoiceColumn>(columns_[size_t(column)])[r]; v >= 0)
            known.value = f.choices[size_t(v)].key;
        break;
    case Kind::Text:
    case Kind::ChoiceSet:
        if (const auto& v = std::get<TextColumn>(columns_[size_t(column)])[r];
            !v.isEmpty()) // an empty text says nothing
            known.value = v;
        break;
    case Kind::Link:
        if (const auto v = std::get<LinkColumn>(columns_[size_t(column)])[r]; v != 0)
            known.value = Link { v };
        break;
    }
    if (known.has())
        known.evidence = evidenceAt(row, column);
    return known;
}

void Table::insert(const Record& record)
{
    const auto it = std::lower_bound(ids_.begin(), ids_.end(), record.ref.id);
    if (it != ids_.end() && *it == record.ref.id)
        return;
    const auto row = size_t(it - ids_.begin());
    ids_.insert(it, record.ref.id);
    owners_.insert(owners_.begin() + std::ptrdiff_t(row), record.owner);
    for (auto& column : columns_)
        std::visit([row](auto& c) { Unknown {}(c, row); }, column);
    for (size_t i = 0; i < record.values.size() && i < columns_.size(); ++i)
        set(int(row), int(i), record.values[i]);
}

void Table::erase(int row)
{
    for (int column = 0; !evidence_.empty() && column < int(columns_.size()); ++column)
        evidence_.erase(evidenceKeyOf(id(row), column)); // a later row may get the id back
    ids_.erase(ids_.begin() + row);
    owners_.erase(owners_.begin() + row);
    for (auto& column : columns_)
        std::visit([row](auto& c) { c.erase(c.begin() + row); }, column);
}

void Table::set(int row, int column, const Known& value)
{
    const auto r = size_t(row);
    const auto& f = field(column);
    auto& held = columns_[size_t(column)];
    switch (f.kind) {
    case Kind::Number:
    case Kind::YesNo:
        std::get<NumberColumn>(held)[r] = value.number().value_or(unknownNumber);
        break;
    case Kind::Time:
        std::get<TimeColumn>(held)[r] = value.time().value_or(Instant {});
        break;
    case Kind::Choice:
        std::get<ChoiceColumn>(held)[r] = qint16(f.choiceIndex(value.text().value_or(QString())));
        break;
    case Kind::Text:
    case Kind::ChoiceSet:
        std::get<TextColumn>(held)[r] = value.text().value_or(QString());
        break;
    case Kind::Link:
        std::get<LinkColumn>(held)[r] = value.link().value_or(0);
        break;
    }
    setEvidence(ids_[r], column, value.has() ? value.evidence : f.nature);
}

void Table::setEvidence(qint64 id, int column, Evidence evidence)
{
    const auto& f = field(column);
    if (evidence == f.nature && !f.estimated_when)
        evidence_.erase(evidenceKeyOf(id, column));
    else if (f.estimated_when && evidence == Evidence::Measured)
        evidence_.erase(evidenceKeyOf(id, column));
    else
        evidence_[evidenceKeyOf(id, column)] = evidence;
}

Record Table::record(int row) const
{
    Record record;
    record.ref = Ref(entity_, id(row));
    record.owner = owner(row);
    for (int i = 0; i < int(columns_.size()); ++i)
        record.values.push_back(at(row, i));
    return record;
}

void Table::reserve(size_t rows)
{
    ids_.reserve(rows);
    owners_.reserve(rows);
    for (auto& column : columns_)
        std::visit([rows](auto& c) { c.reserve(rows); }, column);
}

void Table::startRow(qint64 id, qint64 owner)
{
    ids_.push_back(id);
    owners_.push_back(owner);
    const size_t row = ids_.size() - 1;
    for (auto& column : columns_)
        std::visit([row](auto& c) { Unknown {}(c, row); }, column);
}

} // namespace washfast
