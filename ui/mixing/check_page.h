// What the mix really is beside the published formulas, and keeping it: its record, its label.
#pragma once

#include "ui/common/desk.h"
#include "ui/mixing/composition_picture.h"
#include "ui/mixing/mixing_state.h"

class QCheckBox;
class QDoubleSpinBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTextBrowser;

namespace washfast::ui::mixing {

class CheckPage : public QWidget {
    Q_OBJECT

public:
    CheckPage(MixingState& state, Desk& desk, const Theme& theme, QWidget* parent = nullptr);

    void refresh();
    void setTheme(const Theme& theme);
    [[nodiscard]] QString code() const;
    [[nodiscard]] QString notes() const;
    /// Prints of the running session that have no mix yet, when they are to get this one.
    [[nodiscard]] QVector<qint64> prints() const;
    void forgetEntries(); // after a mix was kept
    [[nodiscard]] QLineEdit* codeEdit() const { return code_; }
    [[nodiscard]] QCheckBox* useBox() const { return use_; }
    [[nodiscard]] QPushButton* keepButton() const { return keep_; }
    [[nodiscard]] QString findings() const;
    [[nodiscard]] CompositionPicture* picture() const { return picture_; }

Q_SIGNALS:
    void changed();
    void keep();

private:
    [[nodiscard]] QVector<qint64> withoutMix() const;

    MixingState& state_;
    Desk& desk_;
    Theme theme_;
    CompositionPicture* picture_ = nullptr;
    QTextBrowser* findings_ = nullptr;
    QLabel* about_ = nullptr;
    QLineEdit* code_ = nullptr;
    QDoubleSpinBox* volume_ = nullptr;
    QDoubleSpinBox* ph_ = nullptr;
    QLineEdit* notes_ = nullptr;
    QCheckBox* use_ = nullptr;
    QPushButton* keep_ = nullptr;
    bool filling_ = false;
};

/// M5 after M4: the next free code of a mix.
[[nodiscard]] QString nextMixCode(const Notebook& notebook);

} // namespace washfast::ui::mixing
