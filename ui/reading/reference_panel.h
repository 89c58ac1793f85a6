// What a photo is measured against: a white and a grey patch, or a stored card; and whether the light is evened out.
#pragma once

#include "ui/common/desk.h"
#include "ui/reading/marked_photo.h"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;

namespace washfast::ui {

class ReferencePanel : public QWidget {
    Q_OBJECT

public:
    explicit ReferencePanel(const Desk& desk, QWidget* parent = nullptr);

    /// Shows what was chosen for a photo, without saying that it changed.
    void showReferences(const References& references, bool level);
    [[nodiscard]] References references() const;
    [[nodiscard]] bool level() const;
    void offerCorrection(bool there); // whether there is one to be shown
    [[nodiscard]] bool showsCorrection() const;
    [[nodiscard]] QComboBox* cardBox() const { return card_; }
    [[nodiscard]] QCheckBox* measuredBox() const { return measured_; }
    [[nodiscard]] QPushButton* keepButton() const { return keep_; }
    void setNotWritable();

Q_SIGNALS:
    void changed();
    void correctionToggled();
    void keepCard();

private:
    void fillCards(qint64 also);
    void follow();

    const Desk& desk_;
    QComboBox* card_ = nullptr;
    QWidget* two_ = nullptr; // white and grey
    QDoubleSpinBox* white_ = nullptr;
    QDoubleSpinBox* grey_ = nullptr;
    QCheckBox* measured_ = nullptr;
    QLabel* about_ = nullptr; // the card
    QCheckBox* level_ = nullptr;
    QCheckBox* correction_ = nullptr;
    QPushButton* keep_ = nullptr;
    bool showing_ = false;
};

} // namespace washfast::ui
