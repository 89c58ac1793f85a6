// washfast mix: what to weigh, or what was weighed
#include "app/cli/mix_answer.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/chemistry/molar_mass.h"
#include "core/quantity/value_text.h"

namespace washfast::cli {

namespace {

using namespace chemistry;

/// What the person got wrong; run() turns it into a misuse.
Error wrongMix(const QString& says)
{
    return { Trouble::BadInput, says, {} };
}

Result<std::pair<double, double>> sizeOf(const QString& text)
{
    const auto parts = text.split(QLatin1Char('x'), Qt::KeepEmptyParts, Qt::CaseInsensitive);
    const auto width = numberIn(parts.value(0), "mm"), height = numberIn(parts.value(1), "mm");
    if (parts.size() != 2 || !width || !height || *width <= 0 || *height <= 0)
        return wrongMix(Words::tr("--size needs width x height in mm, such as 148x210, not “%1”.").arg(text));
    return std::pair(*width, *height);
}

Result<Weighed> weighedOf(const QString& text)
{
    const auto equals = text.lastIndexOf(QLatin1Char('='));
    const QString substance = text.left(std::max<qsizetype>(equals, 0)).trimmed();
    const auto mass = equals < 0 ? std::nullopt : numberIn(text.mid(equals + 1), "g");
    if (equals < 1 || substance.isEmpty() || !mass || *mass <= 0)
        return wrongMix(
            Words::tr("--weighed needs a substance and its grams, such as \"FeCl3.6H2O=0.60\", not “%1”.").arg(text));
    if (const auto found = findSubstance(substance); !found)
        return wrongMix(Words::tr("--weighed: %1").arg(found.error().sentence()));
    return Weighed { substance, *mass, std::nullopt };
}

Result<Swaps> swapsOf(const QStringList& texts)
{
    Swaps swaps;
    for (const auto& text : texts) {
        const auto parts = text.split(QLatin1Char('='));
        const auto from = findSubstance(parts.value(0)), to = findSubstance(parts.value(1));
        if (parts.size() != 2 || !from || !to)
            return wrongMix(
                Words::tr("--swap needs two substances, such as \"C6H8O7=C6H8O7.H2O\": the one of the formula "
                          "and the one that "
                          "is there.")
                    .arg(text));
        swaps.insert(from->substance.key, to->substance.key);
    }
    return swaps;
}

Result<MixAnswer> fromFormula(const Arguments& arguments)
{
    const auto* recipe = findRecipe(arguments.value("--formula"));
    if (!recipe) {
        QStringList keys;
        for (const auto& known : recipes())
            keys << known.key;
        return wrongMix(Words::tr("There is no formula “%1”. There are %2.")
                            .arg(arguments.value("--formula"), keys.join(QStringLiteral(", "))));
    }
    for (const char* needed : { "--sheets", "--size" })
        if (!arguments.has(needed))
            return wrongMix(Words::tr("--formula needs %1 as well: how much is wanted?").arg(QLatin1String(needed)));
    for (const char* other : { "--weighed", "--water" })
        if (arguments.has(other))
            return wrongMix(Words::tr("%1 does not go with --formula.").arg(QLatin1String(other)));
    const auto sheets = arguments.number("--sheets", 1, 10000);
    const auto coat = arguments.number("--coat", 0.1, 1000, "mL/m2");
    const auto spare = arguments.number("--spare", 0, 1000, "%");
    const auto balance = arguments.number("--balance", 0.00001, 100, "g");
    const auto headspace = arguments.number("--headspace", 0.001, 100000, "mL");
    for (const auto* number : { &sheets, &coat, &spare, &balance, &headspace })
        if (!*number)
            return number->error();
    if (**sheets != double(int(**sheets)))
        return wrongMix(Words::tr("--sheets needs a whole number."));
    const auto size = sizeOf(arguments.value("--size"));
    if (!size)
        return size.error();
    const auto swaps = swapsOf(arguments.values("--swap"));
    if (!swaps)
        return swaps.error();
    Order order { int(**sheets), size->first, size->second, coat->value_or(20), spare->value_or(10),
        balance->value_or(0.01) };
    const auto scaled = scale(*recipe, order, *swaps);
    if (!scaled)
        return scaled.error();
    return answerFor(*recipe, *scaled, order, headspace->value_or(20));
}

Result<MixAnswer> fromWeighed(const Arguments& arguments)
{
    for (const char* other : { "--swap", "--balance", "--spare" })
        if (arguments.has(other))
            return wrongMix(Words::tr("%1 works with --formula only.").arg(QLatin1String(other)));
    Batch batch;
    for (const auto& text : arguments.values("--weighed")) {
        auto weighed = weighedOf(text);
        if (!weighed)
            return weighed.error();
        batch.parts.push_back(std::move(weighed).value());
    }
    if (!arguments.has("--water"))
        return wrongMix(Words::tr("--water is missing: in how many mL was it dissolved?"));
    const auto water = arguments.number("--water", 0.01, 100000, "mL");
    const auto coat = arguments.number("--coat", 0.1, 1000, "mL/m2");
    const auto headspace = arguments.number("--headspace", 0.001, 100000, "mL");
    const auto sheets = arguments.number("--sheets", 1, 10000);
    for (const auto* number : { &water, &coat, &headspace, &sheets })
        if (!*number)
            return number->error();
    batch.volume_ml = **water;
    batch.headspace_ml = headspace->value_or(batch.headspace_ml);
    std::optional<double> sheets_m2;
    if (arguments.has("--size")) {
        const auto size = sizeOf(arguments.value("--size"));
        if (!size)
            return size.error();
        sheets_m2 = size->first * size->second * 1e-6 * sheets->value_or(1);
    }
    return answerFor(batch, *coat, sheets_m2);
}

int runMix(const Arguments& arguments, const Output& output)
{
    if (arguments.has("--molar-mass")) {
        const auto formula = arguments.value("--molar-mass");
        const auto mass = molarMass(formula);
        if (!mass)
            return output.misuse(mass.error().sentence());
        if (arguments.has("--json"))
            output.json({ { QStringLiteral("formula"), formula }, { QStringLiteral("molar_mass_g_mol"), *mass } });
        else
            output.line(QString::number(*mass, 'f', 3));
        return done;
    }
    if (!arguments.has("--formula") && !arguments.has("--weighed"))
        return output.misuse(Words::tr(
            "Say --formula NAME for amounts to weigh, --weighed SUBSTANCE=GRAMS for what was weighed, or --molar-mass "
            "FORMULA."));
    const auto answer = arguments.has("--formula") ? fromFormula(arguments) : fromWeighed(arguments);
    if (!answer)
        return output.misuse(answer.error().sentence());
    if (arguments.has("--json"))
        output.json(toJson(*answer));
    else
        asText(*answer, output);
    return done;
}

} // namespace

Verb mixVerb()
{
    return { "mix", QT_TRANSLATE_NOOP("Cli", "amounts to weigh for a lesson, or what a weighed mix holds"),
        { {},
            { { "--formula", "NAME", QT_TRANSLATE_NOOP("Cli", "traditional, equal_volumes, oxalate or iron_chloride") },
                { "--sheets", "N", QT_TRANSLATE_NOOP("Cli", "how many sheets are coated") },
                { "--size", "WxH", QT_TRANSLATE_NOOP("Cli", "of the coated area of one sheet, mm") },
                { "--coat", "ML_PER_M2", QT_TRANSLATE_NOOP("Cli", "mix on a square metre; 20 with --formula") },
                { "--spare", "PERCENT", QT_TRANSLATE_NOOP("Cli", "more than the sheets take; 10 without it") },
                { "--balance", "GRAMS", QT_TRANSLATE_NOOP("Cli", "smallest step of the balance; 0.01 without it") },
                { "--swap", "A=B", QT_TRANSLATE_NOOP("Cli", "B is there instead of A of the formula"), true },
                { "--weighed", "SUBSTANCE=GRAMS",
                    QT_TRANSLATE_NOOP("Cli", "what went in, such as \"K3[Fe(CN)6]=0.27\""), true },
                { "--water", "ML", QT_TRANSLATE_NOOP("Cli", "counts as the volume of the mix") },
                { "--headspace", "ML",
                    QT_TRANSLATE_NOOP("Cli", "air in a bottle that somebody might close; 20 without it") },
                { "--molar-mass", "FORMULA", QT_TRANSLATE_NOOP("Cli", "prints one molar mass, g/mol") },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } },
        runMix };
}

} // namespace washfast::cli
