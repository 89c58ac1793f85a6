#include "ui/causes/factor_model.h"

#include "core/causes/phrases.h"
#include "ui/common/theme.h"

#include <QFont>
#include <QLocale>
#include <algorithm>

namespace washfast::ui {

namespace {

QString number(double value)
{
    return QLocale().toString(value, 'g', 3);
}

} // namespace

QString pText(double p)
{
    constexpr double smallest = 0.001;
    return p < smallest ? QStringLiteral("< ") + QLocale().toString(smallest, 'f', 3) : QLocale().toString(p, 'f', 3);
}

FactorModel::FactorModel(const Catalogue& catalogue, QObject* parent)
    : QAbstractTableModel(parent)
    , catalogue_(catalogue)
{
}

void FactorModel::setAnswer(const causes::Answer& answer)
{
    beginResetModel();
    n_ = answer.n;
    named_ = answer.factors_named;
    factors_ = answer.factors;
    std::stable_sort(factors_.begin(), factors_.end(),
        [](const auto& a, const auto& b) { return a.p_exact.value_or(2.0) < b.p_exact.value_or(2.0); });
    endResetModel();
}

QString FactorModel::labelOf(const QString& name) const
{
    const auto* field = catalogue_.findPrintField(name);
    return field ? field->label : name;
}

int FactorModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(factors_.size());
}

int FactorModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(columns);
}

QString FactorModel::text(const causes::FactorEvidence& factor, Column column) const
{
    const auto* field = catalogue_.findPrintField(factor.name);
    switch (column) {
    case Name:
        return (named_.contains(factor.name) ? QStringLiteral("▶ ") : QString()) + labelOf(factor.name);
    case Difference: {
        if (!factor.difference)
            return QStringLiteral("–");
        const bool share = factor.kind != causes::Factor::Kind::Number;
        return share ? QLocale().toString(*factor.difference * 100.0, 'f', 0) + QStringLiteral(" %")
                     : number(*factor.difference)
                + (field && !field->unit.isEmpty() ? QLatin1Char(' ') + field->unit : QString());
    }
    case Interval: {
        if (!factor.difference_low || !factor.difference_high)
            return QStringLiteral("–");
        const bool share = factor.kind != causes::Factor::Kind::Number;
        const auto end = [&](double v) { return share ? QLocale().toString(v * 100.0, 'f', 0) : number(v); };
        return tr("%1 to %2").arg(end(*factor.difference_low), end(*factor.difference_high));
    }
    case P:
        return factor.p_exact ? pText(*factor.p_exact) : QStringLiteral("–");
    case Adjusted:
        return factor.p_adjusted ? pText(*factor.p_adjusted) : QStringLiteral("–");
    case KnownOf:
        return tr("%1 of %2").arg(factor.n_known).arg(n_);
    case MovesWith: {
        QStringList names;
        for (const auto& other : factor.moves_with)
            names << (other.prints_that_disagree
                    ? tr("%1 (%n disagree)", nullptr, *other.prints_that_disagree).arg(labelOf(other.name))
                    : labelOf(other.name));
        return names.join(QStringLiteral(", "));
    }
    case columns:
        break;
    }
    return {};
}

QVariant FactorModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || index.row() >= rowCount())
        return {};
    const auto& factor = factors_[size_t(index.row())];
    const auto column = Column(index.column());
    if (role == Qt::DisplayRole)
        return text(factor, column);
    if (role == Qt::ToolTipRole)
        return about(index.row());
    if (role == Qt::TextAlignmentRole && column != Name && column != MovesWith)
        return QVariant::fromValue(figureAlignment);
    if (role == Qt::FontRole && named_.contains(factor.name)) {
        QFont bold;
        bold.setBold(true);
        return bold;
    }
    return {};
}

QVariant FactorModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal)
        return {};
    static const char* const names[]
        = { QT_TR_NOOP("Factor"), QT_TR_NOOP("Failed minus kept"), QT_TR_NOOP("95 % interval"), QT_TR_NOOP("p, exact"),
              QT_TR_NOOP("p, adjusted"), QT_TR_NOOP("Known"), QT_TR_NOOP("Moves together with") };
    static const char* const tips[] = { QT_TR_NOOP("What was recorded of the prints."),
        QT_TR_NOOP("Numbers: shift between the prints that failed and those that kept (Hodges-Lehmann). Yes/no: share "
                   "that failed with it minus share without it."),
        QT_TR_NOOP("Where the difference may well lie."),
        QT_TR_NOOP("How often chance alone would give as much, by an exact or a permutation test."),
        QT_TR_NOOP("The same, allowing for how many factors were looked at (Benjamini and Hochberg)."),
        QT_TR_NOOP("Of how many prints it was recorded. Not recorded is not zero."),
        QT_TR_NOOP("Factors that these prints cannot tell apart from it, or hardly.") };
    if (section < 0 || section >= int(columns))
        return {};
    if (role == Qt::DisplayRole)
        return tr(names[section]);
    if (role == Qt::ToolTipRole)
        return tr(tips[section]);
    return {};
}

QString FactorModel::about(int row) const
{
    const auto& factor = factors_[size_t(row)];
    QStringList lines { labelOf(factor.name) };
    if (factor.median_failed && factor.median_kept)
        lines << tr("Median of the failed: %1, of the kept: %2.")
                     .arg(number(*factor.median_failed), number(*factor.median_kept));
    for (const auto& level : factor.levels) {
        const auto name = level.label.isEmpty() ? level.level : level.label;
        lines << (level.median_outcome
                ? tr("%1: %n print(s), median outcome %2", nullptr, level.n).arg(name, number(*level.median_outcome))
                : tr("%1: %2 failed, %3 kept").arg(name).arg(level.failed).arg(level.kept));
    }
    if (factor.p_exact)
        lines << (factor.p_enumerated ? tr("p = %1 by %2.") : tr("p = %1 by %2, by drawing."))
                     .arg(pText(*factor.p_exact), causes::methodLabel(factor.p_method));
    if (factor.p_held_equal)
        lines << tr("With its rivals held equal: p = %1.").arg(pText(*factor.p_held_equal));
    return lines.join(QLatin1Char('\n'));
}

QString FactorModel::asTable() const
{
    QString text;
    for (int column = 0; column < columnCount(); ++column)
        text += (column > 0 ? QStringLiteral("\t") : QString()) + headerData(column, Qt::Horizontal).toString();
    for (int row = 0; row < rowCount(); ++row) {
        text += QLatin1Char('\n');
        for (int column = 0; column < columnCount(); ++column)
            text += (column > 0 ? QStringLiteral("\t") : QString()) + this->text(factors_[size_t(row)], Column(column));
    }
    return text;
}

} // namespace washfast::ui
