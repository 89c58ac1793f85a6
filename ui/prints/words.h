// The texts of this room that a person reads: one context for translators.
#pragma once

#include <QCoreApplication>

namespace washfast::ui {

class PrintsWords {
    Q_DECLARE_TR_FUNCTIONS(PrintsView)
};

} // namespace washfast::ui
