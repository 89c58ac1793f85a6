#include "ui/sheets/label_paint.h"

#include "ui/sheets/pictogram_paint.h"
#include "ui/sheets/square_code.h"
#include "ui/sheets/words.h"

#include <QPainter>

namespace washfast::ui::sheets {

namespace {

constexpr double labelMarginMm = 2.5;
constexpr double cutMarkMm = 5;
constexpr double leastShare = 0.8; // of the usual size of letters

QString orShortLine(const QString& text)
{
    return text.isEmpty() ? QStringLiteral("__________") : escaped(text);
}

QString bottleHtml(const chemistry::BottleLabel& label, bool short_form)
{
    QStringList lines;
    lines << QStringLiteral("<b><big>%1</big></b>").arg(escaped(label.title));
    for (const auto& content : label.contents)
        lines << escaped(content);
    lines << (label.date == chemistry::LabelDate::Made ? SheetsWords::tr("Made %1 &nbsp; by %2")
                                                       : SheetsWords::tr("Opened %1 &nbsp; by %2"))
                 .arg(orShortLine(label.made), orShortLine(label.maker));
    if (!label.signal.isEmpty())
        lines << QStringLiteral("<b>%1</b>").arg(escaped(chemistry::signalWord(label.signal)));
    QStringList hazards;
    for (const auto& hazard : label.hazards)
        hazards << escaped(hazard.code + (hazard.disputed ? QStringLiteral("* ") : QStringLiteral(" ")) + hazard.text);
    lines << hazards.join(QStringLiteral(". "));
    if (!short_form)
        lines << escaped(label.precautions.join(QStringLiteral(". ")));
    lines << QStringLiteral("<b>%1</b>").arg(escaped(label.note))
          << QStringLiteral("<i>%1</i>").arg(escaped(label.footing));
    QString html;
    for (const auto& line : lines)
        if (!line.isEmpty() && line != QLatin1String("<b></b>"))
            html += QStringLiteral("<div>%1</div>").arg(line);
    return html;
}

void paintBottle(QPainter& painter, const QRectF& box, const chemistry::BottleLabel& label)
{
    const double symbol = qMin(mm(13), box.height() / 2.2);
    const auto count = label.pictograms.size();
    // Two columns of pictograms when there are more than two below one another.
    const double wide = count == 0 ? 0 : count > 2 ? 2 * symbol : symbol;
    for (size_t i = 0; i < count; ++i) {
        const double x = box.right() - wide + (count > 2 && i % 2 == 1 ? symbol : 0);
        const double y = box.top() + symbol * double(count > 2 ? i / 2 : i);
        paintPictogram(painter, { x, y, symbol, symbol }, label.pictograms[i].code);
    }
    const QRectF words(box.left(), box.top(), box.width() - (wide > 0 ? wide + mm(1.5) : 0), box.height());
    const bool small = box.height() < mm(45);
    const double line = small ? 2.2 : 2.6;
    // Precautions only where they leave the rest large enough to be read on a shelf.
    const bool short_form = small || !fitsHtml(bottleHtml(label, false), words, line, leastShare);
    paintHtml(painter, bottleHtml(label, short_form), words, line);
}

void paintPrint(QPainter& painter, const QRectF& box, const chemistry::PrintLabel& label)
{
    const double side = qMin(box.height(), mm(30));
    paintSquareCode(painter, { box.left(), box.top() + (box.height() - side) / 2, side, side }, label.payload());
    const QRectF words(box.left() + side + mm(2), box.top(), box.width() - side - mm(2), box.height());
    paintHtml(painter,
        QStringLiteral("<div><b><big><big>%1</big></big></b></div><div>%2</div>")
            .arg(escaped(label.code), escaped(label.detail)),
        words.adjusted(0, box.height() / 4, 0, 0), 4.2);
}

void paintCutMarks(QPainter& painter, const chemistry::LabelSheet& sheet)
{
    painter.setPen(QPen(Qt::black, mm(0.15)));
    const double left = mm(sheet.left_mm), right = mm(sheet.left_mm + sheet.columns * sheet.across_mm);
    const double top = mm(sheet.top_mm), bottom = mm(sheet.top_mm + sheet.rows * sheet.down_mm);
    const double gap = mm(1), length = mm(cutMarkMm);
    for (int column = 0; column <= sheet.columns; ++column) {
        const double x = left + mm(column * sheet.across_mm);
        painter.drawLine(QPointF(x, top - gap), QPointF(x, top - gap - length));
        painter.drawLine(QPointF(x, bottom + gap), QPointF(x, bottom + gap + length));
    }
    for (int row = 0; row <= sheet.rows; ++row) {
        const double y = top + mm(row * sheet.down_mm);
        painter.drawLine(QPointF(left - gap, y), QPointF(left - gap - length, y));
        painter.drawLine(QPointF(right + gap, y), QPointF(right + gap + length, y));
    }
}

} // namespace

void paintLabel(QPainter& painter, const QRectF& box, const Label& label)
{
    const auto inner = box.adjusted(mm(labelMarginMm), mm(labelMarginMm), -mm(labelMarginMm), -mm(labelMarginMm));
    painter.save();
    painter.setClipRect(box, Qt::IntersectClip);
    if (const auto* bottle = std::get_if<chemistry::BottleLabel>(&label))
        paintBottle(painter, inner, *bottle);
    else
        paintPrint(painter, inner, std::get<chemistry::PrintLabel>(label));
    painter.restore();
}

QRectF labelBox(const chemistry::LabelSheet& sheet, int place)
{
    const int row = place / sheet.columns, column = place % sheet.columns;
    return { mm(sheet.left_mm + column * sheet.across_mm), mm(sheet.top_mm + row * sheet.down_mm), mm(sheet.width_mm),
        mm(sheet.height_mm) };
}

int labelPages(const chemistry::LabelSheet& sheet, int labels, int first)
{
    const int places = sheet.places();
    return qMax(1, (labels + first + places - 1) / places);
}

PaintPage labelPainter(chemistry::LabelSheet sheet, std::vector<Label> labels, int first)
{
    return [sheet = std::move(sheet), labels = std::move(labels), first](QPainter& painter, int page) {
        if (sheet.cut_marks)
            paintCutMarks(painter, sheet);
        for (int place = 0; place < sheet.places(); ++place) {
            const int at = page * sheet.places() + place - first;
            if (at >= 0 && at < int(labels.size()))
                paintLabel(painter, labelBox(sheet, place), labels[size_t(at)]);
        }
    };
}

Outcome writeLabels(
    const QString& path, const chemistry::LabelSheet& sheet, const std::vector<Label>& labels, int first)
{
    return writePdf(path, SheetsWords::tr("Labels"), labelPages(sheet, int(labels.size()), first),
        labelPainter(sheet, labels, first));
}

} // namespace washfast::ui::sheets
