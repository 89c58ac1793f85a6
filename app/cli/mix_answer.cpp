#include "app/cli/mix_answer.h"

#include "app/cli/words.h"
#include "core/chemistry/hazards.h"

#include <QJsonArray>

namespace washfast::cli {

namespace {

using namespace chemistry;

QJsonValue json(std::optional<double> value)
{
    return value ? QJsonValue(*value) : QJsonValue(QJsonValue::Null);
}

QString short3(std::optional<double> value)
{
    return value ? QString::number(*value, 'g', 4) : QStringLiteral("?");
}

/// On the sheet, mmol/m²: mol/L is mmol/mL.
std::optional<double> perArea(std::optional<double> mol_l, std::optional<double> coat)
{
    return mol_l && coat ? std::optional(*mol_l * *coat) : std::nullopt;
}

void complete(MixAnswer& answer)
{
    for (const auto& caution : cautionsFor(answer.audit.substances(), QStringLiteral("mixing")))
        answer.cautions << caution.sentence();
    for (const auto& finding : answer.audit.findings)
        answer.warnings << finding.says;
    if (answer.audit.closed_bottle_kpa && *answer.audit.closed_bottle_kpa > 0)
        answer.warnings << Words::tr(
            "The pressure is the most it can be: closed at once over %1 mL of air at %2 °C, nothing dissolved.")
                               .arg(short3(answer.audit.headspace_ml), short3(answer.audit.celsius));
    const auto& needed = answer.audit.base_needed_mmol;
    if (needed && *needed > 0 && answer.audit.base == QLatin1String("NH4HCO3.NH2COONH4")) {
        const auto* pure = substanceByKey(u"(NH4)2CO3");
        answer.warnings << Words::tr(
            "Ammonium carbonate is counted as the double salt that is usually sold; of the pure "
            "salt it would be %1 "
            "g. Read the label.")
                               .arg(QString::number(*needed / *pure->yield.base * *pure->molar_mass / 1000, 'f', 2));
    }
    if (answer.coat_ml_m2)
        if (const auto warning = coatWarning(*answer.coat_ml_m2);
            !warning.isEmpty() && !answer.warnings.contains(warning))
            answer.warnings << warning;
}

QJsonArray componentsOf(const MixAnswer& answer)
{
    QJsonArray components;
    for (size_t i = 0; i < answer.audit.parts.size(); ++i) {
        const auto& part = answer.audit.parts[i];
        QJsonObject component { { QStringLiteral("substance"), part.written }, { QStringLiteral("name"), part.name },
            { QStringLiteral("molar_mass_g_mol"), json(part.molar_mass) },
            { QStringLiteral("mass_g"), json(part.mass_g) }, { QStringLiteral("amount_mmol"), json(part.amount_mmol) },
            { QStringLiteral("molar_mol_l"), json(part.molar_mol_l) } };
        if (i < answer.amounts.size()) {
            component.insert(QStringLiteral("exact_mass_g"), answer.amounts[i].exact_g);
            component.insert(QStringLiteral("solution"), answer.amounts[i].solution);
        }
        components.append(component);
    }
    return components;
}

} // namespace

MixAnswer answerFor(const Recipe& recipe, const Scaled& scaled, const Order& order, double headspace_ml)
{
    MixAnswer answer;
    answer.amounts = scaled.amounts;
    answer.solutions = scaled.solutions;
    answer.formula = recipe.name;
    answer.source = recipe.source;
    answer.steps = recipe.steps;
    answer.coat_volume_ml = scaled.coat_volume_ml;
    answer.coat_ml_m2 = order.coat_ml_m2;
    answer.cautions = scaled.cautions;
    answer.warnings = scaled.warnings;
    Batch batch;
    batch.volume_ml = scaled.volume_ml;
    batch.headspace_ml = headspace_ml;
    for (const auto& amount : scaled.amounts)
        batch.parts.push_back({ amount.substance, amount.rounded_g, std::nullopt });
    answer.audit = audit(batch);
    complete(answer);
    return answer;
}

MixAnswer answerFor(const Batch& batch, std::optional<double> coat_ml_m2, std::optional<double> sheets_m2)
{
    MixAnswer answer;
    answer.audit = audit(batch);
    answer.coat_ml_m2 = coat_ml_m2;
    if (coat_ml_m2 && sheets_m2)
        answer.coat_volume_ml = *coat_ml_m2 * *sheets_m2;
    if (answer.coat_volume_ml && batch.volume_ml && *answer.coat_volume_ml > *batch.volume_ml)
        answer.warnings << Words::tr("The sheets take %1 mL; there are only %2 mL of the mix.")
                               .arg(short3(answer.coat_volume_ml), short3(batch.volume_ml));
    complete(answer);
    return answer;
}

QJsonObject toJson(const MixAnswer& answer)
{
    const auto& audit = answer.audit;
    QJsonObject object { { QStringLiteral("volume_ml"), json(audit.volume_ml) },
        { QStringLiteral("components"), componentsOf(answer) },
        { QStringLiteral("iron_mol_l"), json(audit.iron_mol_l) },
        { QStringLiteral("hexacyanoferrate_mol_l"), json(audit.hexacyanoferrate_mol_l) },
        { QStringLiteral("iron_to_hexacyanoferrate"), json(audit.iron_to_hexacyanoferrate) },
        { QStringLiteral("citrate_to_iron"), json(audit.citrate_to_iron) },
        { QStringLiteral("ammonium_carbonate_g"), json(audit.base_needed_g) },
        { QStringLiteral("ammonium_carbonate"), audit.base },
        { QStringLiteral("neutralised"), json(audit.neutralised) },
        { QStringLiteral("co2_mmol"), json(audit.carbon_dioxide_mmol) },
        { QStringLiteral("co2_l_20c"), json(audit.carbon_dioxide_l) },
        { QStringLiteral("closed_bottle_kpa"), json(audit.closed_bottle_kpa) },
        { QStringLiteral("headspace_ml"), audit.headspace_ml },
        { QStringLiteral("coat_volume_ml"), json(answer.coat_volume_ml) },
        { QStringLiteral("iron_mmol_m2"), json(perArea(audit.iron_mol_l, answer.coat_ml_m2)) },
        { QStringLiteral("hexacyanoferrate_mmol_m2"), json(perArea(audit.hexacyanoferrate_mol_l, answer.coat_ml_m2)) },
        { QStringLiteral("cautions"), QJsonArray::fromStringList(answer.cautions) },
        { QStringLiteral("warnings"), QJsonArray::fromStringList(answer.warnings) } };
    if (!answer.formula.isEmpty()) {
        object.insert(QStringLiteral("formula"), answer.formula);
        object.insert(QStringLiteral("source"), answer.source);
        object.insert(QStringLiteral("steps"), QJsonArray::fromStringList(answer.steps));
    }
    return object;
}

void asText(const MixAnswer& answer, const Output& output)
{
    const auto& audit = answer.audit;
    if (!answer.formula.isEmpty()) {
        output.line(answer.formula);
        output.line(answer.source);
        output.line({});
    }
    std::vector<QStringList> rows;
    for (size_t i = 0; i < audit.parts.size(); ++i) {
        const auto& part = audit.parts[i];
        rows.push_back({ part.name.isEmpty() ? part.written : part.name, short3(part.mass_g), short3(part.amount_mmol),
            short3(part.molar_mol_l), i < answer.amounts.size() ? answer.amounts[i].solution : QString() });
    }
    output.table({ Words::tr("substance"), QStringLiteral("g"), QStringLiteral("mmol"), QStringLiteral("mol/L"),
                     Words::tr("solution") },
        rows);
    output.line({});
    rows.clear();
    const auto row = [&](const char* label, std::optional<double> value, const char* unit) {
        if (value)
            rows.push_back({ Words::tr(label), short3(value), QString::fromUtf8(unit) });
    };
    row(QT_TRANSLATE_NOOP("Cli", "volume"), audit.volume_ml, "mL");
    row(QT_TRANSLATE_NOOP("Cli", "of it on the sheets"), answer.coat_volume_ml, "mL");
    row(QT_TRANSLATE_NOOP("Cli", "iron(III)"), audit.iron_mol_l, "mol/L");
    row(QT_TRANSLATE_NOOP("Cli", "hexacyanoferrate(III)"), audit.hexacyanoferrate_mol_l, "mol/L");
    row(QT_TRANSLATE_NOOP("Cli", "iron : hexacyanoferrate"), audit.iron_to_hexacyanoferrate, "");
    row(QT_TRANSLATE_NOOP("Cli", "citrate : iron"), audit.citrate_to_iron, "");
    if (audit.base_needed_g && *audit.base_needed_g > 0)
        row(QT_TRANSLATE_NOOP("Cli", "base needed, as ammonium carbonate"), audit.base_needed_g, "g");
    row(QT_TRANSLATE_NOOP("Cli", "carbon dioxide at 20 °C"), audit.carbon_dioxide_l, "L");
    row(QT_TRANSLATE_NOOP("Cli", "pressure if it were closed, at most"), audit.closed_bottle_kpa, "kPa");
    row(QT_TRANSLATE_NOOP("Cli", "iron on the sheet"), perArea(audit.iron_mol_l, answer.coat_ml_m2), "mmol/m²");
    row(QT_TRANSLATE_NOOP("Cli", "hexacyanoferrate on the sheet"),
        perArea(audit.hexacyanoferrate_mol_l, answer.coat_ml_m2), "mmol/m²");
    output.table({ Words::tr("the mix"), {}, {} }, rows);
    for (qsizetype i = 0; i < answer.steps.size(); ++i)
        output.line(
            (i == 0 ? QStringLiteral("\n") : QString()) + QStringLiteral("%1. %2").arg(i + 1).arg(answer.steps[i]));
    for (const auto& warning : answer.warnings)
        output.say(warning);
    for (const auto& caution : answer.cautions)
        output.say(caution);
}

} // namespace washfast::cli
