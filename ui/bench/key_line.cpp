#include "ui/bench/key_line.h"

#include "ui/bench/words.h"

#include <QPainter>

namespace washfast::ui {

namespace {

constexpr double capPadding = 6; // inside a key's cap, left and right
constexpr double afterCap = 5;
constexpr double afterHint = 16;

} // namespace

std::vector<KeyHint> keyHints(Station station, const CellState& state, bool writable)
{
    std::vector<KeyHint> hints;
    const auto add = [&](const QString& key, const QString& does) { hints.push_back({ key, does }); };
    if (!writable) {
        add(BenchWords::tr("Enter"), BenchWords::tr("look into the form"));
        add(BenchWords::tr("Ctrl+Enter"), BenchWords::tr("the print's page"));
        add(QStringLiteral("←→↑↓"), BenchWords::tr("move"));
        return hints;
    }
    switch (pressOn(state, station)) {
    case Press::Start:
        add(BenchWords::tr("Space"), BenchWords::tr("start"));
        break;
    case Press::End:
        add(BenchWords::tr("Space"), BenchWords::tr("end"));
        break;
    case Press::Again:
        add(BenchWords::tr("Space"), BenchWords::tr("a further exposure"));
        break;
    case Press::Nothing:
        break;
    }
    if (station == Station::Read)
        add(QStringLiteral("0–9"), BenchWords::tr("type a density"));
    else if (station == Station::Dry || station == Station::Expose || station == Station::Hold)
        add(QStringLiteral("1–5"), BenchWords::tr("touch, wet to crisp"));
    if (station == Station::Coat || station == Station::Dry || station == Station::Hold)
        add(QStringLiteral("W"), BenchWords::tr("weigh"));
    if (station == Station::Expose)
        add(QStringLiteral("L"), BenchWords::tr("light reading"));
    if (station == Station::About) {
        add(QStringLiteral("N"), BenchWords::tr("new print"));
        add(BenchWords::tr("Ctrl+Shift+N"), BenchWords::tr("several prints"));
        add(BenchWords::tr("Delete"), BenchWords::tr("remove"));
    } else {
        add(QStringLiteral("A"), BenchWords::tr("choose all like this"));
    }
    add(BenchWords::tr("Enter"), BenchWords::tr("form"));
    add(QStringLiteral("R"), BenchWords::tr("row by row"));
    add(BenchWords::tr("Ctrl+Z"), BenchWords::tr("undo"));
    add(BenchWords::tr("Shift+↑↓"), BenchWords::tr("choose several"));
    add(BenchWords::tr("Ctrl+Enter"), BenchWords::tr("the print's page"));
    if (station != Station::About)
        add(QStringLiteral("N"), BenchWords::tr("new print"));
    return hints;
}

std::vector<KeyHint> entryHints(bool many)
{
    std::vector<KeyHint> hints { { BenchWords::tr("Enter"),
        many ? BenchWords::tr("take it, next print") : BenchWords::tr("take it") } };
    if (many) {
        hints.push_back({ QStringLiteral("↑↓"), BenchWords::tr("another print") });
        hints.push_back({ BenchWords::tr("Ctrl+Z"), BenchWords::tr("undo the last") });
    }
    hints.push_back({ BenchWords::tr("Esc"), BenchWords::tr("back to the table") });
    return hints;
}

std::vector<KeyHint> formHints()
{
    return { { BenchWords::tr("Enter"), BenchWords::tr("take it, next field") },
        { BenchWords::tr("Tab"), BenchWords::tr("next field") },
        { BenchWords::tr("Esc"), BenchWords::tr("back to the table") } };
}

QString hintsText(const std::vector<KeyHint>& hints)
{
    QStringList parts;
    for (const auto& hint : hints)
        parts << hint.key + QStringLiteral(": ") + hint.does;
    return parts.join(QStringLiteral("; "));
}

KeyLine::KeyLine(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , theme_(theme)
{
    setFont(textFont(font(), TextSize::Small));
    setAccessibleName(tr("Keys"));
    setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
}

void KeyLine::setHints(std::vector<KeyHint> hints)
{
    if (hints == hints_)
        return;
    hints_ = std::move(hints);
    setAccessibleDescription(hintsText(hints_));
    setToolTip(hintsText(hints_));
    update();
}

void KeyLine::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

QSize KeyLine::sizeHint() const
{
    return { 400, fontMetrics().height() + 12 };
}

QSize KeyLine::minimumSizeHint() const
{
    return { 80, sizeHint().height() };
}

void KeyLine::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QFontMetricsF metrics(font(), this);
    const double middle = height() / 2.0;
    double x = 4;
    for (const auto& hint : hints_) {
        const double cap = metrics.horizontalAdvance(hint.key) + 2 * capPadding;
        const double words = metrics.horizontalAdvance(hint.does);
        if (x + cap + afterCap + words > width())
            return;
        const QRectF box(x, middle - metrics.height() / 2 - 2, cap, metrics.height() + 4);
        painter.setPen(QPen(theme_.edge, 1));
        painter.setBrush(theme_.sheet);
        painter.drawRoundedRect(box, 3, 3);
        painter.setPen(theme_.ink);
        painter.drawText(box, int(Qt::AlignCenter | Qt::TextSingleLine), hint.key);
        painter.setPen(theme_.quiet);
        painter.drawText(QRectF(box.right() + afterCap, 0, words + 2, height()),
            int(Qt::AlignLeft | Qt::AlignVCenter | Qt::TextSingleLine), hint.does);
        x = box.right() + afterCap + words + afterHint;
    }
}

} // namespace washfast::ui
