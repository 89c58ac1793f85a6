// What labels say about a substance, and the cautions of this work. All of it is common caution: every text ends with
// deferral().
#pragma once

#include <QStringList>
#include <optional>
#include <vector>

namespace washfast::chemistry {

/// "Follow your local rules and the supplier's safety data sheet."
[[nodiscard]] QString deferral();

/// Official text of a GHS code such as H302, EUH032 or P305+P351+P338; empty for a code that is not here.
[[nodiscard]] QString statementText(const QString& code);
[[nodiscard]] QStringList statementCodes(); // all that are here
/// The signal word of a label for people.
[[nodiscard]] QString signalWord(const QString& signal);
[[nodiscard]] QString statementSource();

struct HazardList {
    QString source;
    bool from_memory = false; // no source was opened
    QString signal; // Danger, Warning or empty, as on the label
    QStringList codes;
};

/// One substance, with one list for each source.
struct SubstanceHazards {
    QString substance; // key of substance.h
    QString note;
    std::vector<HazardList> lists;

    [[nodiscard]] QStringList all() const; // codes of any list, in order of code
    [[nodiscard]] QStringList agreed() const; // codes of every list
    [[nodiscard]] QStringList disputed() const; // the others
    [[nodiscard]] QString signal() const; // the stronger one
};

[[nodiscard]] const SubstanceHazards* hazardsOf(const QString& substance); // nullptr when nothing is kept about it
[[nodiscard]] const std::vector<SubstanceHazards>& allHazards();

struct Pictogram {
    QString code; // GHS05
    QString name; // for people: corrosion
    friend bool operator==(const Pictogram&, const Pictogram&) = default;
};
/// The pictograms for these hazard codes, after the rules of precedence (GHS 1.4.10.5.3.1): the skull takes the place
/// of the exclamation mark for acute toxicity, corrosion that of the one for skin or eye irritation.
[[nodiscard]] std::vector<Pictogram> pictogramsFor(const QStringList& codes);
/// Precautionary statements that Annex 3 of the GHS gives to these hazard codes, as far as their texts are kept here.
[[nodiscard]] QStringList precautionsFor(const QStringList& codes);

struct Caution {
    QString key, what, why, todo, source;
    QStringList substances, work; // work: mixing, coating, drying, exposing, rinsing, waste

    /// All of it in one line, with the deferral.
    [[nodiscard]] QString sentence() const;
};

[[nodiscard]] const std::vector<Caution>& allCautions();
[[nodiscard]] const Caution* findCaution(const QString& key);
/// Those that the substances bring up, and those of the work that hold for all mixes. `work` may be empty: any.
[[nodiscard]] std::vector<Caution> cautionsFor(const QStringList& substances, const QString& work = {});
/// The caution about the sun with the day's ultraviolet index, its band, and the minutes to one standard erythema dose
/// (100 J/m² of erythemal radiation: 66.7 / index). Without an index, the plain caution.
[[nodiscard]] Caution sunCaution(std::optional<double> uv_index);
/// low, moderate, high, very high, extreme (Global Solar UV Index, 2002: 3, 6, 8, 11).
[[nodiscard]] QString uvBand(double uv_index);

} // namespace washfast::chemistry
