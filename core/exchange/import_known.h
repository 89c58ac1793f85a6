// Recognises rows of a table that were imported before: by the mark that the import left on the print, or by the code
// of a print that holds all that the row says.
#pragma once

#include "core/trial/print_reader.h"

#include <QHash>
#include <QSet>

namespace washfast::exchange {

using RowValues = std::vector<std::pair<int, Known>>; // index of the print field, and what the row says

class KnownPrints {
public:
    explicit KnownPrints(const Notebook& notebook);

    [[nodiscard]] bool hasMark(const QString& mark) const { return marks_.contains(mark); }
    [[nodiscard]] std::optional<int> byCode(const QString& code) const; // row of the print table
    [[nodiscard]] bool hasCode(const QString& code) const { return byCode(code).has_value(); }

    struct Difference {
        int field = -1;
        QString says;
    };
    struct Comparing {
        bool evidence_given = false; // the table says of every value how it came to be
        std::optional<QDate> session_day; // the session's start in the row stands for this day only
    };
    /// The first field in which the row says something else than the print holds.
    [[nodiscard]] std::optional<Difference> difference(
        int print_row, const QString& code, const RowValues& values, const Comparing& how) const;

    /// A digest of all that a row says; 32 hexadecimal digits.
    [[nodiscard]] QString markOf(const RowValues& values) const;

private:
    [[nodiscard]] const Field& field(int index) const { return catalogue_->printFields()[size_t(index)]; }

    const Catalogue* catalogue_;
    PrintReader reader_;
    QHash<QString, int> by_code_;
    QSet<QString> marks_;
};

/// Codes and names are the same whatever the case and the spaces at their ends.
[[nodiscard]] inline QString foldedName(const QString& name)
{
    return name.trimmed().toLower();
}

} // namespace washfast::exchange
