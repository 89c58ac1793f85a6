#include "core/chemistry/audit.h"

#include "core/chemistry/audit_findings.h"
#include "core/chemistry/molar_mass.h"

#include <algorithm>
#include <cmath>

namespace washfast::chemistry {

namespace {

using Part = std::optional<double> Yield::*;

/// The parts with what they were found to be, kept together while the sums are made.
struct Read {
    std::optional<Substance> substance;
    std::optional<double> mmol; // that the yields are counted by
};

/// Sum over all parts; nothing when one of them could add an unknown amount.
std::optional<double> total(const std::vector<Read>& parts, Part part)
{
    double sum = 0;
    for (const auto& read : parts) {
        if (!read.substance)
            return std::nullopt;
        const auto yield = read.substance->yield.*part;
        if (yield == 0.0)
            continue; // whatever was weighed of it
        if (!yield || !read.mmol)
            return std::nullopt;
        sum += *yield * *read.mmol;
    }
    return sum;
}

std::optional<double> over(std::optional<double> a, std::optional<double> b)
{
    return a && b && *b > 0 ? std::optional(*a / *b) : std::nullopt;
}

AuditedPart read(const Weighed& weighed, std::optional<double> volume_ml, Read& into, std::vector<Finding>& findings)
{
    AuditedPart part;
    part.written = weighed.substance;
    part.mass_g = weighed.mass_g;
    const auto found = findSubstance(weighed.substance);
    if (!found) {
        findings.push_back({ FindingKind::Unknown, found.error().sentence() });
        return part;
    }
    const auto& substance = found->substance;
    part.name = substance.name;
    part.substance = substance.key;
    part.form_assumed = found->form_assumed;
    part.molar_mass = substance.molar_mass;
    into.substance = substance;
    if (found->form_assumed)
        findings.push_back({ FindingKind::FormAssumed, found->says });
    if (substance.key == QLatin1String("K4[Fe(CN)6].3H2O") || substance.role == Role::Product)
        findings.push_back({ FindingKind::WrongSubstance, findings::wrongSubstance(substance) });
    if (!weighed.mass_g) {
        findings.push_back({ FindingKind::Unknown, findings::noMass(substance.name) });
        return part;
    }
    const double grams = *weighed.mass_g * weighed.purity_pct.value_or(100) / 100;
    if (const auto moles = substance.moles(grams)) {
        into.mmol = *moles * 1000;
        part.amount_mmol = into.mmol; // of the salt, or of the iron in a salt of varying composition
        part.molar_mol_l = over(part.amount_mmol, volume_ml);
    }
    return part;
}

/// The base that the needed amount is given in: the carbonate that was weighed, else the one that was asked for.
const Substance* baseFor(const std::vector<Read>& parts, const QString& asked)
{
    for (const auto& part : parts)
        if (part.substance && part.substance->role == Role::Base)
            return substanceByKey(part.substance->key);
    return substanceByKey(asked);
}

void gas(Audit& audit, const std::vector<Read>& parts)
{
    const bool weighed = std::any_of(parts.begin(), parts.end(),
        [](const Read& part) { return part.substance && part.substance->role == Role::Base; });
    const auto* base = substanceByKey(audit.base);
    if (weighed)
        audit.carbon_dioxide_mmol = total(parts, &Yield::carbon_dioxide);
    else if (audit.base_needed_mmol && base)
        audit.carbon_dioxide_mmol
            = *audit.base_needed_mmol * base->yield.carbon_dioxide.value_or(0) / base->yield.base.value_or(1);
    if (!audit.carbon_dioxide_mmol)
        return;
    audit.carbon_dioxide_l = *audit.carbon_dioxide_mmol / 1000 * molarGasVolume(audit.celsius);
    if (audit.headspace_ml > 0)
        audit.closed_bottle_kpa = gasOverpressure(*audit.carbon_dioxide_mmol, audit.headspace_ml, audit.celsius);
}

} // namespace

bool Audit::has(FindingKind kind) const
{
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) { return finding.kind == kind; });
}

QStringList Audit::substances() const
{
    QStringList keys;
    for (const auto& part : parts)
        if (!part.substance.isEmpty() && !keys.contains(part.substance))
            keys << part.substance;
    return keys;
}

Audit reckon(const Batch& batch)
{
    Audit audit;
    audit.volume_ml = batch.volume_ml && *batch.volume_ml > 0 ? batch.volume_ml : std::nullopt;
    audit.headspace_ml = batch.headspace_ml;
    audit.celsius = batch.celsius;
    std::vector<Read> parts(batch.parts.size());
    for (size_t i = 0; i < batch.parts.size(); ++i)
        audit.parts.push_back(read(batch.parts[i], audit.volume_ml, parts[i], audit.findings));
    if (parts.empty())
        audit.findings.push_back({ FindingKind::Unknown, findings::nothingWeighed() });
    else {
        audit.iron_mmol = total(parts, &Yield::iron);
        audit.hexacyanoferrate_mmol = total(parts, &Yield::hexacyanoferrate);
        audit.citrate_mmol = total(parts, &Yield::citrate);
        audit.base_mmol = total(parts, &Yield::base);
        if (const auto acid = total(parts, &Yield::chloride_acid))
            audit.base_needed_mmol = *acid / 3 * (baseForAcid + baseForAmmonia);
    }
    audit.iron_mol_l = over(audit.iron_mmol, audit.volume_ml);
    audit.hexacyanoferrate_mol_l = over(audit.hexacyanoferrate_mmol, audit.volume_ml);
    audit.iron_to_hexacyanoferrate = over(audit.iron_mmol, audit.hexacyanoferrate_mmol);
    audit.citrate_to_iron = over(audit.citrate_mmol, audit.iron_mmol);
    audit.neutralised = over(audit.base_mmol, audit.base_needed_mmol);
    if (const auto* base = baseFor(parts, batch.base)) {
        audit.base = base->key;
        if (audit.base_needed_mmol && base->yield.base.value_or(0) > 0)
            audit.base_needed_g = *audit.base_needed_mmol / *base->yield.base * *base->molar_mass / 1000;
    }
    gas(audit, parts);
    return audit;
}

Audit audit(const Batch& batch)
{
    Audit audit = reckon(batch);
    for (const auto& recipe : recipes())
        audit.beside.push_back({ recipe.key, recipe.ironMolarity(), recipe.ironToHexacyanoferrate(),
            over(audit.iron_to_hexacyanoferrate, recipe.ironToHexacyanoferrate()) });
    findings::compare(audit);
    return audit;
}

} // namespace washfast::chemistry
