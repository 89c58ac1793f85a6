#include "ui/common/fit_columns.h"

#include <QHeaderView>
#include <QTableView>
#include <algorithm>

namespace washfast::ui {

namespace {

constexpr int rowsToMeasure = 200;
constexpr int cellRoom = 8;
constexpr int headingRoom = 30; // margins, and the arrow of the sorted column
constexpr int headingMargin = 12;
constexpr int shortLetters = 13; // a heading as short as this is not broken

/// The width that a heading needs on one line, or on two when `wrapped`.
int headingWidth(const QFontMetrics& metrics, const QString& text, bool wrapped)
{
    int best = metrics.horizontalAdvance(text);
    for (qsizetype at = text.indexOf(QLatin1Char(' ')); wrapped && at > 0; at = text.indexOf(QLatin1Char(' '), at + 1))
        best = std::min(
            best, std::max(metrics.horizontalAdvance(text.left(at)), metrics.horizontalAdvance(text.mid(at + 1))));
    return best + headingRoom;
}

} // namespace

void fitColumns(QTableView& table, int widest)
{
    auto* header = table.horizontalHeader();
    header->setResizeContentsPrecision(rowsToMeasure);
    header->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter | Qt::Alignment(Qt::TextWordWrap));
    const auto* model = table.model();
    const auto metrics = header->fontMetrics();
    const int short_heading = metrics.averageCharWidth() * shortLetters + headingRoom;
    const QAbstractItemView& cells = table; // there it is public
    bool two_lines = false;
    for (int column = 0; column < model->columnCount(); ++column) {
        const auto text = model->headerData(column, Qt::Horizontal).toString();
        const int content = cells.sizeHintForColumn(column) + cellRoom;
        const int one_line = headingWidth(metrics, text, false);
        const int heading = one_line <= short_heading ? one_line : headingWidth(metrics, text, true);
        const int width = std::min(widest, std::max(content, heading));
        two_lines = two_lines || width < one_line;
        table.setColumnWidth(column, width);
    }
    header->setMinimumHeight(two_lines ? 2 * metrics.lineSpacing() + headingMargin : 0);
}

} // namespace washfast::ui
