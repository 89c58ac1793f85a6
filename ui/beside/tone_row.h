// The tone pairs of the compared prints in a row, each with its code, in step with the table's columns beneath.
#pragma once

#include "ui/common/print_tone.h"
#include "ui/common/theme.h"

#include <QWidget>

class QTableView;

namespace washfast::ui {

class ToneRow : public QWidget {
    Q_OBJECT

public:
    /// Follows the columns of `table`.
    ToneRow(QTableView& table, const Theme& theme, QWidget* parent = nullptr);

    void setTones(const std::vector<PrintTones>& tones);
    void setTheme(const Theme& theme);
    [[nodiscard]] QSize sizeHint() const override;

Q_SIGNALS:
    void picked(int column);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    bool event(QEvent* event) override;

private:
    [[nodiscard]] QRectF areaOf(int column) const;
    [[nodiscard]] int columnAt(const QPointF& place) const;

    QTableView& table_;
    Theme theme_;
    std::vector<PrintTones> tones_;
};

} // namespace washfast::ui
