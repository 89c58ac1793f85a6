#include "ui/common/theme.h"

#include "ui/common/outline_style.h"

#include <QApplication>
#include <QFontMetrics>
#include <QFontMetricsF>
#include <QGuiApplication>
#include <QHeaderView>
#include <QLocale>
#include <QStyle>
#include <QTableView>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

QColor hex(QRgb rgb)
{
    return QColor::fromRgb(rgb);
}

QColor mix(const QColor& from, const QColor& to, double share)
{
    const auto part = [share](int a, int b) { return static_cast<int>(std::lround(a + (b - a) * share)); };
    return QColor(part(from.red(), to.red()), part(from.green(), to.green()), part(from.blue(), to.blue()));
}

QString css(const QColor& colour)
{
    return colour.name(QColor::HexRgb);
}

} // namespace

Theme lightTheme()
{
    Theme theme;
    theme.dark = false;
    theme.paper = hex(0xF6F3EA);
    theme.sheet = hex(0xFFFDF7);
    theme.band = hex(0xFAF7EE);
    theme.line = hex(0xD9D3C4);
    theme.edge = hex(0x8A8371);
    theme.ink = hex(0x1B2733);
    theme.quiet = hex(0x5A6672);
    theme.faint = hex(0x8E959B);
    theme.blue = hex(0x0F3D66);
    theme.onBlue = hex(0xFFFDF7);
    theme.coated = hex(0xC5CB6B);
    theme.coatedMark = hex(0x8A9036);
    theme.printedOut = hex(0x838B89);
    theme.rust = hex(0xA8481A);
    theme.selection = hex(0xDCE7F1);
    // After Okabe and Ito, "Color Universal Design", 2008 (blue 0072B2, vermilion D55E00, bluish green 009E73, reddish
    // purple CC79A7, sky blue 56B4E9, orange E69F00): darkened as little as 3 : 1 on the sheet asks for.
    theme.categories = { hex(0x0072B2), hex(0xBC4C00), hex(0x009B6F), hex(0xCC77A6), hex(0x4093F2), hex(0xCF8000) };
    theme.ramp = { hex(0xEDF1F0), hex(0xBFD3DF), hex(0x8AB0CB), hex(0x5389B0), hex(0x2B628F), hex(0x0F3D66) };
    theme.markRamp = { hex(0x9C8E66), hex(0x7C8A7E), hex(0x587F92), hex(0x3A6C93), hex(0x23547F), hex(0x0F3D66) };
    return theme;
}

Theme darkTheme()
{
    Theme theme;
    theme.dark = true;
    theme.paper = hex(0x10161D);
    theme.sheet = hex(0x18212B);
    theme.band = hex(0x1C2630);
    theme.line = hex(0x2C3844);
    theme.edge = hex(0x66788A);
    theme.ink = hex(0xE6E2D6);
    theme.quiet = hex(0x9BA7B1);
    theme.faint = hex(0x67737E);
    theme.blue = hex(0x7FB2DC);
    theme.onBlue = hex(0x10161D);
    theme.coated = hex(0xB4BB5E);
    theme.coatedMark = hex(0xB4BB5E);
    theme.printedOut = hex(0xA2AAA8);
    theme.rust = hex(0xE59257);
    theme.selection = hex(0x1F3850);
    // Okabe and Ito 2008 as published: sky blue, vermilion, bluish green, reddish purple, yellow, orange.
    theme.categories = { hex(0x56B4E9), hex(0xD55E00), hex(0x009E73), hex(0xCC79A7), hex(0xF0E442), hex(0xE69F00) };
    theme.ramp = { hex(0x22303D), hex(0x2F4C66), hex(0x41708F), hex(0x5C94BD), hex(0x8ABBE0), hex(0xC3E0F5) };
    theme.markRamp = { hex(0x80724C), hex(0x7E8670), hex(0x769A9C), hex(0x7FB2DC), hex(0xA4CCEC), hex(0xD2E8F8) };
    return theme;
}

QColor onRamp(const std::array<QColor, 6>& stops, double t)
{
    if (std::isnan(t))
        return {};
    const double place = std::clamp(t, 0.0, 1.0) * static_cast<double>(stops.size() - 1);
    const auto below = std::min(static_cast<std::size_t>(place), stops.size() - 2);
    return mix(stops[below], stops[below + 1], place - static_cast<double>(below));
}

double relativeLuminance(const QColor& colour)
{
    // WCAG 2.1 states 0.03928 where IEC 61966-2-1 has 0.04045; for 8-bit codes both give the same branch.
    const auto linear = [](double v) { return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); };
    const QColor rgb = colour.toRgb();
    return 0.2126 * linear(rgb.red() / 255.0) + 0.7152 * linear(rgb.green() / 255.0)
        + 0.0722 * linear(rgb.blue() / 255.0);
}

double contrastRatio(const QColor& one, const QColor& other)
{
    const double a = relativeLuminance(one);
    const double b = relativeLuminance(other);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

QColor textOn(const QColor& fill, const Theme& theme)
{
    constexpr double enough = 4.5;
    const QColor opposite = theme.dark ? theme.paper : theme.sheet;
    for (const QColor& colour : { theme.ink, opposite })
        if (contrastRatio(colour, fill) >= enough)
            return colour;
    // Between black and white one always has at least sqrt(21) = 4.58 : 1.
    const QColor black(Qt::black);
    const QColor white(Qt::white);
    return contrastRatio(black, fill) >= contrastRatio(white, fill) ? black : white;
}

QPalette palette(const Theme& theme)
{
    QPalette result;
    const auto all = [&result](QPalette::ColorRole role, const QColor& colour) { result.setColor(role, colour); };
    all(QPalette::Window, theme.paper);
    all(QPalette::WindowText, theme.ink);
    all(QPalette::Base, theme.sheet);
    all(QPalette::AlternateBase, theme.band);
    all(QPalette::Text, theme.ink);
    all(QPalette::PlaceholderText, theme.quiet);
    all(QPalette::Button, theme.dark ? mix(theme.sheet, theme.line, 0.6) : mix(theme.paper, theme.line, 0.25));
    all(QPalette::ButtonText, theme.ink);
    all(QPalette::BrightText, theme.rust);
    all(QPalette::Highlight, theme.blue);
    all(QPalette::HighlightedText, theme.onBlue);
    all(QPalette::Link, theme.blue);
    all(QPalette::LinkVisited, theme.blue);
    all(QPalette::ToolTipBase, theme.sheet);
    all(QPalette::ToolTipText, theme.ink);
    all(QPalette::Light, theme.dark ? mix(theme.line, theme.edge, 0.4) : theme.sheet);
    all(QPalette::Midlight, theme.dark ? theme.line : mix(theme.paper, theme.line, 0.5));
    all(QPalette::Mid, theme.dark ? mix(theme.line, theme.paper, 0.3) : mix(theme.line, theme.edge, 0.5));
    all(QPalette::Dark, theme.edge);
    all(QPalette::Shadow, theme.dark ? theme.paper.darker(150) : mix(theme.edge, theme.ink, 0.5));
    for (const auto role : { QPalette::WindowText, QPalette::Text, QPalette::ButtonText })
        result.setColor(QPalette::Disabled, role, theme.faint);
    result.setColor(QPalette::Disabled, QPalette::Highlight, theme.line);
    result.setColor(QPalette::Disabled, QPalette::HighlightedText, theme.faint);
    return result;
}

QString styleSheet(const Theme& theme)
{
    QString sheet = QStringLiteral(
        "QHeaderView { background: %paper; border: 0; border-bottom: 1px solid %edge; }"
        "QHeaderView::section { background: %paper; color: %quiet; border: 0; border-bottom: 1px solid %edge;"
        " padding: 4px 8px; }"
        "QHeaderView::section:hover { color: %ink; }"
        "QTableView QTableCornerButton::section { background: %paper; border: 0; border-bottom: 1px solid %edge; }"
        "QAbstractItemView { selection-background-color: %selection; selection-color: %ink;"
        " alternate-background-color: %band; border: 1px solid %line; outline: 0; }"
        "QAbstractItemView:focus { border: 1px solid %blue; }"
        "QTableView { gridline-color: %line; }"
        "QTableView::item { border: 1px solid transparent; padding: 0 5px; }"
        "QTableView::item:focus { border: 1px solid %blue; }"
        "QToolButton { border: 1px solid transparent; border-radius: 4px; padding: 4px 8px; color: %ink; }"
        "QToolButton:hover { background: %selection; }"
        "QToolButton:checked { background: %selection; border-color: %blue; }"
        "QToolButton:pressed { background: %line; }"
        "QToolButton:focus { border: 2px solid %blue; padding: 3px 7px; }"
        "QToolButton:disabled { color: %faint; }"
        "QToolTip { color: %ink; background: %sheet; border: 1px solid %edge; padding: 4px; }");
    const std::pair<QLatin1String, QColor> names[]
        = { { QLatin1String("%paper"), theme.paper }, { QLatin1String("%quiet"), theme.quiet },
              { QLatin1String("%edge"), theme.edge }, { QLatin1String("%ink"), theme.ink },
              { QLatin1String("%selection"), theme.selection }, { QLatin1String("%band"), theme.band },
              { QLatin1String("%line"), theme.line }, { QLatin1String("%blue"), theme.blue },
              { QLatin1String("%faint"), theme.faint }, { QLatin1String("%sheet"), theme.sheet } };
    for (const auto& [name, colour] : names)
        sheet.replace(name, css(colour));
    return sheet;
}

QFont textFont(const QFont& base, TextSize size)
{
    const double share = size == TextSize::Small ? 0.87 : size == TextSize::Title ? 1.45 : 1.0;
    QFont font = base;
    if (base.pointSizeF() > 0)
        font.setPointSizeF(base.pointSizeF() * share);
    else
        font.setPixelSize(static_cast<int>(std::lround(base.pixelSize() * share)));
    if (size == TextSize::Title)
        font.setWeight(QFont::DemiBold);
    return font;
}

bool hasTabularFigures(const QFont& font)
{
    const QFontMetricsF metrics(font);
    const double width = metrics.horizontalAdvance(QLatin1Char('0'));
    for (char16_t digit = u'1'; digit <= u'9'; ++digit)
        if (std::abs(metrics.horizontalAdvance(QChar(digit)) - width) > 0.01)
            return false;
    return true;
}

QFont withTabularFigures(const QFont& font)
{
    if (hasTabularFigures(font))
        return font;
    for (const auto& family : { QStringLiteral("DejaVu Sans"), QStringLiteral("Liberation Sans"),
             QStringLiteral("Noto Sans"), QStringLiteral("Arial") }) {
        QFont candidate = font;
        candidate.setFamilies(QStringList { family } + font.families());
        if (hasTabularFigures(candidate))
            return candidate;
    }
    return font;
}

QString padFigure(const QString& figure, int decimals, const QLocale& locale)
{
    bool isFigure = false;
    locale.toDouble(figure, &isFigure);
    if (!isFigure)
        return figure;
    constexpr QChar digitBlank(0x2007); // Unicode FIGURE SPACE: as wide as a digit
    constexpr QChar pointBlank(0x2008); // Unicode PUNCTUATION SPACE: as wide as a full stop
    const auto point = figure.indexOf(locale.decimalPoint());
    const auto places = point < 0 ? 0 : static_cast<int>(figure.size() - point) - 1;
    QString padded = figure;
    if (point < 0 && decimals > 0)
        padded += pointBlank;
    for (int missing = places; missing < decimals; ++missing)
        padded += digitBlank;
    return padded;
}

int comfortableRowHeight(const QFontMetrics& metrics)
{
    return std::max(28, metrics.height() + metrics.height() * 3 / 4);
}

void styleTable(QTableView& table)
{
    table.setShowGrid(false);
    table.setAlternatingRowColors(true);
    table.setSelectionBehavior(QAbstractItemView::SelectRows);
    table.setWordWrap(false);
    table.setTabKeyNavigation(false); // Tab goes on to the next control; the arrows walk in the table
    table.verticalHeader()->setDefaultSectionSize(comfortableRowHeight(table.fontMetrics()));
    table.verticalHeader()->hide();
    table.horizontalHeader()->setHighlightSections(false);
    table.horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
}

ThemeSource::ThemeSource(QObject* parent)
    : ThemeSource(relativeLuminance(QGuiApplication::palette().color(QPalette::Window))
            < relativeLuminance(QGuiApplication::palette().color(QPalette::WindowText)),
        parent)
{
}

ThemeSource::ThemeSource(bool systemIsDark, QObject* parent)
    : QObject(parent)
    , systemIsDark_(systemIsDark)
    , theme_(systemIsDark ? darkTheme() : lightTheme())
{
}

void ThemeSource::setMode(ThemeMode mode)
{
    mode_ = mode;
    const bool dark = mode == ThemeMode::Dark || (mode == ThemeMode::FollowSystem && systemIsDark_);
    const Theme wanted = dark ? darkTheme() : lightTheme();
    if (wanted == theme_)
        return;
    theme_ = wanted;
    apply();
    Q_EMIT changed(theme_);
}

void ThemeSource::applyTo(QApplication& application)
{
    application_ = &application;
    // Another style than Fusion is the platform's own and is left alone.
    if (QApplication::style()->name().compare(QLatin1String("fusion"), Qt::CaseInsensitive) == 0)
        QApplication::setStyle(new OutlineStyle);
    application.setFont(withTabularFigures(QApplication::font()));
    apply();
}

void ThemeSource::apply()
{
    if (!application_)
        return;
    QApplication::setPalette(palette(theme_));
    application_->setStyleSheet(styleSheet(theme_));
}

} // namespace washfast::ui
