// The table of prints as a model: its rows, their order, what is shown of them, and how it follows the notebook.
#include "ui/prints/print_table_model.h"

#include "tests/support/prints_fixture.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::PrintTableModel;

namespace {

class PrintTable : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        model = std::make_unique<PrintTableModel>(room.desk());
        model->setColumns(texts({ "print_code", "mix_code", "kept", "print_outcome", "coat_start" }));
        tester = std::make_unique<QAbstractItemModelTester>(
            model.get(), QAbstractItemModelTester::FailureReportingMode::Fatal);
    }
    [[nodiscard]] QStringList codes() const { return columnOf(*model, 1); }
    void filter(const char* line)
    {
        const auto parsed = parseFilter(text(line), room.catalogue());
        ASSERT_TRUE(parsed.ok()) << parsed.fault->says.toStdString();
        model->setFilter(parsed.filter);
    }

    PrintsFixture room;
    std::unique_ptr<PrintTableModel> model;
    std::unique_ptr<QAbstractItemModelTester> tester;
};

TEST_F(PrintTable, ShowsValuesWithTheirMarksAndHeadingsWithTheirUnits)
{
    const auto print = room.toned("A1-01", 0.9, 0.5);
    room.set({ Entity::Print, print }, "coat_volume_ml", Known { 0.62, Evidence::Estimated });
    model->setColumns(texts({ "print_code", "coat_volume_ml", "kept", "no_such_field" }));
    ASSERT_EQ(model->columnCount(), 4) << "the tone pair and three fields";
    EXPECT_EQ(model->headerData(2, Qt::Horizontal).toString(), text("Mix on the sheet [mL]"));
    EXPECT_EQ(model->index(0, 2).data().toString(), text("≈0.62"));
    EXPECT_EQ(model->index(0, 3).data().toString(), text("0.50")) << "(0.5 - 0.1) / (0.9 - 0.1)";
    EXPECT_EQ(model->index(0, 0).data(Qt::AccessibleTextRole).toString(),
        model->index(0, 0).data(Qt::ToolTipRole).toString());
    EXPECT_NE(model->index(0, 0).data(Qt::AccessibleTextRole).toString(), QString());
    EXPECT_TRUE(model->index(0, 2).data(Qt::ToolTipRole).toString().contains(text("estimated")));
}

TEST_F(PrintTable, PutsWhatWasNotRecordedLastWhicheverWay)
{
    room.toned("A1-01", 0.9, 0.5); // kept 0.5
    room.print("A1-02"); // unknown
    room.toned("A1-03", 0.9, 0.2); // kept 0.125
    room.print("A1-04"); // unknown
    room.toned("A1-05", 0.9, 0.8); // kept 0.875
    model->sort(3, Qt::AscendingOrder);
    EXPECT_EQ(codes(), texts({ "A1-03", "A1-01", "A1-05", "A1-02", "A1-04" }));
    model->sort(3, Qt::DescendingOrder);
    EXPECT_EQ(codes(), texts({ "A1-05", "A1-01", "A1-03", "A1-02", "A1-04" }));
    model->sort(PrintTableModel::toneColumn, Qt::AscendingOrder);
    EXPECT_EQ(codes(), texts({ "A1-01", "A1-02", "A1-03", "A1-04", "A1-05" })) << "the order of the notebook";
}

TEST_F(PrintTable, SortsCodesAsAPersonCounts)
{
    for (const auto& [code, mix] : { std::pair("A1-10", room.m10), { "A1-9", room.m2 }, { "a1-1", qint64(0) } }) {
        const auto print = room.print(code);
        if (mix != 0)
            room.set({ Entity::Print, print }, "print_mix", mix);
    }
    model->sort(1, Qt::AscendingOrder);
    EXPECT_EQ(codes(), texts({ "a1-1", "A1-9", "A1-10" }));
    model->sort(2, Qt::AscendingOrder);
    EXPECT_EQ(columnOf(*model, 2), texts({ "M2", "M10", "" }));
    model->sort(2, Qt::DescendingOrder);
    EXPECT_EQ(columnOf(*model, 2), texts({ "M10", "M2", "" }));
}

TEST_F(PrintTable, FiltersAndKeepsTheOrder)
{
    room.toned("A1-01", 0.9, 0.5);
    room.toned("A1-02", 0.9, 0.8);
    room.print("A1-03");
    room.toned("A1-04", 0.9, 0.2);
    model->sort(3, Qt::AscendingOrder);
    filter("kept < 0.6");
    EXPECT_EQ(codes(), texts({ "A1-04", "A1-01" }));
    EXPECT_EQ(model->total(), 4);
    filter("kept < 0.6 or kept is unknown");
    EXPECT_EQ(codes(), texts({ "A1-04", "A1-01", "A1-03" }));
    filter("");
    EXPECT_EQ(model->rowCount(), 4);
}

TEST_F(PrintTable, FollowsEditsUndoRemovalAndAdding)
{
    const auto first = room.toned("A1-01", 0.9, 0.5);
    const auto second = room.toned("A1-02", 0.9, 0.8);
    model->sort(3, Qt::AscendingOrder);
    QSignalSpy data(model.get(), &QAbstractItemModel::dataChanged);
    QSignalSpy reset(model.get(), &QAbstractItemModel::modelReset);
    ASSERT_TRUE(room.desk().setPrintField({ second }, text("density_day_after_deepest"), Known { 0.2 }));
    EXPECT_EQ(codes(), texts({ "A1-02", "A1-01" })) << "the new value moves it";
    EXPECT_GE(data.size(), 1);
    EXPECT_EQ(reset.size(), 0) << "no more than needed";
    room.undo();
    EXPECT_EQ(codes(), texts({ "A1-01", "A1-02" }));
    ASSERT_TRUE(
        room.desk().perform(text("Remove"), [&](store::Writer& writer) { return writer.remove(PrintId { first }); }));
    EXPECT_EQ(codes(), texts({ "A1-02" }));
    room.undo();
    EXPECT_EQ(codes(), texts({ "A1-01", "A1-02" }));
    room.toned("A1-03", 0.9, 0.1);
    EXPECT_EQ(codes(), texts({ "A1-03", "A1-01", "A1-02" }));
}

TEST_F(PrintTable, TakesAPrintInOrOutWhenAnEditChangesTheFiltersAnswer)
{
    const auto print = room.toned("A1-01", 0.9, 0.5);
    room.toned("A1-02", 0.9, 0.3);
    filter("kept < 0.6");
    ASSERT_EQ(codes(), texts({ "A1-01", "A1-02" }));
    room.desk().setPrintField({ print }, text("density_day_after_deepest"), Known { 0.9 });
    EXPECT_EQ(codes(), texts({ "A1-02" }));
    room.undo();
    EXPECT_EQ(codes(), texts({ "A1-01", "A1-02" }));
}

TEST_F(PrintTable, AChangeOfASharedRecordReachesEveryRow)
{
    const auto print = room.print("A1-01");
    room.set({ Entity::Print, print }, "print_mix", room.m2);
    QSignalSpy data(model.get(), &QAbstractItemModel::dataChanged);
    room.desk().perform(text("Rename"), [&](store::Writer& writer) {
        return writer.set({ Entity::Mix, room.m2 }, text("mix_code"), Known { text("M2b") });
    });
    EXPECT_GE(data.size(), 1);
    EXPECT_EQ(columnOf(*model, 2), texts({ "M2b" }));
}

TEST_F(PrintTable, KeepsWhatIsSelectedOverANewOrder)
{
    const auto first = room.toned("A1-01", 0.9, 0.5);
    room.toned("A1-02", 0.9, 0.8);
    const QPersistentModelIndex held = model->index(model->rowOf(first), 1);
    model->sort(3, Qt::DescendingOrder);
    ASSERT_TRUE(held.isValid());
    EXPECT_EQ(held.data().toString(), text("A1-01"));
    EXPECT_EQ(held.row(), 1);
}

TEST_F(PrintTable, TakesOtherColumnsAndGoesOnSortingByTheSameField)
{
    room.toned("A1-01", 0.9, 0.8);
    room.toned("A1-02", 0.9, 0.5);
    model->sort(3, Qt::AscendingOrder);
    model->setColumns(texts({ "kept", "print_code" }));
    EXPECT_EQ(model->columnKeys(), texts({ "kept", "print_code" }));
    EXPECT_EQ(model->sortColumn(), 1);
    EXPECT_EQ(columnOf(*model, 2), texts({ "A1-02", "A1-01" }));
    model->setColumns(texts({ "print_code" }));
    EXPECT_EQ(model->sortColumn(), -1) << "what is not shown is not sorted by";
    EXPECT_EQ(codes(), texts({ "A1-01", "A1-02" }));
}

TEST_F(PrintTable, GivesTheChosenRowsAsATable)
{
    const auto print = room.toned("A1-01", 0.9, 0.5);
    room.toned("A1-02", 0.9, 0.8);
    room.set({ Entity::Print, print }, "print_notes", "two\nlines\tand a tab");
    model->setColumns(texts({ "print_code", "kept", "print_notes" }));
    EXPECT_EQ(model->asTable({ 1, 0 }), text("Print\tKept\tNotes\nA1-02\t0.88\t\nA1-01\t0.50\ttwo lines and a tab\n"));
}

TEST_F(PrintTable, SaysWhichPrintFailed)
{
    const auto print = room.print("A1-01");
    room.outcome(print, "kept");
    EXPECT_FALSE(model->index(0, 4).data(PrintTableModel::failedRole).toBool());
    room.outcome(print, "pale");
    EXPECT_TRUE(model->index(0, 4).data(PrintTableModel::failedRole).toBool());
}

// Whatever happens in whatever order, the rows are those of a model that is made anew.
TEST_F(PrintTable, StaysInStepThroughManyRandomSteps)
{
    std::mt19937 chance(20260504);
    const auto below = [&](int n) { return int(chance() % unsigned(n)); };
    QVector<qint64> all;
    for (int i = 0; i < 6; ++i)
        all << room.toned(("A1-" + std::to_string(i)).c_str(), 0.9, 0.2 + 0.1 * i);
    model->sort(3, Qt::AscendingOrder);
    filter("not kept > 0.7");
    for (int step = 0; step < 120; ++step) {
        const auto print = all[below(int(all.size()))];
        switch (below(6)) {
        case 0:
            room.desk().perform(
                text("Remove"), [&](store::Writer& writer) { return writer.remove(PrintId { print }); });
            break;
        case 1:
            room.desk().redo();
            break;
        case 2:
            room.undo();
            break;
        case 3:
            model->sort(1 + below(4), below(2) == 0 ? Qt::AscendingOrder : Qt::DescendingOrder);
            break;
        default:
            if (room.desk().notebook().prints().find(print) >= 0)
                room.desk().setPrintField({ print }, text("density_day_after_deepest"), Known { below(100) / 100.0 });
        }
        PrintTableModel fresh(room.desk());
        fresh.setColumns(model->columnKeys());
        fresh.setFilter(parseFilter(text("not kept > 0.7"), room.catalogue()).filter);
        fresh.sort(model->sortColumn(), model->sortOrder());
        ASSERT_EQ(codes(), columnOf(fresh, 1)) << "step " << step;
    }
}

} // namespace

} // namespace WASHFAST_FILE
