// A map of colour differences (CIEDE2000) with its scale; arrow keys and the pointer read single places.
#pragma once

#include "core/density/sheet_picture.h"
#include "ui/common/theme.h"

#include <QWidget>

namespace washfast::ui {

class CompareMap : public QWidget {
    Q_OBJECT

public:
    CompareMap(const Theme& theme, QWidget* parent = nullptr);

    /// `top`: the difference at the dark end of the scale.
    void setMap(density::SheetPicture map, double top);
    void setTheme(const Theme& theme);
    /// Places in 0..1 with a letter each.
    void setMarks(std::vector<std::pair<QPointF, QString>> marks);
    /// Mean difference of about 2 mm around a place in 0..1; nothing where nothing was compared.
    [[nodiscard]] std::optional<double> at(QPointF place) const;
    [[nodiscard]] QColor colourFor(double difference) const;
    [[nodiscard]] QString says() const { return says_; }
    [[nodiscard]] QSize sizeHint() const override { return { 480, 380 }; }

Q_SIGNALS:
    void read(const QString& sentence);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

private:
    [[nodiscard]] QRectF area() const;
    void draw();
    void setCursorAt(QPointF place);

    Theme theme_;
    density::SheetPicture map_;
    double top_ = 10;
    QImage picture_;
    std::optional<QPointF> cursor_;
    std::vector<std::pair<QPointF, QString>> marks_;
    QString says_;
};

/// The end of a scale that holds `largest`: 2, 5, 10, 20, 50 or 100.
[[nodiscard]] double roundTop(double largest);

} // namespace washfast::ui
