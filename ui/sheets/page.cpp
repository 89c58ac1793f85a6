#include "ui/sheets/page.h"

#include "core/chemistry/label.h"
#include "core/files/write_aside.h"
#include "ui/sheets/words.h"

#include <QAbstractTextDocumentLayout>
#include <QBuffer>
#include <QPainter>
#include <QPalette>
#include <QPdfWriter>
#include <QTextDocument>

namespace washfast::ui::sheets {

namespace {
constexpr int dotsPerInch = 600;
constexpr double mmPerInch = 25.4;
constexpr double leastLineMm = 1.6;
}

Outcome writePdf(const QString& path, const QString& title, int pages, const PaintPage& paint)
{
    const auto failed = [&] { return Error { Trouble::Failed, SheetsWords::tr("The PDF could not be made."), path }; };
    if (auto wrong = files::whyNotWrite(path, files::Existing::Replace))
        return *wrong;
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer(&buffer);
    writer.setTitle(title);
    writer.setCreator(QStringLiteral("Washfast"));
    writer.setPageSize(QPageSize(QPageSize::A4));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    writer.setResolution(dotsPerInch);
    QPainter painter;
    if (!painter.begin(&writer))
        return failed();
    for (int page = 0; page < pages; ++page) {
        if (page > 0 && !writer.newPage())
            return failed();
        painter.save();
        const double scale = dotsPerInch / mmPerInch / unitsPerMm;
        painter.scale(scale, scale);
        paint(painter, page);
        painter.restore();
    }
    if (!painter.end())
        return failed();
    return files::writeFiles({ { path, bytes } }, files::Existing::Replace);
}

QImage pageImage(const PaintPage& paint, int page, double dots_per_inch)
{
    const double scale = dots_per_inch / mmPerInch;
    QImage image(qRound(chemistry::pageWidthMm * scale), qRound(chemistry::pageHeightMm * scale), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    painter.scale(scale / unitsPerMm, scale / unitsPerMm);
    paint(painter, page);
    return image;
}

QFont pageFont(double line_mm, bool bold)
{
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPixelSize(qMax(1, qRound(mm(line_mm))));
    font.setBold(bold);
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

QString escaped(const QString& text)
{
    return text.toHtmlEscaped();
}

bool fitsHtml(const QString& html, const QRectF& box, double line_mm, double share)
{
    QTextDocument document;
    document.setDocumentMargin(0);
    document.setDefaultFont(pageFont(line_mm * share));
    document.setHtml(html);
    document.setTextWidth(box.width());
    return document.size().height() <= box.height();
}

void paintHtml(QPainter& painter, const QString& html, const QRectF& box, double line_mm)
{
    QTextDocument document;
    document.setDocumentMargin(0);
    for (double line = line_mm; line >= leastLineMm; line *= 0.95) {
        document.setDefaultFont(pageFont(line));
        document.setHtml(html);
        document.setTextWidth(box.width());
        if (document.size().height() <= box.height())
            break;
    }
    QAbstractTextDocumentLayout::PaintContext context;
    context.palette.setColor(QPalette::Text, Qt::black);
    painter.save();
    painter.translate(box.topLeft());
    document.documentLayout()->draw(&painter, context);
    painter.restore();
}

} // namespace washfast::ui::sheets
