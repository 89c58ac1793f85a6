// Lays one piece of a report out on paper. A report is laid out piece by piece, so that a long one takes no more memory
// than a short one and can be stopped: a piece is a run of texts and charts, or some rows of a table. Each begins where
// the one before it ended. Lengths are dots of the paper unless they say millimetres. Used by report_pdf.cpp only.
#pragma once

#include "core/exchange/report.h"

#include <QPaintDevice>
#include <QTextCursor>
#include <QTextDocument>

class QPainter;
class QTextTable;

namespace washfast::report {

namespace paper {
inline constexpr int dotsPerInch = 300;
inline constexpr double mmPerInch = 25.4;
inline constexpr double widthMm = 210, heightMm = 297; // A4, ISO 216
inline constexpr double sideMm = 15, topMm = 15, bottomMm = 20; // margins
inline constexpr double paddingMm = 0.8; // of the cells of a table
inline constexpr double apartMm = 3.5; // between figures at the right and words at the left
inline constexpr double bodyPt = 10, smallPt = 8.5, cellPt = 7.5, titlePt = 19, headingPt = 13.5, captionPt = 10;
constexpr double dots(double mm)
{
    return mm / mmPerInch * dotsPerInch;
}
inline constexpr double textWidth = dots(widthMm - 2 * sideMm), textHeight = dots(heightMm - topMm - bottomMm);
}

[[nodiscard]] QFont reportFont(double points, bool bold = false);
/// What each column needs to show its longest word, and its cells on one line as far as there is room.
[[nodiscard]] QList<QTextLength> columnWidths(const exchange::ReportTable& table);

/// Which parts of a report: [first, last), or with one table some of its rows.
struct Piece {
    size_t first = 0, last = 0;
    bool is_table = false;
    int from_row = 0, to_row = 0;
    [[nodiscard]] bool continues() const { return is_table && from_row > 0; }
};
[[nodiscard]] std::vector<Piece> piecesOf(const exchange::Report& report);

/// Where on a page something ends, and the room that it asks for below, which is shared with what follows.
struct Place {
    int page = 0;
    double y = 0; // from the upper edge of the text
    double below_mm = 0;
};

class PieceLayout {
public:
    /// `widths` and `heading_height` are those of the table when the piece is one.
    PieceLayout(QPaintDevice* device, const exchange::Report& report, const Piece& piece, const Place& after,
        const QList<QTextLength>& widths, double heading_height);

    [[nodiscard]] int firstPage() const { return start_.page; }
    [[nodiscard]] int pages() const { return end_.page - start_.page + 1; }
    [[nodiscard]] Place end() const { return end_; }
    /// One of its pages, 0 being the first; the painter's origin is the upper left corner of the text.
    void paint(QPainter& painter, int page);

private:
    /// What must stand on one page with what follows it.
    struct Together {
        QTextCursor at;
        double room_mm;
    };
    void startAfter(const Place& after, double above_mm, double room_mm);
    void room(double height);
    void block(double above_mm, double below_mm, double room_mm, double indent_mm = 0);
    void text(const QString& says, double points, bool bold, const char* colour, double above_mm, double below_mm,
        double room_mm = 0, double indent_mm = 0);
    void add(const exchange::ReportPart& part);
    void chart(const exchange::ReportChart& chart);
    void table(const exchange::ReportTable& table, const Piece& piece, const QList<QTextLength>& widths);
    void keepTogether();
    void findEnd();

    QTextDocument document_;
    QTextCursor cursor_;
    std::vector<Together> together_;
    Place after_, start_, end_;
    double heading_height_ = 0;
    double below_mm_ = 0; // of what was added last
    QTextTable* table_ = nullptr;
    bool begun_ = false;
};

/// The height of the row of headings.
[[nodiscard]] double headingHeight(
    QPaintDevice* device, const exchange::ReportTable& table, const QList<QTextLength>& widths);

} // namespace washfast::report
