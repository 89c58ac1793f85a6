// A picture of the evidence as a control: painted at any size, with a mark that can be pointed at where there is one.
#pragma once

#include "ui/causes/evidence_pictures.h"

#include <QWidget>
#include <functional>

namespace washfast::ui {

class PicturePane : public QWidget {
    Q_OBJECT

public:
    /// Paints into an area and gives the places of the marks, if any can be pointed at.
    using Paint = std::function<std::vector<QPointF>(QPainter&, const QRectF&, const Theme&, int pointed)>;

    explicit PicturePane(const ThemeSource& look, QWidget* parent = nullptr);
    /// `codes`: what each mark is called; empty where none can be pointed at.
    void setPicture(Paint paint, const QStringList& codes = {});
    [[nodiscard]] QImage image(const QSize& size, const Theme& theme) const;
    [[nodiscard]] int pointed() const { return pointed_; }
    [[nodiscard]] const std::vector<QPointF>& places() const { return places_; }

Q_SIGNALS:
    void pointedAt(const QString& code); // empty: at none
    void picked(const QString& code);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    [[nodiscard]] int markAt(const QPointF& place) const;
    void point(int at);

    const ThemeSource& look_;
    Paint paint_;
    QStringList codes_;
    std::vector<QPointF> places_;
    int pointed_ = -1;
};

} // namespace washfast::ui
