// What the shelf works out about a record besides its own fields: age, what is left, prints made from it, warnings,
// what a formula comes to, what a lamp gives at other distances, how well a card is known.
// Worked out when it is first asked for and kept until the notebook changes.
#pragma once

#include "core/chemistry/mix_record.h"
#include "ui/common/desk.h"

#include <QVariant>
#include <map>

namespace washfast::ui {

class RecordFacts {
public:
    explicit RecordFacts(Desk& desk)
        : desk_(desk)
    {
    }
    enum class Fact { Warnings, Age, Left, Prints };

    /// Shown for records of this kind, in order.
    [[nodiscard]] static std::vector<Fact> factsOf(Entity entity);
    [[nodiscard]] static QString heading(Fact fact);
    [[nodiscard]] QString text(Ref record, Fact fact);
    [[nodiscard]] QVariant sortValue(Ref record, Fact fact); // nothing when it is not known
    /// The sentences under the table: how what is left came to be, parts or steps.
    [[nodiscard]] QStringList sentences(Ref record);
    [[nodiscard]] bool warned(Ref record) { return !stateOf(record).warnings.empty(); }
    void forget() { states_.clear(); }
    [[nodiscard]] bool retired(Ref record) const;

private:
    struct State {
        std::optional<double> age_days, left;
        bool at_most = false;
        int prints = 0;
        QStringList sentences; // how it came to be
        QStringList warnings; // a word or two each
    };
    [[nodiscard]] const State& stateOf(Ref record);
    [[nodiscard]] State workedOut(Ref record) const;
    [[nodiscard]] State ofFormula(qint64 formula) const;

    Desk& desk_;
    std::map<Ref, State> states_;
};

} // namespace washfast::ui
