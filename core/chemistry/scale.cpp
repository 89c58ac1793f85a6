#include "core/chemistry/scale.h"

#include "core/chemistry/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::chemistry {

namespace {

/// What a substance is taken for: the yield that a swap keeps.
std::optional<double> purposeOf(const Substance& substance)
{
    switch (substance.role) {
    case Role::IronSource:
        return substance.yield.iron;
    case Role::Hexacyanoferrate:
        return substance.yield.hexacyanoferrate;
    case Role::Acid:
        return substance.family == QLatin1String("citric_acid") ? substance.yield.citrate : substance.yield.oxalate;
    case Role::Base:
        return substance.yield.base;
    case Role::Oxidiser:
    case Role::Preservative:
    case Role::Product:
    case Role::Other:
        break;
    }
    return std::nullopt;
}

double roundTo(double value, double step)
{
    return std::round(value / step) * step;
}

Outcome check(const Order& order)
{
    const auto wrong = [](const char* text) { return Error { Trouble::BadInput, Words::tr(text), {} }; };
    if (order.sheets < 1 || order.sheets > 10000)
        return wrong(QT_TRANSLATE_NOOP("Chemistry", "The number of sheets is a whole number from 1 to 10000."));
    const auto size = [](double mm) { return mm >= 1 && mm <= 5000; };
    if (!size(order.width_mm) || !size(order.height_mm))
        return wrong(QT_TRANSLATE_NOOP("Chemistry", "Width and height of a sheet are from 1 to 5000 mm."));
    if (!(order.coat_ml_m2 > 0 && order.coat_ml_m2 <= 1000))
        return wrong(QT_TRANSLATE_NOOP("Chemistry", "The coat is more than 0 and at most 1000 mL/m²."));
    if (!(order.spare_pct >= 0 && order.spare_pct <= 1000))
        return wrong(QT_TRANSLATE_NOOP("Chemistry", "The spare is from 0 to 1000 %."));
    if (!(order.balance_g >= 1e-6 && order.balance_g <= 100))
        return wrong(QT_TRANSLATE_NOOP("Chemistry", "The resolution of the balance is from 0.000001 to 100 g."));
    return Done {};
}

Result<Amount> amountOf(const Component& component, double factor, double balance_g, const Swaps& swaps)
{
    const auto* substance = substanceByKey(component.substance);
    Amount amount { component.substance, {}, component.solution, component.note, component.grams * factor, 0, 0, 0 };
    if (const auto swap = swaps.value(component.substance); !swap.isEmpty() && swap != component.substance) {
        const auto* other = substanceByKey(swap);
        if (!other)
            return Error { Trouble::BadInput, Words::tr("The substance “%1” is not known.").arg(swap), {} };
        const auto grams = equivalentMass(*substance, *other, amount.exact_g);
        if (!grams)
            return grams.error();
        amount.swapped_from = component.substance;
        amount.substance = swap;
        amount.exact_g = *grams;
        substance = other;
    }
    amount.rounded_g = roundTo(amount.exact_g, balance_g);
    amount.exact_mmol = substance->moles(amount.exact_g).value_or(0) * 1000;
    amount.rounded_mmol = substance->moles(amount.rounded_g).value_or(0) * 1000;
    return amount;
}

Strength strengthOf(const std::vector<Amount>& amounts, double volume_ml, double Amount::*mmol)
{
    double iron = 0, cyanoferrate = 0, citrate = 0;
    for (const auto& amount : amounts) {
        const auto& yield = substanceByKey(amount.substance)->yield;
        iron += amount.*mmol * yield.iron.value_or(0);
        cyanoferrate += amount.*mmol * yield.hexacyanoferrate.value_or(0);
        citrate += amount.*mmol * yield.citrate.value_or(0);
    }
    Strength strength { iron / volume_ml, cyanoferrate / volume_ml, std::nullopt, std::nullopt };
    if (cyanoferrate > 0)
        strength.iron_to_hexacyanoferrate = iron / cyanoferrate;
    if (iron > 0)
        strength.citrate_to_iron = citrate / iron;
    return strength;
}

void warnOfBalance(Scaled& scaled, double balance_g)
{
    for (const auto& amount : scaled.amounts) {
        if (amount.rounded_g <= 0)
            scaled.warnings << Words::tr("%1 g of %2 is less than the balance can show; make a larger batch.")
                                   .arg(
                                       QString::number(amount.exact_g, 'g', 2), substanceByKey(amount.substance)->name);
        else if (std::abs(amount.off()) > 0.02)
            scaled.warnings << Words::tr(
                "Rounded to %1 g, %2 comes out %3 % off; a larger batch or a finer balance helps.")
                                   .arg(QString::number(balance_g), substanceByKey(amount.substance)->name,
                                       QString::number(amount.off() * 100, 'f', 1));
    }
}

} // namespace

QString coatWarning(double coat_ml_m2)
{
    if (coat_ml_m2 < starvedCoat)
        return Words::tr("A coat of %1 mL/m² is thin: below %2 the sheet is starved.")
            .arg(QString::number(coat_ml_m2, 'g', 3), QString::number(starvedCoat));
    if (coat_ml_m2 > puddledCoat)
        return Words::tr("A coat of %1 mL/m² is thick: above %2 the mix stands in puddles and washes off.")
            .arg(QString::number(coat_ml_m2, 'g', 3), QString::number(puddledCoat));
    return {};
}

Result<double> equivalentMass(const Substance& from, const Substance& to, double grams)
{
    const auto wrong = [&] {
        return Error { Trouble::BadInput, Words::tr("%1 cannot stand for %2.").arg(to.name, from.name), {} };
    };
    if (from.family.isEmpty() || from.family != to.family)
        return wrong();
    const auto wanted = purposeOf(from), given = purposeOf(to);
    const auto per_gram = to.moles(1.0), moles = from.moles(grams);
    if (!wanted || !given || *given <= 0 || !per_gram || !moles)
        return wrong();
    return *moles * *wanted / (*given * *per_gram);
}

QString swapCaution(const Substance& from, const Substance& to)
{
    QString says = Words::tr("%1 in place of %2: another mass for the same amount.").arg(to.name, from.name);
    if (from.role == Role::Base && from.yield.carbon_dioxide && to.yield.carbon_dioxide) {
        const double more
            = (*to.yield.carbon_dioxide / *to.yield.base) / (*from.yield.carbon_dioxide / *from.yield.base);
        says += QLatin1Char(' ')
            + Words::tr("For the same base it gives off %1 times the carbon dioxide.")
                  .arg(QString::number(more, 'f', 2));
    }
    return to.caution.isEmpty() ? says : says + QLatin1Char(' ') + to.caution;
}

Result<Scaled> scale(const Recipe& recipe, const Order& order, const Swaps& swaps)
{
    if (auto checked = check(order); !checked)
        return checked.error();
    for (auto swap = swaps.begin(); swap != swaps.end(); ++swap)
        if (std::none_of(recipe.components.begin(), recipe.components.end(),
                [&](const Component& component) { return component.substance == swap.key(); }))
            return Error { Trouble::BadInput, Words::tr("%1 is no part of this formula.").arg(swap.key()),
                recipe.name };

    Scaled scaled;
    scaled.recipe = recipe.key;
    const double area = order.width_mm * order.height_mm * 1e-6; // m²
    scaled.coat_volume_ml = order.sheets * area * order.coat_ml_m2;
    scaled.volume_ml = scaled.coat_volume_ml * (1 + order.spare_pct / 100);
    const double factor = scaled.volume_ml / recipe.volume_ml;
    for (const auto& solution : recipe.solutions)
        scaled.solutions.push_back({ solution.name, solution.volume_ml * factor });
    for (const auto& component : recipe.components) {
        if (!component.left_out.isEmpty()) {
            scaled.cautions
                << Words::tr("%1 is left out. %2").arg(substanceByKey(component.substance)->name, component.left_out);
            continue;
        }
        auto amount = amountOf(component, factor, order.balance_g, swaps);
        if (!amount)
            return amount.error();
        if (!amount->swapped_from.isEmpty())
            scaled.cautions << swapCaution(*substanceByKey(amount->swapped_from), *substanceByKey(amount->substance));
        scaled.amounts.push_back(std::move(amount).value());
    }
    scaled.exact = strengthOf(scaled.amounts, scaled.volume_ml, &Amount::exact_mmol);
    scaled.rounded = strengthOf(scaled.amounts, scaled.volume_ml, &Amount::rounded_mmol);
    scaled.iron_mmol_m2 = scaled.rounded.iron_mol_l * order.coat_ml_m2; // mol/L is mmol/mL
    scaled.hexacyanoferrate_mmol_m2 = scaled.rounded.hexacyanoferrate_mol_l * order.coat_ml_m2;
    if (const auto warning = coatWarning(order.coat_ml_m2); !warning.isEmpty())
        scaled.warnings << warning;
    warnOfBalance(scaled, order.balance_g);
    return scaled;
}

} // namespace washfast::chemistry
