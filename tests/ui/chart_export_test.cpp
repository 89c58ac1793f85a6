// Charts leave the program whole: nothing runs out of the axes, nothing is half written.
#include "ui/common/chart_export.h"

#include "ui/common/chart_style.h"
#include "ui/common/cut_device.h"
#include "ui/common/point_layer.h"

#include <QApplication>
#include <QBuffer>
#include <QClipboard>
#include <QFile>
#include <QMimeData>
#include <QPainter>
#include <QRegularExpression>
#include <QSvgGenerator>
#include <QSvgRenderer>
#include <QTemporaryDir>
#include <QXmlStreamReader>
#include <QtCharts/QAreaSeries>
#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QLegend>
#include <QtCharts/QLineSeries>
#include <QtCharts/QValueAxis>
#include <cmath>
#include <gtest/gtest.h>
#include <memory>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast::ui;

namespace {

const QColor lineColour(0x12, 0x34, 0x56);
const QColor areaColour(0x65, 0x43, 0x21);

// A wave that leaves the axes at the top and the bottom many times, an area that is wider than the axes, and points.
std::unique_ptr<QChartView> chartWithARunaway()
{
    const Theme theme = lightTheme();
    auto* chart = new QChart;
    chart->legend()->hide();
    auto* x = new QValueAxis;
    auto* y = new QValueAxis;
    x->setTitleText(QStringLiteral("log dose"));
    x->setRange(0, 10);
    y->setRange(-1, 1);
    chart->addAxis(x, Qt::AlignBottom);
    chart->addAxis(y, Qt::AlignLeft);
    auto* wave = new QLineSeries;
    for (int i = -200; i <= 1200; ++i)
        wave->append(i / 100.0, 2.5 * std::sin(i / 60.0));
    wave->setPen(QPen(lineColour, 2));
    auto* upper = new QLineSeries;
    auto* lower = new QLineSeries;
    for (const double at : { -4.0, 3.0, 14.0 }) {
        upper->append(at, 0.2 * at);
        lower->append(at, -5);
    }
    auto* band = new QAreaSeries(upper, lower);
    band->setBrush(areaColour);
    band->setPen(Qt::NoPen);
    for (QAbstractSeries* series : { static_cast<QAbstractSeries*>(band), static_cast<QAbstractSeries*>(wave) }) {
        chart->addSeries(series);
        series->attachAxis(x);
        series->attachAxis(y);
    }
    upper->setParent(band);
    lower->setParent(band);
    styleChart(*chart, theme);
    auto view = std::make_unique<QChartView>(chart);
    styleChartView(*view, theme);
    view->resize(600, 400);
    auto* layer = new PointLayer(chart, theme);
    layer->setAxes(x, y);
    layer->setPoints({ { { 1, 0 }, { 5, 0.5 }, { 12, 0 } }, {}, {} });
    view->show();
    QApplication::processEvents();
    return view;
}

struct Drawn {
    QRectF lines;
    QRectF areas;
    int pieces = 0;
};

// Where in the picture an SVG of Qt draws in the two colours: its groups carry colour and matrix, the shapes inside
// their points.
Drawn drawnIn(const QByteArray& svg)
{
    Drawn drawn;
    QXmlStreamReader xml(svg);
    static const QRegularExpression number(QStringLiteral("-?\\d+(\\.\\d+)?(e-?\\d+)?"));
    const auto numbers = [](QStringView text) {
        std::vector<double> values;
        for (auto it = number.globalMatch(text.toString()); it.hasNext();)
            values.push_back(it.next().captured().toDouble());
        return values;
    };
    QTransform matrix;
    QString stroke;
    QString fill;
    while (!xml.atEnd()) {
        if (xml.readNext() != QXmlStreamReader::StartElement)
            continue;
        const auto attributes = xml.attributes();
        if (xml.name() == QLatin1String("g") && attributes.hasAttribute(QLatin1String("transform"))) {
            const auto m = numbers(attributes.value(QLatin1String("transform")));
            if (m.size() == 6)
                matrix = QTransform(m[0], m[1], m[2], m[3], m[4], m[5]);
            stroke = attributes.value(QLatin1String("stroke")).toString();
            fill = attributes.value(QLatin1String("fill")).toString();
            continue;
        }
        const bool path = xml.name() == QLatin1String("path");
        if (!path && xml.name() != QLatin1String("polyline"))
            continue;
        const auto values = numbers(attributes.value(path ? QLatin1String("d") : QLatin1String("points")));
        QPolygonF polygon;
        for (std::size_t i = 0; i + 1 < values.size(); i += 2)
            polygon.append(matrix.map(QPointF(values[i], values[i + 1])));
        if (stroke == lineColour.name()) {
            drawn.lines |= polygon.boundingRect();
            ++drawn.pieces;
        }
        if (fill == areaColour.name())
            drawn.areas |= polygon.boundingRect();
    }
    EXPECT_FALSE(xml.hasError()) << xml.errorString().toStdString();
    return drawn;
}

double lengthOf(const QList<QPointF>& points)
{
    double length = 0;
    for (qsizetype i = 1; i < points.size(); ++i)
        length += QLineF(points[i - 1], points[i]).length();
    return length;
}

} // namespace

TEST(Cut, SegmentsEndWhereTheyMeetTheBox)
{
    const QRectF box(0, 0, 10, 5);
    EXPECT_EQ(cutLine({ -5, 2, 15, 2 }, box), QLineF(0, 2, 10, 2));
    EXPECT_EQ(cutLine({ 2, 2, 4, 3 }, box), QLineF(2, 2, 4, 3));
    EXPECT_EQ(cutLine({ 5, 10, 5, 2 }, box), QLineF(5, 5, 5, 2));
    EXPECT_FALSE(cutLine({ -5, 6, 15, 6 }, box));
    EXPECT_FALSE(cutLine({ -5, 4, 4, 9 }, box));
    EXPECT_FALSE(cutLine({ 11, 1, 11, 2 }, box));
}

TEST(Cut, PolylinesKeepExactlyTheLengthThatIsInside)
{
    std::mt19937 random(3);
    std::uniform_real_distribution<double> place(-20, 30);
    const QRectF box(0, 0, 10, 8);
    for (int trial = 0; trial < 20; ++trial) {
        QList<QPointF> line;
        for (int i = 0; i < 15; ++i)
            line.append({ place(random), place(random) });
        // The judge: walk the line in small steps and add up those whose middle is inside.
        double inside = 0;
        for (qsizetype i = 1; i < line.size(); ++i) {
            const QLineF segment(line[i - 1], line[i]);
            constexpr int steps = 4000;
            for (int k = 0; k < steps; ++k)
                if (box.contains(segment.pointAt((k + 0.5) / steps)))
                    inside += segment.length() / steps;
        }
        double cut = 0;
        for (const auto& piece : cutPolyline(line, box)) {
            cut += lengthOf(piece);
            for (const QPointF& point : piece)
                EXPECT_TRUE(box.adjusted(-1e-9, -1e-9, 1e-9, 1e-9).contains(point));
        }
        EXPECT_NEAR(cut, inside, 0.2) << trial;
    }
    // What is wholly inside stays one piece.
    EXPECT_EQ(cutPolyline({ { 1, 1 }, { 2, 2 }, { 3, 1 } }, box).size(), 1U);
    EXPECT_EQ(cutPolyline({ { 1, 1 }, { 2, 20 }, { 3, 1 } }, box).size(), 2U);
}

TEST(ChartSvg, NothingRunsOutOfTheAxes)
{
    const auto view = chartWithARunaway();
    const QRectF plot = view->chart()->mapRectToScene(view->chart()->plotArea()).adjusted(-1.5, -1.5, 1.5, 1.5);

    const Drawn drawn = drawnIn(chartSvg(*view));
    EXPECT_GE(drawn.pieces, 4) << "the wave comes and goes";
    EXPECT_TRUE(plot.contains(drawn.lines)) << drawn.lines.top() << " to " << drawn.lines.bottom();
    EXPECT_TRUE(plot.contains(drawn.areas)) << drawn.areas.left() << " to " << drawn.areas.right();
    EXPECT_NEAR(drawn.lines.height(), plot.height(), 5) << "it is still drawn up to the edge";
    EXPECT_NEAR(drawn.areas.width(), plot.width(), 5);

    // The same scene straight into Qt's generator does run out: this is what the cutting is for.
    QByteArray raw;
    QBuffer buffer(&raw);
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setResolution(96);
    generator.setSize(view->size());
    QPainter painter(&generator);
    view->scene()->render(&painter, QRectF(QPointF(), view->size()), QRectF(QPointF(), view->size()));
    painter.end();
    EXPECT_FALSE(plot.contains(drawnIn(raw).lines));
}

TEST(ChartSvg, LooksLikeTheScreen)
{
    const auto view = chartWithARunaway();
    const QByteArray svg = chartSvg(*view, QStringLiteral("Curve & points"));
    QSvgRenderer renderer(svg);
    ASSERT_TRUE(renderer.isValid());
    EXPECT_EQ(renderer.viewBoxF().size(), QSizeF(600, 400));
    EXPECT_TRUE(svg.contains("Curve &amp; points"));
    const QImage screen = chartImage(*view, 1.0).convertToFormat(QImage::Format_RGB32);
    QImage drawn(screen.size(), QImage::Format_RGB32);
    drawn.fill(Qt::white);
    QPainter painter(&drawn);
    renderer.render(&painter, QRectF(0, 0, 600, 400));
    painter.end();
    double difference = 0;
    int ink = 0;
    for (int y = 0; y < 400; ++y) {
        for (int x = 0; x < 600; ++x) {
            difference += std::abs(qGray(screen.pixel(x, y)) - qGray(drawn.pixel(x, y)));
            ink += qGray(screen.pixel(x, y)) < 200;
        }
    }
    EXPECT_GT(ink, 10000);
    EXPECT_LT(difference / (600 * 400), 4.0) << "mean of 255";
}

TEST(ChartPdf, HasOnePageOfTheChartsSize)
{
    const auto view = chartWithARunaway();
    const QByteArray pdf = chartPdf(*view, QStringLiteral("Curve"));
    EXPECT_TRUE(pdf.startsWith("%PDF-"));
    EXPECT_EQ(pdf.count("/Type /Page\n") + pdf.count("/Type /Page "), 1);
    // 600 x 400 pixels at 96 to the inch, in points of 1/72 inch (ISO 32000-1, 14.11.2).
    const QRegularExpression box(QStringLiteral("/MediaBox \\[0 0 ([0-9.]+) ([0-9.]+)\\]"));
    const auto match = box.match(QString::fromLatin1(pdf));
    ASSERT_TRUE(match.hasMatch());
    EXPECT_NEAR(match.captured(1).toDouble(), 450, 1);
    EXPECT_NEAR(match.captured(2).toDouble(), 300, 1);
}

TEST(ChartImage, HasTwiceTheSizeAndNoTraceOfThePointer)
{
    const auto view = chartWithARunaway();
    const QImage before = chartImage(*view);
    EXPECT_EQ(before.size(), QSize(1200, 800));
    PointLayer* layer = nullptr;
    const auto items = view->scene()->items();
    for (QGraphicsItem* item : items)
        if (auto* object = item->toGraphicsObject())
            if (auto* found = qobject_cast<PointLayer*>(object))
                layer = found;
    ASSERT_TRUE(layer);
    layer->setCurrent(1);
    EXPECT_EQ(chartImage(*view), before);
    EXPECT_EQ(before.pixelColor(2, 2), lightTheme().sheet);
}

TEST(SaveChart, WritesWhatTheEndingAsksFor)
{
    const auto view = chartWithARunaway();
    const QTemporaryDir folder;
    for (const auto& [name, start] : { std::pair { "a.svg", "<?xml" }, { "b.PDF", "%PDF-" }, { "c.png", "\x89PNG" } }) {
        const QString path = folder.filePath(QLatin1String(name));
        EXPECT_EQ(saveChart(*view, path, QStringLiteral("Curve")), QString());
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::ReadOnly)) << name;
        EXPECT_TRUE(file.readAll().startsWith(start)) << name;
    }
    EXPECT_EQ(QImage(folder.filePath(QStringLiteral("c.png"))).size(), QSize(1200, 800));
    EXPECT_EQ(chartFileFilters().size(), 3);
}

TEST(SaveChart, SaysWhatCouldNotBeDoneAndLeavesTheRestAlone)
{
    const auto view = chartWithARunaway();
    const QTemporaryDir folder;
    const QString wrong = saveChart(*view, folder.filePath(QStringLiteral("curve.doc")));
    EXPECT_TRUE(wrong.contains(QLatin1String("curve.doc"))) << wrong.toStdString();
    EXPECT_TRUE(wrong.contains(QLatin1String("SVG, PDF or PNG"))) << wrong.toStdString();

    const QString nowhere = folder.filePath(QStringLiteral("no/such/folder/curve.svg"));
    const QString lost = saveChart(*view, nowhere);
    EXPECT_TRUE(lost.contains(QLatin1String("curve.svg"))) << lost.toStdString();
    EXPECT_TRUE(lost.endsWith(QLatin1Char('.'))) << lost.toStdString();

    QGraphicsView empty;
    const QString path = folder.filePath(QStringLiteral("kept.svg"));
    QFile kept(path);
    ASSERT_TRUE(kept.open(QIODevice::WriteOnly));
    kept.write("before");
    kept.close();
    EXPECT_FALSE(saveChart(empty, path).isEmpty());
    ASSERT_TRUE(kept.open(QIODevice::ReadOnly));
    EXPECT_EQ(kept.readAll(), QByteArray("before"));
}

TEST(CopyChart, PutsPictureAndSvgOnTheClipboard)
{
    const auto view = chartWithARunaway();
    QClipboard* clipboard = QApplication::clipboard();
    EXPECT_EQ(copyChart(*view, *clipboard), QString());
    const QMimeData* data = clipboard->mimeData();
    ASSERT_TRUE(data);
    EXPECT_TRUE(data->hasImage());
    EXPECT_TRUE(data->data(QStringLiteral("image/svg+xml")).contains("<svg"));
    QGraphicsView empty;
    EXPECT_FALSE(copyChart(empty, *clipboard).isEmpty());
    EXPECT_TRUE(clipboard->mimeData()->hasImage()) << "a copy that failed leaves what was there";
}

} // namespace WASHFAST_FILE
