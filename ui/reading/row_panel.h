// What is said about the chosen row of a photo: how many places it has, and at which end number 1 lies.
#pragma once

#include "ui/reading/marked_photo.h"

#include <QWidget>

class QComboBox;
class QLabel;
class QSpinBox;

namespace washfast::ui {

class RowPanel : public QWidget {
    Q_OBJECT

public:
    explicit RowPanel(QWidget* parent = nullptr);

    /// Hidden when there is no such row.
    void showRow(const Marked* photo, std::optional<size_t> row);
    [[nodiscard]] QSpinBox* countBox() const { return count_; }
    [[nodiscard]] QComboBox* endBox() const { return end_; }

Q_SIGNALS:
    void changed(int count, bool turned);

private:
    QLabel* about_ = nullptr;
    QSpinBox* count_ = nullptr;
    QComboBox* end_ = nullptr;
    bool showing_ = false;
};

} // namespace washfast::ui
