#include "ui/sunlight/plan_sheet.h"

#include "ui/common/tone_pair.h"
#include "ui/sunlight/words.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

namespace washfast::ui::sunlight {

namespace {

constexpr double planLeft = 92, planRight = 18;
constexpr double barHeight = 13;

QColor fillOf(Station station, const Theme& theme)
{
    switch (station) {
    case Station::Coat:
    case Station::Dry:
        return theme.coated;
    case Station::Expose:
    case Station::Hold:
        return theme.printedOut;
    default:
        return theme.blue;
    }
}

/// A minute on the frame; what never comes lies at its planRight end.
double across(const PlotFrame& frame, double minute)
{
    const double inside = std::isfinite(minute) ? std::clamp(minute, frame.xLow, frame.xHigh) : frame.xHigh;
    return frame.toPlace({ inside, 0 }).x();
}

void whisker(QPainter& painter, double from, double to, double y)
{
    painter.drawLine(QPointF(from, y), QPointF(to, y));
    painter.drawLine(QPointF(from, y - 4), QPointF(from, y + 4));
}

} // namespace

PlanSheet::PlanSheet(const Theme& theme, QWidget* parent)
    : PaintedSheet(theme, parent)
{
    setMinimumSize(420, 240);
    setAccessibleName(tr("Timeline of the lesson"));
}

void PlanSheet::setPlan(std::shared_ptr<const PlanState> plan, size_t which)
{
    plan_ = std::move(plan);
    which_ = std::min(which, plan_->shown().size() - 1);
    setAccessibleName(tr("Timeline of the lesson: %1").arg(shown()->title));
    setAccessibleDescription(plan_->inWords(*shown()));
    again();
}

void PlanSheet::paintInto(QPainter& painter, const QRectF& area, bool) const
{
    if (!plan_)
        return;
    const auto body = painter.font();
    auto bold = body;
    bold.setBold(true);
    const auto& plan = *shown();
    painter.setFont(bold);
    painter.setPen(theme().ink);
    const double head = painter.fontMetrics().height();
    painter.drawText(QRectF(area.left() + 12, area.top() + 7, area.width() - 24, head), Qt::AlignLeft,
        painter.fontMetrics().elidedText(plan.title, Qt::ElideRight, int(area.width() - 24)));
    painter.setFont(textFont(body, TextSize::Small));
    const double text = painter.fontMetrics().height();
    legend(painter, { area.left() + 12, area.top() + head + 11, area.width() - 24, text });

    const double top = area.top() + head + 2 * text + 22;
    PlotFrame frame { { area.left() + planLeft, top, area.width() - planLeft - planRight,
                          area.bottom() - text - 10 - top },
        0, plan_->reach_min(plan), 0, 1 };
    const PlotPanel panel(painter, theme(), frame);
    const double step = frame.xHigh > 240 ? 60 : frame.xHigh > 100 ? 20 : 10;
    std::vector<AxisMark> marks;
    for (double minute = 0; minute <= frame.xHigh; minute += step)
        marks.push_back({ minute, plan_->clock(minute) });
    panel.grid({}, marks);
    panel.underline(marks);

    const double end = across(frame, plan_->input().lesson_min);
    painter.setPen(QPen(theme().rust, 1.6, Qt::DashLine));
    painter.drawLine(QPointF(end, frame.area.top() - 4), QPointF(end, frame.area.bottom()));
    paintLabel(painter, theme(), { end, frame.area.top() - 5 - text / 2 },
        Words::tr("lesson ends %1").arg(plan_->clock(plan_->input().lesson_min)),
        QRectF(area.left(), area.top(), area.width() - 6, area.height()), theme().rust);

    const auto rows = double(plan.bars.size()) + 1;
    const double high = frame.area.height() / rows;
    double middle = frame.area.top() + high / 2;
    for (const auto& bar : plan.bars) {
        stationRow(painter, frame, bar, middle);
        middle += high;
    }
    endRow(painter, frame, middle);
}

void PlanSheet::legend(QPainter& painter, const QRectF& line) const
{
    double x = line.left();
    const auto entry = [&](const QString& words, const auto& sign) {
        const double wide = painter.fontMetrics().horizontalAdvance(words);
        if (x + 32 + wide > line.right())
            return;
        sign(QRectF(x, line.center().y() - 5, 26, 10));
        painter.setPen(theme().quiet);
        painter.drawText(QRectF(x + 32, line.top(), wide + 2, line.height()), Qt::AlignVCenter, words);
        x += wide + 32 + 18;
    };
    entry(Words::tr("as is likely"), [&](const QRectF& box) { painter.fillRect(box, theme().printedOut); });
    entry(Words::tr("if it goes slowly"), [&](const QRectF& box) {
        painter.setPen(QPen(theme().edge, 1));
        painter.drawRect(box);
        paintHatch(painter, box, theme().edge, 5);
    });
    entry(Words::tr("soonest"), [&](const QRectF& box) {
        painter.setPen(QPen(theme().ink, 1.4));
        whisker(painter, box.left() + 1, box.right(), box.center().y());
    });
    painter.setPen(theme().quiet);
    painter.drawText(QRectF(x, line.top(), line.right() - x, line.height()), Qt::AlignRight | Qt::AlignVCenter,
        painter.fontMetrics().elidedText(plan_->heading(), Qt::ElideMiddle, int(line.right() - x)));
}

void PlanSheet::stationRow(QPainter& painter, const PlotFrame& frame, const StationBar& bar, double middle) const
{
    const double text = painter.fontMetrics().height();
    const double y = middle - text / 2; // of the bar; the words stand below it
    painter.setPen(theme().ink);
    painter.drawText(QRectF(frame.area.left() - planLeft, middle - text, planLeft - 10, 2 * text),
        Qt::AlignRight | Qt::AlignVCenter | Qt::TextWordWrap, bar.name);
    const double from = across(frame, bar.start_min.likely), to = across(frame, bar.end_min.likely);
    const double slow = across(frame, bar.end_min.high);
    const auto fill = fillOf(bar.station, theme());
    const QRectF late(to, y - barHeight / 2, std::max(0.0, slow - to), barHeight);
    painter.setPen(QPen(theme().edge, 1));
    if (late.width() > 1) {
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(late);
        paintHatch(painter, late, theme().edge, 5);
    }
    if (std::isfinite(bar.start_min.likely)) {
        painter.setPen(QPen(theme().edge, 1));
        painter.setBrush(fill);
        painter.drawRect(QRectF(from, y - barHeight / 2, std::max(2.0, to - from), barHeight));
        painter.setBrush(Qt::NoBrush);
        // The soonest end, as a notch in the bar.
        const double soon = across(frame, bar.end_min.low);
        painter.setPen(QPen(textOn(fill, theme()), 1.4));
        if (soon > from + 3 && soon < to - 1)
            whisker(painter, soon, to - 1, y);
    }
    if (!std::isfinite(bar.end_min.high)) { // it goes on beyond the picture
        painter.setPen(Qt::NoPen);
        painter.setBrush(theme().rust);
        const double x = frame.area.right();
        painter.drawPolygon(QPolygonF { { x + 9, y }, { x, y - 7 }, { x, y + 7 } });
        painter.setBrush(Qt::NoBrush);
    }
    const double wide = painter.fontMetrics().horizontalAdvance(bar.when);
    const double begin = std::min(from, frame.area.right() - wide - 2);
    paintLabel(painter, theme(), { begin + wide / 2 + 2, y + barHeight / 2 + text / 2 + 1 }, bar.when,
        frame.area.adjusted(2, 0, 0, 0), theme().ink);
}

void PlanSheet::endRow(QPainter& painter, const PlotFrame& frame, double middle) const
{
    const auto& plan = *shown();
    const double text = painter.fontMetrics().height();
    const double y = middle - text / 2;
    painter.setPen(theme().ink);
    painter.drawText(QRectF(frame.area.left() - planLeft, middle - text, planLeft - 10, 2 * text),
        Qt::AlignRight | Qt::AlignVCenter | Qt::TextWordWrap, Words::tr("Cleared up"));
    const double soon = across(frame, plan.end_min.low), likely = across(frame, plan.end_min.likely),
                 slow = across(frame, plan.end_min.high);
    const bool late = plan.fit == drying::Fit::No;
    const auto colour = late ? theme().rust : theme().ink;
    painter.setPen(QPen(colour, 1.4));
    painter.drawLine(QPointF(soon, y), QPointF(slow, y));
    painter.drawLine(QPointF(soon, y - 4), QPointF(soon, y + 4));
    if (std::isfinite(plan.end_min.high))
        painter.drawLine(QPointF(slow, y - 4), QPointF(slow, y + 4));
    else
        painter.drawPolyline(QPolygonF { { slow - 6, y - 5 }, { slow, y }, { slow - 6, y + 5 } });
    if (std::isfinite(plan.end_min.likely)) {
        painter.setBrush(colour);
        painter.drawPolygon(QPolygonF { { likely - 6, y }, { likely, y - 6 }, { likely + 6, y }, { likely, y + 6 } });
        painter.setBrush(Qt::NoBrush);
    }
    auto words = plan.end_words;
    if (!plan.next_lesson.isEmpty())
        words += Words::tr("; next lesson: %1").arg(plan.next_lesson);
    const double wide = painter.fontMetrics().horizontalAdvance(words);
    paintLabel(painter, theme(), { std::min(soon + wide / 2, frame.area.right() - wide / 2), y + 7 + text / 2 }, words,
        frame.area.adjusted(2, 0, 0, 0), colour);
}

} // namespace washfast::ui::sunlight
