// The next prints to make: the smallest set that would untangle factors that moved together, decide about one, or, when
// nothing stands out, map what may matter.
//
// Each factor gets two settings: as in the prints that failed, and as in those that kept. Which combinations to make is
// chosen so that they add most to what these prints know (D-optimal on their present information); how many of each,
// by the chance that the exact test comes out, counted over all outcomes that the new prints can have.
#pragma once

#include "core/causes/answer.h"

#include <QJsonObject>
#include <variant>

namespace washfast::causes {

enum class Purpose { Untangle, Decide, Map };

struct Setting {
    QString factor, label; // key, and for people
    std::variant<double, bool, QString> value; // a number in the factor's unit, yes/no, or the key of a choice
    QString spoken; // the value for people
    bool as_failed = false; // as in the prints that failed
};

struct PlannedPrint {
    enum class Role { Trial, KnownGood, Unexposed };
    Role role = Role::Trial;
    int count = 1;
    bool split_sheet = false; // its partner is the other half of the same coated sheet
    std::vector<Setting> settings;
    QString why; // what it will tell
};

struct NextPrints {
    Purpose purpose = Purpose::Map;
    std::vector<PlannedPrint> prints; // trials first, then the controls
    double information_gain = 0.0; // rise of ln det of the information
    std::optional<double> chance; // that the trials settle it, if the causes are as strong as these prints suggest
    std::optional<int> prints_needed_for_power_80; // trials; empty: more than 40, or nothing to reckon with
    QStringList warnings;

    [[nodiscard]] int trials() const;
};

struct NextOptions {
    int most_trials = 12;
    double power = 0.8;
    double alpha = 0.05; // to decide
    double alpha_to_untangle = 0.01; // what analyse asks of two that stand out alike
    int fewest_to_untangle = 4; // fewer prints that disagree may be a slip of the pen
};

[[nodiscard]] NextPrints nextPrints(const FactorTable& table, const Answer& answer, const NextOptions& options = {});

[[nodiscard]] QJsonObject toJson(const NextPrints& plan);

/// untangle, decide, map.
[[nodiscard]] QString purposeKey(Purpose purpose);
/// trial, known_good, unexposed.
[[nodiscard]] QString roleKey(PlannedPrint::Role role);

} // namespace washfast::causes
