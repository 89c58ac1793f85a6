// A photo with the four corners of its sheet and the marked regions on it. Drag draws a region of the chosen kind, the
// corners are dragged, and a loupe shows the place.
//
// Keys: Page down and Page up choose the next and the last thing (corners first), arrows move it by a pixel of the
// photo (with Shift by ten), with Ctrl they change the size of a region; Insert puts a region of the chosen kind into
// the middle; Delete takes the chosen region away.
#pragma once

#include "ui/common/theme.h"
#include "ui/reading/signs_sheet.h"

namespace washfast::ui {

class SheetCanvas : public QWidget {
    Q_OBJECT

public:
    explicit SheetCanvas(const Theme& theme, QWidget* parent = nullptr);

    /// Null shows the hint.
    void setSheet(std::shared_ptr<MarkedSheet> sheet, const QString& hint = {});
    [[nodiscard]] const std::shared_ptr<MarkedSheet>& sheet() const { return sheet_; }
    void setRole(SheetRole role) { role_ = role; }
    void setTheme(const Theme& theme);
    [[nodiscard]] int chosen() const { return chosen_; } // 0 to 3 a corner, then regions; -1 none
    [[nodiscard]] QPointF toWidget(density::Point photo) const;
    [[nodiscard]] density::Point toPhoto(QPointF widget) const;
    [[nodiscard]] QSize sizeHint() const override { return { 640, 480 }; }

Q_SIGNALS:
    void marksChanged();

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

private:
    [[nodiscard]] bool ready() const { return sheet_ && sheet_->photo; }
    [[nodiscard]] QRectF area() const; // of the photo in the widget
    [[nodiscard]] std::optional<SheetRole> regionAt(int thing) const;
    [[nodiscard]] QString chosenWords() const;
    void choose(int thing);
    void move(double dx, double dy, bool resize);
    void paintRegion(QPainter& painter, SheetRole role, const density::Corners& corners) const;
    void paintLoupe(QPainter& painter) const;
    void tell();

    Theme theme_;
    std::shared_ptr<MarkedSheet> sheet_;
    QString hint_;
    QImage shown_; // the photo at the widget's size
    SheetRole role_ = SheetRole::Paper;
    int chosen_ = -1;
    bool dragging_ = false, drawing_ = false;
    QPointF from_, to_;
};

} // namespace washfast::ui
