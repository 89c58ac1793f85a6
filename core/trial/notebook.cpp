#include "core/trial/notebook.h"

#include <algorithm>
#include <numeric>

namespace washfast {

Notebook::Notebook(const Catalogue& catalogue)
    : catalogue_(&catalogue)
{
    for (const auto entity : allEntities())
        tables_.emplace_back(catalogue, entity);
}

Table& Notebook::edit(Entity entity)
{
    index_[size_t(entity)].fresh = false;
    return tables_[size_t(entity)];
}

void Notebook::build(Entity child) const
{
    auto& index = index_[size_t(child)];
    const auto& owners = table(child).owners();
    index.rows.resize(owners.size());
    std::iota(index.rows.begin(), index.rows.end(), 0);
    if (!std::is_sorted(owners.begin(), owners.end()))
        std::stable_sort(
            index.rows.begin(), index.rows.end(), [&](int a, int b) { return owners[size_t(a)] < owners[size_t(b)]; });
    index.owners.resize(owners.size());
    for (size_t i = 0; i < owners.size(); ++i)
        index.owners[i] = owners[size_t(index.rows[i])];
    index.fresh = true;
}

std::span<const int> Notebook::children(Entity child, qint64 owner) const
{
    auto& index = index_[size_t(child)];
    if (!index.fresh)
        build(child);
    const auto [from, to] = std::equal_range(index.owners.begin(), index.owners.end(), owner);
    return { index.rows.data() + (from - index.owners.begin()), size_t(to - from) };
}

QString Notebook::nameOf(Ref ref) const
{
    const auto* identity = catalogue_->identity(ref.entity);
    const int row = table(ref.entity).find(ref.id);
    if (!identity || row < 0)
        return {};
    const auto known = table(ref.entity).at(row, identity->ordinal);
    if (const auto text = known.text())
        return *text;
    if (const auto number = known.number())
        return QString::number(*number);
    return {};
}

std::optional<qint64> Notebook::byName(Entity entity, const QString& name) const
{
    const auto* identity = catalogue_->identity(entity);
    if (!identity || identity->kind != Kind::Text)
        return std::nullopt;
    const auto wanted = name.trimmed();
    if (wanted.isEmpty())
        return std::nullopt; // it would find whatever has no name
    const auto& t = table(entity);
    const auto& names = std::get<TextColumn>(t.column(identity->ordinal));
    for (size_t row = 0; row < names.size(); ++row)
        if (names[row].trimmed().compare(wanted, Qt::CaseInsensitive) == 0)
            return t.id(int(row));
    return std::nullopt;
}

Known Notebook::get(Ref ref, QStringView column) const
{
    const int row = table(ref.entity).find(ref.id);
    const int ordinal = catalogue_->column(ref.entity, column);
    return row < 0 || ordinal < 0 ? Known {} : table(ref.entity).at(row, ordinal);
}

} // namespace washfast
