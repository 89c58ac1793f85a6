// What stands on a label for a bottle or a print, and the sheets that labels are printed on. The painting is elsewhere.
#pragma once

#include "core/chemistry/hazards.h"

#include <QDate>

namespace washfast::chemistry {

struct LabelStatement {
    QString code, text;
    bool disputed = false; // on some suppliers' labels only
};

enum class LabelDate : quint8 { Made, Opened }; // what the date on a bottle is of

struct BottleLabel {
    QString title; // "Mix M4", or what a chemical is called
    QStringList contents; // a line each
    QString made; // ISO date; empty when it is not known, and a line to write on is left
    LabelDate date = LabelDate::Made;
    QString maker; // a code, never a name; empty: a line to write on
    QString signal; // Danger, Warning or empty
    std::vector<Pictogram> pictograms;
    std::vector<LabelStatement> hazards;
    QStringList precautions; // codes with their texts
    QString note; // what to do with this bottle: vented cap, same day
    QString footing; // what the hazards stand for, and whose rules come first
};

/// The hazards of these substances (keys of substance.h) together, as a label of the undiluted substances has them.
/// A diluted mix may be classified lower; the footing says so.
[[nodiscard]] BottleLabel bottleLabel(const QString& title, const QStringList& substances);

struct PrintLabel {
    QString code; // of the print
    QString detail; // one line under it; may be empty

    /// What the square holds: a mark of this program and the code.
    [[nodiscard]] QString payload() const;
};

/// The print's code in what was read from a square; nothing when it is another program's.
[[nodiscard]] std::optional<QString> codeFromPayload(const QString& payload);

/// A4 sheets of labels, mm. The two die-cut sizes are measures in common trade use (common practice, no source); on
/// plain paper cut marks stand at the edge.
struct LabelSheet {
    QString key, name;
    double width_mm = 0, height_mm = 0; // of one label
    double left_mm = 0, top_mm = 0; // of the first label
    double across_mm = 0, down_mm = 0; // from one label to the next
    int columns = 1, rows = 1;
    bool cut_marks = false;

    [[nodiscard]] int places() const { return columns * rows; }
};

inline constexpr double pageWidthMm = 210, pageHeightMm = 297; // A4, ISO 216

[[nodiscard]] const std::vector<LabelSheet>& labelSheets();
[[nodiscard]] const LabelSheet& labelSheet(const QString& key); // the first one when there is none such

} // namespace washfast::chemistry
