// The file of an open notebook is moved, removed, replaced, overwritten or cut off from its log: it is noticed before
// anything more is written, nothing that was shown is lost, and the work goes on as soon as it can.
#include "core/store/merge.h"
#include "tests/support/kernel_locks.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <cstdio>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::NotebookFile;
using store::Writer;
using testing::HasSubstr;

namespace {

const Ref firstPrint(Entity::Print, 1);

void rename(const QString& from, const QString& to)
{
    if (std::rename(QFile::encodeName(from).constData(), QFile::encodeName(to).constData()) != 0)
        throw std::runtime_error("cannot rename " + from.toStdString());
}

/// Other bytes in the same file, as cp does.
void overwrite(const QString& path, const QByteArray& bytes)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadWrite) || !file.resize(0) || file.write(bytes) != bytes.size())
        throw std::runtime_error("cannot overwrite");
}

class Standing : public testing::Test {
protected:
    void SetUp() override
    {
        file_ = scratch_.open();
        addWholePrint(*file_, "P1");
        must(file_->copyTo(older_));
        file_ = nullptr; // all of that is in the file itself, what comes in its log
        file_ = scratch_.open();
        addWholePrint(*file_, "P2", 1);
        file_->lookAfter();
    }
    [[nodiscard]] QStringList shown() { return prints(*file_); }
    static QStringList prints(NotebookFile& file)
    {
        const auto notebook = must(file.read());
        QStringList codes;
        for (int row = 0; row < notebook.prints().rows(); ++row)
            codes << notebook.nameOf(Ref(Entity::Print, notebook.prints().id(row)));
        return codes;
    }
    [[nodiscard]] Outcome enter() { return setField(*file_, firstPrint, "coat_passes", Known { 5.0 }); }
    /// What was saved is a sound notebook with these prints.
    void expectRescued(const QString& path, const QStringList& codes) const
    {
        const auto saved = must(NotebookFile::open(path, scratch_.catalogue()));
        EXPECT_EQ(must(saved->integrity()), text("ok"));
        EXPECT_EQ(prints(*saved), codes);
    }
    void removeLog() const
    {
        for (const char* ending : { "-wal", "-shm" })
            ASSERT_TRUE(QFile::remove(scratch_.path() + QString::fromLatin1(ending)));
    }

    ScratchNotebook scratch_;
    const QString older_ = scratch_.inFolder("older.washfast"), rescue_ = scratch_.inFolder("term-rescued.washfast");
    std::unique_ptr<NotebookFile> file_;
    const QStringList both_ { text("P1"), text("P2") };
};

} // namespace

TEST_F(Standing, NothingIsSaidWhileAllIsAsItWas)
{
    const auto other = scratch_.open();
    for (int n = 0; n < 60; ++n) {
        addPrint(n % 3 ? *file_ : *other, qPrintable(QStringLiteral("N%1").arg(n)));
        if (n % 7 == 0)
            Outside(scratch_.path()).run(n % 2 ? "PRAGMA wal_checkpoint(TRUNCATE)" : "PRAGMA wal_checkpoint(PASSIVE)");
        if (n % 11 == 0)
            EXPECT_EQ(sqlite3Command(scratch_.path(), "VACUUM; PRAGMA wal_checkpoint(RESTART)").size(), 1);
        if (n % 13 == 0)
            (void)sqlite3Command(scratch_.path(), "UPDATE print SET coat_passes = 2 WHERE id = 1");
        file_->lookAfter();
        ASSERT_FALSE(file_->loss()) << n << ": " << file_->loss()->error.says.toStdString();
        ASSERT_EQ(file_->openings(), 0) << n;
    }
    EXPECT_EQ(shown().size(), 62);
}

TEST_F(Standing, ARemovedFileIsNoticedAndAllIsSavedBesideIt)
{
    for (const char* ending : { "", "-wal", "-shm" })
        ASSERT_TRUE(QFile::remove(scratch_.path() + QString::fromLatin1(ending)));
    file_->lookAfter();
    ASSERT_TRUE(file_->loss());
    EXPECT_EQ(file_->loss()->error.code, Trouble::Lost);
    EXPECT_THAT(file_->loss()->error.says.toStdString(), HasSubstr("term.washfast was moved, renamed or deleted"));
    EXPECT_THAT(file_->loss()->error.says.toStdString(), HasSubstr(rescue_.toStdString()));
    EXPECT_EQ(shown(), both_) << "it is still shown";
    EXPECT_EQ(fails(enter()).code, Trouble::Lost);
    EXPECT_EQ(fails(file_->undo()).code, Trouble::Lost);
    EXPECT_EQ(fails(file_->setSetting(text("k"), text("v"))).code, Trouble::Lost);
    EXPECT_FALSE(QFile::exists(scratch_.path())) << "no new file is made";
    file_.reset();
    expectRescued(rescue_, both_);
}

TEST_F(Standing, AStepNoticesItWithoutBeingAskedToLook)
{
    rename(scratch_.path(), scratch_.inFolder("elsewhere.washfast"));
    EXPECT_EQ(fails(enter()).code, Trouble::Lost);
    EXPECT_TRUE(file_->loss());
    expectRescued(rescue_, both_);
}

TEST_F(Standing, AFileThatIsPutBackIsTakenUpAgain)
{
    const auto elsewhere = scratch_.inFolder("elsewhere.washfast");
    rename(scratch_.path(), elsewhere);
    file_->lookAfter();
    ASSERT_TRUE(file_->loss());
    rename(elsewhere, scratch_.path());
    file_->lookAfter();
    EXPECT_FALSE(file_->loss());
    EXPECT_EQ(file_->openings(), 1);
    EXPECT_FALSE(QFile::exists(rescue_)) << "nothing is missing, so it is not needed";
    EXPECT_EQ(shown(), both_);
    must(enter());
    EXPECT_EQ(fieldOf(*file_, firstPrint, "coat_passes").number(), 5.0);
}

TEST_F(Standing, AnotherFileInItsPlaceIsOpenedByTheNextStepAndBroughtTogether)
{
    rename(older_, scratch_.path());
    file_->lookAfter();
    ASSERT_TRUE(file_->loss());
    EXPECT_THAT(file_->loss()->error.says.toStdString(), HasSubstr("Another file was put in the place"));
    EXPECT_EQ(shown(), both_) << "until the person does something";
    EXPECT_EQ(fails(enter()).code, Trouble::Lost) << "what was entered was meant for what was shown";
    EXPECT_FALSE(file_->loss());
    EXPECT_EQ(file_->openings(), 1);
    EXPECT_EQ(shown(), QStringList { text("P1") });
    must(enter());
    expectRescued(rescue_, both_);
    must(store::merge(*file_, rescue_));
    EXPECT_EQ(shown(), both_);
    EXPECT_EQ(fieldOf(*file_, firstPrint, "coat_passes").number(), 5.0);
    EXPECT_EQ(must(file_->integrity()), text("ok"));
}

TEST_F(Standing, TheLogOfTheFileBeforeIsNotPlayedIntoTheOneInItsPlace)
{
    const auto log = bytesOf(scratch_.path() + text("-wal"));
    ASSERT_FALSE(log.isEmpty());
    rename(older_, scratch_.path());
    file_->lookAfter();
    file_.reset();
    EXPECT_EQ(prints(*scratch_.open()), QStringList { text("P1") });
    EXPECT_EQ(must(scratch_.open()->integrity()), text("ok"));
}

TEST_F(Standing, AStrangeNotebookInItsPlaceIsNotWrittenTo)
{
    {
        const ScratchNotebook another;
        addPrint(*another.open(), "theirs");
        putBytes(scratch_.inFolder("theirs"), bytesOf(another.path()));
    }
    rename(scratch_.inFolder("theirs"), scratch_.path());
    for (int time = 0; time < 3; ++time)
        EXPECT_EQ(fails(enter()).code, Trouble::Lost);
    EXPECT_THAT(file_->loss()->error.says.toStdString(), HasSubstr("open that to go on"));
    EXPECT_EQ(shown(), both_);
    EXPECT_EQ(Outside(scratch_.path()).rows("SELECT print_code FROM print"), QStringList { text("theirs") });
    EXPECT_EQ(file_->openings(), 0);
}

TEST_F(Standing, SomethingElseInItsPlaceIsLeftAlone)
{
    putBytes(scratch_.inFolder("letter"), "Dear all,");
    rename(scratch_.inFolder("letter"), scratch_.path());
    EXPECT_EQ(fails(enter()).code, Trouble::Lost);
    EXPECT_EQ(bytesOf(scratch_.path()), "Dear all,");
    expectRescued(rescue_, both_);
}

TEST_F(Standing, AFileThatIsOverwrittenInPlaceIsNoticed)
{
    must(file_->connection().script("PRAGMA wal_checkpoint(PASSIVE)"));
    file_->lookAfter();
    ASSERT_FALSE(file_->loss());
    overwrite(scratch_.path(), bytesOf(older_));
    file_->lookAfter();
    ASSERT_TRUE(file_->loss());
    EXPECT_THAT(file_->loss()->error.says.toStdString(), HasSubstr("wrote over"));
    EXPECT_EQ(fails(enter()).code, Trouble::Lost);
    EXPECT_EQ(shown(), QStringList { text("P1") });
    EXPECT_EQ(must(file_->integrity()), text("ok"));
    must(enter());
}

TEST_F(Standing, ALogThatIsRemovedLosesNothing)
{
    removeLog(); // with what has not been copied into the file yet
    putBytes(scratch_.inFolder("table.csv"), "print_code\nby another program\n"); // it works with what is left
    ASSERT_EQ(runWashfast({ text("import"), scratch_.path(), scratch_.inFolder("table.csv") }), "done");
    file_->lookAfter();
    ASSERT_TRUE(file_->loss());
    EXPECT_THAT(file_->loss()->error.says.toStdString(), HasSubstr("removed the log"));
    expectRescued(rescue_, both_);
    EXPECT_EQ(fails(enter()).code, Trouble::Lost);
    EXPECT_EQ(file_->openings(), 1);
    must(store::merge(*file_, rescue_));
    auto all = shown();
    all.sort();
    EXPECT_EQ(all, (QStringList { text("P1"), text("P2"), text("by another program") }));
    EXPECT_EQ(must(file_->integrity()), text("ok"));
}

TEST_F(Standing, ALogThatIsRemovedWhenAllIsInTheFileIsNotWorthAWord)
{
    must(file_->connection().script("PRAGMA wal_checkpoint(TRUNCATE)"));
    removeLog();
    must(enter());
    EXPECT_FALSE(file_->loss());
    EXPECT_EQ(file_->openings(), 1);
    EXPECT_EQ(scratch_.names().filter(text("rescued")), QStringList());
    file_.reset();
    EXPECT_EQ(fieldOf(*scratch_.open(), firstPrint, "coat_passes").number(), 5.0);
}

TEST_F(Standing, AStepDuringWhichTheLogGoesIsRolledBack)
{
    must(file_->connection().script("PRAGMA wal_checkpoint(TRUNCATE)"));
    const auto step = file_->perform(text("Edit"), [&](Writer& writer) {
        removeLog();
        return writer.set(firstPrint, text("coat_passes"), Known { 5.0 });
    });
    EXPECT_EQ(fails(step).code, Trouble::Lost);
    EXPECT_FALSE(file_->loss()) << "it is open again";
    EXPECT_NE(fieldOf(*file_, firstPrint, "coat_passes").number(), 5.0);
    must(enter());
    file_.reset();
    EXPECT_EQ(fieldOf(*scratch_.open(), firstPrint, "coat_passes").number(), 5.0);
}

TEST_F(Standing, WhatIsOnlyInALogThatIsGoneIsSavedWhenTheNotebookIsClosed)
{
    removeLog();
    file_.reset();
    expectRescued(rescue_, both_);
    EXPECT_EQ(must(scratch_.open()->integrity()), text("ok"));
}

TEST_F(Standing, ClosingLeavesTheFileThatIsThereAlone)
{
    removeLog();
    const auto other = scratch_.tryOpen(); // its window is still open when ours closes
    EXPECT_EQ(fails(other).code, Trouble::Lost)
        << "in this program it would be given the index of the log that is gone";
    const auto before = bytesOf(scratch_.path());
    file_.reset();
    EXPECT_EQ(bytesOf(scratch_.path()), before);
}

TEST_F(Standing, ItWaitsForTheOtherConnectionsOfTheProgram)
{
    auto reading = scratch_.open();
    EXPECT_EQ(prints(*reading), both_);
    must(file_->connection().script("PRAGMA wal_checkpoint(TRUNCATE)"));
    removeLog();
    file_->lookAfter();
    EXPECT_TRUE(file_->loss());
    reading.reset();
    file_->lookAfter();
    EXPECT_FALSE(file_->loss());
    must(enter());
    EXPECT_EQ(must(file_->integrity()), text("ok"));
}

TEST_F(Standing, WithoutItsFolderAllIsSavedAtHome)
{
    const QTemporaryDir home;
    const auto before = qgetenv("HOME");
    qputenv("HOME", QFile::encodeName(home.path()));
    const QFileInfo notebook(scratch_.path());
    ASSERT_TRUE(QDir(notebook.absolutePath()).removeRecursively());
    file_->lookAfter();
    ASSERT_TRUE(file_->loss());
    expectRescued(home.filePath(text("term-rescued.washfast")), both_);
    EXPECT_EQ(fails(enter()).code, Trouble::Lost);
    qputenv("HOME", before);
}

TEST_F(Standing, WhoOnlyReadsNoticesItToo)
{
    file_.reset();
    store::OpenOptions options;
    options.only_read = true;
    file_ = scratch_.open(options);
    EXPECT_EQ(shown(), both_);
    rename(older_, scratch_.path());
    file_->lookAfter();
    ASSERT_TRUE(file_->loss());
    EXPECT_EQ(shown(), both_);
    EXPECT_EQ(fails(enter()).code, Trouble::ReadOnly);
}

TEST_F(Standing, SavingTakesANameThatIsFree)
{
    putBytes(rescue_, "mine");
    ASSERT_TRUE(QFile::remove(scratch_.path()));
    file_->lookAfter();
    EXPECT_EQ(bytesOf(rescue_), "mine");
    expectRescued(scratch_.inFolder("term-rescued-2.washfast"), both_);
}

TEST_F(Standing, ACopyOntoItselfIsRefused)
{
    const auto before = bytesOf(scratch_.path());
    EXPECT_EQ(fails(file_->copyTo(scratch_.path())).code, Trouble::BadInput);
    const auto link = scratch_.inFolder("link.washfast");
    ASSERT_TRUE(QFile::link(scratch_.path(), link));
    EXPECT_EQ(fails(file_->copyTo(link)).code, Trouble::BadInput);
    EXPECT_EQ(bytesOf(scratch_.path()), before);
}

} // namespace WASHFAST_FILE
