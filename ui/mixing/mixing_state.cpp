#include "ui/mixing/mixing_state.h"

#include "ui/mixing/words.h"

#include <QLocale>
#include <QRegularExpression>
#include <algorithm>
#include <cmath>

namespace washfast::ui::mixing {

namespace {

QString number(double value, int digits)
{
    return QLocale().toString(value, 'f', digits);
}

} // namespace

double minutesIn(const QString& text)
{
    static const QRegularExpression counted(
        QStringLiteral("(\\d+)\\s*(minutes?|min|hours?|h)\\b"), QRegularExpression::CaseInsensitiveOption);
    if (text.contains(QLatin1String("half an hour"), Qt::CaseInsensitive))
        return 30;
    if (text.contains(QLatin1String("an hour"), Qt::CaseInsensitive))
        return 60;
    const auto match = counted.match(text);
    if (!match.hasMatch())
        return 0;
    return match.captured(1).toDouble()
        * (match.captured(2).startsWith(QLatin1Char('h'), Qt::CaseInsensitive) ? 60 : 1);
}

QString gramsText(double grams, double balance_g)
{
    const int digits = balance_g >= 1 ? 0 : std::clamp(int(std::ceil(-std::log10(balance_g) - 1e-9)), 0, 6);
    return number(grams, digits);
}

MixingState::MixingState()
    : formulas_(chemistry::recipes())
    , shipped_(int(formulas_.size()))
{
}

void MixingState::setFormula(int at)
{
    if (at < 0 || at >= int(formulas_.size()) || at == formula_)
        return;
    formula_ = at;
    swaps.clear();
    entered_.clear();
}

void MixingState::read(const Notebook& notebook)
{
    const auto key = formula().key;
    formulas_ = chemistry::recipes();
    unusable_.clear();
    for (auto& own : chemistry::ownFormulas(notebook)) {
        if (own.recipe)
            formulas_.push_back(std::move(*own.recipe));
        else
            unusable_.push_back(std::move(own));
    }
    const auto found = std::find_if(
        formulas_.begin(), formulas_.end(), [&](const chemistry::Recipe& recipe) { return recipe.key == key; });
    formula_ = found == formulas_.end() ? 0 : int(found - formulas_.begin());
    bottles_.clear();
    purity_.clear();
    for (const auto& substance : chemistry::knownSubstances()) {
        bottles_[substance.key] = chemistry::bottlesOf(notebook, substance.key);
        for (const auto bottle : bottles_[substance.key])
            if (const auto purity = notebook.get({ Entity::Chemical, bottle }, u"chemical_purity_pct").number())
                purity_[bottle] = *purity;
    }
}

Outcome MixingState::work()
{
    auto scaled = chemistry::scale(formula(), order, swaps);
    if (!scaled)
        return scaled.error();
    scaled_ = std::move(scaled).value();
    lines_.clear();
    for (const auto& amount : scaled_.amounts) {
        Line line;
        line.amount = amount;
        line.component = amount.swapped_from.isEmpty() ? amount.substance : amount.swapped_from;
        const auto* substance = chemistry::substanceByKey(amount.substance);
        line.name = substance->name;
        line.formula_of = chemistry::prettyFormula(substance->formula);
        const auto* first = chemistry::substanceByKey(line.component);
        line.instead.push_back(first);
        if (!first->family.isEmpty())
            for (const auto* member : chemistry::familyMembers(first->family))
                if (member != first && chemistry::equivalentMass(*first, *member, 1.0))
                    line.instead.push_back(member);
        line.bottles = bottles_.value(amount.substance);
        lines_.push_back(std::move(line));
    }
    makeSteps();
    return Done {};
}

void MixingState::makeSteps()
{
    steps_.clear();
    for (const auto& line : lines_) {
        Step step;
        step.weighing = true;
        step.text
            = MixingWords::tr("Weigh %1 g of %2.").arg(gramsText(line.amount.rounded_g, order.balance_g), line.name);
        steps_.push_back(step);
    }
    for (const auto& text : formula().steps) {
        Step step;
        step.text = text;
        step.wait_min = minutesIn(text);
        if (step.wait_min == 0 && text.contains(QLatin1String("stand open"), Qt::CaseInsensitive))
            step.wait_min = minutesIn(formula().waiting);
        steps_.push_back(step);
    }
    Step last;
    last.text = MixingWords::tr("Top up to %1 mL, stir, and label the vessel: content, date, your code.")
                    .arg(number(scaled_.volume_ml, 1));
    steps_.push_back(last);
}

qint64 MixingState::bottleFor(const Line& line) const
{
    const auto chosen = entered_.value(line.component).bottle;
    if (chosen == 0 || std::find(line.bottles.begin(), line.bottles.end(), chosen) != line.bottles.end())
        return chosen;
    return line.bottles.empty() ? 0 : line.bottles.front();
}

int MixingState::weighed() const
{
    return int(std::count_if(lines_.begin(), lines_.end(),
        [&](const Line& line) { return entered_.value(line.component).grams.has_value(); }));
}

chemistry::Audit MixingState::audited() const
{
    chemistry::Batch batch;
    batch.volume_ml = volume_ml.value_or(scaled_.volume_ml);
    const bool plan = weighed() == 0;
    for (const auto& line : lines_) {
        chemistry::Weighed part;
        part.substance = line.amount.substance;
        part.mass_g = plan ? std::optional(line.amount.rounded_g) : entered_.value(line.component).grams;
        if (const auto bottle = bottleFor(line); !plan && purity_.contains(bottle))
            part.purity_pct = purity_.value(bottle);
        batch.parts.push_back(part);
    }
    return chemistry::audit(batch);
}

QStringList MixingState::substances() const
{
    QStringList keys;
    for (const auto& line : lines_)
        keys << line.amount.substance;
    return keys;
}

std::vector<chemistry::Caution> MixingState::cautions() const
{
    return chemistry::cautionsFor(substances(), QStringLiteral("mixing"));
}

QString MixingState::gasSentence() const
{
    const auto audit = audited();
    if (!audit.carbon_dioxide_l || *audit.carbon_dioxide_l <= 0)
        return {};
    QString says = MixingWords::tr(
        "The mix gives off up to %1 L of carbon dioxide: it stays open until it no longer fizzes and has "
        "stood quiet.")
                       .arg(number(*audit.carbon_dioxide_l, 2));
    if (audit.closed_bottle_kpa)
        says += QLatin1Char(' ')
            + MixingWords::tr(
                "Stoppered at once with %1 mL of air above it, that would be up to %2 bar over the air's pressure: the "
                "bottle can burst.")
                  .arg(number(audit.headspace_ml, 0), number(*audit.closed_bottle_kpa / 100, 1));
    return says;
}

QString MixingState::roundingSentence() const
{
    const auto ratio
        = [](const std::optional<double>& value) { return value ? number(*value, 2) : QStringLiteral("–"); };
    QString says
        = MixingWords::tr("Iron : hexacyanoferrate %1 as calculated, %2 as the balance shows it")
              .arg(ratio(scaled_.exact.iron_to_hexacyanoferrate), ratio(scaled_.rounded.iron_to_hexacyanoferrate));
    if (scaled_.exact.citrate_to_iron && *scaled_.exact.citrate_to_iron > 0)
        says += MixingWords::tr("; citrate : iron %1 and %2")
                    .arg(ratio(scaled_.exact.citrate_to_iron), ratio(scaled_.rounded.citrate_to_iron));
    return says + QLatin1Char('.');
}

Result<qint64> MixingState::formulaRecord(store::Writer& writer) const
{
    const auto found = writer.byName(Entity::Formula, formula().name);
    if (!found)
        return found.error();
    if (*found)
        return **found;
    return writer.add(Entity::Formula, 0,
        { { QStringLiteral("formula_name"), Known { formula().name } },
            { QStringLiteral("formula_source"), Known { formula().source } },
            { QStringLiteral("formula_iron_mol_l"), knownNumber(formula().ironMolarity(), Evidence::Assumed) },
            { QStringLiteral("formula_hexacyanoferrate_mol_l"),
                knownNumber(formula().hexacyanoferrateMolarity(), Evidence::Assumed) } });
}

Result<qint64> MixingState::write(
    store::Writer& writer, const QString& code, const Instant& now, const QString& notes) const
{
    const auto formula_id = formulaRecord(writer);
    if (!formula_id)
        return formula_id.error();
    std::vector<store::FieldValue> values { { QStringLiteral("mix_code"), Known { code } },
        { QStringLiteral("mix_formula"), Known { Link { *formula_id } } },
        { QStringLiteral("mix_made"), Known { now } },
        { QStringLiteral("mix_water_ml"),
            knownNumber(volume_ml.value_or(scaled_.volume_ml), volume_ml ? Evidence::Measured : Evidence::Assumed) } };
    if (ph)
        values.emplace_back(QStringLiteral("mix_ph"), knownNumber(*ph));
    if (!notes.isEmpty())
        values.emplace_back(QStringLiteral("mix_notes"), Known { notes });
    const auto mix = writer.add(Entity::Mix, 0, values);
    if (!mix)
        return mix;
    for (const auto& line : lines_) {
        std::vector<store::FieldValue> part { { QStringLiteral("part_substance"), Known { line.name } } };
        if (const auto grams = entered_.value(line.component).grams)
            part.emplace_back(QStringLiteral("part_mass_g"), knownNumber(*grams));
        if (const auto bottle = bottleFor(line); bottle > 0)
            part.emplace_back(QStringLiteral("part_chemical"), Known { Link { bottle } });
        if (const auto added = writer.add(Entity::MixPart, *mix, part); !added)
            return added;
    }
    return mix;
}

} // namespace washfast::ui::mixing
