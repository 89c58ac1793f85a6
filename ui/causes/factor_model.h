// The evidence for each factor as a table, the smallest adjusted p first.
#pragma once

#include "core/causes/answer.h"
#include "core/quantity/catalogue.h"

#include <QAbstractTableModel>

namespace washfast::ui {

class FactorModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { Name, Difference, Interval, P, Adjusted, KnownOf, MovesWith, columns };

    explicit FactorModel(const Catalogue& catalogue, QObject* parent = nullptr);

    void setAnswer(const causes::Answer& answer);
    [[nodiscard]] const causes::FactorEvidence& factor(int row) const { return factors_[size_t(row)]; }
    /// How the prints of each level came out, and what else is known of a factor: a few plain sentences.
    [[nodiscard]] QString about(int row) const;
    [[nodiscard]] QString asTable() const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(
        int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    [[nodiscard]] QString text(const causes::FactorEvidence& factor, Column column) const;
    [[nodiscard]] QString labelOf(const QString& name) const;

    const Catalogue& catalogue_;
    int n_ = 0;
    QStringList named_;
    std::vector<causes::FactorEvidence> factors_;
};

/// "0.012", "< 0.001".
[[nodiscard]] QString pText(double p);

} // namespace washfast::ui
