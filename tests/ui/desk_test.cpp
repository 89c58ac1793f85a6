// The open notebook: what it says of itself, and the news that it passes on.
#include "ui/common/desk.h"

#include "tests/support/prints_fixture.h"

#include <QSignalSpy>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Change;
using ui::Desk;

namespace {

TEST(PrintsTouched, EachOnceOrAny)
{
    const Change print { Change::What::Set, { Entity::Print, 3 }, text("print_code"), 0 };
    const Change reading { Change::What::Added, { Entity::Reading, 40 }, {}, 7 };
    const Change again { Change::What::Set, { Entity::Reading, 41 }, text("reading_density"), 3 };
    const Change mix { Change::What::Set, { Entity::Mix, 2 }, text("mix_ph"), 0 };
    EXPECT_EQ(ui::printsTouched({ print, reading, again }), (QVector<qint64> { 3, 7 }));
    EXPECT_EQ(ui::printsTouched({ print, mix }), std::nullopt) << "a mix may concern any print";
    EXPECT_EQ(ui::printsTouched({}), (QVector<qint64> {}));
}

class DeskTest : public testing::Test {
protected:
    void SetUp() override { room.lesson(); }
    PrintsFixture room;
};

TEST_F(DeskTest, TellsWhatChangedOnce)
{
    const auto print = room.print("A1-01");
    QSignalSpy changed(&room.desk(), &Desk::changed);
    ASSERT_TRUE(room.desk().setPrintField({ print }, text("coat_passes"), Known { 3.0 }));
    ASSERT_EQ(changed.size(), 1);
    const auto changes = changed[0][0].value<QVector<Change>>();
    ASSERT_EQ(changes.size(), 1);
    EXPECT_EQ(changes[0].row, Ref(PrintId { print }));
    EXPECT_EQ(changes[0].field, text("coat_passes"));
    ASSERT_TRUE(room.desk().setPrintField({ print }, text("coat_passes"), Known { 3.0 }));
    EXPECT_EQ(changed.size(), 1) << "nothing new is no news";
}

TEST_F(DeskTest, AFailedStepWritesNothingAndIsSaid)
{
    const auto print = room.print("A1-01");
    room.expectTrouble();
    EXPECT_FALSE(room.desk().perform(text("Half"), [&](store::Writer& writer) -> Outcome {
        if (auto set = writer.set(PrintId { print }, text("coat_passes"), Known { 3.0 }); !set)
            return set;
        return Error { Trouble::BadInput, text("The second half cannot be done."), {} };
    }));
    EXPECT_EQ(room.troubles(), texts({ "The second half cannot be done." }));
    EXPECT_FALSE(room.number(print, "coat_passes"));
    EXPECT_EQ(room.desk().undoLabel(), QString());
}

TEST_F(DeskTest, UndoAndRedoHaveNames)
{
    const auto print = room.print("A1-01");
    room.desk().setPrintField({ print }, text("coat_passes"), Known { 3.0 });
    EXPECT_TRUE(room.desk().undoLabel().startsWith(text("Passes"))) << room.desk().undoLabel().toStdString();
    EXPECT_EQ(room.desk().redoLabel(), QString());
    room.undo();
    EXPECT_EQ(room.desk().undoLabel(), QString());
    EXPECT_TRUE(room.desk().redoLabel().startsWith(text("Passes")));
    EXPECT_FALSE(room.number(print, "coat_passes"));
    room.desk().redo();
    EXPECT_EQ(room.number(print, "coat_passes"), 3);
    room.desk().redo(); // nothing to do is no trouble
    EXPECT_EQ(room.number(print, "coat_passes"), 3);
}

TEST_F(DeskTest, ManyPrintsAreOneStep)
{
    const QVector<qint64> prints { room.print("A1-01"), room.print("A1-02"), room.print("A1-03") };
    ASSERT_TRUE(room.desk().setPrintField(prints, text("rinse_start"), Known { at("2026-05-04T11:30:00+02:00") }));
    room.undo();
    for (const auto print : prints)
        EXPECT_FALSE(room.time(print, "rinse_start"));
}

TEST_F(DeskTest, AUnknownFieldOrPrintIsUnknownNotZero)
{
    const auto print = room.print("A1-01");
    EXPECT_FALSE(room.desk().get(print, u"no_such_field").has());
    EXPECT_FALSE(room.desk().get(999, u"coat_passes").has());
    EXPECT_FALSE(room.desk().get(print, u"coat_passes").has());
}

TEST_F(DeskTest, AReadOnlyNotebookRefusesAndSaysWhy)
{
    const auto print = room.print("A1-01");
    room.reopen(true);
    EXPECT_FALSE(room.desk().writable());
    room.expectTrouble();
    EXPECT_FALSE(room.desk().setPrintField({ print }, text("coat_passes"), Known { 3.0 }));
    ASSERT_EQ(room.troubles().size(), 1);
    EXPECT_FALSE(room.troubles()[0].isEmpty());
    EXPECT_FALSE(room.number(print, "coat_passes"));
}

} // namespace

} // namespace WASHFAST_FILE
