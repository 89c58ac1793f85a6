#include "core/causes/models.h"

#include "core/causes/design.h"
#include "core/causes/phrases.h"
#include "core/causes/together.h"
#include "core/causes/words.h"
#include "core/stats/collinearity.h"
#include "core/stats/firth.h"
#include "core/stats/robust_linear.h"

#include <algorithm>

namespace washfast::causes {

namespace {

constexpr int rarer_outcomes_per_term = 5;
constexpr int prints_per_term = 8;

QString troubleSentence(stats::FirthTrouble trouble)
{
    switch (trouble) {
    case stats::FirthTrouble::TooFewRows:
        return Words::tr("there are fewer prints with all of them recorded than terms to fit");
    case stats::FirthTrouble::SameOutcome:
        return Words::tr("all prints with all of them recorded came out the same");
    case stats::FirthTrouble::RankDeficient:
        return Words::tr("one of them does not vary, or follows exactly from the others");
    case stats::FirthTrouble::NotConverged:
        break;
    }
    return Words::tr("the fit did not settle");
}

FittedModel started(const Design& design, std::size_t rows)
{
    FittedModel model;
    model.terms = QStringList { QStringLiteral("(intercept)") } + design.terms;
    model.n = static_cast<int>(rows);
    return model;
}

std::optional<FittedModel> fit(const Prepared& prepared, const std::vector<std::size_t>& which, QString& why)
{
    const auto rows = prepared.complete(which);
    Design design;
    for (const std::size_t at : which)
        addColumns(design, prepared.columns[at], rows);
    FittedModel model = started(design, rows.size());
    if (!prepared.yesNo()) {
        const auto found = stats::robustLinear(design.columns, outcomeOf(prepared, rows));
        if (!found) {
            why = Words::tr("the prints are too few, or one of the factors follows from the others");
            return std::nullopt;
        }
        model.linear = true;
        model.scale = found->scale;
        for (const stats::RobustTerm& term : found->terms)
            model.values.push_back({ term.estimate, term.low, term.high, term.p });
        return model;
    }
    const auto result = stats::firth(design.columns, outcomeOf(prepared, rows));
    if (const auto* trouble = std::get_if<stats::FirthTrouble>(&result)) {
        why = troubleSentence(*trouble);
        return std::nullopt;
    }
    const auto& found = std::get<stats::FirthFit>(result);
    for (const stats::FirthTerm& term : found.terms)
        model.values.push_back({ term.estimate, term.low, term.high, term.p });
    model.penalised_log_likelihood = found.penalised_log_likelihood;
    return model;
}

int rankWithConstant(const Prepared& prepared, const std::vector<std::size_t>& which, int& columns)
{
    const auto rows = prepared.complete(which);
    Design design;
    for (const std::size_t at : which)
        addColumns(design, prepared.columns[at], rows);
    columns = static_cast<int>(design.columns.cols()) + 1;
    if (rows.empty())
        return 0;
    return stats::rankOf(stats::withConstant(stats::centred(design.columns)));
}

} // namespace

std::optional<FittedModel> fitModel(const Prepared& prepared, const QStringList& names, QString& problem)
{
    QStringList spoken;
    std::vector<std::size_t> which;
    const auto refuse = [&](const QString& why) {
        problem = Words::tr("The model of %1 was not fitted: %2.").arg(listed(spoken), why);
        return std::nullopt;
    };
    QString lacking;
    for (const QString& name : names) {
        const auto at = std::find_if(prepared.columns.begin(), prepared.columns.end(),
            [&](const Column& column) { return column.factor->name == name; });
        if (at == prepared.columns.end()) {
            spoken.append(name);
            lacking = name;
            continue;
        }
        spoken.append(at->factor->spoken());
        which.push_back(static_cast<std::size_t>(at - prepared.columns.begin()));
    }
    if (!lacking.isNull())
        return refuse(Words::tr("%1 is not among the factors that can be used").arg(lacking));
    QString why;
    auto model = fit(prepared, which, why);
    return model ? model : refuse(why);
}

std::optional<FittedModel> modelTheyBear(const Prepared& prepared, const std::vector<FactorEvidence>& evidence)
{
    const int bearable = prepared.yesNo()
        ? std::min(prepared.nFailed(), prepared.n() - prepared.nFailed()) / rarer_outcomes_per_term
        : prepared.n() / prints_per_term;
    if (bearable < 2)
        return std::nullopt;
    std::vector<std::size_t> order;
    for (std::size_t c = 0; c < evidence.size(); ++c)
        if (evidence[c].p_exact && evidence[c].n_known * 5 >= prepared.n() * 4)
            order.push_back(c);
    std::stable_sort(order.begin(), order.end(),
        [&](std::size_t a, std::size_t b) { return *evidence[a].p_exact < *evidence[b].p_exact; });
    std::vector<std::size_t> which;
    for (const std::size_t column : order) {
        std::vector<std::size_t> tried = which;
        tried.push_back(column);
        int columns = 0;
        const bool tied = std::any_of(which.begin(), which.end(), [&](std::size_t before) {
            const auto tie = tieOf(prepared, column, before);
            return tie && tie->cannot_be_told_apart;
        });
        if (!tied && rankWithConstant(prepared, tried, columns) == columns && columns - 1 <= bearable)
            which = std::move(tried);
    }
    if (which.size() < 2)
        return std::nullopt;
    QString why;
    auto model = fit(prepared, which, why);
    if (!model)
        return std::nullopt;
    model->note = (prepared.block.empty()
            ? Words::tr("Exploratory: these %1 of %2 factors were chosen by their own p, as many as %n prints can "
                        "bear; the intervals do not allow for that choice.",
                nullptr, model->n)
            : Words::tr("Exploratory: these %1 of %2 factors were chosen by their own p, as many as %n prints can "
                        "bear; the intervals do not allow for that choice, nor for the blocks.",
                nullptr, model->n))
                      .arg(which.size())
                      .arg(evidence.size());
    return model;
}

} // namespace washfast::causes
