#include "core/chemistry/risk_sheet.h"

#include "core/chemistry/substance.h"
#include "core/chemistry/words.h"

namespace washfast::chemistry {

namespace {

RiskSubstance riskOf(const QString& key)
{
    RiskSubstance risk;
    const auto* substance = substanceByKey(key);
    risk.name = substance ? substance->name : key;
    const auto* hazards = hazardsOf(key);
    if (!hazards) {
        risk.note = Words::tr("Nothing is kept here about it: see the supplier's safety data sheet.");
        return risk;
    }
    risk.signal = hazards->signal();
    const auto agreed = hazards->agreed();
    for (const auto& code : hazards->all())
        risk.statements << code + (agreed.contains(code) ? QStringLiteral(" ") : QStringLiteral("* "))
                + statementText(code);
    if (risk.statements.isEmpty())
        risk.statements << Words::tr("not classified in the sources that were looked at");
    for (const auto& list : hazards->lists)
        risk.sources << (list.from_memory ? Words::tr("%1 (from memory)").arg(list.source) : list.source);
    risk.note = hazards->note;
    risk.pictograms = pictogramsFor(hazards->all());
    return risk;
}

} // namespace

RiskSheet riskSheet(const QStringList& substances, std::optional<double> uv_index)
{
    RiskSheet sheet;
    sheet.disclaimer
        = Words::tr("This sheet does not replace the school's own risk assessment. It lists common cautions for "
                    "this work, to be checked, completed and signed by the person who is responsible.");
    for (const auto& key : substances)
        sheet.substances.push_back(riskOf(key));
    for (const auto& caution : cautionsFor(substances))
        sheet.cautions.push_back(caution.key == QLatin1String("sun") ? sunCaution(uv_index) : caution);
    sheet.footing = Words::tr("A star marks what only some suppliers state. %1").arg(deferral());
    return sheet;
}

} // namespace washfast::chemistry
