#include "ui/reading/straight_view.h"

#include "core/density/colour.h"
#include "core/density/sheet_picture.h"

#include <QPainter>
#include <QtConcurrent/QtConcurrentRun>
#include <cmath>

namespace washfast::ui {

namespace {
constexpr int longestSide = 600; // pixels
}

double straightProportion(const StraightSheet& sheet)
{
    const auto side = [&](size_t a, size_t b) {
        return std::hypot(sheet.corners[a].x - sheet.corners[b].x, sheet.corners[a].y - sheet.corners[b].y);
    };
    const double seen = (side(0, 1) + side(3, 2)) / std::max(1e-9, side(0, 3) + side(1, 2));
    if (sheet.size_mm.isEmpty())
        return seen;
    const double own = sheet.size_mm.width() / sheet.size_mm.height();
    return std::abs(std::log(seen / own)) <= std::abs(std::log(seen * own)) ? own : 1 / own;
}

QImage straightPicture(const StraightSheet& sheet, int longest)
{
    const auto map = density::Perspective::ontoCorners(sheet.corners);
    if (!map || !sheet.photo)
        return {};
    const double proportion = straightProportion(sheet);
    using density::PictureChannel;
    std::array<density::SheetPicture, 3> light;
    for (size_t k = 0; k < 3; ++k)
        light[k] = density::straighten(*sheet.photo, *map, proportion, 1,
            std::array { PictureChannel::Red, PictureChannel::Green, PictureChannel::Blue }[k], nullptr, longest);
    QImage image(light[0].width, light[0].height, QImage::Format_RGB32);
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) {
            std::array<int, 3> code {};
            for (size_t k = 0; k < 3; ++k)
                code[k] = int(
                    std::lround(255 * std::clamp(density::linearToSrgb(std::pow(10, -light[k].at(x, y))), 0.0, 1.0)));
            reinterpret_cast<QRgb*>(image.scanLine(y))[x] = qRgb(code[0], code[1], code[2]);
        }
    return image;
}

StraightView::StraightView(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setMinimumSize(200, 200);
    setAccessibleName(tr("The outlined print seen straight on"));
    connect(&make_, &QFutureWatcherBase::finished, this, [this] {
        working_ = false;
        if (std::exchange(again_, false))
            return make();
        picture_ = make_.result();
        update();
    });
}

StraightView::~StraightView()
{
    make_.waitForFinished();
}

void StraightView::setSheet(const std::optional<StraightSheet>& sheet)
{
    sheet_ = sheet;
    if (working_)
        again_ = true;
    else
        make();
}

void StraightView::make()
{
    if (!sheet_) {
        picture_ = {};
        update();
        return;
    }
    working_ = true;
    make_.setFuture(QtConcurrent::run([sheet = *sheet_] { return straightPicture(sheet, longestSide); }));
}

void StraightView::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

void StraightView::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.fillRect(rect(), theme_.paper);
    const auto line = fontMetrics().height() + 6;
    const QRectF inner = QRectF(rect()).adjusted(8, 8, -8, -8 - line);
    if (!sheet_ || picture_.isNull()) {
        painter.setPen(theme_.quiet);
        painter.drawText(inner, Qt::AlignCenter | Qt::TextWordWrap,
            sheet_ ? tr("Making the picture ...") : tr("Outline a print; it is shown here as seen straight on."));
        return;
    }
    auto size = QSizeF(picture_.size()).scaled(inner.size(), Qt::KeepAspectRatio);
    const QRectF place(QPointF(inner.center().x() - size.width() / 2, inner.center().y() - size.height() / 2), size);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawImage(place, picture_);
    painter.setPen(theme_.edge);
    painter.drawRect(place);
    painter.setPen(theme_.quiet);
    const QLocale locale;
    const auto size_text = sheet_->size_mm.isEmpty()
        ? tr("its size is not recorded")
        : tr("%1 x %2 mm")
              .arg(locale.toString(sheet_->size_mm.width(), 'f', 0), locale.toString(sheet_->size_mm.height(), 'f', 0));
    const auto caption = sheet_->name.isEmpty() ? size_text : tr("%1, %2").arg(sheet_->name, size_text);
    painter.drawText(QRectF(8, place.bottom() + 4, width() - 16, line), Qt::AlignHCenter | Qt::AlignTop,
        fontMetrics().elidedText(caption, Qt::ElideRight, width() - 16));
}

} // namespace washfast::ui
