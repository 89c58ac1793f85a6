// Adding one field touches the catalogue and a migration, nothing else: what stands in tests/support/one_more_field.h
// is all that is needed for the store, the records in memory, the filter, the history and undo to take it.
#include "tests/support/one_more_field.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include "core/store/print_fields.h"
#include "core/trial/filter.h"
#include "core/trial/print_columns.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Writer;

namespace {

class OneMoreField : public testing::Test {
protected:
    void SetUp() override
    {
        // A notebook from before the field was thought of.
        const ScratchNotebook before;
        {
            const auto old = before.open();
            addWholePrint(*old, "P1");
            addWholePrint(*old, "P2", 1);
        }
        putBytes(scratch_.path(), bytesOf(before.path()));
        file_ = scratch_.open(catalogueWithCurl().options());
    }
    Outcome setCurl(PrintId print, const Known& value)
    {
        const auto step = file_->perform(
            text("Curl"), [&](Writer& writer) { return store::setPrintField(writer, print, curlKey(), value); });
        return step.ok() ? Outcome(Done {}) : Outcome(step.error());
    }
    [[nodiscard]] Known curl(PrintId print)
    {
        const auto notebook = must(file_->read());
        return PrintReader(notebook).get(notebook.prints().find(print.value), curlKey());
    }

    ScratchNotebook scratch_ { catalogueWithCurl().catalogue };
    std::unique_ptr<store::NotebookFile> file_;
};

constexpr PrintId one { 1 }, two { 2 };

} // namespace

TEST_F(OneMoreField, IsUnknownInWhatWasWrittenBefore)
{
    EXPECT_FALSE(file_->copyBeforeMigration().isEmpty());
    EXPECT_FALSE(curl(one).has());
}

TEST_F(OneMoreField, IsWrittenAndReadWithItsEvidence)
{
    must(setCurl(one, Known { 4.5, Evidence::Estimated }));
    EXPECT_EQ(curl(one), (Known { 4.5, Evidence::Estimated }));
    EXPECT_FALSE(curl(two).has());
    must(setCurl(one, {}));
    EXPECT_FALSE(curl(one).has());
    EXPECT_EQ(fails(setCurl(one, Known { text("a lot") })).code, Trouble::BadInput);
}

TEST_F(OneMoreField, IsAddedWithANewPrint)
{
    must(file_->perform(text("Add"), [](Writer& writer) -> Outcome {
        const auto print = writer.add(Entity::Print, 0, { { curlKey(), Known { 2.0 } } });
        return print.ok() ? Outcome(Done {}) : Outcome(print.error());
    }));
    EXPECT_EQ(curl({ 3 }), Known { 2.0 });
}

TEST_F(OneMoreField, IsAFieldOfItsStation)
{
    const auto fields = scratch_.catalogue().recordable(Station::Dry);
    const auto found = std::find_if(fields.begin(), fields.end(), [](const Field* f) { return f->key == curlKey(); });
    ASSERT_NE(found, fields.end());
    EXPECT_EQ((*found)->labelWithUnit(), text("Curl of the sheet [mm]"));
    EXPECT_TRUE(store::isWritablePrintField(scratch_.catalogue(), **found));
}

TEST_F(OneMoreField, IsAColumnOfTheTable)
{
    must(setCurl(two, Known { 7.0, Evidence::Assumed }));
    const auto notebook = must(file_->read());
    const PrintColumns columns(notebook);
    const auto& column = columns.column(scratch_.catalogue().printField(curlKey()));
    ASSERT_EQ(column.numbers.size(), 2U);
    EXPECT_TRUE(std::isnan(column.numbers[0]));
    EXPECT_EQ(column.numbers[1], 7.0);
    EXPECT_EQ(column.evidence[1], Evidence::Assumed);
}

TEST_F(OneMoreField, CanBeFilteredOn)
{
    must(setCurl(one, Known { 4.5 }));
    must(setCurl(two, Known { 7.0 }));
    const auto notebook = must(file_->read());
    const PrintColumns columns(notebook);
    for (const auto& [filter, shown] : { std::pair("dry_curl_mm > 5", std::vector<char> { 0, 1 }),
             std::pair("dry_curl_mm < 5", std::vector<char> { 1, 0 }),
             std::pair("dry_curl_mm is unknown", std::vector<char> { 0, 0 }) }) {
        const auto parsed = parseFilter(text(filter), scratch_.catalogue());
        ASSERT_TRUE(parsed.ok()) << parsed.fault->says.toStdString();
        EXPECT_EQ(parsed.filter.matches(columns), shown) << filter;
    }
}

TEST_F(OneMoreField, IsInTheHistoryAndCanBeUndone)
{
    must(setCurl(one, Known { 4.5 }));
    must(setCurl(one, Known { 6.0, Evidence::Estimated }));
    const auto entries = must(file_->historyOf(one));
    EXPECT_EQ(
        std::count_if(entries.begin(), entries.end(), [](const auto& entry) { return entry.field == curlKey(); }), 2);
    must(file_->undo());
    EXPECT_EQ(curl(one), Known { 4.5 });
    file_.reset();
    file_ = scratch_.open(catalogueWithCurl().options());
    must(file_->undo());
    EXPECT_FALSE(curl(one).has());
    must(file_->redo());
    EXPECT_EQ(curl(one), Known { 4.5 });
}

TEST_F(OneMoreField, IsSeenByAnotherWindow)
{
    auto notebook = must(file_->read());
    const auto there = scratch_.open(catalogueWithCurl().options());
    must(setField(*there, one, "dry_curl_mm", Known { 3.0 }));
    const auto changes = must(file_->refresh(notebook));
    ASSERT_EQ(changes.size(), 1U);
    EXPECT_EQ(changes.front().field, curlKey());
    EXPECT_EQ(notebook.get(one, curlKey()), Known { 3.0 });
}

TEST_F(OneMoreField, IsReadByTheSqlite3Command)
{
    must(setCurl(one, Known { 4.5 }));
    EXPECT_EQ(sqlite3Command(scratch_.path(), "SELECT dry_curl_mm FROM print WHERE print_code = 'P1'"),
        QStringList { text("4.5") });
}

TEST_F(OneMoreField, TheProgramThatDoesNotKnowItStillReadsTheFile)
{
    must(setCurl(one, Known { 4.5 }));
    const auto catalogue = standardCatalogue();
    const auto older = must(store::NotebookFile::open(scratch_.path(), catalogue));
    EXPECT_EQ(older->access(), store::Access::ReadOnlyTooNew);
    EXPECT_EQ(must(older->read()).prints().rows(), 2);
}

} // namespace WASHFAST_FILE
