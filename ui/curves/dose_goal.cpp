#include "ui/curves/dose_goal.h"

#include "ui/curves/words.h"

#include <cmath>

namespace washfast::ui::curves {

namespace {

bool isExposed(const Notebook& notebook, qint64 print)
{
    const auto& table = notebook.table(Entity::Exposure);
    for (const int row : notebook.children(Entity::Exposure, print)) {
        const Ref exposure { Entity::Exposure, table.id(row) };
        if (notebook.get(exposure, u"expose_start").has() || notebook.get(exposure, u"expose_end").has())
            return true;
    }
    return false;
}

/// What the print is made of, as far as a curve asks.
SteppedPrint materialsOf(const Notebook& notebook, qint64 id)
{
    SteppedPrint print;
    print.id = id;
    print.mix = linkOf(notebook, { Entity::Print, id }, u"print_mix");
    print.formula = linkOf(notebook, { Entity::Mix, print.mix }, u"mix_formula");
    print.paper = linkOf(notebook, { Entity::Print, id }, u"print_paper");
    return print;
}

} // namespace

GoalPlan goalPlan(const Desk& desk, const CurveOf& of, std::optional<double> j_cm2)
{
    GoalPlan plan;
    const auto& notebook = desk.notebook();
    const auto* field = desk.catalogue().findPrintField(u"dose_goal_j_cm2");
    if (!j_cm2) {
        plan.refusal = Words::tr("There is no exposure to take: the curve does not reach the wanted density.");
        return plan;
    }
    plan.j_cm2 = std::round(*j_cm2 * 100) / 100;
    if (field && ((field->low && plan.j_cm2 < *field->low) || (field->high && plan.j_cm2 > *field->high))) {
        plan.refusal = Words::tr("A dose of %1 J/cm² lies outside what can be recorded.").arg(doseFigure(*j_cm2));
        return plan;
    }
    if (!desk.session().valid()) {
        plan.refusal = Words::tr("There is no running session whose prints could take it.");
        return plan;
    }
    auto wanted = of;
    if (of.by == CurveOf::By::Print) { // one print stands for its formula, else its mix, on its paper
        const auto like = materialsOf(notebook, of.id);
        wanted = { like.formula ? CurveOf::By::Formula : CurveOf::By::Mix, like.formula ? like.formula : like.mix,
            like.paper };
    }
    const auto session = notebook.nameOf(desk.session());
    for (const auto id : desk.printsOf(desk.session())) {
        if (!belongs(materialsOf(notebook, id), wanted) || isExposed(notebook, id))
            continue;
        plan.prints << id;
        if (const auto goal = desk.get(id, u"dose_goal_j_cm2").number(); goal && *goal != plan.j_cm2)
            ++plan.others;
    }
    const auto entity = wanted.by == CurveOf::By::Formula ? Entity::Formula : Entity::Mix;
    const auto of_what
        = Words::tr("%1 on %2")
              .arg(notebook.nameOf({ entity, wanted.id }), notebook.nameOf({ Entity::Paper, wanted.paper }));
    if (plan.prints.isEmpty()) {
        plan.refusal = Words::tr("No print of session %1 with %2 is still to be exposed.").arg(session, of_what);
        return plan;
    }
    plan.question = Words::tr("Set the wanted dose of %n print(s) of session %1 (%2, not exposed yet) to %3 J/cm²?",
        nullptr, int(plan.prints.size()))
                        .arg(session, of_what, figure(plan.j_cm2, 2));
    if (plan.others > 0)
        plan.question += QLatin1Char(' ') + Words::tr("Another one is set for %n of them now.", nullptr, plan.others);
    return plan;
}

QString takeGoal(Desk& desk, Dialogs& dialogs, QWidget* parent, const GoalPlan& plan)
{
    const auto title = Words::tr("Take as dose goal");
    if (!plan.refusal.isEmpty()) {
        dialogs.message(parent, title, plan.refusal);
        return {};
    }
    if (dialogs.question(parent, title, plan.question, { Words::tr("Set it"), Words::tr("Leave it") }) != 0)
        return {};
    if (!desk.setPrintField(
            plan.prints, QStringLiteral("dose_goal_j_cm2"), knownNumber(plan.j_cm2, Evidence::Estimated)))
        return {};
    return Words::tr("Wanted dose of %n print(s) set to %1 J/cm².", nullptr, int(plan.prints.size()))
        .arg(figure(plan.j_cm2, 2));
}

} // namespace washfast::ui::curves
