#include "ui/bench/bench_table.h"

#include "ui/bench/bench_model.h"
#include "ui/common/theme.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <algorithm>
#include <array>
#include <numeric>

namespace washfast::ui {

namespace {
constexpr int narrowestStation = 88;
}

BenchTable::BenchTable(QWidget* parent)
    : QTableView(parent)
{
    styleTable(*this);
    setSelectionMode(ExtendedSelection);
    setEditTriggers(NoEditTriggers);
    setTabKeyNavigation(false); // Tab leaves the table
    setCornerButtonEnabled(false);
    setHorizontalScrollMode(ScrollPerPixel);
    horizontalHeader()->setSectionsClickable(false);
    horizontalHeader()->setMinimumSectionSize(narrowestStation);
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
}

void BenchTable::shareWidth()
{
    // Dry and Expose tell how far they are and how long it takes yet; Hold has only its minutes.
    static constexpr std::array<int, printStations.size()> weights { 10, 13, 13, 7, 9, 10 };
    const int all = std::accumulate(weights.begin(), weights.end(), 0);
    const int room = viewport()->width() - horizontalHeader()->sectionSize(BenchModel::Sheet);
    for (size_t i = 0; i < weights.size(); ++i)
        horizontalHeader()->resizeSection(
            BenchModel::columnOf(printStations[i]), std::max(narrowestStation, room * weights[i] / all));
}

void BenchTable::resizeEvent(QResizeEvent* event)
{
    QTableView::resizeEvent(event);
    if (model())
        shareWidth();
}

void BenchTable::goTo(const QModelIndex& index)
{
    selectionModel()->setCurrentIndex(index, QItemSelectionModel::ClearAndSelect | QItemSelectionModel::Rows);
}

bool BenchTable::moveStation(const QKeyEvent& event)
{
    const auto now = currentIndex();
    if (!now.isValid() || (event.modifiers() & ~Qt::KeypadModifier) != Qt::NoModifier)
        return false;
    const int last = model()->columnCount() - 1;
    int column = now.column();
    switch (event.key()) {
    case Qt::Key_Left:
        column = std::max(0, column - 1);
        break;
    case Qt::Key_Right:
        column = std::min(last, column + 1);
        break;
    case Qt::Key_Home:
        column = 0;
        break;
    case Qt::Key_End:
        column = last;
        break;
    default:
        return false;
    }
    selectionModel()->setCurrentIndex(model()->index(now.row(), column), QItemSelectionModel::NoUpdate);
    return true;
}

bool BenchTable::ask(const QKeyEvent& event)
{
    const auto modifiers = event.modifiers() & ~Qt::KeypadModifier;
    const bool enter = event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter;
    if (enter && modifiers == Qt::ControlModifier) {
        Q_EMIT asked(Ask::Page, {});
        return true;
    }
    if (modifiers != Qt::NoModifier)
        return false;
    const auto text = event.text();
    const QChar letter = text.size() == 1 ? text.front() : QChar();
    const bool reading = currentIndex().column() == BenchModel::Read;
    if (reading
        && (letter.isDigit() || letter == QLatin1Char('.') || letter == QLatin1Char(',')
            || letter == QLatin1Char('~'))) {
        Q_EMIT asked(Ask::Type, text);
        return true;
    }
    if (event.key() >= Qt::Key_1 && event.key() <= Qt::Key_5) {
        Q_EMIT asked(Ask::Touch, QString::number(event.key() - Qt::Key_0));
        return true;
    }
    static constexpr std::pair<int, Ask> keys[] = { { Qt::Key_Space, Ask::Press }, { Qt::Key_Return, Ask::Form },
        { Qt::Key_Enter, Ask::Form }, { Qt::Key_F2, Ask::Form }, { Qt::Key_Delete, Ask::Remove },
        { Qt::Key_N, Ask::NewPrint }, { Qt::Key_W, Ask::Weigh }, { Qt::Key_L, Ask::Light },
        { Qt::Key_R, Ask::RowByRow }, { Qt::Key_A, Ask::Alike }, { Qt::Key_Escape, Ask::Leave } };
    for (const auto& [key, what] : keys) {
        if (event.key() != key)
            continue;
        if (!event.isAutoRepeat()) // a key that is held down starts a sheet once
            Q_EMIT asked(what, {});
        return true;
    }
    return false;
}

void BenchTable::keyPressEvent(QKeyEvent* event)
{
    if (moveStation(*event) || ask(*event)) {
        event->accept();
        return;
    }
    QTableView::keyPressEvent(event);
}

} // namespace washfast::ui
