// The model of the Bench: rows and columns, precise signals, the passing of time.
#include "tests/support/desk_fixture.h"
#include "ui/bench/bench_model.h"
#include "ui/bench/steps.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;

namespace {

class BenchModelTest : public testing::Test {
protected:
    BenchModelTest()
    {
        session = room.add(Entity::Session, { { "session_code", "A1" } });
        room.sit(session);
        for (const char* code : { "A1-01", "A1-02", "A1-03" })
            prints << room.print(code);
        model = std::make_unique<BenchModel>(room.desk());
        tester = std::make_unique<QAbstractItemModelTester>(
            model.get(), QAbstractItemModelTester::FailureReportingMode::Fatal);
    }
    void start(qint64 print, Station station)
    {
        ASSERT_TRUE(room.desk().perform(QStringLiteral("start"),
            [&](store::Writer& writer) { return startStation(writer, print, station, room.desk().now()); }));
    }
    [[nodiscard]] QString text(int row, int column, int role = Qt::DisplayRole) const
    {
        return model->index(row, column).data(role).toString();
    }

    DeskFixture room;
    qint64 session = 0;
    QVector<qint64> prints;
    std::unique_ptr<BenchModel> model;
    std::unique_ptr<QAbstractItemModelTester> tester;
};

} // namespace

TEST_F(BenchModelTest, ShowsThePrintsOfTheSessionByStation)
{
    const auto other = room.add(Entity::Session, { { "session_code", "A2" } });
    room.print("elsewhere", {});
    room.set({ Entity::Print, room.desk().printsOf(SessionId { session }).last() }, "print_session", other);
    EXPECT_EQ(model->rowCount(), 3);
    EXPECT_EQ(model->columnCount(), 7);
    EXPECT_EQ(text(1, BenchModel::Sheet), QStringLiteral("A1-02"));
    QStringList heads;
    for (int column = 0; column < model->columnCount(); ++column)
        heads << model->headerData(column, Qt::Horizontal).toString();
    EXPECT_EQ(heads.join(QLatin1Char(' ')), QStringLiteral("Print Coat Dry Expose Hold Rinse Read"));
    EXPECT_EQ(model->rowOf(prints[2]), 2);
    EXPECT_EQ(model->rowOf(999), -1);
    for (const auto station : printStations)
        EXPECT_EQ(BenchModel::stationOf(BenchModel::columnOf(station)), station);
    EXPECT_FALSE(BenchModel::stationOf(BenchModel::Sheet).has_value());
}

TEST_F(BenchModelTest, OneChangedPrintIsOneChangedRow)
{
    QSignalSpy changed(model.get(), &QAbstractItemModel::dataChanged);
    QSignalSpy reset(model.get(), &QAbstractItemModel::modelReset);
    start(prints[1], Station::Coat);
    ASSERT_EQ(changed.count(), 1);
    EXPECT_EQ(changed[0][0].toModelIndex().row(), 1);
    EXPECT_EQ(changed[0][1].toModelIndex().row(), 1);
    EXPECT_EQ(reset.count(), 0);
}

TEST_F(BenchModelTest, AChildRowChangesItsPrint)
{
    QSignalSpy changed(model.get(), &QAbstractItemModel::dataChanged);
    room.add(Entity::Touch, { { "touch_time", room.desk().now() }, { "touch_state", "cool" } }, prints[2]);
    ASSERT_EQ(changed.count(), 1);
    EXPECT_EQ(changed[0][0].toModelIndex().row(), 2);
    EXPECT_EQ(model->index(2, BenchModel::Dry).data(BenchModel::StateRole).value<CellState>().figure.text(),
        QStringLiteral("cool"));
}

TEST_F(BenchModelTest, PrintsComeInAndGoWithoutAReset)
{
    QSignalSpy inserted(model.get(), &QAbstractItemModel::rowsInserted);
    QSignalSpy removed(model.get(), &QAbstractItemModel::rowsRemoved);
    QSignalSpy reset(model.get(), &QAbstractItemModel::modelReset);
    ASSERT_TRUE(room.desk().perform(QStringLiteral("two"), [&](store::Writer& writer) -> Outcome {
        for (const char* code : { "A1-04", "A1-05" }) {
            const auto added = writer.add(Entity::Print, 0,
                { { QStringLiteral("print_code"), Known { Value(QString::fromUtf8(code)) } },
                    { QStringLiteral("print_session"), Known { Link { session } } } });
            if (!added)
                return added.error();
        }
        return writer.remove({ Entity::Print, prints[1] });
    }));
    EXPECT_EQ(model->rowCount(), 4);
    ASSERT_EQ(inserted.count(), 1) << "both at once";
    EXPECT_EQ(inserted[0][2].toInt() - inserted[0][1].toInt(), 1);
    EXPECT_EQ(removed.count(), 1);
    room.desk().undo();
    EXPECT_EQ(model->rowCount(), 3);
    EXPECT_EQ(model->printAt(1), prints[1]) << "back in its old place";
    EXPECT_EQ(reset.count(), 0);
}

TEST_F(BenchModelTest, APrintThatMovesToAnotherSessionLeaves)
{
    const auto other = room.add(Entity::Session, { { "session_code", "A2" } });
    ASSERT_TRUE(room.desk().setPrintField(
        { prints[0] }, QStringLiteral("session_code"), Known { Value(QStringLiteral("A2")) }));
    EXPECT_EQ(model->rowOf(prints[0]), -1);
    EXPECT_EQ(model->rowCount(), 2);
    room.sit(other);
    ASSERT_EQ(model->rowCount(), 1);
    EXPECT_EQ(model->printAt(0), prints[0]);
}

TEST_F(BenchModelTest, ATickChangesOnlyWhatRuns)
{
    start(prints[0], Station::Dry);
    start(prints[2], Station::Coat);
    EXPECT_TRUE(model->anyRunning());
    QSignalSpy changed(model.get(), &QAbstractItemModel::dataChanged);
    room.clock.advanceSeconds(75);
    EXPECT_EQ(text(0, BenchModel::Dry), QStringLiteral("00:00")) << "until it is told";
    model->tick();
    EXPECT_EQ(text(0, BenchModel::Dry), QStringLiteral("01:15"));
    EXPECT_EQ(text(2, BenchModel::Coat), QStringLiteral("01:15"));
    ASSERT_EQ(changed.count(), 2);
    EXPECT_EQ(changed[0][0].toModelIndex(), model->index(0, BenchModel::Dry));
    EXPECT_EQ(changed[1][0].toModelIndex(), model->index(2, BenchModel::Coat));
}

TEST_F(BenchModelTest, TheRawRoleHoldsNumbersAndNoTexts)
{
    EXPECT_FALSE(model->index(0, BenchModel::Dry).data(BenchModel::RawRole).isValid()) << "not recorded is not zero";
    start(prints[0], Station::Dry);
    room.clock.advanceMinutes(12);
    model->tick();
    EXPECT_DOUBLE_EQ(model->index(0, BenchModel::Dry).data(BenchModel::RawRole).toDouble(), 12.0);
    EXPECT_EQ(text(0, BenchModel::Sheet, BenchModel::RawRole), QStringLiteral("A1-01"));
    EXPECT_EQ(model->index(0, 3).data(BenchModel::PrintRole).toLongLong(), prints[0]);
}

TEST_F(BenchModelTest, EveryCellSaysWhoseItIsToAScreenReader)
{
    start(prints[0], Station::Rinse);
    for (int row = 0; row < model->rowCount(); ++row)
        for (int column = 0; column < model->columnCount(); ++column)
            EXPECT_TRUE(text(row, column, Qt::AccessibleTextRole).startsWith(text(row, BenchModel::Sheet)));
    EXPECT_TRUE(text(0, BenchModel::Rinse, Qt::AccessibleTextRole).contains(QStringLiteral("Rinse: running since")));
}

TEST_F(BenchModelTest, TheSheetSaysItsMakerAndItsMix)
{
    const auto mix = room.add(Entity::Mix, { { "mix_code", "M7" } });
    room.set({ Entity::Print, prints[0] }, "print_mix", mix);
    room.set({ Entity::Print, prints[0] }, "print_maker", "k03");
    EXPECT_EQ(model->about(0), QStringLiteral("k03 · M7"));
    EXPECT_EQ(model->about(1), QString());
}

TEST_F(BenchModelTest, FollowsAnotherWindow)
{
    auto other = store::NotebookFile::open(room.path(), room.catalogue());
    ASSERT_TRUE(other);
    ASSERT_TRUE((*other)->perform(QStringLiteral("start"),
        [&](store::Writer& writer) { return startStation(writer, prints[1], Station::Coat, room.desk().now()); }));
    room.desk().lookForChanges();
    EXPECT_EQ(model->index(1, BenchModel::Coat).data(BenchModel::StateRole).value<CellState>().stage, Stage::Running);
}

TEST_F(BenchModelTest, WithoutASessionThereIsNothing)
{
    room.sit(0);
    EXPECT_EQ(model->rowCount(), 0);
}

} // namespace WASHFAST_FILE
