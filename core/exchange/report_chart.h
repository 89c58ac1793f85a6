// Small charts of a report, drawn by ourselves as lines, signs and texts in millimetres; the same drawing goes into the
// page and onto paper.
#pragma once

#include <QStringList>
#include <QXmlStreamWriter>
#include <optional>
#include <vector>

namespace washfast::exchange {

/// Colours of a report, ink on white paper; each but `line` has at least 4.5 : 1 on white (WCAG 2.1, 1.4.3).
namespace report_colour {
inline constexpr const char* ink = "#1B2733";
inline constexpr const char* quiet = "#5A6672";
inline constexpr const char* blue = "#0F3D66"; // kept
inline constexpr const char* rust = "#A8481A"; // failed
inline constexpr const char* line = "#D9D3C4"; // grid and rules, decoration only
inline constexpr const char* band = "#F6F3EA"; // behind headings of tables
}

/// How a print came out; each has a sign of its own, so that colour is never needed.
enum class ReportMark { Kept, Failed, NotJudged }; // filled dot, cross, ring

struct ReportPoint {
    double x = 0.0, y = 0.0;
    ReportMark mark = ReportMark::NotJudged;
};

/// A chart of points: x is a number, or the place of a group (0, 1, 2 ...) when there are group names.
struct ReportChart {
    QString title, x_label, y_label;
    QString says; // what can be seen, for those who cannot see it
    QStringList groups;
    std::vector<ReportPoint> points;
    std::vector<std::optional<double>> medians; // of each group
    double width_mm = 170, height_mm = 62;
};

/// Writes the chart as an <svg> element.
void writeSvg(QXmlStreamWriter& to, const ReportChart& chart);
/// The same as a document of its own.
[[nodiscard]] QByteArray svgDocument(const ReportChart& chart);

/// From zero (or below the least) to the next round number, in four to eight steps. Exposed for tests.
struct ReportScale {
    double low = 0.0, high = 1.0, step = 0.25;
    int decimals = 2;
};
[[nodiscard]] ReportScale scaleFor(double least, double most);

} // namespace washfast::exchange
