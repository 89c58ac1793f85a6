#include "core/report/report_layout.h"

#include <QAbstractTextDocumentLayout>
#include <QPainter>
#include <QSvgRenderer>
#include <QTextTable>
#include <algorithm>
#include <cmath>

namespace washfast::report {

using exchange::ReportPart;
using namespace paper;

namespace {

constexpr int chartObject = QTextFormat::UserObject + 1;
constexpr int chartProperty = QTextFormat::UserProperty + 1;
constexpr double tableBelowMm = 4.5;
constexpr double lineMm = 6; // room for a line of text
constexpr int partsInPiece = 40, rowsInPiece = 60;

constexpr double screenDotsPerInch = 96;
/// Margins and borders of a text are scaled to the paper from the dots of a screen.
constexpr double screenDots(double mm)
{
    return mm / mmPerInch * screenDotsPerInch;
}
constexpr double screenDotsOf(double paper_dots)
{
    return paper_dots / dotsPerInch * screenDotsPerInch;
}

/// Draws a chart where the text has its place.
class ChartObject : public QObject, public QTextObjectInterface {
    Q_OBJECT
    Q_INTERFACES(QTextObjectInterface)

public:
    explicit ChartObject(QObject* parent)
        : QObject(parent)
    {
    }
    QSizeF intrinsicSize(QTextDocument*, int, const QTextFormat& format) override
    {
        return format.property(chartProperty + 1).toSizeF();
    }
    void drawObject(QPainter* painter, const QRectF& box, QTextDocument*, int, const QTextFormat& format) override
    {
        QSvgRenderer svg(format.property(chartProperty).toByteArray());
        svg.render(painter, box);
    }
};

QTextCharFormat letters(double points, bool bold, const char* colour)
{
    QTextCharFormat format;
    format.setFont(reportFont(points, bold));
    format.setForeground(QColor(QLatin1String(colour)));
    return format;
}

void prepare(QTextDocument& document, QPaintDevice* device)
{
    document.setUndoRedoEnabled(false);
    document.documentLayout()->setPaintDevice(device);
    document.documentLayout()->registerHandler(chartObject, new ChartObject(&document));
    document.setDocumentMargin(0);
    document.setDefaultFont(reportFont(bodyPt));
    document.setPageSize({ textWidth, textHeight });
}

QTextTable* insertTable(
    QTextCursor& cursor, const exchange::ReportTable& table, int from, int to, const QList<QTextLength>& widths)
{
    using namespace exchange::report_colour;
    QTextTableFormat format;
    format.setWidth(QTextLength(QTextLength::PercentageLength, 100));
    format.setHeaderRowCount(1);
    format.setBorder(0);
    format.setCellSpacing(0);
    format.setCellPadding(screenDots(paddingMm));
    format.setColumnWidthConstraints(widths);
    auto* made = cursor.insertTable(to - from + 1, int(table.headings.size()), format);
    const auto cell = [&](int row, int column, const QString& says, bool heading) {
        auto place = made->cellAt(row, column);
        QTextTableCellFormat look;
        look.setVerticalAlignment(heading ? QTextCharFormat::AlignBottom : QTextCharFormat::AlignTop);
        look.setBottomBorder(screenDots(0.2));
        look.setBottomBorderStyle(QTextFrameFormat::BorderStyle_Solid);
        look.setBottomBorderBrush(QColor(QLatin1String(line)));
        if (column > 0 && table.figures[size_t(column) - 1] && !table.figures[size_t(column)])
            look.setLeftPadding(screenDots(apartMm)); // words behind figures
        if (heading)
            look.setBackground(QColor(QLatin1String(band)));
        place.setFormat(look);
        auto into = place.firstCursorPosition();
        QTextBlockFormat aligned;
        aligned.setAlignment(table.figures[size_t(column)] ? Qt::AlignRight : Qt::AlignLeft);
        into.setBlockFormat(aligned);
        into.insertText(says, letters(cellPt, heading, ink));
    };
    for (int column = 0; column < int(table.headings.size()); ++column) {
        QString heading = table.headings[column];
        // A word joiner keeps a unit on one line.
        cell(0, column, heading.replace(QLatin1Char('/'), QStringLiteral("/\u2060")), true);
        for (int row = from; row < to; ++row)
            cell(row - from + 1, column, table.rows[size_t(row)][column], false);
    }
    return made;
}

/// The lower edge of the last row.
double bottomOf(const QTextDocument& document, const QTextTable& table)
{
    double bottom = 0;
    for (int column = 0; column < table.columns(); ++column) {
        const auto block = table.cellAt(table.rows() - 1, column).lastCursorPosition().block();
        bottom = std::max(bottom, document.documentLayout()->blockBoundingRect(block).bottom());
    }
    return bottom + dots(paddingMm + 0.2);
}

} // namespace

QFont reportFont(double points, bool bold)
{
    QFont font(QStringLiteral("sans-serif"));
    font.setStyleHint(QFont::SansSerif);
    font.setPointSizeF(points);
    font.setBold(bold);
    return font;
}

std::vector<Piece> piecesOf(const exchange::Report& report)
{
    std::vector<Piece> pieces;
    for (size_t i = 0; i < report.parts.size(); ++i) {
        if (report.parts[i].kind == ReportPart::Kind::Table) {
            const int rows = int(report.parts[i].table.rows.size());
            int from = 0;
            do {
                const int to = std::min(rows, from + rowsInPiece);
                pieces.push_back({ i, i + 1, true, from, to });
                from = to;
            } while (from < rows);
        } else if (!pieces.empty() && !pieces.back().is_table && i - pieces.back().first < partsInPiece) {
            pieces.back().last = i + 1;
        } else {
            pieces.push_back({ i, i + 1 });
        }
    }
    return pieces;
}

double headingHeight(QPaintDevice* device, const exchange::ReportTable& table, const QList<QTextLength>& widths)
{
    QTextDocument document;
    prepare(document, device);
    QTextCursor cursor(&document);
    auto* made = insertTable(cursor, table, 0, 0, widths);
    return bottomOf(document, *made);
}

PieceLayout::PieceLayout(QPaintDevice* device, const exchange::Report& report, const Piece& piece, const Place& after,
    const QList<QTextLength>& widths, double heading_height)
    : cursor_(&document_)
    , after_(after)
    , heading_height_(heading_height)
{
    prepare(document_, device);
    cursor_.beginEditBlock(); // laid out once, at the end
    if (piece.first == 0 && !piece.continues()) {
        text(report.title, titlePt, true, exchange::report_colour::ink, 0, 1);
        text(report.subtitle, bodyPt, false, exchange::report_colour::quiet, 0, 4);
    }
    if (piece.is_table)
        table(report.parts[piece.first].table, piece, widths);
    else
        for (size_t i = piece.first; i < piece.last; ++i)
            add(report.parts[i]);
    cursor_.endEditBlock();
    keepTogether();
    findEnd();
}

void PieceLayout::startAfter(const Place& after, double above_mm, double room_mm)
{
    start_ = { after.page, after.y == 0 ? 0 : after.y + dots(std::max(after.below_mm, above_mm)), 0 };
    if (start_.y + dots(room_mm) > textHeight)
        start_ = { after.page + 1, 0, 0 };
}

void PieceLayout::block(double above_mm, double below_mm, double room_mm, double indent_mm)
{
    QTextBlockFormat format;
    format.setTopMargin(screenDots(above_mm));
    format.setBottomMargin(screenDots(below_mm));
    format.setLeftMargin(screenDots(indent_mm));
    if (begun_) {
        cursor_.insertBlock(format, QTextCharFormat());
        if (room_mm > 0)
            together_.push_back({ QTextCursor(cursor_.block()), room_mm });
    } else {
        startAfter(after_, above_mm, std::max(room_mm, lineMm));
        format.setTopMargin(0);
        if (start_.y > 0) {
            room(start_.y);
            cursor_.insertBlock(format, QTextCharFormat());
        }
        cursor_.setBlockFormat(format);
    }
    below_mm_ = below_mm;
    begun_ = true;
}

/// Leaves so much free at the top; a margin above the first block would not count.
void PieceLayout::room(double height)
{
    constexpr double least = 1;
    QTextBlockFormat format;
    format.setLineHeight(least, QTextBlockFormat::FixedHeight);
    format.setBottomMargin(screenDotsOf(std::max(0.0, height)));
    cursor_.setBlockFormat(format);
    cursor_.insertText(QStringLiteral(" "), letters(1, false, exchange::report_colour::ink));
}

void PieceLayout::text(const QString& says, double points, bool bold, const char* colour, double above_mm,
    double below_mm, double room_mm, double indent_mm)
{
    block(above_mm, below_mm, room_mm, indent_mm);
    cursor_.insertText(says, letters(points, bold, colour));
}

void PieceLayout::add(const ReportPart& part)
{
    using namespace exchange::report_colour;
    switch (part.kind) {
    case ReportPart::Kind::Heading:
        text(part.text, headingPt, true, ink, 6, 1.5, 38);
        break;
    case ReportPart::Kind::Text:
        text(part.text, bodyPt, false, ink, 0.5, 1.5);
        break;
    case ReportPart::Kind::Strong:
        text(part.text, bodyPt, true, ink, 2.5, 1, 14);
        break;
    case ReportPart::Kind::Note:
        text(part.text, smallPt, false, quiet, 0.5, 2);
        break;
    case ReportPart::Kind::List:
        for (const auto& item : part.items)
            text(QStringLiteral("•  ") + item, bodyPt, false, ink, 0, 0.8, 0, 4);
        break;
    case ReportPart::Kind::Chart:
        text(part.chart.title, captionPt, true, ink, 3, 1, part.chart.height_mm + 10);
        chart(part.chart);
        break;
    case ReportPart::Kind::Table: // a piece of its own
        break;
    }
}

void PieceLayout::chart(const exchange::ReportChart& chart)
{
    block(0, 3, 0);
    QTextCharFormat format;
    format.setObjectType(chartObject);
    format.setProperty(chartProperty, exchange::svgDocument(chart));
    format.setProperty(chartProperty + 1, QSizeF(dots(chart.width_mm), dots(chart.height_mm)));
    cursor_.insertText(QString(QChar::ObjectReplacementCharacter), format);
}

void PieceLayout::table(const exchange::ReportTable& table, const Piece& piece, const QList<QTextLength>& widths)
{
    if (piece.continues()) {
        // Its headings lie under the rows before, which paint() leaves as they are; on the next page they show again.
        start_ = after_;
        room(std::max(0.0, start_.y - heading_height_));
    } else {
        text(table.caption, captionPt, true, exchange::report_colour::ink, 4, 1, 28);
    }
    table_ = insertTable(cursor_, table, piece.from_row, piece.to_row, widths);
    const bool last = piece.to_row == int(table.rows.size());
    below_mm_ = last ? tableBelowMm : 0;
}

void PieceLayout::keepTogether()
{
    for (auto& [at, room_mm] : together_) {
        const auto box = document_.documentLayout()->blockBoundingRect(at.block());
        const double from = std::fmod(box.top(), textHeight);
        if (from + dots(room_mm) <= textHeight || from < dots(1))
            continue;
        auto format = at.blockFormat();
        format.setPageBreakPolicy(QTextFormat::PageBreak_AlwaysBefore);
        format.setTopMargin(0);
        at.setBlockFormat(format);
    }
}

void PieceLayout::findEnd()
{
    const auto* layout = document_.documentLayout();
    const double bottom
        = table_ ? bottomOf(document_, *table_) : layout->blockBoundingRect(document_.lastBlock()).bottom();
    const int page = int(std::floor(std::max(0.0, bottom - 1) / textHeight));
    end_ = { start_.page + page, bottom - page * textHeight, below_mm_ };
}

void PieceLayout::paint(QPainter& painter, int page)
{
    painter.save();
    painter.translate(0, -page * textHeight);
    QAbstractTextDocumentLayout::PaintContext context;
    const double from = page == 0 ? start_.y : 0;
    context.clip = QRectF(0, page * textHeight + from, textWidth, textHeight - from);
    context.palette.setColor(QPalette::Text, QColor(QLatin1String(exchange::report_colour::ink)));
    painter.setClipRect(context.clip);
    document_.documentLayout()->draw(&painter, context);
    painter.restore();
}

} // namespace washfast::report

#include "report_layout.moc"
