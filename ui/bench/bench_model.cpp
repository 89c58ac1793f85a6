#include "ui/bench/bench_model.h"

#include "core/trial/day_after.h"
#include "ui/bench/words.h"

#include <QLocale>
#include <algorithm>

namespace washfast::ui {

BenchModel::BenchModel(Desk& desk, QObject* parent)
    : QAbstractTableModel(parent)
    , desk_(desk)
{
    connect(&desk, &Desk::changed, this, &BenchModel::take);
    connect(&desk, &Desk::sessionChanged, this, &BenchModel::reset);
    connect(&desk, &Desk::reloaded, this, [this] {
        if (session_ != desk_.session())
            return; // sessionChanged follows
        learn();
        matchRows();
        workOut(prints());
    });
    learn();
    reset();
}

int BenchModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(rows_.size());
}

int BenchModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(ColumnCount);
}

std::optional<Station> BenchModel::stationOf(int column)
{
    if (column < Coat || column > Read)
        return std::nullopt;
    return printStations[size_t(column - Coat)];
}

int BenchModel::columnOf(Station station)
{
    return station == Station::About ? Sheet : int(Coat) + int(station) - int(Station::Coat);
}

int BenchModel::rowOf(qint64 print) const
{
    const auto it
        = std::lower_bound(rows_.begin(), rows_.end(), print, [](const Row& row, qint64 id) { return row.print < id; });
    return it != rows_.end() && it->print == print ? int(it - rows_.begin()) : -1;
}

QVector<qint64> BenchModel::prints() const
{
    QVector<qint64> ids;
    for (const auto& row : rows_)
        ids << row.print;
    return ids;
}

QString BenchModel::code(qint64 print) const
{
    return desk_.get(print, u"print_code").text().value_or(QString());
}

QString BenchModel::about(int row) const
{
    QStringList parts;
    for (const auto& field : { QStringLiteral("print_maker"), QStringLiteral("mix_code") })
        if (const auto text = desk_.get(printAt(row), field).text(); text && !text->isEmpty())
            parts << *text;
    return parts.join(QStringLiteral(" · "));
}

BenchCounts BenchModel::counts() const
{
    std::vector<SheetStates> sheets;
    for (const auto& row : rows_)
        sheets.push_back(row.states);
    return countSheets(sheets);
}

bool BenchModel::anyRunning() const
{
    return std::any_of(rows_.begin(), rows_.end(), [](const Row& row) { return runningAt(row.states).has_value(); });
}

bool BenchModel::anyWaitsForNextDay() const
{
    return std::any_of(rows_.begin(), rows_.end(), [](const Row& row) {
        const auto& read = stateAt(row.states, Station::Read);
        return read.waits_day_after && !read.due;
    });
}

void BenchModel::bringUp(Row& row) const
{
    constexpr double staleAfterMinutes = 10.0 / 60.0;
    const auto now = desk_.now();
    const int at = desk_.notebook().prints().find(row.print);
    if (!row.forecast_at || now < *row.forecast_at || minutesBetween(*row.forecast_at, now) > staleAfterMinutes) {
        row.forecast = at < 0 ? Forecast {} : forecastOf(desk_.reader(), at, now, &learnt_);
        row.forecast_at = now;
    }
    row.states = sheetStates(desk_.reader(), at, now, &row.forecast);
}

BenchModel::Row BenchModel::fresh(qint64 print) const
{
    Row row { print, {} };
    bringUp(row);
    return row;
}

void BenchModel::learn()
{
    // What dried in the last prints says enough; a large notebook is not gone through on the way to a lesson.
    constexpr int mostPrints = 3000;
    if (desk_.complete() && desk_.notebook().prints().rows() <= mostPrints)
        learnt_ = drying::LearntRates::of(desk_.reader());
}

void BenchModel::reset()
{
    beginResetModel();
    session_ = desk_.session();
    rows_.clear();
    if (session_.valid())
        for (const auto print : desk_.printsOf(session_))
            rows_.push_back(fresh(print));
    endResetModel();
}

void BenchModel::matchRows()
{
    const auto wanted = session_.valid() ? desk_.printsOf(session_) : QVector<qint64>();
    for (int row = int(rows_.size()) - 1; row >= 0; --row) {
        if (std::binary_search(wanted.begin(), wanted.end(), printAt(row)))
            continue;
        beginRemoveRows({}, row, row);
        rows_.erase(rows_.begin() + row);
        endRemoveRows();
    }
    for (qsizetype i = 0; i < wanted.size();) {
        if (i < qsizetype(rows_.size()) && printAt(int(i)) == wanted[i]) {
            ++i;
            continue;
        }
        // A run of new prints comes in at once.
        qsizetype end = i + 1;
        while (end < wanted.size() && (size_t(i) >= rows_.size() || wanted[end] < printAt(int(i))))
            ++end;
        std::vector<Row> come;
        for (auto at = i; at < end; ++at)
            come.push_back(fresh(wanted[at]));
        beginInsertRows({}, int(i), int(end) - 1);
        rows_.insert(rows_.begin() + i, come.begin(), come.end());
        endInsertRows();
        i = end;
    }
}

void BenchModel::workOut(const QVector<qint64>& prints)
{
    for (const auto print : prints) {
        const int row = rowOf(print);
        if (row < 0)
            continue;
        rows_[size_t(row)].forecast_at.reset();
        bringUp(rows_[size_t(row)]);
        Q_EMIT dataChanged(index(row, Sheet), index(row, Read));
    }
}

void BenchModel::take(const QVector<store::Change>& changes)
{
    const auto touched = printsTouched(changes);
    matchRows();
    workOut(touched.value_or(prints()));
}

void BenchModel::tick()
{
    QVector<qint64> due;
    for (const auto& row : rows_) {
        const auto& read = stateAt(row.states, Station::Read);
        if (read.waits_day_after && !read.due
            && toneAfter(desk_.reader(), desk_.notebook().prints().find(row.print)).due(desk_.now()))
            due << row.print;
    }
    if (!due.isEmpty()) {
        workOut(due);
        Q_EMIT dayBegan();
    }
    for (int row = 0; row < int(rows_.size()); ++row) {
        auto& held = rows_[size_t(row)];
        if (!runningAt(held.states))
            continue;
        bringUp(held);
        for (const auto station : printStations)
            if (stateAt(held.states, station).stage == Stage::Running) {
                const auto cell = index(row, columnOf(station));
                Q_EMIT dataChanged(cell, cell);
            }
    }
}

QVariant BenchModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid | CheckIndexOption::ParentIsInvalid))
        return {};
    const auto& row = rows_[size_t(index.row())];
    if (role == PrintRole)
        return row.print;
    if (const auto station = stationOf(index.column()))
        return stationData(row, *station, role);
    return sheetData(row, role);
}

QVariant BenchModel::sheetData(const Row& row, int role) const
{
    switch (role) {
    case Qt::DisplayRole:
    case RawRole:
        return code(row.print);
    case Qt::ToolTipRole:
    case Qt::AccessibleTextRole: {
        const auto about = this->about(rowOf(row.print));
        return about.isEmpty() ? code(row.print) : code(row.print) + QStringLiteral(", ") + about;
    }
    default:
        return {};
    }
}

QVariant BenchModel::stationData(const Row& row, Station station, int role) const
{
    const auto& state = stateAt(row.states, station);
    const QLocale locale;
    switch (role) {
    case Qt::DisplayRole:
        return stateText(state, locale);
    case StateRole:
        return QVariant::fromValue(state);
    case Qt::ToolTipRole:
        return stateSentence(state, station, desk_.catalogue(), locale);
    case Qt::AccessibleTextRole:
        return code(row.print) + QStringLiteral(", ") + stateSentence(state, station, desk_.catalogue(), locale);
    case RawRole: {
        const auto raw = station == Station::Read ? state.figure.number() : state.minutes;
        return raw ? QVariant(*raw) : QVariant();
    }
    default:
        return {};
    }
}

QVariant BenchModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole)
        return {};
    if (const auto station = stationOf(section))
        return stationLabel(*station);
    return section == Sheet ? BenchWords::tr("Print") : QVariant();
}

} // namespace washfast::ui
