#include "core/chemistry/teaching.h"

#include "core/chemistry/molar_mass.h"
#include "core/chemistry/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::chemistry {

namespace {

struct Part {
    int count;
    const char* formula;
};

Equation equation(
    const char* title, std::initializer_list<Part> left, std::initializer_list<Part> right, const char* source)
{
    Equation made { Words::tr(title), {}, {}, Words::tr(source) };
    for (const auto& part : left)
        made.left.push_back({ part.count, QString::fromLatin1(part.formula) });
    for (const auto& part : right)
        made.right.push_back({ part.count, QString::fromLatin1(part.formula) });
    return made;
}

constexpr const char* fromMemory = QT_TRANSLATE_NOOP("Chemistry", "textbook chemistry, from memory");
constexpr const char* ironProcesses
    = QT_TRANSLATE_NOOP("Chemistry", "Ware's chemistry of the iron processes, as quoted in a photographers' forum");

bool isElectron(const QString& formula)
{
    return formula == QLatin1String("e-");
}

Composition side(const std::vector<Term>& terms)
{
    Composition sum;
    for (const auto& term : terms) {
        if (isElectron(term.formula)) {
            sum.charge -= term.count;
            continue;
        }
        const auto reading = readFormula(term.formula);
        if (!reading.ok())
            continue;
        for (auto atom = reading.composition->atoms.begin(); atom != reading.composition->atoms.end(); ++atom)
            sum.atoms[atom.key()] += atom.value() * term.count;
        sum.charge += reading.composition->charge * term.count;
    }
    return sum;
}

QString prettySide(const std::vector<Term>& terms)
{
    QStringList parts;
    for (const auto& term : terms) {
        const QString formula = isElectron(term.formula) ? QStringLiteral("e⁻") : prettyFormula(term.formula);
        parts << (term.count == 1 ? formula : QStringLiteral("%1 %2").arg(QString::number(term.count), formula));
    }
    return parts.join(QStringLiteral(" + "));
}

} // namespace

bool Equation::balanced() const
{
    return side(left) == side(right);
}

QString Equation::pretty() const
{
    return prettySide(left) + QStringLiteral(" → ") + prettySide(right);
}

std::vector<Equation> equationsFor(const Audit& audit)
{
    std::vector<Equation> all;
    all.push_back(equation(QT_TRANSLATE_NOOP("Chemistry", "Light: iron(III) takes up an electron"),
        { { 1, "Fe^3+" }, { 1, "e-" } }, { { 1, "Fe^2+" } }, fromMemory));
    const auto substances = audit.substances();
    if (substances.contains(QStringLiteral("(NH4)3[Fe(C2O4)3].3H2O"))) {
        all.push_back(equation(QT_TRANSLATE_NOOP("Chemistry", "Oxalate gives it away"), { { 1, "C2O4^2-" } },
            { { 2, "CO2" }, { 2, "e-" } }, fromMemory));
        all.push_back(equation(QT_TRANSLATE_NOOP("Chemistry", "Both together"), { { 2, "[Fe(C2O4)3]3-" } },
            { { 2, "[Fe(C2O4)2]2-" }, { 1, "C2O4^2-" }, { 2, "CO2" } }, ironProcesses));
    } else {
        all.push_back(equation(QT_TRANSLATE_NOOP("Chemistry", "Citric acid gives it away"), { { 1, "C6H8O7" } },
            { { 1, "C5H6O5" }, { 1, "CO2" }, { 2, "H+" }, { 2, "e-" } }, fromMemory));
        all.push_back(equation(QT_TRANSLATE_NOOP("Chemistry", "Both together"), { { 2, "Fe^3+" }, { 1, "C6H8O7" } },
            { { 2, "Fe^2+" }, { 1, "C5H6O5" }, { 1, "CO2" }, { 2, "H+" } }, fromMemory));
    }
    all.push_back(equation(QT_TRANSLATE_NOOP("Chemistry", "The blue"),
        { { 1, "K+" }, { 1, "Fe^2+" }, { 1, "[Fe(CN)6]3-" } }, { { 1, "KFe[Fe(CN)6]" } }, ironProcesses));
    return all;
}

std::optional<TeachingNumbers> teachingNumbers(
    const Audit& audit, double coat_ml_m2, std::optional<std::pair<double, double>> sheet_mm)
{
    if (!audit.iron_mol_l || !audit.hexacyanoferrate_mol_l || !(coat_ml_m2 > 0))
        return std::nullopt;
    TeachingNumbers n;
    n.coat_ml_m2 = coat_ml_m2;
    n.iron_mmol_m2 = *audit.iron_mol_l * coat_ml_m2; // mol/L is mmol/mL
    n.hexacyanoferrate_mmol_m2 = *audit.hexacyanoferrate_mol_l * coat_ml_m2;
    n.blue_mmol_m2 = std::min(n.iron_mmol_m2, n.hexacyanoferrate_mmol_m2);
    n.left_over_mmol_m2 = std::abs(n.iron_mmol_m2 - n.hexacyanoferrate_mmol_m2);
    if (n.left_over_mmol_m2 > 1e-9 * n.blue_mmol_m2)
        n.limiting = n.iron_mmol_m2 < n.hexacyanoferrate_mmol_m2 ? Limiting::Iron : Limiting::Hexacyanoferrate;
    n.blue_molar_mass = molarMass(QStringLiteral("KFe[Fe(CN)6]")).value();
    n.blue_g_m2 = n.blue_mmol_m2 / 1000 * n.blue_molar_mass;
    if (sheet_mm)
        n.blue_mg_sheet = n.blue_g_m2 * 1000 * sheet_mm->first * sheet_mm->second * 1e-6;
    n.carbon_dioxide_ml_m2 = n.blue_mmol_m2 / 2 * molarGasVolume(20); // mmol x L/mol is mL
    n.equations = equationsFor(audit);
    return n;
}

} // namespace washfast::chemistry
