#include "core/chemistry/recipe.h"

#include "core/chemistry/words.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>
#include <stdexcept>

static void openFormulas() // Q_INIT_RESOURCE has to stand outside of a namespace
{
    Q_INIT_RESOURCE(formulas);
}

namespace washfast::chemistry {

namespace {

/// A text of a file, translated where a translation is there.
QString text(const QJsonObject& object, const char* key)
{
    const auto value = object.value(QLatin1String(key)).toString();
    return value.isEmpty() ? value : QCoreApplication::translate("Formulas", value.toUtf8().constData());
}

/// Moles of the wanted part in the finished volume.
std::optional<double> wantedMoles(const Target& target, const QString& amount, double volume_ml)
{
    const double iron = target.iron_mol_l * volume_ml / 1000.0;
    if (amount == QLatin1String("iron"))
        return iron;
    if (amount == QLatin1String("hexacyanoferrate"))
        return target.hexacyanoferrate_mol_l * volume_ml / 1000.0;
    if (amount == QLatin1String("citrate"))
        return target.citrate_to_iron * iron;
    if (amount == QLatin1String("base"))
        return target.base_to_iron * iron;
    return std::nullopt;
}

std::optional<double> yieldOf(const Substance& substance, const QString& amount)
{
    if (amount == QLatin1String("iron"))
        return substance.yield.iron;
    if (amount == QLatin1String("hexacyanoferrate"))
        return substance.yield.hexacyanoferrate;
    if (amount == QLatin1String("citrate"))
        return substance.yield.citrate;
    return substance.yield.base;
}

Result<Component> readComponent(const QJsonObject& object, const Recipe& recipe, const QString& where)
{
    const auto wrong = [&](const QString& says) { return Error { Trouble::BadInput, says, where }; };
    Component part;
    part.substance = object.value(QLatin1String("substance")).toString();
    part.solution = object.value(QLatin1String("solution")).toString();
    part.note = text(object, "note");
    part.left_out = text(object, "left_out");
    const auto* substance = substanceByKey(part.substance);
    if (!substance)
        return wrong(Words::tr("The substance “%1” is not known.").arg(part.substance));
    if (std::none_of(recipe.solutions.begin(), recipe.solutions.end(),
            [&](const Solution& solution) { return solution.name == part.solution; }))
        return wrong(Words::tr("There is no solution “%1”.").arg(part.solution));
    const auto amount = object.value(QLatin1String("amount")).toString();
    if (recipe.target && !amount.isEmpty()) {
        const auto moles = wantedMoles(*recipe.target, amount, recipe.volume_ml);
        const auto yield = yieldOf(*substance, amount);
        if (!moles || !yield || *yield <= 0 || !substance->molar_mass)
            return wrong(Words::tr("“%1” cannot be the amount of %2.").arg(amount, part.substance));
        part.grams = *moles / *yield * *substance->molar_mass;
    } else {
        part.grams = object.value(QLatin1String("grams")).toDouble(0);
    }
    if (part.grams <= 0)
        return wrong(Words::tr("The amount of %1 is missing.").arg(part.substance));
    return part;
}

std::optional<Target> readTarget(const QJsonObject& object)
{
    if (object.isEmpty())
        return std::nullopt;
    const auto number = [&](const char* key) { return object.value(QLatin1String(key)).toDouble(0); };
    return Target { number("iron_mol_l"), number("hexacyanoferrate_mol_l"), number("citrate_to_iron"),
        number("base_to_iron") };
}

double molarity(const Recipe& recipe, std::optional<double> Yield::*part)
{
    double moles = 0;
    for (const auto& component : recipe.components) {
        const auto* substance = substanceByKey(component.substance);
        if (component.left_out.isEmpty())
            moles += substance->moles(component.grams).value_or(0) * (substance->yield.*part).value_or(0);
    }
    return moles / (recipe.volume_ml / 1000.0);
}

} // namespace

double Recipe::ironMolarity() const
{
    return molarity(*this, &Yield::iron);
}

double Recipe::hexacyanoferrateMolarity() const
{
    return molarity(*this, &Yield::hexacyanoferrate);
}

Result<Recipe> readRecipe(const QByteArray& json, const QString& where)
{
    const auto wrong = [&](const QString& says) { return Error { Trouble::BadInput, says, where }; };
    QJsonParseError error;
    const auto object = QJsonDocument::fromJson(json, &error).object();
    if (error.error != QJsonParseError::NoError)
        return wrong(
            Words::tr("This is no JSON: %1, at byte %2.").arg(error.errorString(), QString::number(error.offset)));
    Recipe recipe;
    recipe.key = object.value(QLatin1String("key")).toString();
    recipe.name = text(object, "name");
    recipe.source = text(object, "source");
    recipe.volume_ml = object.value(QLatin1String("volume_ml")).toDouble(0);
    recipe.target = readTarget(object.value(QLatin1String("target")).toObject());
    recipe.steps_source = text(object, "steps_source");
    recipe.waiting = text(object, "waiting");
    recipe.light = text(object, "light");
    recipe.storage = text(object, "storage");
    if (recipe.key.isEmpty() || recipe.name.isEmpty() || recipe.source.isEmpty())
        return wrong(Words::tr("Key, name or source is missing."));
    if (recipe.volume_ml <= 0)
        return wrong(Words::tr("The volume is missing."));
    for (const auto& value : object.value(QLatin1String("solutions")).toArray())
        recipe.solutions.push_back({ value.toObject().value(QLatin1String("name")).toString(),
            value.toObject().value(QLatin1String("volume_ml")).toDouble(0) });
    for (const auto& value : object.value(QLatin1String("components")).toArray()) {
        auto component = readComponent(value.toObject(), recipe, where);
        if (!component)
            return component.error();
        recipe.components.push_back(std::move(component).value());
    }
    if (recipe.components.empty())
        return wrong(Words::tr("The components are missing."));
    for (const auto& value : object.value(QLatin1String("steps")).toArray())
        recipe.steps << QCoreApplication::translate("Formulas", value.toString().toUtf8().constData());
    for (const auto& value : object.value(QLatin1String("cautions")).toArray())
        recipe.cautions << value.toString();
    return recipe;
}

const std::vector<Recipe>& recipes()
{
    static const std::vector<Recipe> all = [] {
        openFormulas();
        std::vector<Recipe> read;
        for (const char* name : { "traditional", "equal_volumes", "oxalate", "iron_chloride" }) {
            QFile file(QStringLiteral(":/formulas/%1.json").arg(QLatin1String(name)));
            if (!file.open(QIODevice::ReadOnly))
                throw std::logic_error("a formula was left out of the program");
            auto recipe = readRecipe(file.readAll(), file.fileName());
            if (!recipe)
                throw std::logic_error(recipe.error().sentence().toStdString());
            read.push_back(std::move(recipe).value());
        }
        return read;
    }();
    return all;
}

const Recipe* findRecipe(const QString& name)
{
    const auto& all = recipes();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Recipe& recipe) {
        return recipe.key.compare(name.trimmed(), Qt::CaseInsensitive) == 0
            || recipe.name.compare(name.trimmed(), Qt::CaseInsensitive) == 0;
    });
    return found == all.end() ? nullptr : &*found;
}

Range publishedRatios()
{
    Range range;
    for (const auto& recipe : recipes()) {
        if (!recipe.published())
            continue;
        const double ratio = recipe.ironToHexacyanoferrate();
        range.low = range.low > 0 ? std::min(range.low, ratio) : ratio;
        range.high = std::max(range.high, ratio);
    }
    return range;
}

} // namespace washfast::chemistry
