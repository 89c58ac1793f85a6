// The daily copies beside a notebook: one a day, fourteen kept, each of them a whole notebook.
#include "core/store/copies.h"
#include "tests/support/child_process.h"
#include "tests/support/damaged_notebook.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::makeDailyCopy;

namespace {

const QDate monday(2026, 5, 4);

class Copies : public testing::Test {
protected:
    void SetUp() override
    {
        file_ = scratch_.open();
        addWholePrint(*file_, "P1");
    }
    [[nodiscard]] QStringList names() const
    {
        return QDir(store::copiesFolder(scratch_.path())).entryList(QDir::Files, QDir::Name);
    }
    [[nodiscard]] static int printsIn(const QString& path)
    {
        return Outside(path).row("SELECT count(*) FROM print WHERE removed = 0").toInt();
    }

    ScratchNotebook scratch_;
    std::unique_ptr<store::NotebookFile> file_;
};

} // namespace

TEST_F(Copies, LieBesideTheNotebookAndAreNamedAfterTheDay)
{
    const auto copy = must(makeDailyCopy(scratch_.path(), monday));
    EXPECT_EQ(copy, scratch_.inFolder("term.washfast.copies/term-2026-05-04.washfast"));
    EXPECT_EQ(names(), QStringList { text("term-2026-05-04.washfast") }) << "nothing else is left";
}

TEST_F(Copies, HoldWhatIsOnlyInTheLogYetAndOpenAsNotebooks)
{
    ASSERT_GT(QFileInfo(scratch_.path() + text("-wal")).size(), 0) << "the print is still in the log";
    must(file_->perform(text("Photo"), [](store::Writer& writer) -> Outcome {
        const auto photo = writer.addPhoto(1, QByteArray("bytes of a photo"), {});
        return photo.ok() ? Outcome(Done {}) : Outcome(photo.error());
    }));
    const auto copy = must(makeDailyCopy(scratch_.path(), monday));
    EXPECT_FALSE(QFile::exists(copy + text("-wal")));
    const auto opened = must(store::NotebookFile::open(copy, scratch_.catalogue()));
    EXPECT_EQ(opened->access(), store::Access::ReadWrite);
    EXPECT_EQ(must(opened->integrity()), text("ok"));
    EXPECT_EQ(differences(must(opened->read()), must(file_->read())), QStringList());
    EXPECT_EQ(must(opened->photo({ 1 })), QByteArray("bytes of a photo"));
    must(opened->undo()); // the history is in it
    EXPECT_EQ(must(opened->read()).table(Entity::Photo).rows(), 0);
}

TEST_F(Copies, OneADayIsMade)
{
    const auto copy = must(makeDailyCopy(scratch_.path(), monday));
    const auto before = bytesOf(copy);
    addPrint(*file_, "P2");
    EXPECT_EQ(must(makeDailyCopy(scratch_.path(), monday)), copy);
    EXPECT_EQ(bytesOf(copy), before);
    EXPECT_EQ(printsIn(must(makeDailyCopy(scratch_.path(), monday.addDays(1)))), 2);
    EXPECT_EQ(printsIn(copy), 1);
    EXPECT_EQ(names().size(), 2);
}

TEST_F(Copies, FourteenAreKeptAndNothingElseIsTouched)
{
    QDir().mkpath(store::copiesFolder(scratch_.path()));
    const QStringList strangers { text("notes-2026-05-04.washfast"), text("term-2026-05-04.txt"),
        text("term-2026-13-40.washfast"), text("term-schema-1.washfast"), text("term-2-2026-05-04.washfast") };
    for (const auto& name : strangers)
        putBytes(QDir(store::copiesFolder(scratch_.path())).filePath(name), "not ours");
    for (int day = 0; day < 20; ++day)
        must(makeDailyCopy(scratch_.path(), monday.addDays(day)));
    auto daily = names();
    for (const auto& name : strangers)
        EXPECT_EQ(daily.removeAll(name), 1) << name.toStdString();
    EXPECT_EQ(daily.size(), 14);
    EXPECT_EQ(daily.first(), text("term-2026-05-10.washfast"));
    EXPECT_EQ(daily.last(), text("term-2026-05-23.washfast"));
}

TEST_F(Copies, ANameWithSignsThatMeanSomethingElsewhereIsKeptInOrderToo)
{
    const auto path = scratch_.inFolder("term [7]?.washfast");
    const auto odd = must(store::NotebookFile::open(path, scratch_.catalogue()));
    for (int day = 0; day < 5; ++day)
        must(makeDailyCopy(path, monday.addDays(day), 3));
    EXPECT_EQ(QDir(store::copiesFolder(path)).entryList(QDir::Files).size(), 3);
}

TEST_F(Copies, TwoWindowsMayMakeThemAtTheSameTime)
{
    file_.reset();
    std::vector<pid_t> children;
    for (int window = 0; window < 4; ++window) {
        const auto child = fork();
        if (child == 0)
            _exit(makeDailyCopy(scratch_.path(), monday).ok() ? 0 : 1);
        children.push_back(child);
    }
    for (const auto child : children) {
        int status = 0;
        waitpid(child, &status, 0);
        EXPECT_EQ(status, 0);
    }
    EXPECT_EQ(names(), QStringList { text("term-2026-05-04.washfast") });
    const auto copy
        = must(store::NotebookFile::open(must(makeDailyCopy(scratch_.path(), monday)), scratch_.catalogue()));
    EXPECT_EQ(must(copy->integrity()), text("ok"));
    EXPECT_EQ(must(copy->read()).prints().rows(), 1);
}

TEST_F(Copies, WhatABrokenOffCopyLeftGoesAfterADay)
{
    must(makeDailyCopy(scratch_.path(), monday));
    const auto old_part = QDir(store::copiesFolder(scratch_.path())).filePath(text("term-2026-05-03.washfast.x.part"));
    const auto new_part = QDir(store::copiesFolder(scratch_.path())).filePath(text("term-2026-05-05.washfast.y.part"));
    putBytes(old_part, "half");
    putBytes(new_part, "half");
    QFile file(old_part);
    ASSERT_TRUE(file.open(QIODevice::ReadWrite));
    ASSERT_TRUE(file.setFileTime(QDateTime::currentDateTime().addDays(-3), QFileDevice::FileModificationTime));
    file.close();
    must(makeDailyCopy(scratch_.path(), monday));
    EXPECT_FALSE(QFile::exists(old_part));
    EXPECT_TRUE(QFile::exists(new_part)) << "another window may be writing it";
}

TEST_F(Copies, TheNotebookItselfIsNotChangedByBeingCopied)
{
    file_.reset();
    const auto before = bytesOf(scratch_.path());
    must(makeDailyCopy(scratch_.path(), monday));
    EXPECT_EQ(bytesOf(scratch_.path()), before);
}

TEST_F(Copies, AFolderThatCannotBeMadeIsSaid)
{
    putBytes(store::copiesFolder(scratch_.path()), "in the way");
    EXPECT_EQ(fails(makeDailyCopy(scratch_.path(), monday)).code, Trouble::ReadOnly);
    EXPECT_EQ(bytesOf(store::copiesFolder(scratch_.path())), QByteArray("in the way"));
}

TEST_F(Copies, AWholeCopyCanBePutAnywhereButNotOverAFile)
{
    const auto target = scratch_.inFolder("elsewhere.washfast");
    must(file_->copyTo(target));
    EXPECT_EQ(printsIn(target), 1);
    addPrint(*file_, "P2");
    EXPECT_FALSE(file_->copyTo(target).ok());
    EXPECT_EQ(printsIn(target), 1);
    EXPECT_FALSE(file_->copyTo(scratch_.inFolder("no/such/folder.washfast")).ok());
}

namespace {

/// Puts rubbish over the first page of the table of prints.
void damagePrints(const QString& path)
{
    const auto page = Outside(path).row("SELECT rootpage FROM sqlite_schema WHERE name = 'print'").toLongLong();
    auto bytes = bytesOf(path);
    bytes.replace((page - 1) * pageSizeOf(bytes) + 8, 400, QByteArray(400, '\x5a'));
    putBytes(path, bytes);
    ASSERT_NE(sqliteSays(bytes, path + text(".judge")), text("ok"));
    QFile::remove(path + text(".judge"));
}

} // namespace

TEST_F(Copies, OfADamagedNotebookAreNotMadeAndTheGoodOnesStay)
{
    for (int day = 0; day < 14; ++day)
        must(makeDailyCopy(scratch_.path(), monday.addDays(day)));
    const auto before = names();
    file_.reset();
    damagePrints(scratch_.path());
    const auto error = fails(makeDailyCopy(scratch_.path(), monday.addDays(14)));
    EXPECT_EQ(error.code, Trouble::Damaged) << error.says.toStdString();
    EXPECT_EQ(names(), before);
}

TEST_F(Copies, NoneGoesWhileTheNewestIsDamaged)
{
    for (int day = 0; day < 5; ++day)
        must(makeDailyCopy(scratch_.path(), monday.addDays(day)));
    damagePrints(must(makeDailyCopy(scratch_.path(), monday.addDays(5))));
    const auto error = fails(makeDailyCopy(scratch_.path(), monday.addDays(5), 3));
    EXPECT_EQ(error.code, Trouble::Damaged);
    EXPECT_EQ(names().size(), 6);
    // A sound one of the next day takes its place as the newest.
    must(makeDailyCopy(scratch_.path(), monday.addDays(6), 3));
    EXPECT_EQ(names().size(), 3);
    EXPECT_EQ(names().last(), text("term-2026-05-10.washfast"));
}

TEST_F(Copies, NoneGoesWhileTheNotebookIsDamaged)
{
    for (int day = 0; day < 5; ++day)
        must(makeDailyCopy(scratch_.path(), monday.addDays(day)));
    file_.reset();
    damagePrints(scratch_.path());
    EXPECT_EQ(fails(makeDailyCopy(scratch_.path(), monday.addDays(4), 3)).code, Trouble::Damaged);
    EXPECT_EQ(names().size(), 5);
}

TEST_F(Copies, TheNewestSoundOneIsFound)
{
    EXPECT_FALSE(store::newestSoundCopy(scratch_.path()));
    EXPECT_THAT(store::wayOut(scratch_.path()).toStdString(), testing::HasSubstr("There is no copy of it"));
    QStringList copies;
    for (int day = 0; day < 4; ++day) {
        copies << must(makeDailyCopy(scratch_.path(), monday.addDays(day)));
        QFile file(copies.back());
        ASSERT_TRUE(file.open(QIODevice::ReadWrite));
        ASSERT_TRUE(
            file.setFileTime(QDateTime::currentDateTime().addDays(day - 10), QFileDevice::FileModificationTime));
    }
    EXPECT_EQ(store::newestSoundCopy(scratch_.path()), copies[3]);
    for (const int broken : { 3, 2 }) {
        const QDateTime when = QFileInfo(copies[broken]).lastModified();
        damagePrints(copies[broken]);
        QFile file(copies[broken]);
        ASSERT_TRUE(file.open(QIODevice::ReadWrite));
        ASSERT_TRUE(file.setFileTime(when, QFileDevice::FileModificationTime));
    }
    putBytes(QDir(store::copiesFolder(scratch_.path())).filePath(text("stranger.washfast")), "not ours");
    EXPECT_EQ(store::newestSoundCopy(scratch_.path()), copies[1]);
    EXPECT_THAT(store::wayOut(scratch_.path()).toStdString(), testing::HasSubstr("term-2026-05-05.washfast"));
}

} // namespace WASHFAST_FILE
