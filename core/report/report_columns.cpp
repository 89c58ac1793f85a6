#include "core/report/report_layout.h"

#include <QFontMetricsF>
#include <QTextFormat>
#include <algorithm>
#include <numeric>

namespace washfast::report {

using namespace paper;

QList<QTextLength> columnWidths(const exchange::ReportTable& table)
{
    const QFontMetricsF plain(reportFont(cellPt));
    const QFontMetricsF bold(reportFont(cellPt, true));
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
    const double page_width = per_mm * (widthMm - 2 * sideMm);
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

} // namespace washfast::report
