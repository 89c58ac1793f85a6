// Words that several parts of the Bench use, and the translation context of those that are no QObject.
#pragma once

#include <QCoreApplication>
#include <QString>

namespace washfast::ui {

struct BenchWords {
    Q_DECLARE_TR_FUNCTIONS(Bench)

public:
    /// "1 print", "12 prints".
    [[nodiscard]] static QString prints(int n) { return tr("%n prints", nullptr, n); }
};

} // namespace washfast::ui
