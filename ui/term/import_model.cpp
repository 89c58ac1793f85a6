#include "ui/term/import_model.h"

namespace washfast::ui {

void ImportModel::setPreview(const exchange::ImportPreview& preview)
{
    beginResetModel();
    rows_.clear();
    for (const auto& row : preview.rows) {
        Row shown { QString::number(row.line), row.code, {}, {} };
        switch (row.state) {
        case exchange::ImportRow::State::New:
            shown.state = tr("new");
            shown.says = tr("%n value(s)", nullptr, int(row.values.size()));
            break;
        case exchange::ImportRow::State::AlreadyThere:
            shown.state = tr("there already");
            break;
        case exchange::ImportRow::State::Refused: {
            shown.state = QStringLiteral("✕ ") + tr("refused");
            QStringList reasons;
            for (const auto& refusal : row.refusals)
                reasons << (refusal.heading.isEmpty() ? QString() : refusal.heading + QStringLiteral(": "))
                        + refusal.says;
            shown.says = reasons.join(QStringLiteral("  "));
            break;
        }
        }
        rows_.push_back(std::move(shown));
    }
    endResetModel();
}

int ImportModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(rows_.size());
}

int ImportModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(columns);
}

QVariant ImportModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || index.row() >= rowCount() || (role != Qt::DisplayRole && role != Qt::ToolTipRole))
        return {};
    const auto& row = rows_[size_t(index.row())];
    switch (index.column()) {
    case Line:
        return row.line;
    case Code:
        return row.code;
    case State:
        return row.state;
    default:
        return row.says;
    }
}

QVariant ImportModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole)
        return {};
    switch (section) {
    case Line:
        return tr("Line");
    case Code:
        return tr("Print");
    case State:
        return tr("Will be");
    default:
        return tr("Because");
    }
}

} // namespace washfast::ui
