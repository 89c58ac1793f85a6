#include "ui/causes/reasoning_pdf.h"

#include "ui/causes/answer_panel.h"
#include "ui/causes/next_page.h"
#include "ui/causes/words.h"

#include <QAbstractItemModel>
#include <QBuffer>
#include <QPageLayout>
#include <QPdfWriter>
#include <QTextDocument>
#include <QUrl>

namespace washfast::ui {

namespace {

QString reasoningHtml(const Reasoning& reasoning)
{
    const auto& answer = reasoning.answer;
    const auto say = [](const QString& text) { return text.toHtmlEscaped(); };
    QString html = QStringLiteral("<h2>%1</h2><p>%2</p>").arg(say(reasoning.heading), say(answer.why));
    const auto list = [&](const QString& title, const QStringList& lines) {
        if (lines.isEmpty())
            return;
        html += QStringLiteral("<p><b>%1</b></p><ul>").arg(say(title));
        for (const auto& line : lines)
            html += QStringLiteral("<li>%1</li>").arg(say(line));
        html += QStringLiteral("</ul>");
    };
    list(CausesWords::tr("Why"), reasonsOf(answer));
    if (!answer.prints_for.isEmpty())
        html += QStringLiteral("<p>%1</p>")
                    .arg(say(CausesWords::tr("Prints that speak for it: %1")
                                 .arg(answer.prints_for.join(QStringLiteral(", ")))));
    if (!answer.prints_against.isEmpty())
        html += QStringLiteral("<p>%1</p>")
                    .arg(say(CausesWords::tr("Prints that speak against it: %1")
                                 .arg(answer.prints_against.join(QStringLiteral(", ")))));
    list(CausesWords::tr("To mind"), answer.warnings);
    html += QStringLiteral("<table border='1' cellspacing='0' cellpadding='3'><tr>");
    for (int column = 0; column < reasoning.factors.columnCount(); ++column)
        html += QStringLiteral("<th>%1</th>").arg(say(reasoning.factors.headerData(column, Qt::Horizontal).toString()));
    html += QStringLiteral("</tr>");
    for (int row = 0; row < reasoning.factors.rowCount(); ++row) {
        html += QStringLiteral("<tr>");
        for (int column = 0; column < reasoning.factors.columnCount(); ++column)
            html += QStringLiteral("<td>%1</td>").arg(say(reasoning.factors.index(row, column).data().toString()));
        html += QStringLiteral("</tr>");
    }
    html += QStringLiteral("</table>");
    for (qsizetype i = 0; i < reasoning.pictures.size(); ++i)
        html += QStringLiteral("<p><img src='picture%1' width='460'></p>").arg(i);
    html += QStringLiteral("<p><b>%1</b></p><p>%2</p><ul>")
                .arg(say(CausesWords::tr("Next prints")), say(reasoning.next_says));
    for (const auto& print : reasoning.next.prints)
        html += QStringLiteral("<li>%1 x %2</li>").arg(print.count).arg(say(planNote(print)));
    return html + QStringLiteral("</ul>");
}

} // namespace

QByteArray reasoningPdf(const Reasoning& reasoning, QFont font)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QPdfWriter writer(&buffer);
    writer.setPageSize(QPageSize(QPageSize::A4));
    writer.setPageMargins(QMarginsF(16, 16, 16, 16), QPageLayout::Millimeter);
    writer.setTitle(reasoning.heading);
    QTextDocument document;
    constexpr double points = 8.5;
    font.setPointSizeF(points);
    document.setDefaultFont(font);
    for (qsizetype i = 0; i < reasoning.pictures.size(); ++i)
        document.addResource(
            QTextDocument::ImageResource, QUrl(QStringLiteral("picture%1").arg(i)), reasoning.pictures[i]);
    document.setHtml(reasoningHtml(reasoning));
    document.print(&writer);
    return bytes;
}

} // namespace washfast::ui
