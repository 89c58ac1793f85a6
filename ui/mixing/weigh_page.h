// What goes on the balance: large figures, what may be taken instead, the bottle it comes from, and what was really
// weighed.
#pragma once

#include "ui/common/desk.h"
#include "ui/common/theme.h"
#include "ui/mixing/mixing_state.h"

#include <QWidget>

class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QVBoxLayout;

namespace washfast::ui::mixing {

class WeighPage : public QWidget {
    Q_OBJECT

public:
    WeighPage(MixingState& state, Desk& desk, const Theme& theme, QWidget* parent = nullptr);
    ~WeighPage() override;

    /// Shows what the state worked out. Rows are made anew only when the substances change.
    void refresh();
    void setTheme(const Theme& theme);
    [[nodiscard]] QLineEdit* weighedEdit(int line) const { return rows_[size_t(line)].weighed; }
    [[nodiscard]] QComboBox* insteadBox(int line) const { return rows_[size_t(line)].instead; }
    [[nodiscard]] QComboBox* bottleBox(int line) const { return rows_[size_t(line)].bottle; }
    [[nodiscard]] QString figure(int line) const;
    [[nodiscard]] QString remarks() const;

Q_SIGNALS:
    void swapped(); // a swap was chosen: work out anew
    void weighed(); // a mass or a bottle was entered

private:
    struct Row {
        QLabel* name;
        QLabel* figure;
        QLabel* off;
        QComboBox* instead;
        QComboBox* bottle;
        QLineEdit* weighed;
        QLabel* under;
    };
    void buildRows();
    void take(int line);
    void tell();
    [[nodiscard]] QString insteadText(const Line& line, const chemistry::Substance& substance) const;
    [[nodiscard]] QString bottleText(qint64 bottle) const;

    MixingState& state_;
    Desk& desk_;
    Theme theme_;
    QStringList shown_; // components and what is taken for them
    std::vector<Row> rows_;
    QWidget* table_ = nullptr;
    QVBoxLayout* column_ = nullptr;
    QLabel* remarks_ = nullptr;
    bool filling_ = false;
};

} // namespace washfast::ui::mixing
