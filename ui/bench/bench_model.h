// The prints of the running session as rows, the six stations as columns. What a cell holds is a CellState, worked out
// when something changes and not while painting; tick() works out anew what is running.
#pragma once

#include "ui/bench/cell_state.h"
#include "ui/common/desk.h"

#include <QAbstractTableModel>

namespace washfast::ui {

class BenchModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { Sheet, Coat, Dry, Expose, Hold, Rinse, Read, ColumnCount };
    enum Role {
        RawRole = Qt::UserRole, // code, or minutes; for Read the figure; invalid when unknown
        StateRole, // CellState
        PrintRole // id of the print
    };

    explicit BenchModel(Desk& desk, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    [[nodiscard]] QVariant headerData(
        int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

    [[nodiscard]] qint64 printAt(int row) const { return rows_[size_t(row)].print; }
    [[nodiscard]] int rowOf(qint64 print) const; // -1 when it is not here
    [[nodiscard]] QVector<qint64> prints() const;
    [[nodiscard]] const SheetStates& states(int row) const { return rows_[size_t(row)].states; }
    [[nodiscard]] QString code(qint64 print) const;
    /// Maker and mix, for the quiet text behind the code.
    [[nodiscard]] QString about(int row) const;
    [[nodiscard]] BenchCounts counts() const;
    [[nodiscard]] bool anyRunning() const;
    /// Rinsed sheets whose second tone is not due yet.
    [[nodiscard]] bool anyWaitsForNextDay() const;
    [[nodiscard]] const drying::LearntRates& learnt() const { return learnt_; }

    /// The station of a column; none for the sheet's own.
    [[nodiscard]] static std::optional<Station> stationOf(int column);
    [[nodiscard]] static int columnOf(Station station);

public Q_SLOTS:
    /// Time has gone on: the cells that run say so, and what has become due.
    void tick();

Q_SIGNALS:
    void dayBegan(); // readings have become due

private:
    struct Row {
        qint64 print = 0;
        SheetStates states;
        Forecast forecast {};
        std::optional<Instant> forecast_at {};
    };
    /// A row's states now; its forecast is reckoned anew when it is not of the last seconds.
    void bringUp(Row& row) const;
    [[nodiscard]] Row fresh(qint64 print) const;
    void reset();
    void learn();
    /// Takes in and drops rows until they are those of the session.
    void matchRows();
    void workOut(const QVector<qint64>& prints);
    void take(const QVector<store::Change>& changes);
    [[nodiscard]] QVariant sheetData(const Row& row, int role) const;
    [[nodiscard]] QVariant stationData(const Row& row, Station station, int role) const;

    Desk& desk_;
    drying::LearntRates learnt_; // from all prints, when they are there
    SessionId session_;
    std::vector<Row> rows_; // ids ascending
};

} // namespace washfast::ui
