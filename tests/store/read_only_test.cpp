// A notebook that may be read but not written. Each attempt runs in a process that has given up the rights of root.
#include "tests/support/child_process.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>
#include <sys/stat.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Access;
using testing::HasSubstr;

namespace {

constexpr mode_t everybodyReads = 0444, everybodyWrites = 0666, nobodyReads = 0000;

/// What opening gives, in words: the access and the prints that are there, then what writing says; or the error.
std::string attempt(const ScratchNotebook& scratch)
{
    const auto file = scratch.tryOpen();
    if (!file)
        return testing::PrintToString(file.error().code) + ": " + file.error().says.toStdString();
    const auto notebook = (*file)->read();
    if (!notebook)
        return "not read: " + notebook.error().says.toStdString();
    std::string said = (*file)->access() == Access::ReadOnlyPlace ? "read only"
        : (*file)->access() == Access::ReadWrite                  ? "writable"
                                                                  : "too new";
    said += ", prints: " + std::to_string(notebook->prints().rows());
    const auto step = (*file)->perform(QStringLiteral("Add"), [](store::Writer& writer) -> Outcome {
        const auto added = writer.add(Entity::Print, 0, {});
        return added.ok() ? Outcome(Done {}) : Outcome(added.error());
    });
    said += step.ok() ? "; written"
                      : "; " + testing::PrintToString(step.error().code) + ": " + step.error().says.toStdString();
    const auto setting = (*file)->setSetting(QStringLiteral("k"), QStringLiteral("v"));
    said += setting.ok() ? "; setting written" : "";
    return said;
}

class ReadOnly : public testing::Test {
protected:
    void SetUp() override
    {
        addWholePrint(*scratch_.open(), "P1");
        addWholePrint(*scratch_.open(), "P2", 1);
        before_ = bytesOf(scratch_.path());
        folder_ = QFile::encodeName(QFileInfo(scratch_.path()).absolutePath()).toStdString();
        letFolder(0777);
        letFile(everybodyWrites);
    }
    void TearDown() override { letFolder(0700); }

    void letFolder(mode_t mode) const { ASSERT_EQ(chmod(folder_.c_str(), mode), 0); }
    void letFile(mode_t mode) const { ASSERT_EQ(chmod(QFile::encodeName(scratch_.path()).constData(), mode), 0); }
    [[nodiscard]] std::string asNobody() const
    {
        return inChild([this] {
            giveUpRights();
            return attempt(scratch_);
        });
    }
    void expectUntouched() const
    {
        EXPECT_EQ(bytesOf(scratch_.path()), before_);
        EXPECT_EQ(scratch_.names(), QStringList { QStringLiteral("term.washfast") });
    }

    ScratchNotebook scratch_;
    QByteArray before_;
    std::string folder_;
};

const auto readsButDoesNotWrite
    = testing::StartsWith("read only, prints: 2; ReadOnly: This notebook lies where nothing can be written");

} // namespace

TEST_F(ReadOnly, TheWayOfTestingCanFail)
{
    EXPECT_THAT(asNobody(), testing::StartsWith("writable, prints: 2; written")) << "nothing forbids it yet";
}

TEST_F(ReadOnly, AFileThatMayNotBeWritten)
{
    letFile(everybodyReads);
    EXPECT_THAT(asNobody(), readsButDoesNotWrite);
    expectUntouched();
}

TEST_F(ReadOnly, AFolderThatMayNotBeWritten)
{
    letFolder(0555);
    EXPECT_THAT(asNobody(), readsButDoesNotWrite);
    expectUntouched();
}

TEST_F(ReadOnly, AFileThatMayNotBeReadIsNoNewNotebook)
{
    letFile(nobodyReads);
    EXPECT_EQ(asNobody(), "ReadOnly: This file may not be read.");
    letFile(everybodyWrites);
    expectUntouched();
}

TEST_F(ReadOnly, ANewNotebookIsNotMadeThere)
{
    ASSERT_TRUE(QFile::remove(scratch_.path()));
    letFolder(0555);
    EXPECT_THAT(asNobody(), HasSubstr("ReadOnly: A notebook cannot be made here"));
    EXPECT_TRUE(scratch_.names().isEmpty());
}

// The last entries are still in SQLite's log, because the program that wrote them was broken off.
TEST_F(ReadOnly, WhatIsStillInTheLogIsReadToo)
{
    const auto logged = inChild([this] {
        const auto file = scratch_.open();
        addWholePrint(*file, "P3");
        _exit(0); // without closing
        return std::string();
    });
    ASSERT_EQ(logged, "");
    ASSERT_TRUE(scratch_.names().contains(QStringLiteral("term.washfast-wal")));
    letFolder(0555);
    EXPECT_THAT(asNobody(), HasSubstr("read only, prints: 3"));

    // Without the log's index beside it SQLite cannot read the log here: better to say so than to show less than there
    // is.
    letFolder(0777);
    ASSERT_TRUE(QFile::remove(scratch_.path() + QStringLiteral("-shm")));
    letFolder(0555);
    EXPECT_THAT(asNobody(), testing::StartsWith("ReadOnly: "));
}

TEST_F(ReadOnly, ADiskThatIsMountedReadOnlyStopsRootToo)
{
    const auto said = inChild([this]() -> std::string {
        if (!mountReadOnly(folder_))
            return "not allowed";
        return attempt(scratch_);
    });
    if (said == "not allowed")
        GTEST_SKIP() << "mounting is not allowed here";
    EXPECT_THAT(said, readsButDoesNotWrite);
    expectUntouched();
}

TEST_F(ReadOnly, AnOlderNotebookIsReadWithoutBringingItUpToDate)
{
    Catalogue grown = standardCatalogue();
    grown.add(numberField(Entity::Print, "print_curl_mm", "Curl", "mm", "Height of the edge over the table."));
    store::OpenOptions options;
    options.migrations.push_back(
        { options.migrations.back().to + 1, "ALTER TABLE print ADD COLUMN print_curl_mm REAL" });
    letFolder(0555);
    const auto said = inChild([&]() -> std::string {
        giveUpRights();
        const auto file = must(store::NotebookFile::open(scratch_.path(), grown, options));
        const auto notebook = must(file->read());
        const auto curl = notebook.get(PrintId { 1 }, u"print_curl_mm");
        return std::string(file->writable() ? "writable" : "read only") + (curl.has() ? ", curl" : ", no curl")
            + ", prints: " + std::to_string(notebook.prints().rows());
    });
    EXPECT_EQ(said, "read only, no curl, prints: 2");
    expectUntouched();
}

} // namespace WASHFAST_FILE
