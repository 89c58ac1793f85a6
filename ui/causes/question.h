// The question put to the search for causes, in the person's words: which prints, and what is asked about them. Nothing
// here is a widget.
#pragma once

#include "core/causes/from_notebook.h"
#include "core/trial/filter.h"

namespace washfast::ui {

struct Question {
    QString batch; // filter line: the prints looked at; empty: all
    QString outcome; // key of a yes/no field or a number; not used with `against`
    bool compare = false; // the batch against other prints, whatever became of them
    QString against; // filter line: those prints; empty: all the others
    QString block; // key, or empty
    bool larger_is_worse = false;
};

/// Ready-made batches: a title, and the filter line that it stands for.
struct BatchChoice {
    QString title;
    QString filter;
};
[[nodiscard]] std::vector<BatchChoice> batchChoices(const Notebook& notebook);

/// What can be asked: keys of outcomes with titles, the yes/no ones first.
struct OutcomeChoice {
    QString title;
    QString key;
};
[[nodiscard]] std::vector<OutcomeChoice> outcomeChoices(const Catalogue& catalogue);

/// The table for the search; an error says what is wrong with the question.
[[nodiscard]] Result<causes::FactorTable> tableFor(const Question& question, const PrintColumns& columns);

} // namespace washfast::ui
