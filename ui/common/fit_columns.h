// Columns of a table as wide as what stands in them, their headings on two lines where that saves room.
#pragma once

class QTableView;

namespace washfast::ui {

/// No column becomes wider than `widest`, in logical pixels. Measures the first rows only, so that a long table is
/// quick.
void fitColumns(QTableView& table, int widest);

} // namespace washfast::ui
