// A table of prints: one outcome, the factors that may have caused it, and the block that each print belongs to. This
// is all that the search for causes sees; it comes from the notebook or from any table with headings.
#pragma once

#include "core/quantity/catalogue.h"
#include "core/quantity/result.h"

#include <QHash>
#include <QString>
#include <QStringList>
#include <optional>
#include <vector>

namespace washfast::causes {

struct Factor {
    enum class Kind { Number, YesNo, Choice };

    QString name; // key of the column
    QString label; // for sentences; empty: the name
    QString unit; // of a number, for sentences; empty for none
    QHash<QString, QString> level_labels; // of a choice, for sentences; a level that is not in it is its own label
    Kind kind = Kind::Number;
    InCauses meaning; // of the catalogue's field that it is; says nothing when it is none
    std::vector<std::optional<double>> numbers; // Number; YesNo as 0 and 1
    std::vector<QString> texts; // Choice; a null text is not known

    [[nodiscard]] const QString& spoken() const { return label.isEmpty() ? name : label; }
};

/// Prints that were not made one by one: a bottle of mix, a tray, a lesson. When a factor was the same for all prints
/// of each batch, the batch and not the sheet is what was tried.
struct Batches {
    QString name; // key of the column
    QString label; // for sentences: "mix", "tray", "lesson"
    std::vector<QString> of; // one a print; a null text is not known
};

struct FactorTable {
    std::vector<QString> prints; // codes; their number is the number of rows
    QString outcome;
    QString outcome_label; // for sentences; empty: the name
    QString outcome_unit; // of a number
    bool outcome_is_number = false;
    bool larger_is_worse = false; // for a number; else smaller is worse
    std::vector<std::optional<double>> outcome_values; // yes/no: 1 = failed
    std::vector<Factor> factors;
    std::vector<QString> blocks; // one a print, or empty for no blocks
    std::vector<Batches> batches;
    // The two tones of each print, when there are any: net density before the rinse, and the share of it that is there
    // a day after. Empty, or one a print.
    std::vector<std::optional<double>> formed, kept;
    // Keys of the signs that were seen on each print; an empty list: none was noted, which does not say that none was
    // there. Empty, or one a print.
    std::vector<QStringList> signs;
    QHash<QString, QString> sign_labels; // for sentences; a sign that is not in it is its own label
    QStringList warnings; // what was noticed while the table was made
};

struct TableChoices {
    QString outcome;
    QStringList factors; // empty: every other column
    QString block; // empty: none
    QStringList batches; // columns that say which prints were made together
    bool larger_is_worse = false;
    const Catalogue* catalogue = nullptr; // whose fields columns may be; none: no column is a field
    std::vector<std::pair<QString, QString>> same_as; // column, and the key of the print field that it is
};

/// Decides the kind of each column: yes/no (yes, no, true, false, 1, 0 in any case), a number (all that parseNumber
/// reads: decimal comma or point, `~` and `?`, units of one kind, which become that of the heading or of the first
/// cell), else a choice. An empty cell, and "NA", "n/a", "?" or "unknown", is not known. When at least three in four of
/// the known cells are numbers the column is a number, the other cells are not known, and a warning names them.
/// A column is a field of the catalogue when `same_as` says so or when its heading is the field's key: then it has the
/// field's published signs and its way of being set. All other columns have none.
/// Without chosen factors, columns of numbers called "formed", "kept" and "net_density" are taken for the two tones and
/// not for causes; a column "signs_seen" holds signs, separated by semicolons. Errors: a named column that is missing
/// or named twice, a row that is too long, an outcome that is neither yes/no nor a number, a number that can be read in
/// two ways, a field that is not there.
[[nodiscard]] Result<FactorTable> readFactorTable(
    const QStringList& headings, const std::vector<QStringList>& rows, const TableChoices& choices);

} // namespace washfast::causes
