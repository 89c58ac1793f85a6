#include "core/chemistry/audit_findings.h"

#include "core/chemistry/words.h"

#include <algorithm>

namespace washfast::chemistry::findings {

namespace {

QString two(double value)
{
    return QString::number(value, 'f', 2);
}

void compareRatio(Audit& audit)
{
    if (!audit.iron_to_hexacyanoferrate)
        return;
    const double ratio = *audit.iron_to_hexacyanoferrate;
    const auto published = publishedRatios();
    const QString range = Words::tr("%1 to %2").arg(two(published.low), two(published.high));
    if (ratio < published.low * (1 - tolerance)) {
        audit.findings.push_back({ FindingKind::HexacyanoferrateExcess,
            Words::tr(
                "Hexacyanoferrate is in excess: %1 iron for each, the published formulas have %2. That is %3 times as "
                "much hexacyanoferrate for the iron. What finds no iron is yellow, shades the iron from the light and "
                "has to be washed out: likely a slower coat, a longer rinse and yellow whites, not a deeper blue.")
                .arg(two(ratio), range, two(published.low / ratio)) });
    } else if (ratio > published.high * (1 + tolerance)) {
        audit.findings.push_back({ FindingKind::IronExcess,
            Words::tr(
                "Iron is in excess: %1 for each hexacyanoferrate, the published formulas have %2, so there is %3 times "
                "as much iron. Hexacyanoferrate then limits the blue, and iron left in the paper is likely to stain it "
                "brown.")
                .arg(two(ratio), range, two(ratio / published.high)) });
    } else {
        audit.findings.push_back({ FindingKind::Agrees,
            Words::tr("Iron : hexacyanoferrate is %1, as in the published formulas (%2).").arg(two(ratio), range) });
    }
}

void compareCitrate(Audit& audit)
{
    // Only a mix that makes its own citrate: the oxalate solution has none, and a citrate salt brings its own.
    if (!audit.citrate_to_iron || !audit.base_needed_mmol || *audit.base_needed_mmol <= 0)
        return;
    const double ratio = *audit.citrate_to_iron;
    if (ratio < citrateLow)
        audit.findings.push_back({ FindingKind::CitrateShort,
            Words::tr(
                "Citrate is short: %1 for each iron, the citrate salts have 1.02 to 1.33. Iron without citrate is "
                "likely to fall out brown when the base goes in, and is not sensitive to light.")
                .arg(two(ratio)) });
    else if (ratio > citrateHigh)
        audit.findings.push_back({ FindingKind::CitrateExcess,
            Words::tr(
                "Citrate is in excess: %1 for each iron, the citrate salts have 1.02 to 1.33. It does little harm, but "
                "“until neutral” then takes more base and gives off more gas than is counted here.")
                .arg(two(ratio)) });
}

void compareBase(Audit& audit)
{
    if (!audit.neutralised || !audit.base_mmol)
        return;
    if (*audit.base_mmol <= 0)
        audit.findings.push_back({ FindingKind::AcidLeft,
            Words::tr(
                "No base was weighed. The acid of the iron(III) chloride is still there: likely to harm the paper, and "
                "not to be heated with hexacyanoferrate.") });
    else if (*audit.neutralised < baseShort)
        audit.findings.push_back({ FindingKind::AcidLeft,
            Words::tr(
                "The base is %1 of the target: the mix is likely still sour, which harms paper and is not to be heated "
                "with hexacyanoferrate.")
                .arg(two(*audit.neutralised)) });
    else if (*audit.neutralised > baseTooMuch)
        audit.findings.push_back({ FindingKind::BaseExcess,
            Words::tr("The base is %1 times the target: likely a smell of ammonia. Alkali destroys the blue.")
                .arg(two(*audit.neutralised)) });
}

void compareStrength(Audit& audit)
{
    if (!audit.iron_mol_l)
        return;
    double least = 0, most = 0;
    for (const auto& recipe : recipes()) {
        if (!recipe.published())
            continue;
        least = least > 0 ? std::min(least, recipe.ironMolarity()) : recipe.ironMolarity();
        most = std::max(most, recipe.ironMolarity());
    }
    if (*audit.iron_mol_l < least / 2)
        audit.findings.push_back({ FindingKind::Weak,
            Words::tr(
                "The mix is weak: %1 mol/L iron, the weakest published formula has %2. A coat of the usual thickness "
                "carries less iron, so that the deepest blue is likely to be paler.")
                .arg(two(*audit.iron_mol_l), two(least)) });
    else if (*audit.iron_mol_l > most * (1 + tolerance))
        audit.findings.push_back({ FindingKind::Strong,
            Words::tr(
                "The mix is strong: %1 mol/L iron, the strongest published formula has %2. It may crystallise on the "
                "paper.")
                .arg(two(*audit.iron_mol_l), two(most)) });
}

} // namespace

QString noMass(const QString& name)
{
    return Words::tr("How much %1 was weighed is not recorded, so what depends on it stays unknown.").arg(name);
}

QString nothingWeighed()
{
    return Words::tr("Nothing that was weighed is recorded.");
}

QString wrongSubstance(const Substance& substance)
{
    const QString says = Words::tr("%1 does not belong in a sensitiser.").arg(substance.name);
    return substance.caution.isEmpty() ? says : says + QLatin1Char(' ') + substance.caution;
}

void compare(Audit& audit)
{
    compareRatio(audit);
    compareCitrate(audit);
    compareBase(audit);
    compareStrength(audit);
}

} // namespace washfast::chemistry::findings
