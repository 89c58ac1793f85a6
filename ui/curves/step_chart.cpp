#include "ui/curves/step_chart.h"

#include "core/chemistry/label.h"
#include "ui/curves/words.h"

#include <QPainter>
#include <QPainterPath>

namespace washfast::ui::curves {

namespace {

using sheets::mm;

constexpr double margin_mm = 20;
constexpr double top_mm = 58;
constexpr double rowHeight_mm = 42;
constexpr double widestStep_mm = 16;
constexpr double line_mm = 4.2;
constexpr double outline_mm = 0.15;
constexpr double narrow_mm = 10; // below it the words of a step stand upright

QColor inkOf(double percent)
{
    const int grey = qRound(255 * (1 - percent / 100));
    return { grey, grey, grey };
}

void paintSteps(QPainter& painter, const StepChart& chart)
{
    const auto values = chart.values();
    for (int i = 0; i < chart.steps; ++i) {
        const auto cell = chart.cell_mm(i);
        painter.fillRect(
            QRectF(mm(cell.left()), mm(cell.top()), mm(cell.width()), mm(cell.height())), inkOf(values[size_t(i)]));
    }
    const auto first = chart.cell_mm(0), last = chart.cell_mm(chart.steps - 1);
    painter.setPen(QPen(Qt::black, mm(outline_mm)));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF(mm(first.left()), mm(first.top()), mm(last.right() - first.left()), mm(first.height())));
}

/// Number of the step below it, its value above it.
void paintWords(QPainter& painter, const StepChart& chart)
{
    const auto values = chart.values();
    painter.setPen(Qt::black);
    const bool upright = chart.cell_mm(0).width() < narrow_mm;
    painter.setFont(sheets::pageFont(upright ? 2.4 : 2.8));
    for (int i = 0; i < chart.steps; ++i) {
        const auto cell = chart.cell_mm(i);
        const auto value = Words::tr("%1 %").arg(
            figure(values[size_t(i)], values[size_t(i)] == std::floor(values[size_t(i)]) ? 0 : 1));
        const auto number = QString::number(i + 1);
        if (upright) {
            painter.save();
            painter.translate(mm(cell.center().x()), mm(cell.top() - 1.5));
            painter.rotate(-90);
            painter.drawText(QRectF(0, mm(-2), mm(14), mm(4)), Qt::AlignLeft | Qt::AlignVCenter, value);
            painter.restore();
        } else {
            painter.drawText(QRectF(mm(cell.left()), mm(cell.top() - 5.5), mm(cell.width()), mm(4.5)),
                Qt::AlignHCenter | Qt::AlignBottom, value);
        }
        painter.drawText(QRectF(mm(cell.left() - 2), mm(cell.bottom() + 1), mm(cell.width() + 4), mm(4.5)),
            Qt::AlignHCenter | Qt::AlignTop, number);
    }
}

/// A dart that points at the middle of the row's end from outside: where the Reading desk is shown the two ends.
void paintEnd(QPainter& painter, QPointF tip_mm, double direction)
{
    QPainterPath dart;
    dart.moveTo(mm(tip_mm.x() + 0.3 * direction), mm(tip_mm.y()));
    dart.lineTo(mm(tip_mm.x() + 5 * direction), mm(tip_mm.y() - 2.5));
    dart.lineTo(mm(tip_mm.x() + 5 * direction), mm(tip_mm.y() + 2.5));
    dart.closeSubpath();
    painter.fillPath(dart, Qt::black);
}

void paintChart(QPainter& painter, const StepChart& chart)
{
    painter.save();
    if (chart.mirrored) {
        painter.translate(mm(chemistry::pageWidthMm), 0);
        painter.scale(-1, 1);
    }
    const double width = chemistry::pageWidthMm - 2 * margin_mm;
    painter.setPen(Qt::black);
    painter.setFont(sheets::pageFont(5.5, true));
    painter.drawText(QRectF(mm(margin_mm), mm(18), mm(width), mm(9)), Qt::AlignLeft | Qt::AlignVCenter,
        Words::tr("Step chart for film, %n steps", nullptr, int(chart.steps)));
    painter.setFont(sheets::pageFont(3.4));
    painter.drawText(QRectF(mm(margin_mm), mm(28), mm(width), mm(12)), Qt::AlignLeft | Qt::TextWordWrap,
        chart.mirrored
            ? Words::tr("Mirrored: it reads right when the ink lies on the paper. Print at real size; change "
                        "no colours.")
            : Words::tr("Not mirrored. Print at real size; change no colours."));
    paintSteps(painter, chart);
    paintWords(painter, chart);
    const auto first = chart.cell_mm(0), last = chart.cell_mm(chart.steps - 1);
    paintEnd(painter, { first.left(), first.center().y() }, -1);
    paintEnd(painter, { last.right(), last.center().y() }, 1);
    painter.restore();
}

QString instructions(const StepChart& chart)
{
    const QStringList steps {
        Words::tr(
            "Print the first page on the film that you use for negatives, with the settings that you will use for "
            "them, at real size (100 %). Nothing on the way to the printer may change colours or contrast."),
        Words::tr(
            "Let the ink dry. The chart has %n step(s) from 0 to 100 per cent of ink, in even steps; step 1 is the "
            "clear one.",
            nullptr, chart.steps),
        Words::tr("Measure each step in ultraviolet: divide what your meter shows without film by what it shows behind "
                  "the step; the logarithm to base 10 of that is the step's ultraviolet density. What the eye or a "
                  "scanner sees is another density and of no use here."),
        Words::tr("On the Shelf, make a record of a negative of the kind film, and enter for each step its number, the "
                  "value printed (the per cent above it) and its ultraviolet density. “Record its film...” on the page "
                  "Negative of Curves makes this record with numbers and values already in it."),
        Words::tr("On that page choose a curve and this film. The table says which value to send to the printer for "
                  "each tone, and which exposure to give."),
        Words::tr(
            "To check it, print a picture of even steps through the table, make a print of it, and read the steps: "
            "their densities should lie on a straight line."),
        Words::tr(
            "The chart itself can also be exposed on a coated sheet. On the Reading desk show the two ends of the "
            "row, from the dart at step 1 to the dart at the last step, and say how many steps there are; with "
            "this film noted on the exposure its print is a wedge like any other."),
    };
    QString html = QStringLiteral("<h2 style='margin-bottom:80px'>%1</h2><ol>")
                       .arg(sheets::escaped(Words::tr("What to do with the step chart")));
    for (const auto& step : steps)
        html += QStringLiteral("<li style='margin-bottom:60px'>%1</li>").arg(sheets::escaped(step));
    return html + QStringLiteral("</ol>");
}

} // namespace

std::vector<double> StepChart::values() const
{
    std::vector<double> all;
    for (int i = 0; i < steps; ++i)
        all.push_back(100.0 * i / (steps - 1));
    return all;
}

QRectF StepChart::cell_mm(int step) const
{
    const double room = chemistry::pageWidthMm - 2 * margin_mm;
    const double width = std::min(widestStep_mm, room / steps);
    const double left = (chemistry::pageWidthMm - width * steps) / 2;
    return { left + width * step, top_mm, width, rowHeight_mm };
}

sheets::PaintPage stepChartPainter(const StepChart& chart)
{
    return [chart](QPainter& painter, int page) {
        if (page == 0) {
            paintChart(painter, chart);
            return;
        }
        sheets::paintHtml(painter, instructions(chart),
            QRectF(mm(margin_mm), mm(margin_mm), mm(chemistry::pageWidthMm - 2 * margin_mm),
                mm(chemistry::pageHeightMm - 2 * margin_mm)),
            line_mm);
    };
}

} // namespace washfast::ui::curves
