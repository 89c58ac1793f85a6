// A printable report of a term as a list of parts: what was made, what went wrong, every print, and what the data are
// worth. It says nothing about paper or screens: report_html.h writes it as a page, core/report as a PDF.
//
// Not recorded is a dash, never a zero. Numbers that were estimated stand as ≈0.60, assumed ones as (0.60). Makers are
// left out unless they are asked for; photos, file names, coordinates and notes are never in it.
#pragma once

#include "core/exchange/export.h"
#include "core/exchange/report_chart.h"

#include <QDate>

namespace washfast::exchange {

struct ReportTable {
    QString caption;
    QStringList headings;
    std::vector<bool> figures; // columns of numbers: at the right
    std::vector<QStringList> rows;
};

struct ReportPart {
    enum class Kind { Heading, Text, Strong, Note, List, Table, Chart };
    Kind kind = Kind::Text;
    QString text; // of a heading, a text, a strong text or a note
    QStringList items {}; // of a list
    ReportTable table {};
    ReportChart chart {};
};

struct Report {
    QString title, subtitle;
    std::vector<ReportPart> parts;
};

/// What the search for causes says about some of these prints.
struct ReportAnswer {
    QString about; // which prints: "S4: 6 of 8 failed"
    QString verdict; // a few words
    QStringList sentences;
};

struct ReportOptions {
    bool makers = false; // with the codes of the makers
    QDate written; // the day that the report gives; none when not valid
    std::vector<ReportAnswer> answers;
};

[[nodiscard]] Report makeReport(const ExportSelection& selection, const ReportOptions& options);

} // namespace washfast::exchange
