// Writing formulas of one's own: a copy of a published one, the strengths that follow from the ingredients, the steps.
#pragma once

#include "core/chemistry/own_formula.h"
#include "ui/common/view.h"

#include <QDialog>

class QPlainTextEdit;

namespace washfast::ui {

class RecordDialog;

/// The record with its ingredients and its reckoned strengths; its id.
[[nodiscard]] Result<qint64> writeFormula(store::Writer& writer, const chemistry::WrittenFormula& written);

/// Sets the strengths of a formula that has ingredients to what follows from them; unknown while one of them cannot be
/// used. Without ingredients what was typed stays.
[[nodiscard]] Outcome writeReckoned(store::Writer& writer, qint64 formula);

/// What the form of a formula shows and cannot be typed there; `formula` 0 for a new one.
void prepareFormulaForm(RecordDialog& form, const Desk& desk, qint64 formula);

/// The steps of a formula, one a line.
class StepsDialog : public QDialog {
    Q_OBJECT

public:
    StepsDialog(const Services& services, qint64 formula, QWidget* parent);
    [[nodiscard]] QPlainTextEdit* text() const { return text_; }

public Q_SLOTS:
    void accept() override;

private:
    Services services_;
    qint64 formula_;
    Known before_;
    QPlainTextEdit* text_;
};

} // namespace washfast::ui
