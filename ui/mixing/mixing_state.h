// What the Mixing view shows, without a widget: formula and order in, amounts, steps, cautions and audit out, and the
// record that a finished mix becomes.
#pragma once

#include "core/chemistry/hazards.h"
#include "core/chemistry/mix_record.h"
#include "core/chemistry/own_formula.h"
#include "core/chemistry/scale.h"
#include "core/store/writer.h"

namespace washfast::ui::mixing {

/// One component on the balance.
struct Line {
    chemistry::Amount amount;
    QString name; // of the substance, after the swap
    QString formula_of; // for people, FeCl₃·6H₂O; empty for a salt of varying composition
    QString component; // key in the formula, before a swap
    std::vector<const chemistry::Substance*> instead; // what may be taken, the formula's own first; one is none
    std::vector<qint64> bottles; // on the shelf
};

/// What the person entered for a component; kept while the order changes.
struct Entered {
    std::optional<double> grams;
    qint64 bottle = -1; // 0: from no bottle of the shelf; -1: not chosen, the first one is taken
};

struct Step {
    QString text;
    bool weighing = false; // of a component; the others come from the formula
    double wait_min = 0; // 0: no waiting
};

/// Minutes that a text speaks of: "half an hour", "an hour", "20 minutes"; 0 for none.
[[nodiscard]] double minutesIn(const QString& text);
/// 0.91 with as many decimals as the balance shows.
[[nodiscard]] QString gramsText(double grams, double balance_g);

class MixingState {
public:
    MixingState();

    /// Published and computed formulas, then the person's own.
    [[nodiscard]] const std::vector<chemistry::Recipe>& formulas() const { return formulas_; }
    [[nodiscard]] const chemistry::Recipe& formula() const { return formulas_[size_t(formula_)]; }
    [[nodiscard]] int formulaAt() const { return formula_; }
    /// Own formulas that cannot be weighed, each with the sentence that says why.
    [[nodiscard]] const std::vector<chemistry::OwnFormula>& unusable() const { return unusable_; }
    [[nodiscard]] bool own() const { return formula_ >= shipped_; }
    void setFormula(int at); // forgets swaps and what was weighed
    /// Takes own formulas and bottles anew; keeps the formula by its key.
    void read(const Notebook& notebook);

    chemistry::Order order { 30, 148, 210, 20, 10, 0.01 };
    chemistry::Swaps swaps;
    std::optional<double> volume_ml; // really topped up to; nothing: as planned
    std::optional<double> ph;

    /// Works out everything below; the error says which number cannot be used.
    [[nodiscard]] Outcome work();
    [[nodiscard]] const chemistry::Scaled& scaled() const { return scaled_; }
    [[nodiscard]] const std::vector<Line>& lines() const { return lines_; }
    [[nodiscard]] const std::vector<Step>& steps() const { return steps_; }

    [[nodiscard]] Entered& entered(const QString& component) { return entered_[component]; }
    [[nodiscard]] std::vector<qint64> bottlesFor(const QString& substance) const { return bottles_.value(substance); }
    [[nodiscard]] qint64 bottleFor(const Line& line) const;
    [[nodiscard]] int weighed() const; // how many lines have a mass
    /// Of what was weighed; before anything is, of what the balance should show.
    [[nodiscard]] chemistry::Audit audited() const;
    [[nodiscard]] std::vector<chemistry::Caution> cautions() const;
    /// Why the bottle stays open, with litres and the pressure if it were stoppered; empty when no gas comes off.
    [[nodiscard]] QString gasSentence() const;
    [[nodiscard]] QStringList substances() const;
    /// What rounding to the balance does: one sentence.
    [[nodiscard]] QString roundingSentence() const;

    /// The record with its parts. Lines without a mass are left out; the formula's record is made when it lacks.
    [[nodiscard]] Result<qint64> write(
        store::Writer& writer, const QString& code, const Instant& now, const QString& notes) const;

private:
    void makeSteps();
    [[nodiscard]] Result<qint64> formulaRecord(store::Writer& writer) const;

    std::vector<chemistry::Recipe> formulas_;
    std::vector<chemistry::OwnFormula> unusable_;
    int shipped_ = 0, formula_ = 0;
    chemistry::Scaled scaled_;
    std::vector<Line> lines_;
    std::vector<Step> steps_;
    QMap<QString, Entered> entered_;
    QMap<QString, std::vector<qint64>> bottles_; // by substance
    QMap<qint64, double> purity_;
};

} // namespace washfast::ui::mixing
