// The look of the program in one value: colours, text sizes, the palette and the few style rules a palette cannot say.
//
// A widget is given a Theme and keeps it; when the person changes the mode, ThemeSource announces the new one and the
// window hands it down through each widget's setTheme. There is no global theme to ask.
//
//     ThemeSource look;                       // in main, before anything is shown
//     look.setMode(ThemeMode::FollowSystem);
//     look.applyTo(application);
//     EmptyState empty(look.theme());
//
// Contrast follows W3C, Web Content Accessibility Guidelines (WCAG) 2.1: success criterion 1.4.3 asks 4.5 : 1 for
// text, 1.4.11 asks 3 : 1 for graphics; the formulas are its definitions of "relative luminance" and "contrast ratio".
#pragma once

#include <QColor>
#include <QFont>
#include <QObject>
#include <QPalette>
#include <QString>
#include <array>

class QApplication;
class QFontMetrics;
class QLocale;
class QTableView;

namespace washfast::ui {

// What each colour is for; the pairs that a text or a graphic may stand on are checked by tests/ui/theme_test.cpp.
struct Theme {
    bool dark = false;
    QColor paper; // the window
    QColor sheet; // tables, fields, plots
    QColor band; // every other row of a table
    QColor line; // quiet separators and grid lines: decoration only
    QColor edge; // outlines that have to be seen: swatches, controls, axes (3 : 1)
    QColor ink; // text
    QColor quiet; // units, hints, axis labels (4.5 : 1)
    QColor faint; // text of controls that are switched off
    QColor blue; // the accent; kept
    QColor onBlue; // text on blue
    QColor coated; // fill: coated, waiting
    QColor coatedMark; // the same as a line or a sign of its own (3 : 1)
    QColor printedOut; // fill and line: printed out, before the rinse (3 : 1)
    QColor rust; // failing, warning; always with a shape or a word
    QColor selection; // fill of selected rows and cells, under ink and quiet
    std::array<QColor, 6> categories; // groups in plots (3 : 1 on the sheet), with a shape or a dash each
    std::array<QColor, 6> ramp; // low to high for areas: sheet to Prussian blue
    std::array<QColor, 6> markRamp; // low to high for points and lines: every stop 3 : 1 on the sheet

    bool operator==(const Theme&) const = default;
};

enum class ThemeMode { Light, Dark, FollowSystem };
enum class TextSize { Small, Body, Title };

[[nodiscard]] Theme lightTheme();
[[nodiscard]] Theme darkTheme();

// Colour at t on a ramp of stops, t from 0 to 1 (values outside are held at the ends; NaN gives an invalid colour).
[[nodiscard]] QColor onRamp(const std::array<QColor, 6>& stops, double t);

// WCAG 2.1: 0 for black to 1 for white.
[[nodiscard]] double relativeLuminance(const QColor& colour);
// WCAG 2.1: 1 (the same) to 21 (black on white); the order of the two does not matter.
[[nodiscard]] double contrastRatio(const QColor& one, const QColor& other);
// A text colour that reaches 4.5 : 1 on any fill: ink or its opposite where one of them does, else black or white.
[[nodiscard]] QColor textOn(const QColor& fill, const Theme& theme);

[[nodiscard]] QPalette palette(const Theme& theme);
// Only what a palette cannot do: table headings, tool buttons, the ring of focus on lists, pale selection.
[[nodiscard]] QString styleSheet(const Theme& theme);

// The family's three sizes, from the font of the application.
[[nodiscard]] QFont textFont(const QFont& base, TextSize size);
// True when all ten digits are equally wide, so that columns of figures stand straight.
[[nodiscard]] bool hasTabularFigures(const QFont& font);
// The font itself when its digits are tabular, else the same with a family put in front whose digits are.
[[nodiscard]] QFont withTabularFigures(const QFont& font);
// How a column of figures is aligned.
inline constexpr Qt::Alignment figureAlignment = Qt::AlignRight | Qt::AlignVCenter;
// A figure followed by blank figure spaces, so that right-aligned figures with 0 to `decimals` places stand with
// their decimal points under one another. A text that is no figure comes back unchanged.
[[nodiscard]] QString padFigure(const QString& figure, int decimals, const QLocale& locale);

[[nodiscard]] int comfortableRowHeight(const QFontMetrics& metrics);
// Row height, no grid, every other row banded, whole rows selected.
void styleTable(QTableView& table);

// Holds the mode, works out the theme and announces it.
class ThemeSource : public QObject {
    Q_OBJECT

public:
    // Whether the system is dark is read here once, from the palette that Qt found: build this before applyTo.
    explicit ThemeSource(QObject* parent = nullptr);
    ThemeSource(bool systemIsDark, QObject* parent = nullptr);

    [[nodiscard]] const Theme& theme() const { return theme_; }
    [[nodiscard]] ThemeMode mode() const { return mode_; }
    void setMode(ThemeMode mode);
    // Palette, style rules and tabular figures for the whole application, now and at every later change.
    void applyTo(QApplication& application);

Q_SIGNALS:
    void changed(const washfast::ui::Theme& theme);

private:
    void apply();

    bool systemIsDark_ = false;
    ThemeMode mode_ = ThemeMode::FollowSystem;
    Theme theme_;
    QApplication* application_ = nullptr;
};

} // namespace washfast::ui
