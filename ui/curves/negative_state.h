// What the page "Negative" shows, worked out without a widget: the films with steps, and the tone table that a curve
// and a film give.
#pragma once

#include "core/density/tone_table.h"
#include "ui/curves/curve_page_state.h"
#include "ui/curves/curve_picture.h"

namespace washfast::ui::curves {

struct FilmChoice {
    qint64 id = 0;
    QString name;
    QString lacking; // why it cannot be used, a sentence; empty when it can
};
/// Films, and whatever else has steps with a printed value; those that can be used first.
[[nodiscard]] std::vector<FilmChoice> filmChoices(const Notebook& notebook);

/// Its steps that have both a printed value and an ultraviolet density.
[[nodiscard]] Result<std::vector<density::FilmStep>> filmSteps(const Notebook& notebook, qint64 film);

/// Negatives of which an ultraviolet density is known, with their least: what lies over the deepest tone.
struct ClearFilm {
    QString name;
    double uv_density = 0;
};
[[nodiscard]] std::vector<ClearFilm> clearFilms(const Notebook& notebook);

struct NegativeAsk {
    qint64 film = 0; // 0: none chosen
    std::optional<double> exposure_j_cm2 {}; // empty: so that the clearest film reaches the shoulder
    int rows = 21;
};

class NegativeState {
public:
    NegativeState(const CurvePageState& curve, const Notebook& notebook, const NegativeAsk& ask);

    [[nodiscard]] const std::optional<density::ToneTable>& table() const { return table_; }
    [[nodiscard]] std::optional<double> exposure_j_cm2() const;
    [[nodiscard]] const QString& title() const { return title_; }
    [[nodiscard]] const QStringList& sentences() const { return sentences_; }
    /// Film value against tone: the rows as points, the line through them, the film's own steps as marks going up.
    [[nodiscard]] CurvePicture picture() const;
    [[nodiscard]] QString inWords() const;

private:
    std::optional<density::ToneTable> table_;
    QString title_;
    QStringList sentences_;
};

} // namespace washfast::ui::curves
