// Looking through a file before it is opened: bounded in time, all of it when it is to be written to, and what becomes
// of a notebook that turns out to be damaged.
#include "core/store/copies.h"
#include "core/store/soundness.h"
#include "tests/support/damaged_notebook.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>
#include <thread>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Access;
using testing::HasSubstr;

namespace {

class Looking : public testing::Test {
protected:
    void SetUp() override
    {
        const auto file = scratch_.open();
        for (int n = 0; n < 12; ++n)
            addWholePrint(*file, qPrintable(QStringLiteral("P%1").arg(n)), n);
    }
    [[nodiscard]] QByteArray bytes() const { return bytesOf(scratch_.path()); }
    /// The first page of this table or index, by name.
    [[nodiscard]] qsizetype pageOf(const char* name) const
    {
        const auto root
            = Outside(scratch_.path())
                  .row(qPrintable(
                      QStringLiteral("SELECT rootpage FROM sqlite_schema WHERE name = '%1'").arg(QLatin1String(name))));
        return (root.toLongLong() - 1) * pageSizeOf(bytes());
    }
    void damage(const char* name) const
    {
        const auto at = pageOf(name);
        auto broken = bytes();
        broken.replace(at, 200, QByteArray(200, '\x5a'));
        putBytes(scratch_.path(), broken);
    }
    /// An index that lacks an entry: no page of it makes no sense, only the whole look can tell.
    void emptyIndex() const
    {
        Outside outside(scratch_.path());
        outside.run("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = sql || ' WHERE id < 0' WHERE name = "
                    "'print_of_session'; PRAGMA writable_schema = RESET;");
        outside.run("REINDEX print_of_session");
        outside.run("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, ' WHERE id < 0', '') "
                    "WHERE name = 'print_of_session'; PRAGMA writable_schema = RESET;");
    }
    static store::OpenOptions looking(store::LookFirst how)
    {
        store::OpenOptions options;
        options.look = how;
        return options;
    }

    ScratchNotebook scratch_;
};

} // namespace

TEST_F(Looking, ASoundFileIsSound)
{
    EXPECT_TRUE(must(store::wholeLook(scratch_.path())).sound());
    const auto file = scratch_.open();
    EXPECT_TRUE(store::quickLook(file->connection(), 60'000).sound());
    EXPECT_FALSE(file->damage());
}

TEST_F(Looking, ATimeThatIsOverIsNoFault)
{
    const auto file = scratch_.open();
    const auto look = store::quickLook(file->connection(), 0);
    EXPECT_FALSE(look.damaged()) << look.fault.toStdString();
    EXPECT_FALSE(look.finished);
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = must(store::wholeLook(scratch_.path(), stop.get_token()));
    EXPECT_FALSE(stopped.damaged());
    EXPECT_FALSE(stopped.finished);
    EXPECT_EQ(must(file->read()).prints().rows(), 12) << "nothing of it stays behind";
}

TEST_F(Looking, TheTimeEndsWhateverIsAtWork)
{
    const auto file = scratch_.open();
    auto& connection = file->connection();
    const store::Unhurried unhurried(connection); // nothing else would end it
    const auto endless = [&] {
        return connection.integer(
            "SELECT count(*) FROM (WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n)");
    };
    {
        const store::BreakOff after_a_while(connection.handle(), 30, {});
        EXPECT_FALSE(endless());
        EXPECT_TRUE(after_a_while.happened());
    }
    {
        std::stop_source stop;
        const store::BreakOff when_asked(connection.handle(), std::nullopt, stop.get_token());
        std::thread asks([&] { stop.request_stop(); });
        EXPECT_FALSE(endless());
        asks.join();
        EXPECT_TRUE(when_asked.happened());
    }
    EXPECT_EQ(must(file->read()).prints().rows(), 12) << "nothing of it stays behind";
}

TEST_F(Looking, ADamagedFileIsOpenedForReadingOnly)
{
    damage("bath");
    const auto before = bytes();
    {
        const auto file = scratch_.open();
        EXPECT_EQ(file->access(), Access::ReadOnlyDamaged);
        ASSERT_TRUE(file->damage());
        const auto error = fails(file->perform(text("Add"), [](store::Writer&) -> Outcome {
            ADD_FAILURE() << "nobody may write";
            return Done {};
        }));
        EXPECT_EQ(error.code, Trouble::Damaged);
        EXPECT_THAT(error.says.toStdString(), HasSubstr("Nothing is written into a damaged notebook"));
        EXPECT_THAT(error.says.toStdString(), HasSubstr("There is no copy of it"));
        EXPECT_FALSE(file->setSetting(text("k"), text("v")));
        EXPECT_FALSE(file->undo());
        EXPECT_FALSE(file->copyTo(scratch_.inFolder("copy.washfast")));
    }
    EXPECT_EQ(bytes(), before);
    EXPECT_EQ(scratch_.names(), QStringList { text("term.washfast") });
}

TEST_F(Looking, TheQuickLookLeavesTheIndexesToTheWholeOne)
{
    emptyIndex();
    ASSERT_NE(sqliteSays(bytes(), scratch_.inFolder("judge")), text("ok"));
    EXPECT_TRUE(scratch_.open()->writable());
    const auto file = scratch_.open(looking(store::LookFirst::Whole));
    EXPECT_EQ(file->access(), Access::ReadOnlyDamaged);
    EXPECT_THAT(file->damage()->says.toStdString(), HasSubstr("print_of_session"));
}

TEST_F(Looking, WhatIsFoundLaterStopsTheWriting)
{
    const auto file = scratch_.open();
    addPrint(*file, "one more");
    file->foundDamaged(store::damaged(text("a page is missing"), scratch_.path()));
    EXPECT_FALSE(file->writable());
    EXPECT_THAT(fails(file->perform(text("Add"), [](store::Writer&) -> Outcome { return Done {}; })).says.toStdString(),
        HasSubstr("a page is missing"));
    EXPECT_EQ(must(file->read()).prints().rows(), 13);
}

TEST_F(Looking, AnErrorInTheMiddleOfAStepStopsTheWritingToo)
{
    damage("history"); // so that the trigger cannot write
    const auto file = scratch_.open(looking(store::LookFirst::None));
    ASSERT_TRUE(file->writable());
    const auto error = fails(file->perform(text("Set"), [](store::Writer& writer) {
        return writer.set(Ref(Entity::Print, 1), text("print_notes"), Known { text("x") });
    }));
    EXPECT_EQ(error.code, Trouble::Damaged);
    EXPECT_FALSE(file->writable());
}

TEST_F(Looking, AnOlderFileThatIsDamagedIsNotUpgraded)
{
    emptyIndex();
    store::OpenOptions options;
    options.migrations.push_back(
        { options.migrations.back().to + 1, "ALTER TABLE print ADD COLUMN print_curl_mm REAL" });
    const auto before = bytes();
    const auto file = scratch_.open(options);
    EXPECT_EQ(file->access(), Access::ReadOnlyDamaged);
    EXPECT_EQ(file->schemaOfFile(), options.migrations.back().to - 1);
    EXPECT_EQ(bytes(), before);
    EXPECT_FALSE(QDir(store::copiesFolder(scratch_.path())).exists());
}

TEST_F(Looking, AFileThatChangesWhileItIsReadAtRestIsReadAgain)
{
    store::OpenOptions options;
    options.only_read = true;
    const auto reading = scratch_.open(options);
    EXPECT_EQ(must(reading->read()).prints().rows(), 12);
    addPrint(*scratch_.open(), "meanwhile"); // closed: it has reached the file
    EXPECT_EQ(fails(reading->read()).code, Trouble::Busy);
}

} // namespace WASHFAST_FILE
