#include "ui/sheets/documents.h"

#include "core/chemistry/label.h"
#include "ui/sheets/pictogram_paint.h"
#include "ui/sheets/words.h"

#include <QPainter>
#include <algorithm>

namespace washfast::ui::sheets {

namespace {

constexpr double marginMm = 16;
constexpr double lineMm = 3.5;
constexpr double symbolMm = 13;
constexpr int paragraphGap = 46; // units of a page

QRectF body()
{
    return { mm(marginMm), mm(marginMm), mm(chemistry::pageWidthMm - 2 * marginMm),
        mm(chemistry::pageHeightMm - 2 * marginMm) };
}

QString heading(const QString& text)
{
    return QStringLiteral("<div><b><big><big>%1</big></big></b></div>").arg(escaped(text));
}

QString paragraph(const QString& text)
{
    return QStringLiteral("<div style=\"margin-top:%2px\">%1</div>").arg(text).arg(paragraphGap);
}

QString lines(const QString& text)
{
    return escaped(text).replace(QLatin1Char('\n'), QLatin1String("<br/>"));
}

QString table(const QStringList& rows)
{
    return QStringLiteral("<table border=\"1\" cellspacing=\"0\" cellpadding=\"14\" width=\"100%\" "
                          "style=\"border-collapse:collapse\">%1</table>")
        .arg(rows.join(QString()));
}

QString row(const QStringList& cells, const char* tag = "td")
{
    QString html = QStringLiteral("<tr>");
    for (const auto& cell : cells)
        html += QStringLiteral("<%1 align=\"left\" valign=\"top\">%2</%1>").arg(QLatin1String(tag), cell);
    return html + QStringLiteral("</tr>");
}

QString orLine(const QString& text)
{
    return text.isEmpty() ? QString(24, QLatin1Char('_')) : escaped(text);
}

void paintSubstances(QPainter& painter, const chemistry::RiskSheet& sheet)
{
    QString html = heading(SheetsWords::tr("Risk sheet for a printing session"));
    html += paragraph(SheetsWords::tr("Session %1 &nbsp;&nbsp; Day %2 &nbsp;&nbsp; Group %3")
                          .arg(orLine(sheet.session), orLine(sheet.when), orLine(sheet.group)));
    html += paragraph(QStringLiteral("<b>%1</b>").arg(escaped(sheet.disclaimer)));
    QStringList rows { row(
        { SheetsWords::tr("Substance"), SheetsWords::tr("What labels say"), SheetsWords::tr("Sources, remarks") },
        "th") };
    std::vector<chemistry::Pictogram> symbols;
    for (const auto& substance : sheet.substances) {
        QString says = substance.signal.isEmpty()
            ? QString()
            : QStringLiteral("<b>%1</b><br/>").arg(escaped(chemistry::signalWord(substance.signal)));
        says += lines(substance.statements.join(QLatin1Char('\n')));
        QString about = lines(substance.sources.join(QStringLiteral("; ")));
        if (!substance.note.isEmpty())
            about += QStringLiteral("<br/><i>%1</i>").arg(escaped(substance.note));
        rows << row({ QStringLiteral("<b>%1</b>").arg(escaped(substance.name)), says, about });
        for (const auto& symbol : substance.pictograms)
            if (std::find(symbols.begin(), symbols.end(), symbol) == symbols.end())
                symbols.push_back(symbol);
    }
    if (sheet.substances.empty())
        rows << row({ SheetsWords::tr("No mix is recorded for this session."), QStringLiteral("&nbsp;"),
            QStringLiteral("&nbsp;") });
    html += paragraph(table(rows));
    html += paragraph(QStringLiteral("<i>%1</i>").arg(escaped(sheet.footing)));
    auto box = body();
    const double foot = mm(46);
    double x = box.right();
    for (const auto& symbol : symbols) {
        x -= mm(symbolMm) + mm(1);
        paintPictogram(painter, { x, box.top() - mm(3), mm(symbolMm), mm(symbolMm) }, symbol.code);
    }
    paintHtml(painter, html, box.adjusted(0, 0, 0, -foot), lineMm);
    const QString blank(30, QLatin1Char('_'));
    paintHtml(painter,
        paragraph(SheetsWords::tr("What this school does besides, or otherwise:")) + paragraph(blank + blank + blank)
            + paragraph(blank + blank + blank)
            + paragraph(SheetsWords::tr("Checked and completed by %1 &nbsp; on %2 &nbsp; Signature %1")
                            .arg(QString(18, QLatin1Char('_')), QString(12, QLatin1Char('_')))),
        QRectF(box.left(), box.bottom() - foot + mm(6), box.width(), foot - mm(6)), lineMm);
}

void paintCautions(QPainter& painter, const chemistry::RiskSheet& sheet)
{
    QString html = heading(SheetsWords::tr("Cautions at work"));
    QStringList rows { row({ SheetsWords::tr("What"), SheetsWords::tr("Why"), SheetsWords::tr("What to do"),
                               SheetsWords::tr("Done &nbsp;") },
        "th") };
    for (const auto& caution : sheet.cautions)
        rows << row({ QStringLiteral("<b>%1</b>").arg(escaped(caution.what)), escaped(caution.why),
            escaped(caution.todo), QStringLiteral("&#9744;") });
    html += paragraph(table(rows));
    html += paragraph(QStringLiteral("<i>%1 %2</i>").arg(escaped(sheet.disclaimer), escaped(sheet.footing)));
    paintHtml(painter, html, body(), lineMm * 0.94);
}

} // namespace

PaintPage riskPainter(chemistry::RiskSheet sheet)
{
    return [sheet = std::move(sheet)](QPainter& painter, int page) {
        if (page == 0)
            paintSubstances(painter, sheet);
        else
            paintCautions(painter, sheet);
    };
}

PaintPage teachingPainter(chemistry::TeachingSheet sheet)
{
    return [sheet = std::move(sheet)](QPainter& painter, int page) {
        const bool answers = page == 1;
        QString html = heading(answers ? SheetsWords::tr("%1: answers").arg(sheet.title) : sheet.title);
        html += paragraph(QStringLiteral("<b>%1</b>").arg(SheetsWords::tr("Given")));
        QString given;
        for (const auto& line : sheet.given)
            given += QStringLiteral("<div>– %1</div>").arg(escaped(line));
        html += given;
        int n = 1;
        const QString rule(156, QLatin1Char('.'));
        for (const auto& task : sheet.tasks) {
            html += paragraph(QStringLiteral("<b>%1.</b> %2").arg(n++).arg(escaped(task.asks)));
            if (answers)
                html += QStringLiteral("<div>%1</div>").arg(lines(task.answer));
            else
                html += QStringLiteral("<div>&nbsp;</div><div>%1</div>")
                            .repeated(task.answer.count(QLatin1Char('\n')) > 1 ? 3 : 2)
                            .arg(rule);
        }
        html += paragraph(QStringLiteral("<i>%1</i>").arg(escaped(sheet.footing)));
        paintHtml(painter, html, body(), lineMm);
    };
}

} // namespace washfast::ui::sheets
