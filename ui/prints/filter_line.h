// The line that says which prints are shown, with its complaint, its help and completion of field names.
#pragma once

#include "core/trial/filter.h"
#include "ui/common/theme.h"

#include <QWidget>

class QLabel;
class QLineEdit;

namespace washfast::ui {

class FilterLine : public QWidget {
    Q_OBJECT

public:
    FilterLine(const Catalogue& catalogue, const Theme& theme, QWidget* parent = nullptr);

    void setText(const QString& text);
    [[nodiscard]] QString text() const;
    [[nodiscard]] QString complaint() const; // empty when the line is understood
    [[nodiscard]] QLineEdit* line() const { return line_; }
    void setTheme(const Theme& theme);

Q_SIGNALS:
    void filterChanged(const washfast::Filter& filter); // only when it is understood
    void helpWanted();

private:
    void read();

    const Catalogue& catalogue_;
    Theme theme_;
    QLineEdit* line_ = nullptr;
    QLabel* complaint_ = nullptr;
};

} // namespace washfast::ui
