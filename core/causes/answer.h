// What the search for causes finds: one of three answers, the evidence for each factor, and what is missing.
#pragma once

#include "core/causes/factor_table.h"

#include <cstdint>
#include <functional>

namespace washfast::causes {

enum class Verdict {
    Cause, // named with its evidence
    Tangle, // these move together in these prints; none of them is called the cause
    NotEnough // these prints cannot tell
};

struct MovesWith {
    QString name;
    double association = 0.0; // 0 .. 1, see core/stats/association.h
    std::optional<int> prints_that_disagree; // when at least one of the two has two levels
};

/// How the prints of one level of a yes/no or a choice came out.
struct LevelCount {
    QString level; // its key
    QString label; // for people
    int n = 0;
    int failed = 0, kept = 0; // a yes/no outcome
    std::optional<double> median_outcome; // an outcome that is a number
};

struct LogOdds {
    double estimate = 0.0; // per unit of the factor; with 1 for yes
    std::optional<double> low, high; // 95 % profile interval
    double p = 1.0;
};

struct FactorEvidence {
    QString name, label, unit;
    Factor::Kind kind = Factor::Kind::Number;
    InCauses meaning; // of the field that it is; says nothing when it is none
    int n_known = 0;
    // Number: failed minus kept (Hodges-Lehmann, within blocks). Yes/no: share that failed with it minus share that
    // failed without it (all blocks together). For an outcome that is a number: its shift, yes minus no. A choice of
    // two levels: as yes/no, the first of `difference_of` minus the second. Otherwise empty.
    std::optional<double> difference, difference_low, difference_high;
    QStringList difference_of; // the two levels of a choice
    std::optional<double> correlation; // a number with an outcome that is a number: Pearson's r
    std::optional<double> p_exact; // empty when there is nothing to test
    QString p_method; // fisher, freeman_halton, stratified_exact, permutation
    bool p_enumerated = true; // false: by seeded draws
    std::optional<double> p_adjusted; // Benjamini-Hochberg over the factors that were tested
    std::optional<LogOdds> firth; // of this factor alone
    std::optional<double> vif;
    std::vector<MovesWith> moves_with; // strongest first
    std::vector<LevelCount> levels;
    std::optional<double> median_failed, median_kept; // a number with a yes/no outcome
    // The factor was the same for all prints of each batch, so the batch is the unit: which, how many, and the p that
    // comes from exchanging whole batches. Empty when it varied within them.
    QString batch, batch_label;
    int n_batches = 0;
    std::optional<double> p_batch;
    // Had every print in which it is not known spoken against it; the first named only.
    std::optional<double> p_if_unknown_against;
    std::optional<double> p_held_equal; // the largest p left when each rival in turn is held equal; candidates only
};

struct Missing {
    QString name, label;
    int unknown = 0;
    // With a yes/no outcome: how the prints came out without it and with it.
    int unknown_failed = 0, known = 0, known_failed = 0;
    std::optional<double> p; // exact: does being unknown go with the outcome
};

struct FittedModel {
    QStringList terms;
    std::vector<LogOdds> values; // log odds; of a robust linear model units of the outcome
    double penalised_log_likelihood = 0.0; // 0 for a robust linear model
    bool linear = false; // robust linear regression of an outcome that is a number
    std::optional<double> scale; // its spread
    int n = 0; // prints with all of these known
    QString note; // how the factors were chosen, as a sentence; empty when they were asked for
};

/// Columns that follow from one another, or nearly.
struct Dependency {
    QStringList names, labels;
    bool exact = false; // the rank is short by one; else by condition index
    std::optional<double> condition_index;
    std::vector<double> variance_proportions; // one a name; of a near dependency
    int n = 0; // prints that were looked at
    QString says;
};

struct Tones {
    int n_formed_failed = 0, n_formed_kept = 0, n_kept_failed = 0, n_kept_kept = 0;
    // Medians. "failed" and "kept" are the two sides of the outcome (of a number: its worse and its better half).
    std::optional<double> formed_failed, formed_kept, share_failed, share_kept;
    enum class Stage { Unknown, Before, After, Both, Neither };
    Stage stage = Stage::Unknown; // where the blue is missing
    QString says; // a sentence; empty when no tone at all is looked for
};

/// What is published about the cause that a factor stands for.
struct SignMatch {
    QString factor; // name
    QString key, title;
    QString before_rinse, in_rinse, day_after; // what is seen; empty: nothing special
    QString test; // what separates it from the others
    QString evidence; // published, memory, hypothesis
    std::optional<bool> agrees; // with the two tones of these prints; empty when they cannot tell
    QString says; // the comparison, as a sentence; empty with `agrees`
    // The signs that were noted on these prints: how many show one that is published for this cause, of how many that
    // have any sign on record.
    int seen_failed = 0, noted_failed = 0, seen_kept = 0, noted_kept = 0;
    std::optional<bool> seen_agrees {}; // empty when too few were noted
    QString seen_says {}; // a sentence; empty with it
};

struct Answer {
    Verdict verdict = Verdict::NotEnough;
    QStringList factors_named;
    QString why; // two to four plain sentences
    QStringList evidence_for, evidence_against; // a sentence each, about the factors named
    std::vector<SignMatch> signs; // of the factors named
    QString rival_would_show; // what would have looked different under the rival cause; may be empty
    Tones tones;
    QString outcome, outcome_label;
    int n = 0; // prints with a known outcome
    std::optional<int> n_failed; // a yes/no outcome
    std::vector<FactorEvidence> factors; // those that could be looked at, in the order of the table
    QStringList left_out; // constants and identifiers
    std::optional<int> prints_missing; // roughly, for an answer of not enough
    QStringList prints_for, prints_against; // the prints that speak for and against the first named factor
    std::optional<FittedModel> firth_model; // of the factors asked for, else of those the prints can bear
    std::optional<FittedModel> linear_model; // the same for an outcome that is a number
    std::vector<Dependency> dependencies;
    std::optional<double> largest_condition_index;
    bool stopped = false; // by keep_going: nothing else here can be relied on
    QString unit_says; // which factors have the batch for a unit; empty when none
    std::vector<Missing> missing;
    QStringList warnings;
};

struct Options {
    double named_below = 0.04; // adjusted p of a cause or a tangle
    double alpha = 0.05; // for being told apart from a rival, and for warnings
    std::uint64_t seed = 0x5EED'B10E;
    std::uint64_t draws = 9'999; // permutations when there are too many to enumerate
    std::uint64_t enumerate_up_to = 200'000;
    QStringList model; // names of factors to fit together; empty: chosen by what the prints can bear
    bool firth = true; // also the log odds of each factor and of those together
    std::function<bool(double)> keep_going {}; // told the share that is done, 0 .. 1; false stops
};

/// Never fails: what cannot be told is said in the answer. Columns of the wrong length are filled up with "not known".
[[nodiscard]] Answer analyse(const FactorTable& table, const Options& options = {});

} // namespace washfast::causes
