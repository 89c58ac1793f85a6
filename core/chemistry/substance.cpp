#include "core/chemistry/substance.h"

#include "core/chemistry/molar_mass.h"
#include "core/chemistry/words.h"

#include <QHash>
#include <algorithm>
#include <array>

namespace washfast::chemistry {

namespace {

Yield none()
{
    return { 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0 };
}

Substance make(
    const char* formula, const char* name, const char* form, const char* family, Role role, const char* caution = "")
{
    Substance s;
    s.key = s.formula = QString::fromLatin1(formula);
    s.name = Words::tr(name);
    s.form = *form ? Words::tr(form) : QString();
    s.family = QString::fromLatin1(family);
    s.role = role;
    s.molar_mass = molarMass(s.formula).value();
    s.yield = none();
    s.caution = *caution ? Words::tr(caution) : QString();
    return s;
}

/// Ammonium iron(III) citrate: iron by mass from Ware, "The new cyanotype" (green 14-18 %, brown 18-28 %); citrate and
/// ammonia for each iron computed from the handbook composition quoted in the alt-photo-process list, 20 February 1997
/// (green 14-16 % Fe, 7.5 % NH3, 75 % hydrated citric acid; brown 16-18 % Fe, 9 % NH3, 65 %).
Substance citrateSalt(bool green)
{
    Substance s;
    s.key = green ? QStringLiteral("ammonium iron(III) citrate green")
                  : QStringLiteral("ammonium iron(III) citrate brown");
    s.name = green ? Words::tr("ammonium iron(III) citrate, green") : Words::tr("ammonium iron(III) citrate, brown");
    s.form = green ? Words::tr("green") : Words::tr("brown");
    s.family = QStringLiteral("ammonium_iron_citrate");
    s.role = Role::IronSource;
    s.iron_share = green ? 0.15 : 0.17;
    s.iron_share_low = green ? 0.14 : 0.16;
    s.iron_share_high = green ? 0.18 : 0.28;
    s.yield = none();
    s.yield.iron = 1;
    s.yield.citrate = green ? 1.33 : 1.02;
    s.caution
        = Words::tr("This salt has no fixed composition: its iron varies from lot to lot, so every amount counted from "
                    "it is an estimate.");
    return s;
}

std::vector<Substance> build()
{
    std::vector<Substance> all;
    const auto put = [&](Substance s) -> Yield& {
        all.push_back(std::move(s));
        return all.back().yield;
    };
    const auto iron_chloride = [&](const char* formula, const char* name, const char* form, const char* caution) {
        auto& yield = put(make(formula, name, form, "iron_iii_chloride", Role::IronSource, caution));
        yield.iron = 1;
        yield.chloride_acid = 3;
    };
    iron_chloride("FeCl3.6H2O", QT_TRANSLATE_NOOP("Chemistry", "iron(III) chloride hexahydrate"),
        QT_TRANSLATE_NOOP("Chemistry", "hexahydrate"),
        QT_TRANSLATE_NOOP("Chemistry", "It draws water from the air and runs; weigh it quickly and close the jar."));
    iron_chloride("FeCl3", QT_TRANSLATE_NOOP("Chemistry", "iron(III) chloride, anhydrous"),
        QT_TRANSLATE_NOOP("Chemistry", "anhydrous"),
        QT_TRANSLATE_NOOP("Chemistry",
            "The water-free salt becomes hot and fumes acid when it meets water: add it to plenty of cold water a "
            "little at a time, never water to the salt. The hexahydrate is the safer choice."));
    put(citrateSalt(true));
    put(citrateSalt(false));
    {
        auto& yield = put(make("(NH4)3[Fe(C2O4)3].3H2O",
            QT_TRANSLATE_NOOP("Chemistry", "ammonium iron(III) oxalate trihydrate"),
            QT_TRANSLATE_NOOP("Chemistry", "trihydrate"), "ammonium_iron_oxalate", Role::IronSource,
            QT_TRANSLATE_NOOP("Chemistry", "Oxalates are harmful; see the supplier's sheet before a class uses it.")));
        yield.iron = 1;
        yield.oxalate = 3;
    }
    put(make("K3[Fe(CN)6]", QT_TRANSLATE_NOOP("Chemistry", "potassium hexacyanoferrate(III)"), "",
            "hexacyanoferrate_iii", Role::Hexacyanoferrate,
            QT_TRANSLATE_NOOP("Chemistry", "Keep it from strong acid and from heat.")))
        .hexacyanoferrate
        = 1;
    const auto citric = [&](const char* formula, const char* name, const char* form, const char* caution) {
        put(make(formula, name, form, "citric_acid", Role::Acid, caution)).citrate = 1;
    };
    citric("C6H8O7", QT_TRANSLATE_NOOP("Chemistry", "citric acid, anhydrous"),
        QT_TRANSLATE_NOOP("Chemistry", "anhydrous"), "");
    citric("C6H8O7.H2O", QT_TRANSLATE_NOOP("Chemistry", "citric acid monohydrate"),
        QT_TRANSLATE_NOOP("Chemistry", "monohydrate"), "");
    const auto base = [&](const char* formula, const char* name, const char* form, const char* family, double bases,
                          double ammonia, double gas, const char* caution) {
        auto& yield = put(make(formula, name, form, family, Role::Base, caution));
        yield.base = bases;
        yield.ammonia = ammonia;
        yield.carbon_dioxide = gas;
    };
    base("NH4HCO3.NH2COONH4", QT_TRANSLATE_NOOP("Chemistry", "ammonium carbonate, double salt as sold"),
        QT_TRANSLATE_NOOP("Chemistry", "hydrogencarbonate-carbamate double salt"), "ammonium_carbonate", 3, 3, 2,
        QT_TRANSLATE_NOOP("Chemistry",
            "It gives off two molecules of carbon dioxide for three of ammonia, a third more than the pure salt."));
    base("(NH4)2CO3", QT_TRANSLATE_NOOP("Chemistry", "ammonium carbonate, pure"),
        QT_TRANSLATE_NOOP("Chemistry", "pure"), "ammonium_carbonate", 2, 2, 1,
        QT_TRANSLATE_NOOP("Chemistry",
            "Most jars labelled so hold the hydrogencarbonate-carbamate double salt instead; read the small print."));
    base("NH4HCO3", QT_TRANSLATE_NOOP("Chemistry", "ammonium hydrogencarbonate"), "", "ammonium_carbonate", 1, 1, 1,
        QT_TRANSLATE_NOOP("Chemistry",
            "It gives off one molecule of carbon dioxide for every ammonia, twice as much as pure ammonium "
            "carbonate."));
    base("Na2CO3", QT_TRANSLATE_NOOP("Chemistry", "sodium carbonate"), "", "", 2, 0, 1, "");
    base("NaHCO3", QT_TRANSLATE_NOOP("Chemistry", "sodium hydrogencarbonate"), "", "", 1, 0, 1, "");
    base("NH3", QT_TRANSLATE_NOOP("Chemistry", "ammonia"), "", "", 1, 1, 0, "");

    put(make("(NH4)2Cr2O7", QT_TRANSLATE_NOOP("Chemistry", "ammonium dichromate"), "", "", Role::Preservative,
        QT_TRANSLATE_NOOP("Chemistry", "Not for schools: leave it out.")));
    put(make("H2O2", QT_TRANSLATE_NOOP("Chemistry", "hydrogen peroxide"), "", "", Role::Oxidiser));
    put(make("H2C2O4", QT_TRANSLATE_NOOP("Chemistry", "oxalic acid, anhydrous"),
            QT_TRANSLATE_NOOP("Chemistry", "anhydrous"), "oxalic_acid", Role::Acid))
        .oxalate
        = 1;
    put(make("H2C2O4.2H2O", QT_TRANSLATE_NOOP("Chemistry", "oxalic acid dihydrate"),
            QT_TRANSLATE_NOOP("Chemistry", "dihydrate"), "oxalic_acid", Role::Acid))
        .oxalate
        = 1;
    put(make("K4[Fe(CN)6].3H2O", QT_TRANSLATE_NOOP("Chemistry", "potassium hexacyanoferrate(II) trihydrate"), "", "",
        Role::Other,
        QT_TRANSLATE_NOOP("Chemistry",
            "This is the yellow iron(II) salt. It turns blue with iron(III) at once, without light: not a part of a "
            "sensitiser.")));
    put(make("KFe[Fe(CN)6]", QT_TRANSLATE_NOOP("Chemistry", "Prussian blue, potassium form"), "", "", Role::Product));
    put(make("Fe4[Fe(CN)6]3", QT_TRANSLATE_NOOP("Chemistry", "Prussian blue, insoluble form"), "", "", Role::Product));
    put(make("NH4Cl", QT_TRANSLATE_NOOP("Chemistry", "ammonium chloride"), "", "", Role::Product));
    put(make("H2O", QT_TRANSLATE_NOOP("Chemistry", "water"), "", "", Role::Other));
    return all;
}

/// Words that people write on a list, and what is taken when they do not say which form it is.
struct OtherName {
    const char* words;
    const char* key;
    bool form_assumed;
};
constexpr OtherName otherNames[] = {
    { "iron(III) chloride", "FeCl3.6H2O", true },
    { "ferric chloride", "FeCl3.6H2O", true },
    { "iron chloride", "FeCl3.6H2O", true },
    { "ferric chloride hexahydrate", "FeCl3.6H2O", false },
    { "iron(III) chloride anhydrous", "FeCl3", false },
    { "citric acid", "C6H8O7", true },
    { "citric acid anhydrous", "C6H8O7", false },
    { "ammonium carbonate", "NH4HCO3.NH2COONH4", true },
    { "ammonium carbonate pure", "(NH4)2CO3", false },
    { "ammonium carbonate double salt", "NH4HCO3.NH2COONH4", false },
    { "ammonium bicarbonate", "NH4HCO3", false },
    { "ammonium iron(III) citrate", "ammonium iron(III) citrate green", true },
    { "ferric ammonium citrate", "ammonium iron(III) citrate green", true },
    { "ammonium ferric citrate", "ammonium iron(III) citrate green", true },
    { "ferric ammonium citrate green", "ammonium iron(III) citrate green", false },
    { "ferric ammonium citrate brown", "ammonium iron(III) citrate brown", false },
    { "ammonium iron(III) oxalate", "(NH4)3[Fe(C2O4)3].3H2O", false },
    { "ferric ammonium oxalate", "(NH4)3[Fe(C2O4)3].3H2O", false },
    { "ammonium ferric oxalate", "(NH4)3[Fe(C2O4)3].3H2O", false },
    { "hexacyanoferrate(III)", "K3[Fe(CN)6]", false },
    { "potassium ferricyanide", "K3[Fe(CN)6]", false },
    { "hexacyanoferrate(II)", "K4[Fe(CN)6].3H2O", false },
    { "potassium hexacyanoferrate(II)", "K4[Fe(CN)6].3H2O", false },
    { "potassium ferrocyanide", "K4[Fe(CN)6].3H2O", false },
    { "peroxide", "H2O2", false },
    { "oxalic acid", "H2C2O4.2H2O", true },
};

/// Lower case, without commas and with single spaces.
QString plain(QString words)
{
    words.replace(QLatin1Char(','), QLatin1Char(' '));
    return words.simplified().toLower();
}

/// What the elements of a formula that we do not know leave no doubt about.
Substance stranger(const QString& text, const Composition& composition)
{
    Substance s;
    s.key = s.formula = text;
    s.name = text;
    s.molar_mass = molarMass(composition);
    s.yield = none();
    if (composition.count("Fe") > 0) {
        s.yield.iron.reset(); // it could be iron(II), or bound in a cyanide
        s.yield.hexacyanoferrate.reset();
        s.yield.chloride_acid.reset();
    }
    if (composition.count("C") >= 6 && composition.count("O") >= 7)
        s.yield.citrate.reset();
    if (composition.count("C") >= 2 && composition.count("O") >= 4)
        s.yield.oxalate.reset();
    if (composition.count("N") > 0 || composition.count("O") > 0)
        s.yield.base.reset();
    if (composition.count("N") > 0)
        s.yield.ammonia.reset();
    if (composition.count("C") > 0)
        s.yield.carbon_dioxide.reset();
    return s;
}

struct Name {
    const Substance* substance;
    bool form_assumed;
};

/// Every name in plain words. An exact name wins over one that leaves the form open.
const QHash<QString, Name>& nameTable()
{
    static const QHash<QString, Name> table = [] {
        QHash<QString, Name> names;
        for (const auto& other : otherNames)
            names.insert(plain(QString::fromLatin1(other.words)),
                { substanceByKey(QString::fromLatin1(other.key)), other.form_assumed });
        for (const auto& s : knownSubstances()) {
            names.insert(plain(s.name), { &s, false });
            names.insert(plain(s.key), { &s, false });
        }
        return names;
    }();
    return table;
}

const std::vector<std::pair<const Substance*, Composition>>& compositions()
{
    static const std::vector<std::pair<const Substance*, Composition>> table = [] {
        std::vector<std::pair<const Substance*, Composition>> read;
        for (const auto& s : knownSubstances())
            if (!s.formula.isEmpty())
                read.emplace_back(&s, *readFormula(s.formula).composition);
        return read;
    }();
    return table;
}

} // namespace

QString roleKey(Role role)
{
    static constexpr std::array keys { "iron_source", "hexacyanoferrate", "acid", "base", "oxidiser", "preservative",
        "product", "other" };
    return QString::fromLatin1(keys[size_t(role)]);
}

QString roleLabel(Role role)
{
    static constexpr std::array labels { QT_TRANSLATE_NOOP("Chemistry", "iron source"),
        QT_TRANSLATE_NOOP("Chemistry", "hexacyanoferrate"), QT_TRANSLATE_NOOP("Chemistry", "acid"),
        QT_TRANSLATE_NOOP("Chemistry", "base"), QT_TRANSLATE_NOOP("Chemistry", "oxidiser"),
        QT_TRANSLATE_NOOP("Chemistry", "preservative"), QT_TRANSLATE_NOOP("Chemistry", "product"),
        QT_TRANSLATE_NOOP("Chemistry", "other") };
    return Words::tr(labels[size_t(role)]);
}

std::optional<double> Substance::moles(double grams) const
{
    if (molar_mass)
        return grams / *molar_mass;
    static const double iron = molarMass(QStringLiteral("Fe")).value();
    return iron_share ? std::optional(grams * *iron_share / iron) : std::nullopt;
}

const std::vector<Substance>& knownSubstances()
{
    static const std::vector<Substance> all = build();
    return all;
}

const Substance* substanceByKey(QStringView key)
{
    const auto& all = knownSubstances();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Substance& s) { return s.key == key; });
    return found == all.end() ? nullptr : &*found;
}

Result<FoundSubstance> findSubstance(const QString& text)
{
    const QString trimmed = text.trimmed();
    if (trimmed.isEmpty())
        return Error { Trouble::BadInput, Words::tr("A substance is missing."), {} };
    if (const auto* exact = substanceByKey(trimmed))
        return FoundSubstance { *exact, false, {} };
    const auto& names = nameTable();
    if (const auto found = names.constFind(plain(trimmed)); found != names.constEnd()) {
        if (!found->form_assumed)
            return FoundSubstance { *found->substance, false, {} };
        return FoundSubstance { *found->substance, true,
            Words::tr("“%1” does not say which form it is; taken as %2.").arg(trimmed, found->substance->name) };
    }
    const auto reading = readFormula(trimmed);
    if (!reading.ok()) {
        auto error = reading.fault->error(trimmed);
        error.says = Words::tr("This is no substance that is known here, and no formula either. %1").arg(error.says);
        return error;
    }
    for (const auto& [substance, composition] : compositions())
        if (composition == *reading.composition)
            return FoundSubstance { *substance, false, {} };
    return FoundSubstance { stranger(trimmed, *reading.composition), false, {} };
}

std::vector<const Substance*> familyMembers(const QString& family)
{
    std::vector<const Substance*> members;
    for (const auto& s : knownSubstances())
        if (!family.isEmpty() && s.family == family)
            members.push_back(&s);
    return members;
}

} // namespace washfast::chemistry
