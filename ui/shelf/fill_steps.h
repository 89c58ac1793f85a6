// A bought wedge or card at once: first density, step and count instead of one form for each. What is filled in so
// counts as assumed until it is measured.
#pragma once

#include "ui/common/view.h"

#include <QDialog>

class QCheckBox;
class QDoubleSpinBox;
class QLabel;
class QSpinBox;

namespace washfast::ui {

struct EvenSteps {
    int count = 21;
    std::optional<double> first_density, density_step;
    std::optional<double> first_value, value_step; // what was sent to the printer; wedges have none
};

/// The error says what does not fit: a density above the greatest that the column takes, or nothing to fill in.
[[nodiscard]] Outcome checkSteps(const Catalogue& catalogue, Entity child, const EvenSteps& steps);
/// Takes the steps (or patches) that are there away and writes the new ones, numbered from 1.
[[nodiscard]] Outcome writeSteps(store::Writer& writer, Entity child, qint64 owner, const EvenSteps& steps);
/// "0.05  0.20  0.35 … 3.05"
[[nodiscard]] QString previewOf(double first, double step, int count, int decimals);

class FillStepsDialog : public QDialog {
    Q_OBJECT

public:
    /// `child` is NegativeStep or CardPatch.
    FillStepsDialog(const Services& services, Entity child, qint64 owner, QWidget* parent);

    [[nodiscard]] EvenSteps steps() const;
    [[nodiscard]] QSpinBox* count() const { return count_; }
    [[nodiscard]] QDoubleSpinBox* firstDensity() const { return first_density_; }
    [[nodiscard]] QDoubleSpinBox* densityStep() const { return density_step_; }
    [[nodiscard]] QCheckBox* withDensities() const { return densities_; }
    [[nodiscard]] QCheckBox* withValues() const { return values_; } // nullptr for a card
    [[nodiscard]] QLabel* preview() const { return preview_; }

public Q_SLOTS:
    void accept() override;

private:
    void tell();

    Services services_;
    Entity child_;
    qint64 owner_;
    QSpinBox* count_;
    QCheckBox* densities_;
    QDoubleSpinBox* first_density_;
    QDoubleSpinBox* density_step_;
    QCheckBox* values_ = nullptr;
    QDoubleSpinBox* first_value_ = nullptr;
    QDoubleSpinBox* value_step_ = nullptr;
    QLabel* preview_;
};

} // namespace washfast::ui
