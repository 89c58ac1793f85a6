#include "core/chemistry/fields.h"

#include "core/chemistry/audit.h"

namespace washfast::chemistry {

namespace {

using Inputs = std::span<const Known>;
using Tables = std::span<const ChildRows>;

/// An audit of the parts of the mix, with the evidence of the weakest of them.
struct MixAudit {
    Audit audit;
    Evidence evidence = Evidence::Measured;
};

/// Columns of a part: substance, mass, and of the bottle it came from the purity and the formula.
const QStringList partColumns { QStringLiteral("part_substance"), QStringLiteral("part_mass_g"),
    QStringLiteral("part_chemical.chemical_purity_pct"), QStringLiteral("part_chemical.chemical_formula") };

Weighed weighedFrom(const std::vector<Known>& row)
{
    Weighed weighed { row[0].text().value_or(QString()), row[1].number(), row[2].number() };
    // The bottle's label says more than "citric acid" on the list: which form it is.
    const auto label = row[3].text();
    if (!label || label->isEmpty())
        return weighed;
    const auto written = findSubstance(weighed.substance);
    if (!written || written->form_assumed)
        if (findSubstance(*label))
            weighed.substance = *label;
    return weighed;
}

MixAudit auditOf(const ChildRows& rows, std::optional<double> water_ml)
{
    MixAudit made;
    Batch batch;
    batch.volume_ml = water_ml;
    for (const auto& row : rows) {
        batch.parts.push_back(weighedFrom(row));
        made.evidence = weaker(made.evidence, row[1].evidence);
        if (const auto found = findSubstance(batch.parts.back().substance)) {
            if (found->substance.iron_share)
                made.evidence = weaker(made.evidence, Evidence::Estimated);
            if (found->form_assumed)
                made.evidence = Evidence::Assumed;
        }
    }
    made.audit = reckon(batch);
    return made;
}

std::vector<RowsOf> parts()
{
    return { { Entity::MixPart, partColumns, { QStringLiteral("print_mix") } } };
}

Field field(const char* key, const char* label, const char* unit, int digits, const char* description)
{
    return numberField(Entity::Print, key, label, unit, description).in(Station::Coat).digits(digits).inGroup(91);
}

// Only the ratios are taken as causes by default. Strength and amount per area go with them and with the coat per area
// by arithmetic; beside these they would make a tangle out of every comparison.
void addRatio(
    Catalogue& c, const char* key, const char* label, const char* description, std::optional<double> Audit::*ratio)
{
    c.derive(field(key, label, "", 2, description).cause().lever(InCauses::Lever::Set).sign("sensitiser"),
        { {}, parts(), [ratio](Inputs, Tables tables) -> Known {
             const auto made = auditOf(tables[0], std::nullopt);
             const auto value = made.audit.*ratio;
             return value ? knownNumber(*value, made.evidence) : Known {};
         } });
}

void addMolarity(
    Catalogue& c, const char* key, const char* label, const char* description, std::optional<double> Audit::*molarity)
{
    c.derive(field(key, label, "mol/L", 3, description).lever(InCauses::Lever::Set).sign("sensitiser"),
        { { QStringLiteral("mix_water_ml") }, parts(), [molarity](Inputs in, Tables tables) -> Known {
             const auto made = auditOf(tables[0], in[0].number());
             const auto value = made.audit.*molarity;
             // The water stands for the volume of the mix, so that it is never better than an estimate.
             return value ? knownNumber(*value, weaker(weaker(made.evidence, in[0].evidence), Evidence::Estimated))
                          : Known {};
         } });
}

void addPerArea(Catalogue& c, const char* key, const char* label, const char* description, const char* molarity)
{
    c.derive(field(key, label, "mmol/m²", 2, description),
        { { QString::fromLatin1(molarity), QStringLiteral("coat_per_area_ml_m2") }, std::vector<RowsOf> {},
            [](Inputs in, Tables) -> Known {
                const auto strength = in[0].number(), coat = in[1].number();
                if (!strength || !coat)
                    return {};
                return knownNumber(*strength * *coat, weaker(in[0].evidence, in[1].evidence)); // mol/L is mmol/mL
            } });
}

} // namespace

void addFields(Catalogue& catalogue)
{
    addMolarity(catalogue, "mix_iron_mol_l", "Iron in the mix",
        "Iron(III) from what was weighed, in the water of the mix.", &Audit::iron_mol_l);
    addMolarity(catalogue, "mix_hexacyanoferrate_mol_l", "Hexacyanoferrate in the mix",
        "Hexacyanoferrate(III) from what was weighed, in the water of the mix.", &Audit::hexacyanoferrate_mol_l);
    addRatio(catalogue, "iron_to_hexacyanoferrate", "Iron : hexacyanoferrate",
        "Amount of iron(III) for each hexacyanoferrate(III). The published formulas have 2.2 to 2.3.",
        &Audit::iron_to_hexacyanoferrate);
    addRatio(catalogue, "citrate_to_iron", "Citrate : iron",
        "Amount of citrate for each iron(III). The citrate salts have 1.0 to 1.3.", &Audit::citrate_to_iron);
    addPerArea(catalogue, "iron_mmol_m2", "Iron per area", "Iron(III) on the sheet.", "mix_iron_mol_l");
    addPerArea(catalogue, "hexacyanoferrate_mmol_m2", "Hexacyanoferrate per area",
        "Hexacyanoferrate(III) on the sheet.", "mix_hexacyanoferrate_mol_l");
}

} // namespace washfast::chemistry
