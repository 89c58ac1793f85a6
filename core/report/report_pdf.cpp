#include "core/report/report_pdf.h"

#include "core/report/report_layout.h"
#include "core/report/words.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QGuiApplication>
#include <QPainter>
#include <QPdfWriter>

namespace washfast::report {

using namespace paper;

namespace {

constexpr double footMm = 11; // of the number, from the lower edge

/// Goes over the pieces twice, to count the pages and to paint them: no more than one piece is in memory.
class Paper {
public:
    Paper(QPdfWriter& writer, const exchange::Report& report, const std::function<bool(double)>& keep_going)
        : writer_(writer)
        , report_(report)
        , keep_going_(keep_going)
        , pieces_(piecesOf(report))
    {
    }
    Outcome print()
    {
        if (auto counted = eachPiece(0.0, [](PieceLayout&) { return true; }); !counted)
            return counted;
        pages_ = end_.page + 1;
        bool good = painter_.begin(&writer_);
        if (good) {
            paintFoot();
            auto painted = eachPiece(0.5, [&](PieceLayout& piece) { return good = paint(piece); });
            good = painter_.end() && good;
            if (good && !painted)
                return painted;
        }
        if (!good)
            return Error { Trouble::Failed, Words::tr("The PDF could not be made."), {} };
        return Done {};
    }

private:
    Outcome eachPiece(double share_before, const std::function<bool(PieceLayout&)>& use)
    {
        end_ = {};
        QList<QTextLength> widths;
        double heading_height = 0;
        for (size_t i = 0; i < pieces_.size(); ++i) {
            if (keep_going_ && !keep_going_(share_before + 0.5 * double(i) / double(pieces_.size())))
                return stopped();
            const auto& piece = pieces_[i];
            if (piece.is_table && !piece.continues()) {
                const auto& table = report_.parts[piece.first].table;
                widths = columnWidths(table);
                if (piece.to_row < int(table.rows.size()))
                    heading_height = headingHeight(&writer_, table, widths);
            }
            PieceLayout layout(&writer_, report_, piece, end_, widths, heading_height);
            end_ = layout.end();
            if (!use(layout))
                break;
        }
        return Done {};
    }
    bool paint(PieceLayout& piece)
    {
        for (int page = 0; page < piece.pages(); ++page) {
            if (piece.firstPage() + page > page_) {
                if (!writer_.newPage())
                    return false;
                ++page_;
                paintFoot();
            }
            painter_.save();
            painter_.translate(dots(sideMm), dots(topMm));
            piece.paint(painter_, page);
            painter_.restore();
        }
        return true;
    }
    void paintFoot()
    {
        painter_.save();
        painter_.setFont(reportFont(smallPt));
        painter_.setPen(QColor(QLatin1String(exchange::report_colour::quiet)));
        const QRectF foot(dots(sideMm), dots(heightMm - footMm - 4), textWidth, dots(5));
        painter_.drawText(foot, Qt::AlignLeft | Qt::AlignVCenter, report_.title);
        painter_.drawText(
            foot, Qt::AlignRight | Qt::AlignVCenter, Words::tr("page %1 of %2").arg(page_ + 1).arg(pages_));
        painter_.restore();
    }

    QPdfWriter& writer_;
    const exchange::Report& report_;
    const std::function<bool(double)>& keep_going_;
    const std::vector<Piece> pieces_;
    QPainter painter_;
    Place end_;
    int page_ = 0; // that is being painted
    int pages_ = 0;
};

} // namespace

Error stopped()
{
    return { Trouble::Failed, Words::tr("Stopped; no report was written."), {} };
}

Result<QByteArray> reportPdf(const exchange::Report& report, const std::function<bool(double)>& keep_going)
{
    if (!qobject_cast<QGuiApplication*>(QCoreApplication::instance()))
        return Error { Trouble::Failed, Words::tr("A PDF needs fonts, which this program was started without."), {} };
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
        if (auto printed = Paper(writer, report, keep_going).print(); !printed)
            return printed.error();
    }
    return bytes;
}

} // namespace washfast::report
