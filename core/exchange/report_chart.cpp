#include "core/exchange/report_chart.h"

#include "core/exchange/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::exchange {

namespace {

constexpr double left = 14, right = 4, top = 9, bottom = 13; // of the plot in the chart, mm
constexpr double letter = 3.0; // mm
constexpr double tiny = 1e-9;

/// Tenths of a millimetre: letters of three units would be set with coarse spacing.
QString mm(double value)
{
    return QString::number(value * 10.0, 'f', 1);
}

class Pen {
public:
    explicit Pen(QXmlStreamWriter& to)
        : to_(to)
    {
    }
    using Attributes = std::initializer_list<std::pair<const char*, QString>>;
    void element(const char* name, Attributes attributes)
    {
        to_.writeEmptyElement(QString::fromLatin1(name));
        for (const auto& [key, value] : attributes)
            to_.writeAttribute(QString::fromLatin1(key), value);
    }
    void line(double x1, double y1, double x2, double y2, const char* colour, double width)
    {
        element("line",
            { { "x1", mm(x1) }, { "y1", mm(y1) }, { "x2", mm(x2) }, { "y2", mm(y2) },
                { "stroke", QString::fromLatin1(colour) }, { "stroke-width", mm(width) } });
    }
    void text(double x, double y, const QString& says, const char* anchor, const char* colour)
    {
        to_.writeStartElement(QStringLiteral("text"));
        for (const auto& [key, value] : Attributes { { "x", mm(x) }, { "y", mm(y) }, { "font-size", mm(letter) },
                 { "font-family", QStringLiteral("sans-serif") }, { "text-anchor", QString::fromLatin1(anchor) },
                 { "fill", QString::fromLatin1(colour) } })
            to_.writeAttribute(QString::fromLatin1(key), value);
        to_.writeCharacters(says);
        to_.writeEndElement();
    }
    void mark(double x, double y, ReportMark mark)
    {
        constexpr double size = 0.9;
        if (mark == ReportMark::Failed) {
            line(x - size, y - size, x + size, y + size, report_colour::rust, 0.45);
            line(x - size, y + size, x + size, y - size, report_colour::rust, 0.45);
            return;
        }
        const bool kept = mark == ReportMark::Kept;
        element("circle",
            { { "cx", mm(x) }, { "cy", mm(y) }, { "r", mm(size) },
                { "fill", kept ? QString::fromLatin1(report_colour::blue) : QStringLiteral("none") },
                { "stroke", QString::fromLatin1(kept ? report_colour::blue : report_colour::quiet) },
                { "stroke-width", mm(0.35) } });
    }

private:
    QXmlStreamWriter& to_;
};

QString tick(double value, const ReportScale& scale)
{
    return QString::number(std::abs(value) < tiny ? 0.0 : value, 'f', scale.decimals);
}

/// Points of one group stand beside one another, in the order that they are given.
double sideways(const ReportChart& chart, size_t at)
{
    int before = 0;
    int all = 0;
    for (size_t i = 0; i < chart.points.size(); ++i)
        if (chart.points[i].x == chart.points[at].x) {
            before += i < at ? 1 : 0;
            ++all;
        }
    return all < 2 ? 0.0 : (double(before) / double(all - 1) - 0.5) * 0.6;
}

ReportScale scaleOf(const ReportChart& chart, double ReportPoint::*coordinate)
{
    double least = 0.0;
    double most = 0.0;
    for (const auto& point : chart.points) {
        least = std::min(least, point.*coordinate);
        most = std::max(most, point.*coordinate);
    }
    return scaleFor(least, most);
}

} // namespace

ReportScale scaleFor(double least, double most)
{
    const double span = std::max(most - std::min(least, 0.0), 0.1);
    const double decade = std::pow(10.0, std::floor(std::log10(span / 4.0)));
    ReportScale scale;
    scale.step = decade;
    for (const double factor : { 2.0, 5.0, 10.0 })
        if (span / scale.step > 8.0)
            scale.step = decade * factor;
    scale.low = std::floor(std::min(least, 0.0) / scale.step + tiny) * scale.step;
    scale.high = std::max(std::ceil(most / scale.step - tiny) * scale.step, scale.low + scale.step);
    scale.decimals = std::clamp(int(-std::floor(std::log10(scale.step) + tiny)), 0, 6);
    return scale;
}

void writeSvg(QXmlStreamWriter& to, const ReportChart& chart)
{
    const bool grouped = !chart.groups.isEmpty();
    const auto y_scale = scaleOf(chart, &ReportPoint::y);
    const auto x_scale
        = grouped ? ReportScale { -0.5, double(chart.groups.size()) - 0.5, 1.0, 0 } : scaleOf(chart, &ReportPoint::x);
    const double width = chart.width_mm - left - right;
    const double height = chart.height_mm - top - bottom;
    const auto x = [&](double value) { return left + (value - x_scale.low) / (x_scale.high - x_scale.low) * width; };
    const auto y
        = [&](double value) { return top + height - (value - y_scale.low) / (y_scale.high - y_scale.low) * height; };
    to.writeStartElement(QStringLiteral("svg"));
    to.writeDefaultNamespace(QStringLiteral("http://www.w3.org/2000/svg"));
    to.writeAttribute(
        QStringLiteral("viewBox"), QStringLiteral("0 0 %1 %2").arg(mm(chart.width_mm), mm(chart.height_mm)));
    to.writeAttribute(QStringLiteral("width"), QString::number(chart.width_mm) + QStringLiteral("mm"));
    to.writeAttribute(QStringLiteral("height"), QString::number(chart.height_mm) + QStringLiteral("mm"));
    to.writeAttribute(QStringLiteral("role"), QStringLiteral("img"));
    to.writeTextElement(QStringLiteral("title"), chart.title);
    to.writeTextElement(QStringLiteral("desc"), chart.says);
    Pen pen(to);
    for (int i = 0; y_scale.low + i * y_scale.step <= y_scale.high + tiny; ++i) {
        const double value = y_scale.low + i * y_scale.step;
        pen.line(left, y(value), left + width, y(value), report_colour::line, 0.2);
        pen.text(left - 1.5, y(value) + letter / 3, tick(value, y_scale), "end", report_colour::quiet);
    }
    pen.text(0, letter, chart.y_label, "start", report_colour::quiet);
    if (grouped) {
        // Names that would run into one another are left out.
        qsizetype longest = 1;
        for (const auto& name : chart.groups)
            longest = std::max(longest, name.size());
        const double room = width / double(chart.groups.size());
        const auto every = std::max<qsizetype>(1, qsizetype(std::ceil(double(longest) * letter * 0.6 / room)));
        for (qsizetype i = 0; i < chart.groups.size(); i += every)
            pen.text(x(double(i)), top + height + letter + 1, chart.groups[i], "middle", report_colour::quiet);
    } else {
        for (int i = 0; x_scale.low + i * x_scale.step <= x_scale.high + tiny; ++i) {
            const double value = x_scale.low + i * x_scale.step;
            pen.line(x(value), top + height, x(value), top + height + 1, report_colour::quiet, 0.25);
            pen.text(x(value), top + height + letter + 1.2, tick(value, x_scale), "middle", report_colour::quiet);
        }
    }
    pen.line(left, top + height, left + width, top + height, report_colour::quiet, 0.25);
    for (size_t i = 0; i < chart.medians.size(); ++i)
        if (chart.medians[i])
            pen.line(x(double(i) - 0.38), y(*chart.medians[i]), x(double(i) + 0.38), y(*chart.medians[i]),
                report_colour::ink, 0.5);
    for (size_t i = 0; i < chart.points.size(); ++i) {
        const auto& point = chart.points[i];
        pen.mark(x(point.x + (grouped ? sideways(chart, i) : 0.0)), y(point.y), point.mark);
    }
    // The key at the upper right, and what the horizontal axis counts below.
    const double key = letter * 0.75;
    double at = left + width;
    const std::pair<ReportMark, QString> signs[] = { { ReportMark::NotJudged, Words::tr("not judged") },
        { ReportMark::Failed, Words::tr("failed") }, { ReportMark::Kept, Words::tr("kept") } };
    for (const auto& [mark, name] : signs) {
        pen.text(at, letter, name, "end", report_colour::ink);
        at -= double(name.size()) * letter * 0.56 + 2.0;
        pen.mark(at, key, mark);
        at -= 4.0;
    }
    pen.text(left + width / 2, chart.height_mm - 1.2, chart.x_label, "middle", report_colour::quiet);
    to.writeEndElement();
}

QByteArray svgDocument(const ReportChart& chart)
{
    QByteArray bytes;
    QXmlStreamWriter writer(&bytes);
    writer.writeStartDocument();
    writeSvg(writer, chart);
    writer.writeEndDocument();
    return bytes;
}

} // namespace washfast::exchange
