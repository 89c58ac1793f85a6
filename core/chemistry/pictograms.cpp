// Which pictograms and precautionary statements belong to hazard codes: Annex 3 and chapter 1.4 of the GHS.
#include "core/chemistry/hazards.h"

#include "core/chemistry/words.h"

#include <QSet>
#include <algorithm>

namespace washfast::chemistry {

namespace {

enum class Symbol : quint8 { Flame, Corrosion, Skull, Exclamation, Health, Environment };

struct Rule {
    const char* code;
    Symbol symbol;
    const char* precautions; // separated by spaces
};

constexpr Rule rules[] = {
    { "H272", Symbol::Flame, "P280" },
    { "H290", Symbol::Corrosion, "" },
    { "H302", Symbol::Exclamation, "P264 P270 P330" },
    { "H312", Symbol::Exclamation, "P280 P362+P364" },
    { "H332", Symbol::Exclamation, "P261 P271" },
    { "H314", Symbol::Corrosion, "P264 P280 P305+P351+P338" },
    { "H315", Symbol::Exclamation, "P264 P280 P362+P364" },
    { "H317", Symbol::Exclamation, "P261 P280 P362+P364" },
    { "H318", Symbol::Corrosion, "P280 P305+P351+P338" },
    { "H319", Symbol::Exclamation, "P264 P280 P305+P351+P338" },
    { "H330", Symbol::Skull, "P271" },
    { "H335", Symbol::Exclamation, "P261 P271" },
    { "H340", Symbol::Health, "P280" },
    { "H350", Symbol::Health, "P280" },
    { "H360", Symbol::Health, "P280" },
    { "H400", Symbol::Environment, "P273 P391" },
    { "H410", Symbol::Environment, "P273 P391" },
    { "H411", Symbol::Environment, "P273 P391" },
};

const Rule* ruleFor(const QString& code)
{
    const auto found = std::find_if(
        std::begin(rules), std::end(rules), [&](const Rule& rule) { return code == QLatin1String(rule.code); });
    return found == std::end(rules) ? nullptr : found;
}

Pictogram pictogram(Symbol symbol)
{
    const auto named = [](const char* code, const char* name) {
        return Pictogram { QString::fromLatin1(code), Words::tr(name) };
    };
    switch (symbol) {
    case Symbol::Flame:
        return named("GHS03", QT_TRANSLATE_NOOP("Chemistry", "flame over circle"));
    case Symbol::Corrosion:
        return named("GHS05", QT_TRANSLATE_NOOP("Chemistry", "corrosion"));
    case Symbol::Skull:
        return named("GHS06", QT_TRANSLATE_NOOP("Chemistry", "skull and crossbones"));
    case Symbol::Exclamation:
        return named("GHS07", QT_TRANSLATE_NOOP("Chemistry", "exclamation mark"));
    case Symbol::Health:
        return named("GHS08", QT_TRANSLATE_NOOP("Chemistry", "health hazard"));
    case Symbol::Environment:
        break;
    }
    return named("GHS09", QT_TRANSLATE_NOOP("Chemistry", "environment"));
}

bool any(const QStringList& codes, std::initializer_list<const char*> wanted)
{
    return std::any_of(
        wanted.begin(), wanted.end(), [&](const char* code) { return codes.contains(QLatin1String(code)); });
}

/// An exclamation mark that a stronger symbol for the same kind of harm takes the place of.
bool outranked(const QString& code, const QStringList& codes)
{
    if (any({ code }, { "H315", "H319" }))
        return any(codes, { "H314", "H318" });
    return any({ code }, { "H302", "H312", "H332" }) && any(codes, { "H330" });
}

} // namespace

std::vector<Pictogram> pictogramsFor(const QStringList& codes)
{
    std::vector<Pictogram> found;
    for (const Symbol symbol :
        { Symbol::Flame, Symbol::Corrosion, Symbol::Skull, Symbol::Exclamation, Symbol::Health, Symbol::Environment }) {
        const bool needed = std::any_of(codes.begin(), codes.end(), [&](const QString& code) {
            const auto* rule = ruleFor(code);
            return rule && rule->symbol == symbol && !outranked(code, codes);
        });
        if (needed)
            found.push_back(pictogram(symbol));
    }
    return found;
}

QStringList precautionsFor(const QStringList& codes)
{
    QStringList precautions;
    for (const auto& code : codes)
        if (const auto* rule = ruleFor(code))
            for (const auto& precaution :
                QString::fromLatin1(rule->precautions).split(QLatin1Char(' '), Qt::SkipEmptyParts))
                if (!precautions.contains(precaution))
                    precautions << precaution;
    precautions.sort();
    return precautions;
}

} // namespace washfast::chemistry
