#include "core/chemistry/teaching_sheet.h"

#include "core/chemistry/words.h"

#include <QLocale>

namespace washfast::chemistry {

namespace {

QString number(double value, int digits = 3)
{
    return QLocale().toString(value, 'g', digits);
}

QString lookOf(const AuditedPart& part)
{
    const auto* substance = substanceByKey(part.substance);
    return substance && !substance->formula.isEmpty() ? prettyFormula(substance->formula) : part.name;
}

TeachingTask molesTask(const Audit& audit)
{
    TeachingTask task;
    task.asks = Words::tr("Amounts. Work out the amount n = m / M of each substance that was weighed, in millimoles.");
    QStringList lines;
    for (const auto& part : audit.parts) {
        if (!part.mass_g || !part.amount_mmol)
            continue;
        if (part.molar_mass)
            lines << QStringLiteral("n(%1) = %2 g / %3 g/mol = %4 mmol")
                         .arg(lookOf(part), number(*part.mass_g, 4), number(*part.molar_mass, 5),
                             number(*part.amount_mmol));
        else
            lines << Words::tr("%1: its iron is counted, from the share by mass: %2 mmol iron")
                         .arg(part.name, number(*part.amount_mmol));
    }
    task.answer = lines.join(QLatin1Char('\n'));
    return task;
}

} // namespace

Result<TeachingSheet> teachingSheet(
    const QString& mix, const Audit& audit, double coat_ml_m2, std::pair<double, double> sheet_mm)
{
    const auto numbers = teachingNumbers(audit, coat_ml_m2, sheet_mm);
    if (!numbers || !audit.volume_ml)
        return Error { Trouble::BadInput,
            Words::tr("The teaching sheet needs the masses and the volume of the mix; some are not known."), mix };
    TeachingSheet sheet;
    sheet.title = Words::tr("The chemistry of our blue: mix %1").arg(mix);
    for (const auto& part : audit.parts) {
        if (!part.mass_g)
            continue;
        sheet.given << (part.molar_mass
                ? Words::tr("%1 g of %2, %3, M = %4 g/mol")
                      .arg(number(*part.mass_g, 4), part.name, lookOf(part), number(*part.molar_mass, 5))
                : Words::tr("%1 g of %2, which holds about %3 % of iron by mass")
                      .arg(number(*part.mass_g, 4), part.name,
                          number(substanceByKey(part.substance)->iron_share.value_or(0) * 100)));
    }
    sheet.given << Words::tr("made up to %1 mL; painted on at %2 mL for each square metre; one sheet is %3 mm x %4 mm")
                       .arg(number(*audit.volume_ml, 4), number(coat_ml_m2), number(sheet_mm.first, 4),
                           number(sheet_mm.second, 4));
    sheet.given << Words::tr("M(KFe[Fe(CN)₆]) = %1 g/mol").arg(number(numbers->blue_molar_mass, 5));
    QStringList answers;
    for (const auto& equation : numbers->equations) {
        sheet.equations << equation.title;
        answers << QStringLiteral("%1:  %2").arg(equation.title, equation.pretty());
    }
    sheet.tasks.push_back({ Words::tr("Equations. Write down, with charges, what happens in each of these steps: %1.")
                                .arg(sheet.equations.join(QStringLiteral("; "))),
        answers.join(QLatin1Char('\n')) });
    sheet.tasks.push_back(molesTask(audit));
    sheet.tasks.push_back(
        { Words::tr("Concentrations. How many moles of iron(III) and of hexacyanoferrate(III) are in a litre of "
                    "the mix?"),
            Words::tr("c(Fe³⁺) = %1 mmol / %3 mL = %2 mol/L\nc([Fe(CN)₆]³⁻) = %4 mmol / %3 mL = %5 mol/L")
                .arg(number(audit.iron_mmol.value_or(0)), number(*audit.iron_mol_l), number(*audit.volume_ml, 4),
                    number(audit.hexacyanoferrate_mmol.value_or(0)), number(*audit.hexacyanoferrate_mol_l)) });
    sheet.tasks.push_back({ Words::tr("On the paper. How much of each lies on a square metre?"),
        Words::tr("Fe: %1 mol/L x %2 mL/m² = %3 mmol/m²\nhexacyanoferrate: %4 mol/L x %2 mL/m² = %5 mmol/m²")
            .arg(number(*audit.iron_mol_l), number(coat_ml_m2), number(numbers->iron_mmol_m2),
                number(*audit.hexacyanoferrate_mol_l), number(numbers->hexacyanoferrate_mmol_m2)) });
    const QString limiting = numbers->limiting == Limiting::Iron ? Words::tr("iron")
        : numbers->limiting == Limiting::Hexacyanoferrate        ? Words::tr("hexacyanoferrate")
                                                                 : Words::tr("neither: they come out even");
    sheet.tasks.push_back(
        { Words::tr("Limiting reagent. One iron(II) takes one hexacyanoferrate(III). Which one runs out first, "
                    "and how much of the other is left over on a square metre?"),
            Words::tr("Runs out first: %1. Left over: %2 mmol/m².")
                .arg(limiting, number(numbers->left_over_mmol_m2)) });
    sheet.tasks.push_back(
        { Words::tr("Blue. How many grams of KFe[Fe(CN)₆] can there be at most on a square metre, and how many "
                    "milligrams on your sheet?"),
            Words::tr("%1 mmol/m² x %2 g/mol = %3 g/m²; on the sheet %4 mg")
                .arg(number(numbers->blue_mmol_m2), number(numbers->blue_molar_mass, 5), number(numbers->blue_g_m2),
                    number(numbers->blue_mg_sheet.value_or(0))) });
    sheet.tasks.push_back(
        { Words::tr("Gas. Half a carbon dioxide comes off for each iron(II). How many millilitres is that for a "
                    "square metre at 20 °C (24.06 L/mol)?"),
            Words::tr("%1 mmol/m² / 2 x 24.06 mL/mmol = %2 mL/m²")
                .arg(number(numbers->blue_mmol_m2), number(numbers->carbon_dioxide_ml_m2)) });
    sheet.footing
        = Words::tr("Theoretical: every iron(III) that a hexacyanoferrate(III) is there for is reduced. A print "
                    "needs and forms much less; the rest is rinsed out.");
    return sheet;
}

} // namespace washfast::chemistry
