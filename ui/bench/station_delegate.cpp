#include "ui/bench/station_delegate.h"

#include "ui/bench/bench_model.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>

namespace washfast::ui {

namespace {

constexpr double cellMargin = 3;
constexpr double textGap = 7;
constexpr int fewestLetters = 6; // less of a word says nothing

enum class Sign { Ring, Dot, Wedge, Flag, Tick, Half, Due, Dash, Cross };

Sign signOf(const CellState& state)
{
    if (state.contradicts || (state.failed && !state.waits_day_after))
        return Sign::Cross;
    if (state.due)
        return Sign::Due;
    switch (state.stage) {
    case Stage::Waiting:
        return state.next ? Sign::Ring : Sign::Dot;
    case Stage::Running:
        return state.goal_share.value_or(0.0) >= 1.0 ? Sign::Flag : Sign::Wedge;
    case Stage::Done:
        return Sign::Tick;
    case Stage::Begun:
        return Sign::Half;
    case Stage::Passed:
        return Sign::Dash;
    }
    return Sign::Dot;
}

/// A sign in a square, in one colour.
void paintSign(QPainter& painter, const QRectF& box, Sign sign, const QColor& colour, const QColor& behind)
{
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QPointF c = box.center();
    const double r = box.width() / 2;
    const QPen line(colour, std::max(1.4, r * 0.26), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    switch (sign) {
    case Sign::Ring:
        painter.setPen(line);
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(c, r * 0.72, r * 0.72);
        break;
    case Sign::Dot:
        painter.drawEllipse(c, r * 0.24, r * 0.24);
        break;
    case Sign::Wedge:
        painter.drawPolygon(QPolygonF { QPointF(c.x() - r * 0.55, c.y() - r * 0.8), QPointF(c.x() + r * 0.85, c.y()),
            QPointF(c.x() - r * 0.55, c.y() + r * 0.8) });
        break;
    case Sign::Flag:
        painter.setPen(line);
        painter.drawLine(QPointF(c.x() - r * 0.6, c.y() - r * 0.85), QPointF(c.x() - r * 0.6, c.y() + r * 0.9));
        painter.drawPolygon(QPolygonF { QPointF(c.x() - r * 0.6, c.y() - r * 0.8),
            QPointF(c.x() + r * 0.8, c.y() - r * 0.35), QPointF(c.x() - r * 0.6, c.y() + r * 0.15) });
        break;
    case Sign::Tick:
    case Sign::Cross:
        painter.drawEllipse(c, r, r);
        painter.setPen(QPen(behind, std::max(1.4, r * 0.28), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        if (sign == Sign::Tick) {
            painter.drawPolyline(QPolygonF { QPointF(c.x() - r * 0.45, c.y() + r * 0.02),
                QPointF(c.x() - r * 0.1, c.y() + r * 0.38), QPointF(c.x() + r * 0.48, c.y() - r * 0.36) });
        } else {
            painter.drawLine(c - QPointF(r * 0.36, r * 0.36), c + QPointF(r * 0.36, r * 0.36));
            painter.drawLine(c + QPointF(-r * 0.36, r * 0.36), c + QPointF(r * 0.36, -r * 0.36));
        }
        break;
    case Sign::Half:
        painter.drawPie(QRectF(c.x() - r * 0.72, c.y() - r * 0.72, r * 1.44, r * 1.44), 90 * 16, 180 * 16);
        painter.setPen(line);
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(c, r * 0.72, r * 0.72);
        break;
    case Sign::Due: {
        QPen dashes(colour, std::max(1.4, r * 0.24), Qt::CustomDashLine, Qt::FlatCap, Qt::MiterJoin);
        dashes.setDashPattern({ 1.6, 1.1 });
        painter.setPen(dashes);
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(QRectF(c.x() - r * 0.75, c.y() - r * 0.75, r * 1.5, r * 1.5));
        break;
    }
    case Sign::Dash:
        painter.setPen(line);
        painter.drawLine(c - QPointF(r * 0.55, 0), c + QPointF(r * 0.55, 0));
        break;
    }
    painter.restore();
}

struct Texts {
    QRectF sign, first, second;
    QString second_text;
};

/// Where the sign and the two texts go; what does not fit is left out rather than squeezed.
Texts arrange(const QPainter& painter, const QRectF& inner, const CellPaint& cell, const QString& first)
{
    const QFontMetricsF metrics(painter.fontMetrics());
    Texts texts;
    const double side = std::min(inner.height() - 6, metrics.height() * 0.82);
    texts.sign = QRectF(inner.left() + 6, inner.center().y() - side / 2, side, side);
    const double left = texts.sign.right() + textGap;
    const double room = inner.right() - 7 - left;
    const double width = metrics.horizontalAdvance(first);
    texts.first = QRectF(left, inner.top(), std::min(width + 2, std::max(0.0, room)), inner.height());
    const QFontMetricsF small(textFont(painter.font(), TextSize::Small), painter.device());
    for (const auto& text : cell.second) {
        const double wanted = small.horizontalAdvance(text);
        if (text.isEmpty() || wanted > room - width - textGap)
            continue;
        texts.second_text = text;
        texts.second = QRectF(inner.right() - 7 - wanted - 1, inner.top(), wanted + 2, inner.height());
        return texts;
    }
    // Words may end in dots; a number never does.
    const double rest = room - width - textGap;
    const bool words = !cell.second.isEmpty() && !cell.state.figure.number() && !cell.state.goal_share;
    if (words && rest > small.averageCharWidth() * fewestLetters) {
        texts.second_text = small.elidedText(cell.second.last(), Qt::ElideRight, rest);
        texts.second = QRectF(inner.right() - 7 - rest, inner.top(), rest, inner.height());
    }
    return texts;
}

void paintTexts(QPainter& painter, const Texts& texts, const QString& first, const QColor& ink, const QColor& quiet)
{
    painter.setPen(ink);
    painter.drawText(texts.first, int(Qt::AlignLeft | Qt::AlignVCenter | Qt::TextSingleLine), first);
    if (texts.second_text.isEmpty())
        return;
    const QFont font = painter.font();
    painter.setFont(textFont(font, TextSize::Small));
    painter.setPen(quiet);
    painter.drawText(texts.second, int(Qt::AlignRight | Qt::AlignVCenter | Qt::TextSingleLine), texts.second_text);
    painter.setFont(font);
}

/// A sheet under way: the pill, its fill, and the texts in the colour that reads on each part.
void paintRunning(QPainter& painter, const QRectF& inner, const CellPaint& cell, const Theme& theme)
{
    painter.setRenderHint(QPainter::Antialiasing);
    QPainterPath pill;
    const double radius = std::min(inner.height() / 2, 9.0);
    pill.addRoundedRect(inner, radius, radius);
    QFont strong = painter.font();
    strong.setWeight(QFont::DemiBold);
    painter.setFont(strong);
    const auto texts = arrange(painter, inner, cell, cell.first);
    const auto part = [&](const QRectF& where, const QColor& fill) {
        if (where.width() <= 0)
            return;
        painter.save();
        painter.setClipRect(where, Qt::IntersectClip);
        painter.fillPath(pill, fill);
        const QColor ink = textOn(fill, theme);
        paintSign(painter, texts.sign, signOf(cell.state), ink, fill);
        paintTexts(painter, texts, cell.first, ink, ink);
        painter.restore();
    };
    const bool filling = cell.station == Station::Expose;
    const double share = filling ? std::clamp(cell.state.goal_share.value_or(0.0), 0.0, 1.0) : 1.0;
    const double edge = inner.left() + inner.width() * share;
    part(QRectF(inner.left(), inner.top(), edge - inner.left(), inner.height()), stationFill(cell.station, theme));
    part(QRectF(edge, inner.top(), inner.right() - edge, inner.height()), theme.coated);
    const bool reached = cell.state.goal_share.value_or(0.0) >= 1.0;
    painter.setPen(QPen(reached ? theme.blue : theme.edge, reached ? 2.0 : 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(pill);
}

} // namespace

QColor stationFill(Station station, const Theme& theme)
{
    switch (station) {
    case Station::Expose:
    case Station::Hold:
        return theme.printedOut;
    case Station::Rinse:
    case Station::Read:
        return theme.blue;
    default:
        return theme.coated;
    }
}

QColor stationMark(Station station, const Theme& theme)
{
    const bool before_light = station == Station::Coat || station == Station::Dry;
    return before_light ? theme.coatedMark : stationFill(station, theme);
}

void paintStationCell(QPainter& painter, const QRectF& area, const CellPaint& cell, const Theme& theme)
{
    painter.save();
    const QRectF inner = area.adjusted(cellMargin, cellMargin, -cellMargin, -cellMargin);
    const auto& state = cell.state;
    if (state.stage == Stage::Running && !state.contradicts) {
        paintRunning(painter, inner, cell, theme);
        painter.restore();
        return;
    }
    const bool wrong = state.contradicts || (state.failed && !state.waits_day_after);
    const bool quiet = state.stage == Stage::Waiting || state.stage == Stage::Passed;
    // A sheet waits for one station; at those after it a dot is enough.
    const QString first
        = state.stage == Stage::Passed || (state.stage == Stage::Waiting && !state.next) ? QString() : cell.first;
    const QColor mark = wrong ? theme.rust : quiet ? theme.edge : stationMark(cell.station, theme);
    const auto texts = arrange(painter, inner, cell, first);
    paintSign(painter, texts.sign, signOf(state), mark, textOn(mark, theme));
    paintTexts(painter, texts, first,
        wrong       ? theme.rust
            : quiet ? theme.quiet
                    : theme.ink,
        wrong ? theme.rust : theme.quiet);
    painter.restore();
}

StationDelegate::StationDelegate(const Catalogue& catalogue, const Theme& theme, QObject* parent)
    : QStyledItemDelegate(parent)
    , catalogue_(catalogue)
    , theme_(theme)
{
}

void StationDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    QStyleOptionViewItem plain = option;
    plain.state &= ~QStyle::State_HasFocus; // the ring is painted here, over the cell
    const auto* style = option.widget ? option.widget->style() : QApplication::style();
    style->drawPrimitive(QStyle::PE_PanelItemViewItem, &plain, painter, option.widget);
    painter->save();
    painter->setFont(option.font);
    if (const auto station = BenchModel::stationOf(index.column())) {
        const auto state = index.data(BenchModel::StateRole).value<CellState>();
        paintStationCell(*painter, option.rect,
            { *station, state, index.data().toString(), figureTexts(state, catalogue_, QLocale()) }, theme_);
    } else {
        paintSheet(*painter, option, index);
    }
    painter->restore();
    const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
    if (!view || view->currentIndex() != index)
        return;
    painter->save();
    const bool focused = view->hasFocus();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen(focused ? theme_.blue : theme_.edge, focused ? 2.0 : 1.0));
    painter->setBrush(Qt::NoBrush);
    painter->drawRoundedRect(QRectF(option.rect).adjusted(1, 1, -1, -1), 4, 4);
    painter->restore();
}

void StationDelegate::paintSheet(QPainter& painter, const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    const QRectF inner = QRectF(option.rect).adjusted(10, 0, -6, 0);
    QFont strong = option.font;
    strong.setWeight(QFont::DemiBold);
    const QFontMetricsF metrics(strong, painter.device());
    const auto code = index.data().toString();
    painter.setFont(strong);
    painter.setPen(theme_.ink);
    const auto shown = metrics.elidedText(code, Qt::ElideMiddle, inner.width());
    painter.drawText(inner, int(Qt::AlignLeft | Qt::AlignVCenter | Qt::TextSingleLine), shown);
    const auto* model = qobject_cast<const BenchModel*>(index.model());
    const double left = inner.left() + metrics.horizontalAdvance(shown) + 10;
    const QRectF rest(left, inner.top(), inner.right() - left, inner.height());
    if (!model || rest.width() < metrics.averageCharWidth() * 3)
        return;
    const QFont small = textFont(option.font, TextSize::Small);
    painter.setFont(small);
    painter.setPen(theme_.quiet);
    const auto about
        = QFontMetricsF(small, painter.device()).elidedText(model->about(index.row()), Qt::ElideRight, rest.width());
    painter.drawText(rest, int(Qt::AlignLeft | Qt::AlignVCenter | Qt::TextSingleLine), about);
}

QSize StationDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    const int height = comfortableRowHeight(option.fontMetrics);
    const int letters = BenchModel::stationOf(index.column()) ? 15 : 22;
    return { option.fontMetrics.averageCharWidth() * letters, height };
}

} // namespace washfast::ui
