#include "ui/curves/wedge_prints.h"

#include "core/light/print_light.h"
#include "ui/curves/words.h"

#include <algorithm>
#include <map>

namespace washfast::ui::curves {

namespace {

QString whyNoDose(const light::ExposureCase& exposure, const light::ExposureDose& dose)
{
    if (!exposure.start || !exposure.end)
        return Words::tr("Its start or its end was not noted.");
    if (!(*exposure.start < *exposure.end))
        return Words::tr("It ends before it starts.");
    return dose.warnings.join(QLatin1Char(' '));
}

} // namespace

qint64 linkOf(const Notebook& notebook, Ref ref, QStringView key)
{
    return ref.id > 0 ? notebook.get(ref, key).link().value_or(0) : 0;
}

std::vector<SteppedPrint> steppedPrints(const PrintReader& reader)
{
    const auto& notebook = reader.notebook();
    std::vector<SteppedPrint> found;
    const auto& prints = notebook.prints();
    for (const auto id : density::printsWithSteps(notebook)) {
        const int row = prints.find(id);
        if (row < 0)
            continue;
        SteppedPrint print;
        print.id = id;
        print.row = row;
        const Ref ref { Entity::Print, id };
        print.code = notebook.nameOf(ref);
        print.mix = linkOf(notebook, ref, u"print_mix");
        print.formula = linkOf(notebook, { Entity::Mix, print.mix }, u"mix_formula");
        print.paper = linkOf(notebook, ref, u"print_paper");
        if (const auto age_h = reader.get(row, u"mix_age_h").number())
            print.mix_age_d = *age_h / 24;
        found.push_back(std::move(print));
    }
    return found;
}

bool belongs(const SteppedPrint& print, const CurveOf& of)
{
    switch (of.by) {
    case CurveOf::By::Formula:
        return of.id != 0 && print.formula == of.id && print.paper == of.paper;
    case CurveOf::By::Mix:
        return of.id != 0 && print.mix == of.id && print.paper == of.paper;
    case CurveOf::By::Print:
        return print.id == of.id;
    }
    return false;
}

std::vector<CurveGroup> curveGroups(const Notebook& notebook, const std::vector<SteppedPrint>& prints)
{
    std::map<std::pair<qint64, qint64>, int> formulas, mixes;
    for (const auto& print : prints) {
        if (print.formula)
            ++formulas[{ print.formula, print.paper }];
        if (print.mix)
            ++mixes[{ print.mix, print.paper }];
    }
    std::vector<CurveGroup> groups;
    const auto add = [&](const auto& counted, CurveOf::By by, Entity entity) {
        const auto first = groups.size();
        for (const auto& [of, count] : counted) {
            const auto name = notebook.nameOf({ entity, of.first });
            const auto paper
                = of.second ? notebook.nameOf({ Entity::Paper, of.second }) : Words::tr("a paper not recorded");
            groups.push_back({ { by, of.first, of.second },
                by == CurveOf::By::Mix ? Words::tr("Mix %1 on %2").arg(name, paper)
                                       : Words::tr("%1 on %2").arg(name, paper),
                count });
        }
        std::stable_sort(groups.begin() + std::ptrdiff_t(first), groups.end(),
            [](const CurveGroup& a, const CurveGroup& b) { return a.prints > b.prints; });
    };
    add(formulas, CurveOf::By::Formula, Entity::Formula);
    add(mixes, CurveOf::By::Mix, Entity::Mix);
    for (const auto& print : prints)
        groups.push_back({ { CurveOf::By::Print, print.id, print.paper }, Words::tr("Print %1").arg(print.code), 1 });
    return groups;
}

std::vector<density::GivenDose> dosesOf(const PrintReader& reader, int print_row)
{
    std::vector<Known> inputs;
    for (const auto& key : light::printInputs())
        inputs.push_back(reader.get(print_row, key));
    const auto print = light::readPrintLight(inputs, reader.rows(print_row, light::printRows()));
    std::vector<density::GivenDose> doses;
    for (const auto& exposure : print.exposures) {
        const auto dose = light::exposureDose(exposure);
        density::GivenDose given { dose.dose_j_cm2, dose.low_j_cm2, dose.high_j_cm2,
            weaker(print.times, weaker(dose.evidence, dose.from_readings ? print.readings : print.site)), {} };
        if (!given.j_cm2 || !(*given.j_cm2 > 0))
            given.why_not = whyNoDose(exposure, dose);
        doses.push_back(std::move(given));
    }
    return doses;
}

} // namespace washfast::ui::curves
