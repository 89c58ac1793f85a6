#include "ui/sunlight/day_paint.h"

#include "ui/common/chart_style.h"
#include "ui/common/tone_pair.h"
#include "ui/sunlight/words.h"

#include <QPainter>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace washfast::ui::sunlight {

namespace {

constexpr double dayLeft = 84, dayRight = 22;
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

/// Marks of the minutes' axis, from the top; it begins at one of them.
constexpr std::array neededTicks { 240.0, 120.0, 60.0, 30.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05 };

/// Spaced so that what lies under it stays to be seen: under a nearly clear sky the two lines are one.
QPen clearPen(const Theme& theme)
{
    QPen pen(theme.categories[5], 2);
    pen.setCapStyle(Qt::FlatCap);
    pen.setDashPattern({ 2, 5 });
    return pen;
}

double logOf(const std::optional<double>& minutes)
{
    return minutes && *minutes > 0 ? std::log10(*minutes) : nothing;
}

} // namespace

QRectF dayAcross(const QRectF& area)
{
    return area.adjusted(dayLeft, 0, -dayRight, 0);
}

DayPaint::DayPaint(QPainter& painter, const Theme& theme, const DayState& day, const QRectF& area)
    : painter_(painter)
    , theme_(theme)
    , day_(day)
    , area_(area)
    , body_(painter.font())
    , small_(textFont(painter.font(), TextSize::Small))
{
    painter_.setFont(small_);
    text_ = painter_.fontMetrics().height();
    layOut();
}

double DayPaint::x(double minute) const
{
    return light_.toPlace({ minute, 0 }).x();
}

void DayPaint::layOut()
{
    const auto across = dayAcross(area_);
    double y = area_.top() + 8 + QFontMetricsF(body_).height() + 2;
    legend_ = { across.left(), y, across.width(), text_ };
    y += text_ + 6;
    uv_ = { across.left(), y, across.width(), text_ + 4 };
    y += uv_.height() + 4;
    exposures_ = {};
    if (day_.lesson() && !day_.lesson()->marks.empty()) {
        exposures_ = { across.left(), y, across.width(), text_ + 4 };
        y += exposures_.height() + 4;
    }
    const double gap = text_ + 10; // with the caption of the plot below
    const double foot = 2 * text_ + 12;
    const double room = std::max(90.0, area_.bottom() - foot - y - 3 * gap + 6);
    const auto frame = [&](double share, double low, double high) {
        y += gap - (share > 0.4 ? 6 : 0);
        const QRectF area(across.left(), y, across.width(), room * share);
        y += area.height();
        return PlotFrame { area, 0, day_.length_min(), low, high };
    };
    double most = 1;
    double least_min = longestUseful_min, highest = 10;
    for (const auto& one : day_.samples()) {
        most = std::max({ most, one.clear_w_m2, one.high_w_m2 });
        highest = std::max(highest, one.height_deg);
        for (const auto* needed : { &one.needed, &one.needed_behind })
            if (needed->low && *needed->low > 0)
                least_min = std::min(least_min, *needed->low);
    }
    light_ = frame(0.46, 0, niceAxis(0, most, 5).high);
    double floor_min = 60;
    for (const double minutes : neededTicks)
        if (minutes <= least_min * 0.97) {
            floor_min = std::min(60.0, minutes);
            break;
        }
    needed_ = frame(0.32, std::log10(floor_min), std::log10(longestUseful_min));
    height_ = frame(0.22, 0, std::ceil(highest / 15) * 15);
}

std::vector<AxisMark> DayPaint::clockMarks() const
{
    std::vector<AxisMark> marks;
    const int every = light_.area.width() > 760 ? 1 : light_.area.width() > 420 ? 2 : 3;
    for (const auto& tick : day_.ticks(every))
        marks.push_back({ tick.minute, tick.label });
    return marks;
}

QList<QPointF> DayPaint::series(double DaySample::*what) const
{
    QList<QPointF> points;
    points.reserve(qsizetype(day_.samples().size()));
    for (const auto& one : day_.samples())
        points.append({ one.minute, one.*what });
    return points;
}

void DayPaint::paint(std::optional<double> current)
{
    heading();
    lessonBand();
    legend();
    uvStrip();
    exposures();
    ultraviolet();
    needed();
    sunHeight(current);
    clockChange();
    if (current)
        pointer(*current);
}

void DayPaint::heading()
{
    auto bold = body_;
    bold.setBold(true);
    painter_.setFont(bold);
    painter_.setPen(theme_.ink);
    const QRectF line(legend_.left(), area_.top() + 7, legend_.width(), QFontMetricsF(body_).height());
    painter_.drawText(line, Qt::AlignLeft | Qt::AlignVCenter, day_.heading());
    const double used = painter_.fontMetrics().horizontalAdvance(day_.heading()) + 24;
    painter_.setFont(body_);
    painter_.setPen(theme_.quiet);
    painter_.drawText(line.adjusted(used, 0, 0, 0), Qt::AlignRight | Qt::AlignVCenter,
        painter_.fontMetrics().elidedText(day_.sunSentence(), Qt::ElideRight, int(line.width() - used)));
    painter_.setFont(small_);
}

void DayPaint::legend()
{
    double at = legend_.left();
    const double middle = legend_.center().y();
    const auto entry = [&](const QString& words, const auto& sign) {
        const double wide = painter_.fontMetrics().horizontalAdvance(words);
        if (at + 34 + wide > legend_.right())
            return;
        sign(QRectF(at, legend_.top() + 2, 28, legend_.height() - 4));
        painter_.setPen(theme_.ink);
        painter_.drawText(QRectF(at + 34, legend_.top(), wide + 2, legend_.height()), Qt::AlignVCenter, words);
        at += 34 + wide + 20;
    };
    const auto stroke = [&](const QPen& pen) {
        return [this, pen, middle](const QRectF& box) {
            painter_.setPen(pen);
            painter_.drawLine(QPointF(box.left(), middle), QPointF(box.right(), middle));
        };
    };
    entry(Words::tr("clear sky"), stroke(clearPen(theme_)));
    entry(Words::tr("under the chosen sky (%1), low to high").arg(skyWords(day_.ask().sky)), [&](const QRectF& box) {
        painter_.fillRect(box, veiled(theme_.blue, 60));
        painter_.setPen(QPen(theme_.blue, 2));
        painter_.drawLine(QPointF(box.left(), middle), QPointF(box.right(), middle));
    });
    if (day_.ask().pane)
        entry(Words::tr("behind %1").arg(day_.ask().pane->name), stroke(QPen(theme_.categories[1], 2, Qt::DashLine)));
    if (day_.lesson())
        entry(day_.lesson()->that_day ? Words::tr("lesson %1").arg(day_.lesson()->code)
                                      : Words::tr("hour of lesson %1").arg(day_.lesson()->code),
            [&](const QRectF& box) {
                painter_.fillRect(box, veiled(theme_.coated, 90));
                painter_.setPen(QPen(theme_.coatedMark, 1));
                painter_.drawRect(box);
            });
}

void DayPaint::uvStrip()
{
    painter_.setPen(theme_.ink);
    painter_.drawText(
        QRectF(uv_.left() - 82, uv_.top(), 76, uv_.height()), Qt::AlignRight | Qt::AlignVCenter, Words::tr("UV Index"));
    painter_.fillRect(uv_, veiled(theme_.line, 70));
    for (const auto& run : day_.uvRuns()) {
        const auto step = static_cast<double>(run.band);
        const QRectF box(QPointF(x(run.from_min), uv_.top()), QPointF(x(run.to_min), uv_.bottom()));
        const auto fill = onRamp(theme_.ramp, 0.1 + 0.2 * step);
        painter_.fillRect(box.adjusted(0.5, 0, -0.5, 0), fill);
        const auto name = light::uvBandName(run.band);
        if (painter_.fontMetrics().horizontalAdvance(name) + 6 > box.width())
            continue;
        painter_.setPen(textOn(fill, theme_));
        painter_.drawText(box, Qt::AlignCenter, name);
    }
    if (day_.uvRuns().empty()) {
        painter_.setPen(theme_.quiet);
        painter_.drawText(uv_, Qt::AlignCenter, Words::tr("0: the sun is down"));
    }
}

void DayPaint::exposures()
{
    if (exposures_.isEmpty())
        return;
    const auto& marks = day_.lesson()->marks;
    painter_.setPen(theme_.ink);
    painter_.drawText(QRectF(exposures_.left() - 82, exposures_.top(), 76, exposures_.height()),
        Qt::AlignRight | Qt::AlignVCenter, Words::tr("Exposures"));
    // One above the other where they overlap, as many lanes as there is room for.
    constexpr double lane = 3.5;
    const int lanes = std::max(1, int(exposures_.height() / lane));
    std::vector<double> free_from(size_t(lanes), -1.0);
    for (const auto& mark : marks) {
        const double to = mark.to_min.value_or(mark.from_min);
        auto at = std::find_if(free_from.begin(), free_from.end(), [&](double end) { return end < mark.from_min; });
        if (at == free_from.end())
            at = std::min_element(free_from.begin(), free_from.end());
        *at = to;
        const double y = exposures_.bottom() - lane * (double(at - free_from.begin()) + 0.5) - 1;
        const double from_x = x(mark.from_min);
        if (mark.to_min) {
            painter_.setPen(QPen(theme_.printedOut, 2.4, Qt::SolidLine, Qt::FlatCap));
            painter_.drawLine(QPointF(from_x, y), QPointF(std::max(from_x + 2, x(std::min(to, day_.length_min()))), y));
        } else { // nobody noted its end
            painter_.setPen(QPen(theme_.printedOut, 1.4));
            painter_.drawLine(QPointF(from_x, y - 2), QPointF(from_x, y + 2));
        }
    }
    double end = day_.lesson()->to_min;
    for (const auto& mark : marks)
        end = std::max(end, mark.to_min.value_or(mark.from_min));
    painter_.setPen(theme_.quiet);
    painter_.drawText(QRectF(x(end) + 8, exposures_.top(), 200, exposures_.height()), Qt::AlignLeft | Qt::AlignVCenter,
        Words::tr("%1 in all").arg(marks.size()));
}

void DayPaint::lessonBand()
{
    if (!day_.lesson())
        return;
    const double from = std::clamp(day_.lesson()->from_min, 0.0, day_.length_min());
    const double to = std::clamp(day_.lesson()->to_min, 0.0, day_.length_min());
    if (to <= from)
        return;
    const QRectF band(QPointF(x(from), uv_.bottom() + 2), QPointF(x(to), height_.area.bottom()));
    painter_.fillRect(band, veiled(theme_.coated, theme_.dark ? 45 : 80));
    painter_.setPen(QPen(theme_.coatedMark, 1));
    painter_.drawLine(band.topLeft(), band.bottomLeft());
    painter_.drawLine(band.topRight(), band.bottomRight());
}

void DayPaint::ultraviolet()
{
    const PlotPanel panel(painter_, theme_, light_);
    const auto axis = niceAxis(0, light_.yHigh, 5);
    std::vector<AxisMark> across;
    for (double value = 0; value <= light_.yHigh + axis.step / 2; value += axis.step)
        across.push_back({ value, figure(value, axis.decimals) });
    panel.grid(across, clockMarks());
    panel.caption(Words::tr("Ultraviolet at a level sheet in the open, W/m² (315-400 nm)"));
    panel.band(series(&DaySample::low_w_m2), series(&DaySample::high_w_m2), veiled(theme_.blue, 60));
    panel.line(series(&DaySample::likely_w_m2), QPen(theme_.blue, 2));
    panel.line(series(&DaySample::clear_w_m2), clearPen(theme_));
    if (day_.ask().pane)
        panel.line(series(&DaySample::behind_w_m2), QPen(theme_.categories[1], 2, Qt::DashLine));
    if (day_.sun().kind == light::DayKind::AlwaysDown)
        paintLabel(painter_, theme_, light_.area.center(), day_.sunSentence(), light_.area, theme_.ink);
}

void DayPaint::needed()
{
    const PlotPanel panel(painter_, theme_, needed_);
    std::vector<AxisMark> across;
    for (const double minutes : neededTicks)
        if (std::log10(minutes) >= needed_.yLow - 1e-9)
            across.insert(across.begin(), { std::log10(minutes), minutesMark(minutes) });
    panel.grid(across, clockMarks());
    panel.caption(Words::tr("Minutes that a print needs for %1 J/cm² (%2)")
                      .arg(roughFigure(day_.ask().dose.j_cm2), day_.ask().dose.from));
    QList<QPointF> low, likely, high, behind;
    for (const auto& one : day_.samples()) {
        const double best = logOf(one.needed.low);
        low.append({ one.minute, best });
        likely.append({ one.minute, logOf(one.needed.minutes) });
        high.append({ one.minute, one.needed.high ? logOf(one.needed.high) : needed_.yHigh });
        behind.append({ one.minute, logOf(one.needed_behind.minutes) });
    }
    panel.band(low, high, veiled(theme_.blue, 60));
    panel.line(likely, QPen(theme_.blue, 2));
    if (day_.ask().pane)
        panel.line(behind, QPen(theme_.categories[1], 2, Qt::DashLine));
    neededGaps(panel, likely);
}

void DayPaint::neededGaps(const PlotPanel& panel, const QList<QPointF>& likely)
{
    const auto& area = panel.frame().area;
    if (!day_.quickest()) {
        paintLabel(painter_, theme_, area.center(), day_.bestSentence(), area, theme_.ink);
        return;
    }
    // Runs without an answer, apart for the night and for light that is too weak.
    const auto kindOf = [&](qsizetype at) {
        return std::isfinite(likely[at].y()) ? 0 : day_.samples()[size_t(at)].height_deg <= 0 ? 1 : 2;
    };
    for (qsizetype from = 0; from < likely.size();) {
        const int kind = kindOf(from);
        qsizetype to = from;
        while (to < likely.size() && kindOf(to) == kind)
            ++to;
        const auto words = kind == 1 ? Words::tr("the sun is down") : Words::tr("over 4 h");
        const double begin = x(likely[from].x()), end = x(likely[to - 1].x());
        if (kind != 0 && end - begin > painter_.fontMetrics().horizontalAdvance(words) + 12) {
            painter_.setPen(theme_.quiet);
            painter_.drawText(QRectF(begin, area.top() + 4, end - begin, text_), Qt::AlignCenter, words);
        }
        from = to;
    }
}

void DayPaint::sunHeight(std::optional<double> current)
{
    const PlotPanel panel(painter_, theme_, height_);
    const double step = height_.yHigh > 60 ? 30 : 15;
    std::vector<AxisMark> across;
    for (double degrees = 0; degrees <= height_.yHigh + 0.5; degrees += step)
        across.push_back({ degrees, Words::tr("%1°").arg(figure(degrees, 0)) });
    const auto clock = clockMarks();
    panel.grid(across, clock);
    panel.underline(clock);
    panel.caption(Words::tr("Height of the sun"));
    QList<QPointF> path;
    for (const auto& one : day_.samples())
        path.append({ one.minute, one.height_deg >= 0 ? one.height_deg : nothing });
    panel.line(path, QPen(theme_.categories[5], 2));

    const auto mark = [&](const std::optional<Instant>& when, const QString& words, double place) {
        if (!when)
            return;
        const double minute = day_.minuteOf(*when);
        if (minute < 0 || minute > day_.length_min())
            return;
        const double at = x(minute);
        painter_.setPen(QPen(theme_.quiet, 1, Qt::DashLine));
        painter_.drawLine(QPointF(at, height_.area.top()), QPointF(at, height_.area.bottom()));
        const auto text = words.arg(clockText(*when));
        const double half = painter_.fontMetrics().horizontalAdvance(text) / 2.0 + 7;
        paintLabel(painter_, theme_, { at + place * half, height_.area.bottom() - text_ / 2 - 2 }, text, height_.area,
            theme_.ink);
    };
    mark(day_.sun().sunrise, Words::tr("rise %1"), -1);
    mark(day_.sun().sunset, Words::tr("set %1"), 1);
    if (day_.sun().kind != light::DayKind::AlwaysDown)
        mark(day_.sun().solar_noon, Words::tr("noon of the sun %1"), 0);

    painter_.setPen(theme_.quiet);
    const auto zone = Words::tr("hours of the local clock (%1)").arg(QString::fromUtf8(day_.ask().site.zone.id()));
    painter_.drawText(QRectF(height_.area.left(), height_.area.bottom() + 6 + text_, height_.area.width(), text_),
        (current && *current > day_.length_min() * 0.6 ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter, zone);
}

void DayPaint::clockChange()
{
    if (!day_.clockChange())
        return;
    const double at = x(day_.clockChange()->minute);
    painter_.setPen(QPen(theme_.rust, 1.4, Qt::DashDotLine));
    for (const auto& frame : { light_, needed_, height_ })
        painter_.drawLine(QPointF(at, frame.area.top()), QPointF(at, frame.area.bottom()));
    paintLabel(painter_, theme_, { at, light_.area.top() + text_ / 2 + 2 }, day_.clockChange()->label, light_.area,
        theme_.rust);
}

void DayPaint::pointer(double minute)
{
    const auto& one = day_.near(minute);
    const double at = x(one.minute);
    painter_.setPen(QPen(theme_.ink, 1));
    painter_.drawLine(QPointF(at, uv_.top()), QPointF(at, height_.area.bottom()));
    const auto dot = [&](const PlotFrame& frame, double value, const QColor& colour) {
        if (!std::isfinite(value))
            return;
        painter_.setPen(QPen(theme_.sheet, 1.5));
        painter_.setBrush(colour);
        painter_.drawEllipse(frame.toPlace({ one.minute, value }), 4, 4);
        painter_.setBrush(Qt::NoBrush);
    };
    dot(light_, one.likely_w_m2, theme_.blue);
    dot(needed_, logOf(one.needed.minutes), theme_.blue);
    if (one.height_deg >= 0)
        dot(height_, one.height_deg, theme_.categories[5]);
    if (day_.ask().pane) {
        dot(light_, one.behind_w_m2, theme_.categories[1]);
        dot(needed_, logOf(one.needed_behind.minutes), theme_.categories[1]);
    }
    paintLabel(painter_, theme_, { at, height_.area.bottom() + 6 + 1.5 * text_ }, clockText(one.at),
        QRectF(area_.left(), height_.area.bottom(), area_.width(), 2 * text_ + 10), theme_.ink);
}

} // namespace washfast::ui::sunlight
