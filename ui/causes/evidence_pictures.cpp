#include "ui/causes/evidence_pictures.h"

#include "ui/causes/words.h"
#include "ui/common/chart_style.h"

#include <QLocale>
#include <algorithm>
#include <cmath>
#include <functional>

namespace washfast::ui {

namespace {

void cross(QPainter& painter, QPointF at, double r, const QColor& colour)
{
    painter.setPen(QPen(colour, 2));
    painter.drawLine(at - QPointF(r, r), at + QPointF(r, r));
    painter.drawLine(at - QPointF(r, -r), at + QPointF(r, -r));
}

void dot(QPainter& painter, QPointF at, double r, const QColor& colour)
{
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawEllipse(at, r, r);
}

/// Marks that would lie on one another step aside, up and down in turn.
class Aside {
public:
    explicit Aside(double size)
        : size_(size)
    {
    }
    double of(double lane, double x, double room)
    {
        int level = 0;
        for (const auto& [other_lane, other_x] : taken_)
            if (other_lane == lane && std::abs(other_x - x) < size_)
                ++level;
        taken_.emplace_back(lane, x);
        const double off = (level % 2 == 0 ? 1 : -1) * ((level + 1) / 2) * size_ * 0.9;
        return std::clamp(off, -room, room);
    }

private:
    double size_;
    std::vector<std::pair<double, double>> taken_;
};

} // namespace

std::vector<QPointF> paintStrip(
    QPainter& painter, const QRectF& area, const StripData& strip, const Theme& theme, int pointed)
{
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QFont body = painter.font();
    const QFont small = textFont(body, TextSize::Small);
    painter.setFont(small);
    const QFontMetricsF metrics(small, painter.device());
    std::vector<QPointF> places;
    if (strip.x.empty()) {
        painter.setPen(theme.quiet);
        painter.drawText(area, Qt::AlignCenter, CausesWords::tr("No print has this factor and the outcome recorded."));
        painter.restore();
        return places;
    }
    const double left = area.left() + metrics.horizontalAdvance(CausesWords::tr("failed")) + 34;
    const QRectF plot(left, area.top() + metrics.height() + 14, area.right() - left - 18,
        area.height() - 3.2 * metrics.height() - 30);
    const auto [low, high] = std::minmax_element(strip.x.begin(), strip.x.end());
    const bool levels = !strip.levels.isEmpty();
    const auto axis = niceAxis(*low, *high, 8);
    const double x0 = levels ? -0.5 : axis.low;
    const double x1 = levels ? double(strip.levels.size()) - 0.5 : axis.high;
    const auto across = [&](double x) { return plot.left() + (x - x0) / (x1 - x0) * plot.width(); };

    painter.setPen(QPen(theme.line, 1));
    if (levels) {
        for (qsizetype i = 0; i < strip.levels.size(); ++i) {
            painter.setPen(QPen(theme.line, 1));
            if (i > 0)
                painter.drawLine(
                    QPointF(across(double(i) - 0.5), plot.top()), QPointF(across(double(i) - 0.5), plot.bottom()));
            painter.setPen(theme.ink);
            const double width = plot.width() / double(strip.levels.size());
            painter.drawText(QRectF(across(double(i)) - width / 2, plot.bottom() + 4, width, metrics.height() + 2),
                Qt::AlignHCenter | Qt::AlignTop, metrics.elidedText(strip.levels[i], Qt::ElideRight, width - 6));
        }
    } else {
        for (int i = 0; i < axis.ticks(); ++i) {
            const double value = axis.low + i * axis.step;
            painter.setPen(QPen(theme.line, 1));
            painter.drawLine(QPointF(across(value), plot.top()), QPointF(across(value), plot.bottom()));
            painter.setPen(theme.quiet);
            painter.drawText(QRectF(across(value) - 60, plot.bottom() + 4, 120, metrics.height() + 2),
                Qt::AlignHCenter | Qt::AlignTop, QLocale().toString(value, 'f', axis.decimals));
        }
    }
    painter.setPen(theme.ink);
    painter.drawText(QRectF(plot.left(), plot.bottom() + metrics.height() + 8, plot.width(), metrics.height() + 2),
        Qt::AlignHCenter | Qt::AlignTop, strip.across);

    const double radius = 4.5;
    Aside aside(2 * radius + 1);
    std::function<double(double)> up;
    if (strip.outcome_is_number) {
        const auto [bottom, top] = std::minmax_element(strip.y.begin(), strip.y.end());
        const auto y_axis = niceAxis(*bottom, *top, 6);
        up = [plot, y_axis](
                 double y) { return plot.bottom() - (y - y_axis.low) / (y_axis.high - y_axis.low) * plot.height(); };
        for (int i = 0; i < y_axis.ticks(); ++i) {
            const double value = y_axis.low + i * y_axis.step;
            painter.setPen(QPen(theme.line, 1));
            painter.drawLine(QPointF(plot.left(), up(value)), QPointF(plot.right(), up(value)));
            painter.setPen(theme.quiet);
            painter.drawText(
                QRectF(area.left(), up(value) - metrics.height() / 2, left - area.left() - 8, metrics.height()),
                Qt::AlignRight | Qt::AlignVCenter, QLocale().toString(value, 'f', y_axis.decimals));
        }
    } else {
        up = [plot](
                 double y) { return y > 0.5 ? plot.top() + plot.height() * 0.27 : plot.top() + plot.height() * 0.73; };
        int failed = 0;
        for (const double y : strip.y)
            failed += y > 0.5 ? 1 : 0;
        const auto lane = [&](double y, const QString& word, int n, const QColor& colour) {
            painter.setPen(QPen(theme.line, 1));
            painter.drawLine(QPointF(plot.left(), up(y)), QPointF(plot.right(), up(y)));
            painter.setPen(colour);
            painter.drawText(
                QRectF(area.left(), up(y) - metrics.height(), left - area.left() - 10, 2 * metrics.height()),
                Qt::AlignRight | Qt::AlignVCenter, word + QLatin1Char('\n') + QString::number(n));
        };
        lane(1, CausesWords::tr("failed"), failed, theme.rust);
        lane(0, CausesWords::tr("kept"), int(strip.y.size()) - failed, theme.blue);
        if (!levels)
            for (const auto& [median, y, colour] :
                { std::tuple(strip.median_failed, 1.0, theme.rust), std::tuple(strip.median_kept, 0.0, theme.blue) })
                if (median) {
                    const double reach = plot.height() * 0.2;
                    painter.setPen(QPen(colour, 2, Qt::DashLine));
                    painter.drawLine(QPointF(across(*median), up(y) - reach), QPointF(across(*median), up(y) + reach));
                    painter.drawText(
                        QRectF(across(*median) - 60, up(y) - reach - metrics.height() - 1, 120, metrics.height()),
                        Qt::AlignCenter, CausesWords::tr("median"));
                }
    }
    painter.setPen(QPen(theme.edge, 1));
    painter.drawLine(plot.bottomLeft(), plot.bottomRight());
    for (size_t i = 0; i < strip.x.size(); ++i) {
        const double x = across(strip.x[i]);
        double y = up(strip.y[i]);
        double shifted = x;
        if (!strip.outcome_is_number) {
            if (levels) { // in a heap about the middle of the level
                int same = 0;
                for (size_t j = 0; j < i; ++j)
                    same += strip.x[j] == strip.x[i] && strip.y[j] == strip.y[i] ? 1 : 0;
                const int in_row
                    = std::max(1, int(plot.width() / double(strip.levels.size()) * 0.7 / (2 * radius + 2)));
                shifted = x + ((same % in_row) - (in_row - 1) / 2.0) * (2 * radius + 2);
                y += ((same / in_row) % 2 == 0 ? 1 : -1) * ((same / in_row + 1) / 2) * (2 * radius + 2);
            } else {
                y += aside.of(strip.y[i], x, plot.height() * 0.2);
            }
        }
        const QPointF at(shifted, y);
        places.push_back(at);
        if (int(i) == pointed) {
            painter.setPen(QPen(theme.ink, 1.5));
            painter.setBrush(Qt::NoBrush);
            painter.drawEllipse(at, radius + 4, radius + 4);
        }
        if (!strip.outcome_is_number && strip.y[i] > 0.5)
            cross(painter, at, radius - 0.5, theme.rust);
        else
            dot(painter, at, radius, theme.blue);
    }
    painter.restore();
    return places;
}

void paintEffects(QPainter& painter, const QRectF& area, const std::vector<Effect>& effects, const Theme& theme)
{
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QFont small = textFont(painter.font(), TextSize::Small);
    painter.setFont(small);
    const QFontMetricsF metrics(small, painter.device());
    if (effects.empty()) {
        painter.setPen(theme.quiet);
        painter.drawText(area, Qt::AlignCenter | Qt::TextWordWrap,
            CausesWords::tr(
                "Odds are reckoned for numbers and yes/no factors, with an outcome that is a yes or a no."));
        painter.restore();
        return;
    }
    double widest = 0;
    for (const auto& effect : effects)
        widest = std::max(
            widest, std::max(metrics.horizontalAdvance(effect.label), metrics.horizontalAdvance(effect.step)));
    const double left = area.left() + std::min(widest + 26, area.width() * 0.4);
    const QRectF plot(left, area.top() + 8, area.right() - left - 24, area.height() - 3 * metrics.height() - 22);
    constexpr double ends = 12; // odds beyond 2^12 are drawn with an arrow
    double reach = 2;
    for (const auto& effect : effects)
        for (const auto& value : { std::optional(effect.odds), effect.low, effect.high })
            if (value && *value > 0)
                reach = std::max(reach, std::abs(std::log2(*value)));
    reach = std::min(std::ceil(reach), ends);
    const auto across = [&](double odds) {
        const double power = odds > 0 ? std::clamp(std::log2(odds), -reach, reach) : -reach;
        return plot.left() + (power + reach) / (2 * reach) * plot.width();
    };
    const int every = reach <= 4 ? 1 : reach <= 8 ? 2 : 4;
    for (int power = -int(reach); power <= int(reach); ++power) {
        if (power % every != 0)
            continue;
        const double x = across(std::exp2(power));
        painter.setPen(QPen(power == 0 ? theme.edge : theme.line, power == 0 ? 1.5 : 1));
        painter.drawLine(QPointF(x, plot.top()), QPointF(x, plot.bottom()));
        painter.setPen(theme.quiet);
        const auto text = power < 0 ? QStringLiteral("1/%1").arg(1 << -power) : QString::number(1 << power);
        painter.drawText(QRectF(x - 40, plot.bottom() + 3, 80, metrics.height()), Qt::AlignHCenter, text);
    }
    painter.setPen(theme.ink);
    painter.drawText(QRectF(plot.left(), plot.bottom() + metrics.height() + 6, plot.width(), metrics.height()),
        Qt::AlignHCenter,
        CausesWords::tr("← fails less often      odds of failing are multiplied by      fails more often →"));
    const double row = plot.height() / double(effects.size());
    for (size_t i = 0; i < effects.size(); ++i) {
        const auto& effect = effects[i];
        const double y = plot.top() + (double(i) + 0.5) * row;
        const QRectF words(area.left() + 6, y - row / 2, left - area.left() - 16, row);
        QFont strong = small;
        strong.setBold(effect.named);
        painter.setFont(strong);
        painter.setPen(theme.ink);
        const bool two = row > 2.1 * metrics.height();
        painter.drawText(two ? words.adjusted(0, 0, 0, -row / 2) : words,
            Qt::AlignRight | (two ? Qt::AlignBottom : Qt::AlignVCenter),
            metrics.elidedText(effect.label, Qt::ElideRight, words.width()));
        painter.setFont(small);
        if (two) {
            painter.setPen(theme.quiet);
            painter.drawText(words.adjusted(0, row / 2, 0, 0), Qt::AlignRight | Qt::AlignTop,
                metrics.elidedText(effect.step, Qt::ElideRight, words.width()));
        }
        const QColor colour = effect.named ? theme.rust : theme.blue;
        painter.setPen(QPen(colour, effect.named ? 2.5 : 1.8, effect.together ? Qt::SolidLine : Qt::DashLine));
        const double from = across(effect.low.value_or(0));
        const double to = across(effect.high.value_or(std::exp2(ends + 1)));
        painter.drawLine(QPointF(from, y), QPointF(to, y));
        const auto arrow = [&](double x, double way) {
            painter.drawLine(QPointF(x, y), QPointF(x - way * 5, y - 4));
            painter.drawLine(QPointF(x, y), QPointF(x - way * 5, y + 4));
        };
        painter.setPen(QPen(colour, 1.8));
        if (!effect.low || std::log2(*effect.low) < -reach)
            arrow(from, -1);
        if (!effect.high || std::log2(*effect.high) > reach)
            arrow(to, 1);
        dot(painter, { across(effect.odds), y }, 4.5, colour);
    }
    painter.setPen(theme.quiet);
    painter.drawText(
        QRectF(area.left() + 6, plot.bottom() + metrics.height() + 6, left - area.left() - 12, metrics.height()),
        Qt::AlignLeft, CausesWords::tr("— together   - - alone"));
    painter.restore();
}

void paintTogether(QPainter& painter, const QRectF& area, const TogetherData& data, const Theme& theme)
{
    painter.save();
    const QFont small = textFont(painter.font(), TextSize::Small);
    painter.setFont(small);
    const QFontMetricsF metrics(small, painter.device());
    const auto n = data.labels.size();
    if (n < 2) {
        painter.setPen(theme.quiet);
        painter.drawText(
            area, Qt::AlignCenter, CausesWords::tr("With fewer than two factors nothing can move together."));
        painter.restore();
        return;
    }
    double widest = 0;
    for (const auto& label : data.labels)
        widest = std::max(widest, metrics.horizontalAdvance(label));
    const double left = area.left() + std::min(widest + 40, area.width() * 0.42);
    const double side
        = std::min((area.right() - left - 8) / double(n), (area.height() - 2 * metrics.height() - 20) / double(n));
    const double top = area.top() + metrics.height() + 8;
    const auto cell = [&](qsizetype row, qsizetype column) {
        return QRectF(left + double(column) * side, top + double(row) * side, side, side);
    };
    for (qsizetype i = 0; i < n; ++i) {
        painter.setPen(theme.ink);
        painter.drawText(QRectF(area.left() + 4, top + double(i) * side, left - area.left() - 10, side),
            Qt::AlignRight | Qt::AlignVCenter,
            QString::number(i + 1) + QLatin1Char(' ')
                + metrics.elidedText(data.labels[i], Qt::ElideRight, left - area.left() - 34));
        painter.drawText(QRectF(cell(0, i).left(), top - metrics.height() - 2, side, metrics.height()),
            Qt::AlignHCenter, QString::number(i + 1));
    }
    for (qsizetype row = 0; row < n; ++row)
        for (qsizetype column = 0; column < n; ++column) {
            const auto box = cell(row, column).adjusted(0.5, 0.5, -0.5, -0.5);
            if (row == column) {
                painter.fillRect(box, theme.line);
                continue;
            }
            const auto& value = data.association[size_t(row)][size_t(column)];
            const auto fill = value ? onRamp(theme.ramp, *value) : theme.sheet;
            painter.fillRect(box, fill);
            painter.setPen(QPen(theme.line, 1));
            painter.drawRect(box);
            if (value && side > metrics.height() * 1.3) {
                painter.setPen(textOn(fill, theme));
                const auto& few = data.disagree[size_t(row)][size_t(column)];
                painter.drawText(
                    box, Qt::AlignCenter, few && *few == 0 ? QStringLiteral("=") : QLocale().toString(*value, 'f', 1));
            }
        }
    painter.setPen(theme.quiet);
    painter.drawText(QRectF(area.left() + 4, top + double(n) * side + 4, area.width() - 8, metrics.height() + 2),
        Qt::AlignLeft,
        CausesWords::tr("0 nothing in common, 1 or = always together: these prints cannot tell such a pair apart"));
    painter.restore();
}

} // namespace washfast::ui
