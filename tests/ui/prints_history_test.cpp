// The history of a print in words: what was done, from what to what, newest first.
#include "ui/prints/history_words.h"

#include "tests/support/outside.h"
#include "tests/support/prints_fixture.h"
#include "ui/prints/print_page.h"

#include <QTabWidget>
#include <QTableWidget>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::HistoryLine;

namespace {

class History : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        print = room.print("A1-01");
    }
    std::vector<HistoryLine> lines()
    {
        const auto entries = room.desk().file().historyOf(PrintId { print });
        EXPECT_TRUE(entries);
        return ui::historyLines(*entries, room.desk().notebook());
    }
    void enter(const char* key, const Known& value)
    {
        ASSERT_TRUE(room.desk().setPrintField({ print }, text(key), value));
    }

    PrintsFixture room;
    qint64 print = 0;
};

TEST_F(History, SaysFromWhatToWhat)
{
    enter("coat_volume_ml", Known { 0.62 });
    enter("coat_volume_ml", Known { 0.7 });
    const auto all = lines();
    ASSERT_GE(all.size(), 3U);
    EXPECT_EQ(all[0].what, text("Mix on the sheet"));
    EXPECT_EQ(all[0].change, text("0.62 → 0.70"));
    EXPECT_TRUE(all[0].step.startsWith(text("Mix on the sheet")));
    EXPECT_FALSE(all[0].when.isEmpty());
    EXPECT_EQ(all[1].change, text("not recorded → 0.62"));
    EXPECT_EQ(all.back().what, text("print added"));
}

TEST_F(History, UsesTheWordsOfThePersonForChoicesTimesAndLinks)
{
    enter("coat_tool", Known { text("foam_brush") });
    EXPECT_EQ(lines()[0].change, text("not recorded → foam brush"));
    enter("dry_covered", Known { true });
    EXPECT_EQ(lines()[0].change, text("not recorded → yes"));
    enter("print_outcome", Known { text("pale; ran_off"), Evidence::Estimated });
    EXPECT_TRUE(lines()[0].change.contains(text("ran off"))) << lines()[0].change.toStdString();
    enter("mix_code", Known { text("M2") });
    EXPECT_EQ(lines()[0].what, text("Mix"));
    EXPECT_EQ(lines()[0].change, text("not recorded → M2"));
    enter("mix_code", {});
    EXPECT_EQ(lines()[0].change, text("M2 → not recorded"));
}

TEST_F(History, SaysHowTheEvidenceChanged)
{
    enter("coat_volume_ml", Known { 0.62 });
    enter("coat_volume_ml", Known { 0.62, Evidence::Assumed });
    const auto last = lines()[0];
    EXPECT_EQ(last.what, text("Mix on the sheet"));
    EXPECT_EQ(last.change, text("measured → assumed"));
    for (const auto& line : lines())
        EXPECT_FALSE(line.change.contains(QLatin1Char('{')))
            << "nothing of how it is stored: " << line.change.toStdString();
}

TEST_F(History, NamesTheKindOfRowThatBelongsToThePrint)
{
    enter("density_before_rinse_deepest", Known { 0.9 });
    enter("density_before_rinse_deepest", Known { 0.95 });
    EXPECT_EQ(lines()[0].what, text("density reading: Density"));
    EXPECT_EQ(lines()[0].change, text("0.90 → 0.95"));
    const auto reading = room.desk().notebook().table(Entity::Reading).id(0);
    room.desk().perform(text("Remove reading"), [&](store::Writer& writer) {
        return writer.remove({ Entity::Reading, reading });
    });
    EXPECT_EQ(lines()[0].what, text("density reading removed"));
    room.undo();
    EXPECT_EQ(lines()[0].what, text("density reading brought back"));
    EXPECT_TRUE(lines()[0].step.contains(text("Undo"))) << lines()[0].step.toStdString();
}

TEST_F(History, WhatAnotherProgramChangedIsToldAsThat)
{
    Outside tool(room.path());
    tool.run("UPDATE print SET coat_passes = 5");
    EXPECT_EQ(lines()[0].what, text("Passes"));
    EXPECT_EQ(lines()[0].change, text("not recorded → 5"));
    EXPECT_EQ(lines()[0].step, text("by another program"));
}

TEST_F(History, ARecordThatWasPutAwayHasNoNameAnyMore)
{
    enter("mix_code", Known { text("M2") });
    enter("mix_code", Known { text("M10") });
    room.desk().perform(text("Put away"), [&](store::Writer& writer) {
        return writer.remove({ Entity::Mix, room.m2 });
    });
    EXPECT_EQ(lines()[0].change, text("one that has been put away → M10"));
}

TEST_F(History, ThePageShowsItAndKeepsUp)
{
    ui::PrintPage page(room.services());
    page.setPrint(print);
    page.show();
    page.tabs()->setCurrentWidget(page.history());
    const int before = page.history()->rowCount();
    ASSERT_GE(before, 1);
    enter("coat_volume_ml", Known { 0.62 });
    ASSERT_EQ(page.history()->rowCount(), before + 1);
    EXPECT_EQ(page.history()->item(0, 1)->text(), text("Mix on the sheet"));
    EXPECT_EQ(page.history()->item(0, 2)->text(), text("not recorded → 0.62"));
}

} // namespace

} // namespace WASHFAST_FILE
