// Prints side by side as a model: which rows are shown, in which order, and what a spreadsheet gets.
#include "ui/beside/beside_model.h"

#include "tests/support/prints_fixture.h"

#include <QAbstractItemModelTester>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::BesideModel;

namespace {

class Beside : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        first = room.toned("A1-01", 0.9, 0.5);
        second = room.toned("A1-02", 0.9, 0.8);
        model = std::make_unique<BesideModel>(room.desk());
        tester = std::make_unique<QAbstractItemModelTester>(
            model.get(), QAbstractItemModelTester::FailureReportingMode::Fatal);
        model->setPrints({ first, second });
    }
    [[nodiscard]] int rowOf(const char* key) const
    {
        for (int row = 0; row < model->rowCount(); ++row)
            if (model->fieldAt(row).key == text(key))
                return row;
        return -1;
    }
    [[nodiscard]] QStringList at(const char* key) const
    {
        QStringList values;
        for (int column = 0; rowOf(key) >= 0 && column < model->columnCount(); ++column)
            values << model->index(rowOf(key), column).data().toString();
        return values;
    }

    PrintsFixture room;
    std::unique_ptr<BesideModel> model;
    std::unique_ptr<QAbstractItemModelTester> tester;
    qint64 first = 0, second = 0;
};

TEST_F(Beside, ShowsOnlyWhatDiffersAtFirst)
{
    EXPECT_EQ(at("kept"), texts({ "0.50", "0.88" }));
    EXPECT_EQ(rowOf("formed"), -1) << "0.80 in both";
    EXPECT_EQ(rowOf("coat_volume_ml"), -1) << "recorded in none";
    EXPECT_EQ(rowOf("print_code"), -1) << "it is the heading";
    EXPECT_EQ(model->headerData(1, Qt::Horizontal).toString(), text("A1-02"));
    for (int row = 0; row < model->rowCount(); ++row)
        EXPECT_TRUE(model->differs(row)) << model->fieldAt(row).key.toStdString();
}

TEST_F(Beside, WithAllTheRowsThatDifferStandFirst)
{
    room.set({ Entity::Print, first }, "print_maker", "K4");
    room.set({ Entity::Print, second }, "print_maker", "K4");
    model->setShowAll(true);
    ASSERT_GE(rowOf("print_maker"), 0);
    bool same_seen = false;
    for (int row = 0; row < model->rowCount(); ++row) {
        const auto key = model->fieldAt(row).key.toStdString();
        EXPECT_FALSE(model->differs(row) && same_seen) << key << " stands behind a row in which all are the same";
        same_seen = same_seen || !model->differs(row);
        bool any = false;
        for (int column = 0; column < 2; ++column)
            any = any || room.desk().get(model->prints()[column], model->fieldAt(row).key).has();
        EXPECT_TRUE(any) << key << " is recorded in none";
    }
    EXPECT_TRUE(same_seen);
}

TEST_F(Beside, NotRecordedIsADifferenceFromRecordedEvenFromZero)
{
    room.set({ Entity::Print, first }, "coat_passes", 0);
    EXPECT_EQ(at("coat_passes"), texts({ "0", "–" }));
}

TEST_F(Beside, WhatLooksTheSameDoesNotDiffer)
{
    room.set({ Entity::Print, first }, "coat_volume_ml", 0.6200001);
    room.set({ Entity::Print, second }, "coat_volume_ml", 0.62);
    EXPECT_EQ(rowOf("coat_volume_ml"), -1);
    room.set({ Entity::Print, second }, "coat_volume_ml", 0.63);
    EXPECT_GE(rowOf("coat_volume_ml"), 0);
}

TEST_F(Beside, FollowsEditsAndUndo)
{
    room.desk().setPrintField({ second }, text("density_day_after_deepest"), Known { 0.5 });
    EXPECT_EQ(model->rowCount(), 0) << "nothing differs any more";
    room.undo();
    EXPECT_EQ(at("kept"), texts({ "0.50", "0.88" }));
}

TEST_F(Beside, APrintThatIsRemovedLeaves)
{
    room.desk().perform(text("Remove"), [&](store::Writer& writer) { return writer.remove(PrintId { first }); });
    EXPECT_EQ(model->prints(), (QVector<qint64> { second }));
    EXPECT_EQ(model->columnCount(), 1);
}

TEST_F(Beside, GivesATableWithHeadings)
{
    room.set({ Entity::Print, first }, "print_notes", "a\tb\nc");
    const auto lines = model->asTable().split(QLatin1Char('\n'));
    EXPECT_EQ(lines[0], text("\tA1-01\tA1-02"));
    EXPECT_TRUE(lines.contains(text("Kept\t0.50\t0.88"))) << model->asTable().toStdString();
    EXPECT_TRUE(lines.contains(text("Notes\ta b c\t")))
        << "one line and one cell, and empty where nothing was recorded";
    for (const auto& line : lines)
        EXPECT_TRUE(line.isEmpty() || line.count(QLatin1Char('\t')) == 2) << line.toStdString();
}

TEST_F(Beside, WithoutPrintsThereIsNothing)
{
    model->setPrints({});
    EXPECT_EQ(model->rowCount(), 0);
    EXPECT_EQ(model->columnCount(), 0);
}

} // namespace

} // namespace WASHFAST_FILE
