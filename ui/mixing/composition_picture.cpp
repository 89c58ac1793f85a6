#include "ui/mixing/composition_picture.h"

#include "core/chemistry/audit_findings.h"

#include <QLocale>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace washfast::ui::mixing {

namespace {

constexpr int axisHeight = 80;
constexpr int footHeight = 26;
constexpr double markSize = 8;
constexpr double shapeStep = markSize + 5;

QString number(double value)
{
    return QLocale().toString(value, 'f', value < 0.1 ? 3 : 2);
}

/// A shape for each formula: circle, square, triangle, diamond ...
void paintShape(QPainter& painter, const QPointF& at, int which)
{
    const double r = markSize / 2 + 1;
    switch (which % 4) {
    case 0:
        painter.drawEllipse(at, r, r);
        break;
    case 1:
        painter.drawRect(QRectF(at.x() - r, at.y() - r, 2 * r, 2 * r));
        break;
    case 2:
        painter.drawPolygon(QPolygonF({ at + QPointF(0, -r), at + QPointF(r, r), at + QPointF(-r, r) }));
        break;
    default:
        painter.drawPolygon(
            QPolygonF({ at + QPointF(0, -r), at + QPointF(r, 0), at + QPointF(0, r), at + QPointF(-r, 0) }));
    }
}

} // namespace

CompositionPicture::CompositionPicture(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setAccessibleName(tr("Composition beside the published formulas"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void CompositionPicture::setAudit(const chemistry::Audit& audit, bool planned)
{
    audit_ = audit;
    planned_ = planned;
    describe();
    updateGeometry();
    update();
}

void CompositionPicture::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

std::vector<CompositionPicture::Axis> CompositionPicture::axes() const
{
    std::vector<Mark> ratios, strengths;
    int shape = 0;
    for (const auto& beside : audit_.beside) {
        ratios.push_back({ shape, beside.iron_to_hexacyanoferrate });
        strengths.push_back({ shape++, beside.iron_mol_l });
    }
    for (auto* marks : { &ratios, &strengths })
        std::sort(marks->begin(), marks->end(), [](const Mark& a, const Mark& b) { return a.value < b.value; });
    const auto published = chemistry::publishedRatios();
    std::vector<Axis> all;
    all.push_back({ tr("Iron : hexacyanoferrate"), 0.25, 16, true, std::pair(published.low, published.high),
        { 0.25, 0.5, 1, 2, 4, 8, 16 }, ratios, audit_.iron_to_hexacyanoferrate, tr("not known yet") });
    if (audit_.citrate_to_iron && *audit_.citrate_to_iron > 0)
        all.push_back({ tr("Citrate : iron"), 0, 3, false,
            std::pair(chemistry::findings::citrateLow, chemistry::findings::citrateHigh), { 0, 0.5, 1, 1.5, 2, 2.5, 3 },
            {}, audit_.citrate_to_iron, tr("not known yet") });
    if (audit_.base_needed_mmol && *audit_.base_needed_mmol > 0)
        all.push_back({ tr("Neutralised: base weighed over base needed"), 0, 2, false,
            std::pair(chemistry::findings::baseShort, chemistry::findings::baseTooMuch), { 0, 0.5, 1, 1.5, 2 }, {},
            audit_.neutralised, tr("not known yet") });
    all.push_back({ tr("Iron, mol/L"), 0.02, 1.28, true, {}, { 0.02, 0.04, 0.08, 0.16, 0.32, 0.64, 1.28 }, strengths,
        audit_.iron_mol_l, tr("not known yet") });
    return all;
}

QSize CompositionPicture::minimumSizeHint() const
{
    return { 380, int(axes().size()) * axisHeight + footHeight };
}

QSize CompositionPicture::sizeHint() const
{
    return minimumSizeHint().expandedTo({ 560, 0 });
}

void CompositionPicture::describe()
{
    QStringList words;
    for (const auto& axis : axes())
        words << QStringLiteral("%1: %2").arg(axis.title, axis.mix ? number(*axis.mix) : axis.unknown);
    setAccessibleDescription(words.join(QStringLiteral("; ")));
    setToolTip(words.join(QLatin1Char('\n')));
}

void CompositionPicture::paintAxis(QPainter& painter, const QRectF& box, const Axis& axis) const
{
    const auto small = textFont(font(), TextSize::Small);
    const QFontMetricsF metrics(small);
    const double left = box.left() + 14, right = box.right() - 14;
    const double y = box.top() + 50;
    const auto place = [&](double value) {
        const double v = std::clamp(value, axis.low, axis.high);
        const double share = axis.logarithmic ? std::log(v / axis.low) / std::log(axis.high / axis.low)
                                              : (v - axis.low) / (axis.high - axis.low);
        return left + share * (right - left);
    };
    painter.setFont(font());
    painter.setPen(theme_.ink);
    painter.drawText(
        QRectF(box.left(), box.top(), box.width() * 0.68, 18), Qt::AlignLeft | Qt::AlignVCenter, axis.title);
    QFont strong = font();
    strong.setBold(true);
    painter.setFont(strong);
    painter.drawText(QRectF(box.left(), box.top(), box.width(), 18), Qt::AlignRight | Qt::AlignVCenter,
        axis.mix ? (planned_ ? tr("%1 planned") : tr("%1 weighed")).arg(number(*axis.mix)) : axis.unknown);

    if (axis.good) { // the range that agrees: a band with a bracket, so that it is seen without colour
        QRectF band(
            place(axis.good->first), y - 9, std::max(3.0, place(axis.good->second) - place(axis.good->first)), 18);
        painter.fillRect(band, theme_.selection);
        painter.setPen(QPen(theme_.edge, 1));
        painter.drawLine(band.topLeft(), band.bottomLeft());
        painter.drawLine(band.topRight(), band.bottomRight());
    }
    painter.setPen(QPen(theme_.edge, 1));
    painter.drawLine(QPointF(left, y), QPointF(right, y));
    painter.setFont(small);
    for (const double tick : axis.ticks) {
        painter.setPen(QPen(theme_.edge, 1));
        painter.drawLine(QPointF(place(tick), y), QPointF(place(tick), y + 4));
        painter.setPen(theme_.quiet);
        const auto words = QLocale().toString(tick, 'g', 3);
        painter.drawText(
            QRectF(place(tick) - 30, y + 10, 60, metrics.height()), Qt::AlignHCenter | Qt::AlignTop, words);
    }
    painter.setRenderHint(QPainter::Antialiasing);
    double last_x = left - shapeStep;
    for (const auto& mark : axis.published) { // those that would lie on one another stand side by side, with a leader
        const double x = place(mark.value);
        last_x = std::max(x, last_x + shapeStep);
        painter.setPen(QPen(theme_.edge, 1));
        painter.drawLine(QPointF(x, y), QPointF(last_x, y - 12));
        painter.setPen(QPen(theme_.ink, 1.2));
        painter.setBrush(theme_.categories[size_t(mark.shape) % theme_.categories.size()]);
        paintShape(painter, QPointF(last_x, y - 18), mark.shape);
    }
    if (axis.mix) {
        const double x = place(*axis.mix);
        QPainterPath drop(QPointF(x, y + 1)); // a pointer that stands on the axis
        drop.lineTo(x - 7, y - 12);
        drop.lineTo(x + 7, y - 12);
        drop.closeSubpath();
        painter.setPen(QPen(theme_.blue, 2));
        painter.setBrush(planned_ ? theme_.sheet : theme_.blue);
        painter.drawPath(drop);
        if (*axis.mix > axis.high || *axis.mix < axis.low) {
            painter.setPen(theme_.rust);
            painter.drawText(QRectF(x - 60, y - 30, 60, 16), Qt::AlignRight,
                *axis.mix > axis.high ? tr("beyond ›") : tr("‹ beyond"));
        }
    }
}

void CompositionPicture::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    double top = 0;
    for (const auto& axis : axes()) {
        paintAxis(painter, QRectF(0, top, width(), axisHeight), axis);
        top += axisHeight;
    }
    // Which shape is which formula.
    painter.setFont(textFont(font(), TextSize::Small));
    const QFontMetricsF metrics(painter.font());
    double x = 10;
    for (size_t i = 0; i < audit_.beside.size(); ++i) {
        const auto* recipe = chemistry::findRecipe(audit_.beside[i].recipe);
        QString name = recipe ? recipe->name : audit_.beside[i].recipe;
        name = name.section(QLatin1Char(','), 0, 0);
        painter.setPen(QPen(theme_.ink, 1.2));
        painter.setBrush(theme_.categories[i % theme_.categories.size()]);
        paintShape(painter, QPointF(x, top + footHeight / 2.0), int(i));
        painter.setPen(theme_.ink);
        x += markSize + 4;
        painter.drawText(
            QRectF(x, top, metrics.horizontalAdvance(name) + 4, footHeight), Qt::AlignLeft | Qt::AlignVCenter, name);
        x += metrics.horizontalAdvance(name) + 20;
    }
}

} // namespace washfast::ui::mixing
