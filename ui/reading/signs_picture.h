// A picture with a line of words beneath, as large as there is room.
#pragma once

#include "ui/common/theme.h"

#include <QImage>
#include <QWidget>

namespace washfast::ui {

class PictureBox : public QWidget {
    Q_OBJECT

public:
    PictureBox(const Theme& theme, const QString& name, QWidget* parent = nullptr);

    /// Without a picture only the words are shown, in its place.
    void setPicture(const QImage& picture, const QString& words);
    /// A cross at a place of the picture, in 0..1; nothing for none.
    void setMark(std::optional<QPointF> mark);
    void setTheme(const Theme& theme);
    [[nodiscard]] const QImage& picture() const { return picture_; }
    [[nodiscard]] QSize sizeHint() const override { return { 360, 280 }; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Theme theme_;
    QImage picture_;
    QString words_;
    std::optional<QPointF> mark_;
};

} // namespace washfast::ui
