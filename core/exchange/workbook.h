// A workbook for spreadsheets (Office Open XML, ISO/IEC 29500), written with libxlsxwriter: sheets with a bold, frozen,
// filterable header row, typed cells, and scatter charts that the spreadsheet draws itself. It only writes.
//
//   Workbook book({ .title = u"Term"_qs });
//   Sheet& prints = book.addSheet(u"Prints"_qs, { { u"code"_qs }, { u"kept [%]"_qs, numberFormat(1) } });
//   prints.addRow({ { u"A1"_qs }, { 93.5 } });
//   const Outcome saved = book.save(path);
//
// Not recorded is a blank cell, never 0. Values that were estimated or assumed are set in italics. A moment is a real
// date of the spreadsheet and shows the clock it was read from: no time zone is applied, since spreadsheets know none.
#pragma once

#include "core/quantity/result.h"

#include <QDate>
#include <QDateTime>
#include <QString>
#include <QStringList>
#include <QTime>
#include <memory>
#include <optional>
#include <variant>
#include <vector>

namespace washfast::exchange {

/// No author, manager or company: the document properties hold no name of a person.
struct WorkbookProperties {
    QString title {}, subject {}, comments {};
    QStringList keywords {};
    std::optional<QDateTime> created {}; // the time of writing when not given
};

struct SheetColumn {
    QString heading {};
    QString number_format {}; // of a spreadsheet, such as "0.00"; empty for general
    std::optional<double> width {}; // in characters; from the contents when not given
};

/// "0", "0.0", "0.00" ...
[[nodiscard]] QString numberFormat(int decimals);

/// Not a number and infinities, which a spreadsheet cannot hold, become the texts NaN, INF, -INF.
using SheetValue = std::variant<std::monostate, double, bool, QString, QDate, QTime, QDateTime>;

struct SheetCell {
    SheetValue value {}; // nothing: blank
    bool italic = false; // estimated or assumed
};

class Workbook;

/// One sheet of a workbook, which owns it. Rows go below the header in the order in which they are added.
class Sheet {
public:
    ~Sheet();
    Sheet(const Sheet&) = delete;
    Sheet& operator=(const Sheet&) = delete;

    /// A text that is longer than a cell can hold (32,767 characters) is cut and marked with an ellipsis; `cuts` counts
    /// them.
    void addRow(const std::vector<SheetCell>& cells);
    [[nodiscard]] const QString& name() const; // may differ from the wanted one
    [[nodiscard]] int rows() const; // without the header
    [[nodiscard]] int cuts() const;

private:
    friend class Workbook;
    struct State;
    explicit Sheet(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

/// All rows of two columns of a sheet, from 0.
struct ScatterSeries {
    const Sheet* sheet = nullptr;
    int x_column = 0, y_column = 1;
    QString label {};
};

struct ScatterChart {
    QString title {}, x_title {}, y_title {};
    std::vector<ScatterSeries> series {};
};

/// What a spreadsheet takes as a name: 1 to 31 characters, none of [ ] : * ? / \, no apostrophe at either end, not
/// "History", and different from the names in `taken` whatever the case. Gives the nearest name that fits.
[[nodiscard]] QString sheetName(const QString& wanted, const QStringList& taken = {});

class Workbook {
public:
    explicit Workbook(const WorkbookProperties& properties = {});
    ~Workbook();
    Workbook(const Workbook&) = delete;
    Workbook& operator=(const Workbook&) = delete;

    /// The reference stays valid as long as the workbook.
    Sheet& addSheet(const QString& name, std::vector<SheetColumn> columns);
    /// Puts a chart on a sheet, its upper left corner in the given cell (from 0). Call after the rows have been added.
    void addScatter(Sheet& on, int row, int column, const ScatterChart& chart);
    /// The file, once. It is put together in the folder for temporary files. Errors: NoSpace, BadInput (more rows or
    /// columns than a sheet can hold), Failed.
    [[nodiscard]] Result<QByteArray> bytes();
    /// Writes it. It replaces an older file of that name only when it is complete. Errors: the same and those of
    /// files::writeFiles().
    Outcome save(const QString& path);

private:
    friend class Sheet;
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace washfast::exchange
