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
    const auto add = [&](const char* key, const QString& does) { hints.push_back({ QString::fromUtf8(key), does }); };
    if (!writable) {
        add("Enter", BenchWords::tr("look into the form"));
        add("Ctrl+Enter", BenchWords::tr("the print's page"));
        add("←→↑↓", BenchWords::tr("move"));
        return hints;
    }
    switch (pressOn(state, station)) {
    case Press::Start:
        add("Space", BenchWords::tr("start"));
        break;
    case Press::End:
        add("Space", BenchWords::tr("end"));
        break;
    case Press::Again:
        add("Space", BenchWords::tr("a further exposure"));
        break;
    case Press::Nothing:
        break;
    }
    if (station == Station::Read)
        add("0–9", BenchWords::tr("type a density"));
    else if (station == Station::Dry || station == Station::Expose || station == Station::Hold)
        add("1–5", BenchWords::tr("touch, wet to crisp"));
    if (station == Station::Coat || station == Station::Dry || station == Station::Hold)
        add("W", BenchWords::tr("weigh"));
    if (station == Station::Expose)
        add("L", BenchWords::tr("light reading"));
    if (station == Station::About) {
        add("N", BenchWords::tr("new print"));
        add("Ctrl+Shift+N", BenchWords::tr("several prints"));
        add("Delete", BenchWords::tr("remove"));
    } else {
        add("A", BenchWords::tr("choose all like this"));
    }
    add("Enter", BenchWords::tr("form"));
    add("R", BenchWords::tr("row by row"));
    add("Ctrl+Z", BenchWords::tr("undo"));
    add("Shift+↑↓", BenchWords::tr("choose several"));
    add("Ctrl+Enter", BenchWords::tr("the print's page"));
    if (station != Station::About)
        add("N", BenchWords::tr("new print"));
    return hints;
}

std::vector<KeyHint> entryHints(bool many)
{
    std::vector<KeyHint> hints { { QStringLiteral("Enter"),
        many ? BenchWords::tr("take it, next print") : BenchWords::tr("take it") } };
    if (many) {
        hints.push_back({ QStringLiteral("↑↓"), BenchWords::tr("another print") });
        hints.push_back({ QStringLiteral("Ctrl+Z"), BenchWords::tr("undo the last") });
    }
    hints.push_back({ QStringLiteral("Esc"), BenchWords::tr("back to the table") });
    return hints;
}

std::vector<KeyHint> formHints()
{
    return { { QStringLiteral("Enter"), BenchWords::tr("take it, next field") },
        { QStringLiteral("Tab"), BenchWords::tr("next field") },
        { QStringLiteral("Esc"), BenchWords::tr("back to the table") } };
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
