#include "ui/common/chart_export.h"

#include "core/files/write_aside.h"
#include "ui/common/words.h"

#include "ui/common/cut_device.h"

#include <QBuffer>
#include <QClipboard>
#include <QFileInfo>
#include <QGraphicsScene>
#include <QGraphicsView>
#include <QMimeData>
#include <QPageLayout>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QSvgGenerator>
#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr int dotsPerInch = 96;
constexpr double pointsPerInch = 72;

// What is on show, in scene coordinates, which for a chart are logical pixels. Not the scene's own rectangle: that
// grows with what lies outside the axes.
QRectF shownRect(const QGraphicsView& view)
{
    if (!view.scene())
        return {};
    if (const auto* chartView = qobject_cast<const QChartView*>(&view); chartView && chartView->chart())
        return chartView->chart()->sceneBoundingRect();
    return view.mapToScene(view.viewport()->rect()).boundingRect();
}

QSize pixelSize(const QRectF& rect)
{
    return { static_cast<int>(std::ceil(rect.width())), static_cast<int>(std::ceil(rect.height())) };
}

void render(QGraphicsView& view, QPainter& painter, const QRectF& source)
{
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(QRectF(QPointF(), source.size()), view.backgroundBrush());
    view.scene()->render(&painter, QRectF(QPointF(), source.size()), source);
}

QByteArray chartPng(QGraphicsView& view)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    const QImage image = chartImage(view);
    if (!image.isNull() && buffer.open(QIODevice::WriteOnly))
        image.save(&buffer, "PNG");
    return bytes;
}

} // namespace

QStringList chartFileFilters()
{
    return { CommonWords::tr("SVG picture (*.svg)"), CommonWords::tr("PDF page (*.pdf)"),
        CommonWords::tr("PNG picture (*.png)") };
}

QByteArray chartSvg(QGraphicsView& view, const QString& title)
{
    const QRectF source = shownRect(view);
    if (source.isEmpty())
        return {};
    QByteArray bytes;
    QBuffer buffer(&bytes);
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setResolution(dotsPerInch);
    generator.setSize(pixelSize(source));
    generator.setViewBox(QRectF(QPointF(), source.size()));
    // Qt 6.4 writes both as they are; a "&" would break the file.
    generator.setTitle(title.toHtmlEscaped());
    generator.setDescription(CommonWords::tr("Drawn by Washfast").toHtmlEscaped());
    QPainter file;
    if (!file.begin(&generator))
        return {};
    {
        CutDevice device(file, pixelSize(source));
        QPainter painter(&device);
        render(view, painter, source);
    }
    file.end();
    return bytes;
}

QByteArray chartPdf(QGraphicsView& view, const QString& title)
{
    const QRectF source = shownRect(view);
    if (source.isEmpty())
        return {};
    QByteArray bytes;
    QBuffer buffer(&bytes);
    if (!buffer.open(QIODevice::WriteOnly))
        return {};
    QPdfWriter writer(&buffer);
    writer.setTitle(title);
    writer.setCreator(QStringLiteral("Washfast"));
    writer.setResolution(dotsPerInch);
    const QSizeF points = source.size() * (pointsPerInch / dotsPerInch);
    writer.setPageLayout(QPageLayout(
        QPageSize(points, QPageSize::Point, QString(), QPageSize::ExactMatch), QPageLayout::Portrait, QMarginsF()));
    QPainter painter;
    if (!painter.begin(&writer))
        return {};
    render(view, painter, source);
    painter.end();
    return bytes;
}

QImage chartImage(QGraphicsView& view, double scale)
{
    const QRectF source = shownRect(view);
    if (source.isEmpty() || scale <= 0)
        return {};
    QImage image(pixelSize(QRectF(QPointF(), source.size() * scale)), QImage::Format_ARGB32_Premultiplied);
    if (image.isNull())
        return {};
    image.setDevicePixelRatio(scale);
    image.fill(Qt::transparent);
    QPainter painter(&image);
    render(view, painter, source);
    return image;
}

QString saveChart(QGraphicsView& view, const QString& path, const QString& title)
{
    const QString ending = QFileInfo(path).suffix().toLower();
    if (ending != QLatin1String("svg") && ending != QLatin1String("pdf") && ending != QLatin1String("png"))
        return CommonWords::tr("A chart can be saved as SVG, PDF or PNG; \"%1\" ends in none of them.")
            .arg(QFileInfo(path).fileName());
    const QByteArray bytes = ending == QLatin1String("svg") ? chartSvg(view, title)
        : ending == QLatin1String("pdf")                    ? chartPdf(view, title)
                                                            : chartPng(view);
    if (bytes.isEmpty())
        return CommonWords::tr("There is no chart to save yet.");
    if (const auto written = files::writeFiles({ { path, bytes } }, files::Existing::Replace); !written)
        return CommonWords::tr("The chart could not be saved to %1. %2").arg(path, written.error().says);
    return {};
}

QString copyChart(QGraphicsView& view, QClipboard& clipboard, const QString& title)
{
    const QImage image = chartImage(view);
    if (image.isNull())
        return CommonWords::tr("There is no chart to copy yet.");
    auto* data = new QMimeData;
    data->setImageData(image);
    data->setData(QStringLiteral("image/svg+xml"), chartSvg(view, title));
    clipboard.setMimeData(data);
    return {};
}

} // namespace washfast::ui
