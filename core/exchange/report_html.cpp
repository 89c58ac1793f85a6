#include "core/exchange/report_html.h"

#include "core/exchange/words.h"

namespace washfast::exchange {

namespace {

QString style()
{
    using namespace report_colour;
    return QStringLiteral(R"(
@page { size: A4; margin: 16mm 15mm 18mm; }
html { background: #FFFFFF; color: %1; }
body { font: 10.5pt/1.45 sans-serif; max-width: 185mm; margin: 10mm auto; padding: 0 5mm; }
h1 { font-size: 20pt; line-height: 1.2; margin: 0; }
h2 { font-size: 14pt; margin: 9mm 0 2mm; break-after: avoid; }
p { margin: 0 0 2.5mm; max-width: 160mm; }
p.subtitle, p.note { color: %2; }
p.note { font-size: 9pt; }
p.strong { font-weight: bold; margin: 3mm 0 1mm; break-after: avoid; }
ul { margin: 0 0 3mm; padding-left: 6mm; max-width: 160mm; }
figure { margin: 3mm 0 5mm; break-inside: avoid; }
figcaption { font-weight: bold; margin-bottom: 1mm; }
svg { max-width: 100%; height: auto; }
div.wide { overflow-x: auto; margin: 0 0 5mm; }
table { border-collapse: collapse; width: 100%; font-size: 8.5pt; line-height: 1.3; }
caption { text-align: left; font-weight: bold; font-size: 10.5pt; padding: 2mm 0 1mm; break-after: avoid; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th { background: %3; text-align: left; vertical-align: bottom; font-weight: bold; }
th, td { padding: 1mm 1.5mm; border-bottom: 0.25mm solid %4; }
td { vertical-align: top; }
.figure { text-align: right; font-variant-numeric: tabular-nums; }
@media print {
  body { margin: 0; padding: 0; max-width: none; }
  div.wide { overflow: visible; }
  * { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
)")
        .arg(QLatin1String(ink), QLatin1String(quiet), QLatin1String(band), QLatin1String(line));
}

class Page {
public:
    explicit Page(QByteArray& bytes)
        : to_(&bytes)
    {
    }
    void write(const Report& report)
    {
        to_.writeDTD(QStringLiteral("<!DOCTYPE html>"));
        start("html");
        to_.writeAttribute(QStringLiteral("lang"), Words::language());
        start("head");
        to_.writeEmptyElement(QStringLiteral("meta"));
        to_.writeAttribute(QStringLiteral("charset"), QStringLiteral("utf-8"));
        text("title", report.title);
        text("style", style());
        end();
        start("body");
        start("main");
        text("h1", report.title);
        text("p", report.subtitle, "subtitle");
        for (const auto& part : report.parts)
            write(part);
        end();
        end();
        end();
        to_.writeEndDocument();
    }

private:
    void start(const char* element, const char* of_class = nullptr)
    {
        to_.writeStartElement(QString::fromLatin1(element));
        if (of_class)
            to_.writeAttribute(QStringLiteral("class"), QString::fromLatin1(of_class));
    }
    void end() { to_.writeEndElement(); }
    void text(const char* element, const QString& says, const char* of_class = nullptr)
    {
        start(element, of_class);
        to_.writeCharacters(says);
        end();
    }
    void write(const ReportPart& part)
    {
        switch (part.kind) {
        case ReportPart::Kind::Heading:
            text("h2", part.text);
            break;
        case ReportPart::Kind::Text:
            text("p", part.text);
            break;
        case ReportPart::Kind::Strong:
            text("p", part.text, "strong");
            break;
        case ReportPart::Kind::Note:
            text("p", part.text, "note");
            break;
        case ReportPart::Kind::List:
            start("ul");
            for (const auto& item : part.items)
                text("li", item);
            end();
            break;
        case ReportPart::Kind::Table:
            write(part.table);
            break;
        case ReportPart::Kind::Chart:
            start("figure");
            text("figcaption", part.chart.title);
            writeSvg(to_, part.chart);
            end();
            break;
        }
    }
    void write(const ReportTable& table)
    {
        start("div", "wide");
        start("table");
        text("caption", table.caption);
        start("thead");
        start("tr");
        for (qsizetype i = 0; i < table.headings.size(); ++i) {
            start("th", table.figures[size_t(i)] ? "figure" : nullptr);
            to_.writeAttribute(QStringLiteral("scope"), QStringLiteral("col"));
            to_.writeCharacters(table.headings[i]);
            end();
        }
        end();
        end();
        start("tbody");
        for (const auto& row : table.rows) {
            start("tr");
            for (qsizetype i = 0; i < row.size(); ++i)
                text("td", row[i], table.figures[size_t(i)] ? "figure" : nullptr);
            end();
        }
        end();
        end();
        end();
    }

    QXmlStreamWriter to_;
};

} // namespace

QByteArray reportHtml(const Report& report)
{
    QByteArray bytes;
    Page(bytes).write(report);
    return bytes;
}

} // namespace washfast::exchange
