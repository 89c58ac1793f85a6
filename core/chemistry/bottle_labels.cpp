#include "core/chemistry/bottle_labels.h"

#include "core/chemistry/formula_parser.h"
#include "core/chemistry/mix_record.h"
#include "core/chemistry/recorded.h"
#include "core/chemistry/words.h"

#include <QLocale>

namespace washfast::chemistry {

namespace {

QString dayAt(const Notebook& notebook, Ref ref, const char* column)
{
    const auto time = at(notebook, ref, column).time();
    return time ? time->toDateTime().date().toString(Qt::ISODate) : QString();
}

QString number(double value, int digits)
{
    return QLocale().toString(value, 'f', digits);
}

/// The formula with small figures; a text that is none as it stands.
QString shownFormula(const QString& written, const Substance* substance)
{
    if (!written.isEmpty() && readFormula(written).ok())
        return prettyFormula(written);
    if (substance && !substance->formula.isEmpty())
        return prettyFormula(substance->formula);
    return written;
}

} // namespace

BottleLabel labelOfChemical(const Notebook& notebook, qint64 chemical)
{
    const Ref ref { Entity::Chemical, chemical };
    const auto key = substanceInBottle(notebook, chemical);
    const auto* substance = substanceByKey(key);
    auto label = bottleLabel(notebook.nameOf(ref), key.isEmpty() ? QStringList() : QStringList { key });
    QStringList what;
    if (const auto formula = shownFormula(textAt(notebook, ref, "chemical_formula"), substance); !formula.isEmpty())
        what << formula;
    if (const auto form = textAt(notebook, ref, "chemical_form"); !form.isEmpty())
        what << form;
    if (!what.isEmpty())
        label.contents << what.join(QStringLiteral(", "));
    QStringList lot;
    if (const auto written = textAt(notebook, ref, "chemical_lot"); !written.isEmpty())
        lot << Words::tr("lot %1").arg(written);
    if (const auto purity = at(notebook, ref, "chemical_purity_pct").number())
        lot << Words::tr("purity %1 %").arg(number(*purity, 1));
    if (const auto best = dayAt(notebook, ref, "chemical_best_before"); !best.isEmpty())
        lot << Words::tr("best before %1").arg(best);
    if (!lot.isEmpty())
        label.contents << lot.join(QStringLiteral(", "));
    label.date = LabelDate::Opened;
    label.made = dayAt(notebook, ref, "chemical_opened");
    const auto* hazards = hazardsOf(key);
    label.note
        = hazards ? hazards->note : Words::tr("Its hazards are not kept here: take them from the supplier's label.");
    return label;
}

BottleLabel labelOfBatch(const QString& code, const Audit& audit, const QString& made)
{
    auto label = bottleLabel(Words::tr("Mix %1").arg(code), audit.substances());
    QStringList names;
    for (const auto& part : audit.parts)
        names << (part.name.isEmpty() ? part.written : part.name);
    if (!names.isEmpty())
        label.contents << names.join(QStringLiteral(", "));
    if (audit.iron_mol_l && audit.hexacyanoferrate_mol_l)
        label.contents << Words::tr("iron %1 mol/L, hexacyanoferrate %2 mol/L")
                              .arg(number(*audit.iron_mol_l, 3), number(*audit.hexacyanoferrate_mol_l, 3));
    label.made = made;
    if (audit.carbon_dioxide_l && *audit.carbon_dioxide_l > 0)
        label.note = Words::tr("Vented cap. Not tight while it fizzes.");
    return label;
}

BottleLabel labelOfMix(const Notebook& notebook, qint64 mix)
{
    const Ref ref { Entity::Mix, mix };
    return labelOfBatch(notebook.nameOf(ref), audit(batchOf(notebook, mix)), dayAt(notebook, ref, "mix_made"));
}

} // namespace washfast::chemistry
