#include "core/report/report_pdf.h"

#include <QAbstractTextDocumentLayout>
#include <QBuffer>
#include <QCoreApplication>
#include <QFontMetricsF>
#include <QGuiApplication>
#include <QPainter>
#include <QPdfWriter>
#include <QSvgRenderer>
#include <QTextCursor>
#include <QTextDocument>
#include <QTextTable>
#include <algorithm>
#include <cmath>
#include <numeric>

namespace washfast::report {

using exchange::ReportPart;

namespace {

constexpr int dotsPerInch = 300;
constexpr double mmPerInch = 25.4;
constexpr double pageWidthMm = 210, pageHeightMm = 297;
constexpr double sideMm = 15, topMm = 15, bottomMm = 20; // margins
constexpr double paddingMm = 0.8; // of the cells of a table
constexpr double apartMm = 3.5; // between figures at the right and words at the left
constexpr double footMm = 11; // of the number, from the lower edge
constexpr int chartObject = QTextFormat::UserObject + 1;
constexpr int chartProperty = QTextFormat::UserProperty + 1;
constexpr double bodyPt = 10, smallPt = 8.5, cellPt = 7.5, titlePt = 19, headingPt = 13.5, captionPt = 10;

QString say(const char* text)
{
    return QCoreApplication::translate("Report", text);
}

constexpr double dots(double mm)
{
    return mm / mmPerInch * dotsPerInch;
}

/// Margins and borders of a text are scaled to the paper from the dots of a screen.
constexpr double screenDots(double mm)
{
    constexpr double screenDotsPerInch = 96;
    return mm / mmPerInch * screenDotsPerInch;
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

class Layout {
public:
    explicit Layout(QPaintDevice* paper)
        : cursor_(&document_)
    {
        document_.documentLayout()->setPaintDevice(paper);
        document_.documentLayout()->registerHandler(chartObject, new ChartObject(&document_));
        document_.setDocumentMargin(0);
        document_.setDefaultFont(font(bodyPt));
        document_.setPageSize(page());
    }
    static QSizeF page() { return { dots(pageWidthMm - 2 * sideMm), dots(pageHeightMm - topMm - bottomMm) }; }
    static QFont font(double points, bool bold = false)
    {
        QFont font(QStringLiteral("sans-serif"));
        font.setStyleHint(QFont::SansSerif);
        font.setPointSizeF(points);
        font.setBold(bold);
        return font;
    }
    QTextDocument& lay(const exchange::Report& report)
    {
        cursor_.beginEditBlock(); // laid out once, at the end
        text(report.title, titlePt, true, exchange::report_colour::ink, 0, 1);
        text(report.subtitle, bodyPt, false, exchange::report_colour::quiet, 0, 4);
        for (const auto& part : report.parts)
            add(part);
        cursor_.endEditBlock();
        keepTogether();
        return document_;
    }

private:
    /// What must stand on one page with what follows it.
    struct Together {
        QTextCursor at;
        double room_mm;
    };

    void block(double above_mm, double below_mm, double indent_mm = 0)
    {
        QTextBlockFormat format;
        format.setTopMargin(screenDots(above_mm));
        format.setBottomMargin(screenDots(below_mm));
        format.setLeftMargin(screenDots(indent_mm));
        if (begun_)
            cursor_.insertBlock(format, QTextCharFormat());
        else
            cursor_.setBlockFormat(format);
        begun_ = true;
    }
    static QTextCharFormat letters(double points, bool bold, const char* colour)
    {
        QTextCharFormat format;
        format.setFont(font(points, bold));
        format.setForeground(QColor(QLatin1String(colour)));
        return format;
    }
    void text(const QString& says, double points, bool bold, const char* colour, double above_mm, double below_mm,
        double indent_mm = 0)
    {
        block(above_mm, below_mm, indent_mm);
        cursor_.insertText(says, letters(points, bold, colour));
    }
    void keep(double room_mm)
    {
        QTextCursor at(cursor_.block());
        together_.push_back({ at, room_mm });
    }
    void add(const ReportPart& part)
    {
        using namespace exchange::report_colour;
        switch (part.kind) {
        case ReportPart::Kind::Heading:
            text(part.text, headingPt, true, ink, 6, 1.5);
            keep(38);
            break;
        case ReportPart::Kind::Text:
            text(part.text, bodyPt, false, ink, 0.5, 1.5);
            break;
        case ReportPart::Kind::Strong:
            text(part.text, bodyPt, true, ink, 2.5, 1);
            keep(14);
            break;
        case ReportPart::Kind::Note:
            text(part.text, smallPt, false, quiet, 0.5, 2);
            break;
        case ReportPart::Kind::List:
            for (const auto& item : part.items)
                text(QStringLiteral("•  ") + item, bodyPt, false, ink, 0, 0.8, 4);
            break;
        case ReportPart::Kind::Table:
            text(part.table.caption, captionPt, true, ink, 4, 1);
            keep(28);
            table(part.table);
            break;
        case ReportPart::Kind::Chart:
            text(part.chart.title, captionPt, true, ink, 3, 1);
            keep(part.chart.height_mm + 10);
            chart(part.chart);
            break;
        }
    }
    void chart(const exchange::ReportChart& chart)
    {
        block(0, 3);
        QTextCharFormat format;
        format.setObjectType(chartObject);
        format.setProperty(chartProperty, exchange::svgDocument(chart));
        format.setProperty(chartProperty + 1, QSizeF(dots(chart.width_mm), dots(chart.height_mm)));
        cursor_.insertText(QString(QChar::ObjectReplacementCharacter), format);
    }
    void table(const exchange::ReportTable& table)
    {
        using namespace exchange::report_colour;
        QTextTableFormat format;
        format.setWidth(QTextLength(QTextLength::PercentageLength, 100));
        format.setHeaderRowCount(1);
        format.setBorder(0);
        format.setCellSpacing(0);
        format.setCellPadding(screenDots(paddingMm));
        format.setBottomMargin(screenDots(3));
        format.setColumnWidthConstraints(widths(table));
        auto* made = cursor_.insertTable(int(table.rows.size()) + 1, int(table.headings.size()), format);
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
            for (int row = 0; row < int(table.rows.size()); ++row)
                cell(row + 1, column, table.rows[size_t(row)][column], false);
        }
        cursor_.movePosition(QTextCursor::End);
    }
    /// What each column needs to show its longest word, and its cells on one line as far as there is room.
    [[nodiscard]] static QList<QTextLength> widths(const exchange::ReportTable& table)
    {
        const QFontMetricsF plain(font(cellPt));
        const QFontMetricsF bold(font(cellPt, true));
        const double per_mm = plain.fontDpi() / mmPerInch; // in the units of the metrics
        std::vector<double> least;
        std::vector<double> wanted;
        for (qsizetype column = 0; column < table.headings.size(); ++column) {
            double word = 0;
            for (const auto& part : table.headings[column].split(QLatin1Char(' ')))
                word = std::max(word, bold.horizontalAdvance(part));
            double line = 0;
            for (const auto& row : table.rows) {
                line = std::max(line, plain.horizontalAdvance(row[column]));
                for (const auto& part : row[column].split(QLatin1Char(' ')))
                    word = std::max(word, plain.horizontalAdvance(part));
            }
            const bool words_behind_figures
                = column > 0 && table.figures[size_t(column) - 1] && !table.figures[size_t(column)];
            const double gap = (words_behind_figures ? apartMm + paddingMm : 2 * paddingMm) * per_mm + 4;
            least.push_back(word + gap);
            wanted.push_back(std::max(word, line) + gap);
        }
        const double page_width = per_mm * (pageWidthMm - 2 * sideMm);
        const double needed = std::accumulate(least.begin(), least.end(), 0.0);
        const double all = std::accumulate(wanted.begin(), wanted.end(), 0.0);
        const double share = all > needed ? std::clamp((page_width - needed) / (all - needed), 0.0, 1.0) : 1.0;
        double sum = 0;
        for (size_t i = 0; i < least.size(); ++i) {
            least[i] += share * (wanted[i] - least[i]);
            sum += least[i];
        }
        QList<QTextLength> lengths;
        for (const double width : least)
            lengths << QTextLength(QTextLength::PercentageLength, 100.0 * width / sum);
        return lengths;
    }
    /// Moves a heading to the next page when what it heads would begin there.
    void keepTogether()
    {
        for (auto& [at, room_mm] : together_) {
            const auto box = document_.documentLayout()->blockBoundingRect(at.block());
            const double from = std::fmod(box.top(), page().height());
            if (from + dots(room_mm) <= page().height() || from < dots(1))
                continue;
            auto format = at.blockFormat();
            format.setPageBreakPolicy(QTextFormat::PageBreak_AlwaysBefore);
            at.setBlockFormat(format);
        }
    }

    QTextDocument document_;
    QTextCursor cursor_;
    std::vector<Together> together_;
    bool begun_ = false;
};

void paintPage(QPainter& painter, QTextDocument& document, int page)
{
    const auto size = Layout::page();
    painter.save();
    painter.translate(dots(sideMm), dots(topMm) - page * size.height());
    QAbstractTextDocumentLayout::PaintContext context;
    context.clip = QRectF(QPointF(0, page * size.height()), size);
    context.palette.setColor(QPalette::Text, QColor(QLatin1String(exchange::report_colour::ink)));
    painter.setClipRect(context.clip);
    document.documentLayout()->draw(&painter, context);
    painter.restore();
}

void paintFoot(QPainter& painter, const QString& title, int page, int pages)
{
    painter.setFont(Layout::font(smallPt));
    painter.setPen(QColor(QLatin1String(exchange::report_colour::quiet)));
    const QRectF foot(dots(sideMm), dots(pageHeightMm - footMm - 4), Layout::page().width(), dots(5));
    painter.drawText(foot, Qt::AlignLeft | Qt::AlignVCenter, title);
    painter.drawText(foot, Qt::AlignRight | Qt::AlignVCenter,
        say(QT_TRANSLATE_NOOP("Report", "page %1 of %2")).arg(page + 1).arg(pages));
}

} // namespace

Result<QByteArray> reportPdf(const exchange::Report& report)
{
    if (!qobject_cast<QGuiApplication*>(QCoreApplication::instance()))
        return Error { Trouble::Failed,
            say(QT_TRANSLATE_NOOP("Report", "A PDF needs fonts, which this program was started without.")), {} };
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setTitle(report.title);
        writer.setCreator(QStringLiteral("Washfast"));
        writer.setPageSize(QPageSize(QPageSize::A4));
        writer.setPageMargins(QMarginsF(0, 0, 0, 0));
        writer.setResolution(dotsPerInch);
        Layout layout(&writer);
        auto& document = layout.lay(report);
        const int pages = document.pageCount();
        QPainter painter;
        bool good = painter.begin(&writer);
        for (int page = 0; good && page < pages; ++page) {
            good = page == 0 || writer.newPage();
            paintPage(painter, document, page);
            paintFoot(painter, report.title, page, pages);
        }
        if (!good || !painter.end())
            return Error { Trouble::Failed, say(QT_TRANSLATE_NOOP("Report", "The PDF could not be made.")), {} };
    }
    return bytes;
}

} // namespace washfast::report

#include "report_pdf.moc"
