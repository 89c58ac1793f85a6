// The line at the foot of the Bench that tells the keys that matter now.
#pragma once

#include "ui/bench/steps.h"
#include "ui/common/theme.h"

#include <QWidget>
#include <vector>

namespace washfast::ui {

struct KeyHint {
    QString key; // as it stands on the keyboard
    QString does;

    friend bool operator==(const KeyHint&, const KeyHint&) = default;
};

/// What helps at this station for a sheet in this state; the most useful first. `station` About is the sheet's own
/// column.
[[nodiscard]] std::vector<KeyHint> keyHints(Station station, const CellState& state, bool writable);
/// While a number is typed row by row, and while a field of the form is filled in.
[[nodiscard]] std::vector<KeyHint> entryHints(bool many);
[[nodiscard]] std::vector<KeyHint> formHints();
/// The same for a screen reader: "Space: end; L: light reading".
[[nodiscard]] QString hintsText(const std::vector<KeyHint>& hints);

/// Shows as many hints as there is room for.
class KeyLine : public QWidget {
    Q_OBJECT

public:
    explicit KeyLine(const Theme& theme, QWidget* parent = nullptr);

    void setHints(std::vector<KeyHint> hints);
    [[nodiscard]] const std::vector<KeyHint>& hints() const { return hints_; }
    void setTheme(const Theme& theme);
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Theme theme_;
    std::vector<KeyHint> hints_;
};

} // namespace washfast::ui
