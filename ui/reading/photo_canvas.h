// The photo on the Reading desk, with its marks: drag draws a region of the chosen kind, or a row from the middle of
// its one end to the middle of the other; regions, rows and the corners of outlines and rows are dragged or nudged by
// the arrow keys, corners under a loupe; the wheel and plus and minus zoom.
//
// Keys: Page down and Page up choose the next and the last thing, arrows move it by a pixel (with Shift by ten), with
// Ctrl they change the size of a region, or the length and the width of a row; Insert puts a region or a row into the
// middle of what is seen; Delete removes; Escape lets go, after which the arrows move the photo; Home shows all of it.
#pragma once

#include "ui/common/theme.h"
#include "ui/reading/marked_photo.h"

#include <QWidget>
#include <optional>

namespace washfast::ui {

class PhotoCanvas : public QWidget {
    Q_OBJECT

public:
    explicit PhotoCanvas(const Theme& theme, QWidget* parent = nullptr);

    /// Not owned; null shows the hint instead. The photo must be told of by update() when changed from outside.
    void setPhoto(MarkedPhoto* photo, const QString& hint = {});
    void setRole(MarkRole role) { role_ = role; }
    void setTheme(const Theme& theme);
    /// A picture laid over the photo (the flat-field correction); null for none.
    void setOverlay(const QImage& overlay);
    void fit();
    void addOutline(qint64 print);
    /// Marks first, then four corners an outline, then a row and its four corners each; -1 when nothing is chosen.
    [[nodiscard]] int chosen() const { return chosen_; }
    void choose(int thing);
    /// The outline or the row that is chosen, or one of whose corners is.
    [[nodiscard]] std::optional<size_t> chosenOutline() const;
    [[nodiscard]] std::optional<size_t> chosenRow() const;
    void chooseRow(size_t row);
    [[nodiscard]] QPointF toWidget(density::Point photo) const;
    [[nodiscard]] density::Point toPhoto(QPointF widget) const;
    [[nodiscard]] double zoom() const { return zoom_; }

Q_SIGNALS:
    void marksChanged();
    void chosenChanged(int thing);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    enum class Drag { None, Pan, Draw, Thing };

    [[nodiscard]] int things() const;
    [[nodiscard]] int firstOfRows() const;
    [[nodiscard]] QPolygonF shapeOf(const density::Corners& corners) const; // on the widget
    [[nodiscard]] density::Corners* cornersOf(int thing) const; // of the region, outline or row
    [[nodiscard]] density::Point* cornerOf(int thing) const; // null for a whole region or row
    [[nodiscard]] bool drawsRow() const { return role_ == MarkRole::PatchRow || role_ == MarkRole::WedgeRow; }
    [[nodiscard]] density::Corners drawn(density::Point from, density::Point to) const;
    void addDrawn(const density::Corners& corners);
    [[nodiscard]] int thingAt(QPointF at) const;
    bool moveThing(int thing, double dx, double dy);
    bool resizeThing(int thing, double dx, double dy);
    void removeChosen();
    void insertMark();
    void zoomAt(QPointF at, double factor);
    void paintRow(QPainter& painter, size_t row) const;
    void paintCorner(QPainter& painter, int thing) const;
    void paintLabel(QPainter& painter, QPointF at, const QString& text) const;
    void paintLoupe(QPainter& painter) const;

    Theme theme_;
    MarkedPhoto* photo_ = nullptr;
    QString hint_;
    QImage overlay_;
    MarkRole role_ = MarkRole::White;
    double zoom_ = 1;
    QPointF origin_;
    bool fitted_ = true;
    int chosen_ = -1;
    Drag drag_ = Drag::None;
    QPointF from_, to_;
    bool moved_ = false;
};

} // namespace washfast::ui
