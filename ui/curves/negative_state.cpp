#include "ui/curves/negative_state.h"

#include "ui/curves/words.h"

#include <algorithm>

namespace washfast::ui::curves {

namespace {

constexpr int fewestSteps = 3; // of a film

struct Steps {
    std::vector<density::FilmStep> whole; // with a value and a density
    int count = 0, with_value = 0;
    std::optional<double> clearest; // least density, of all steps
};

Steps stepsOf(const Notebook& notebook, qint64 negative)
{
    Steps steps;
    const auto& table = notebook.table(Entity::NegativeStep);
    for (const int row : notebook.children(Entity::NegativeStep, negative)) {
        const Ref step { Entity::NegativeStep, table.id(row) };
        const auto value = notebook.get(step, u"step_value").number();
        const auto density = notebook.get(step, u"step_uv_density").number();
        ++steps.count;
        steps.with_value += value ? 1 : 0;
        if (value && density)
            steps.whole.push_back({ *value, *density });
        if (density)
            steps.clearest = std::min(steps.clearest.value_or(*density), *density);
    }
    return steps;
}

QString lackingOf(const Steps& steps, const QString& name)
{
    if (int(steps.whole.size()) >= fewestSteps)
        return {};
    if (steps.count == 0)
        return Words::tr(
            "“%1” has no steps on record yet: print the step chart, measure it in ultraviolet, and enter its steps on "
            "the Shelf.")
            .arg(name);
    if (steps.with_value == 0)
        return Words::tr(
            "The steps of “%1” do not say what was sent to the printer, so nothing can be printed by them.")
            .arg(name);
    return Words::tr("“%1” has %n step(s) with both a printed value and an ultraviolet density; a tone table needs at "
                     "least three.",
        nullptr, int(steps.whole.size()))
        .arg(name);
}

} // namespace

std::vector<FilmChoice> filmChoices(const Notebook& notebook)
{
    std::vector<FilmChoice> choices;
    const auto& table = notebook.table(Entity::Negative);
    for (int row = 0; row < table.rows(); ++row) {
        const Ref ref { Entity::Negative, table.id(row) };
        const auto steps = stepsOf(notebook, ref.id);
        if (notebook.get(ref, u"negative_kind").text() != QStringLiteral("film") && steps.with_value == 0)
            continue;
        const auto name = notebook.nameOf(ref);
        choices.push_back({ ref.id, name, lackingOf(steps, name) });
    }
    std::stable_sort(choices.begin(), choices.end(),
        [](const FilmChoice& a, const FilmChoice& b) { return a.lacking.isEmpty() && !b.lacking.isEmpty(); });
    return choices;
}

Result<std::vector<density::FilmStep>> filmSteps(const Notebook& notebook, qint64 film)
{
    auto steps = stepsOf(notebook, film);
    const auto lacking = lackingOf(steps, notebook.nameOf({ Entity::Negative, film }));
    if (!lacking.isEmpty())
        return Error { Trouble::BadInput, lacking, {} };
    return std::move(steps.whole);
}

std::vector<ClearFilm> clearFilms(const Notebook& notebook)
{
    std::vector<ClearFilm> films;
    const auto& table = notebook.table(Entity::Negative);
    for (int row = 0; row < table.rows(); ++row)
        if (const auto clearest = stepsOf(notebook, table.id(row)).clearest)
            films.push_back({ notebook.nameOf({ Entity::Negative, table.id(row) }), *clearest });
    return films;
}

NegativeState::NegativeState(const CurvePageState& curve, const Notebook& notebook, const NegativeAsk& ask)
{
    if (!curve.fit()) {
        sentences_ << Words::tr("There is no curve to work from.") << curve.sentences();
        return;
    }
    if (ask.film == 0) {
        sentences_ << Words::tr(
            "No film is chosen. A film needs a record on the Shelf with its steps: what was sent to "
            "the printer, and the ultraviolet density that came of it.");
        return;
    }
    const auto film = filmSteps(notebook, ask.film);
    if (!film) {
        sentences_ << film.error().sentence();
        return;
    }
    const auto exposure
        = ask.exposure_j_cm2 && *ask.exposure_j_cm2 > 0 ? std::optional(std::log10(*ask.exposure_j_cm2)) : std::nullopt;
    auto table = density::toneTable(*curve.fit(), *film, exposure, ask.rows);
    if (!table) {
        sentences_ << table.error().sentence();
        return;
    }
    table_ = std::move(table).value();
    title_ = Words::tr("“%1” for %2").arg(notebook.nameOf({ Entity::Negative, ask.film }), curve.title());
    sentences_ << table_->warnings;
    const auto& rows = table_->rows;
    sentences_ << Words::tr("Give %1 J/cm² at the paper, before the film. Tones go from density %2 to %3.")
                      .arg(doseFigure(*exposure_j_cm2()), figure(rows.front().print_density, 2),
                          figure(rows.back().print_density, 2));
    sentences_ << Words::tr("For a tone of so many per cent on the paper, 0 the lightest and 100 the deepest, send the "
                            "film value in its row to the printer.");
    if (curve.pooled())
        sentences_ << Words::tr("Prints differ in speed: the scale of a single print is as straight as its exposure is "
                                "right.");
}

std::optional<double> NegativeState::exposure_j_cm2() const
{
    return table_ ? std::optional(std::pow(10, table_->exposure_log_h)) : std::nullopt;
}

CurvePicture NegativeState::picture() const
{
    CurvePicture picture;
    picture.x_label = Words::tr("Tone on the paper [%]");
    picture.y_label = Words::tr("Film value");
    if (!table_)
        return picture;
    PictureLine line;
    for (const auto& row : table_->rows) {
        const QPointF at { row.tone_percent, row.film_value };
        line.points.push_back(at);
        picture.points.push_back({ at, 0, 0, 0, false });
    }
    const auto [low, high] = std::minmax_element(table_->rows.begin(), table_->rows.end(),
        [](const auto& a, const auto& b) { return a.film_value < b.film_value; });
    picture.extent = { QPointF(0, low->film_value), QPointF(100, high->film_value) };
    picture.lines.push_back(std::move(line));
    return picture;
}

QString NegativeState::inWords() const
{
    QStringList words;
    if (table_)
        for (const auto& row : table_->rows)
            words << Words::tr("%1 percent: %2").arg(figure(row.tone_percent, 0), figure(row.film_value, 1));
    return words.join(QStringLiteral("; ")) + QLatin1Char(' ') + sentences_.join(QLatin1Char(' '));
}

} // namespace washfast::ui::curves
