// Writing aside and into place: an older file stays as it was until the new one is whole.
#include "core/files/write_aside.h"
#include "tests/support/child_process.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <csignal>
#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/stat.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::files;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

class WriteAside : public testing::Test {
protected:
    [[nodiscard]] QString path(const char* name) const { return folder_.filePath(QString::fromLatin1(name)); }
    [[nodiscard]] QByteArray raw(const char* name) const { return QFile::encodeName(path(name)); }
    void put(const char* name, const QByteArray& bytes) const
    {
        QFile file(path(name));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    }
    [[nodiscard]] QByteArray bytes(const char* name) const
    {
        QFile file(path(name));
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray("(not there)");
    }
    [[nodiscard]] Outcome write(const char* name, const QByteArray& bytes, Existing existing = Existing::Refuse) const
    {
        return writeFiles({ { path(name), bytes } }, existing);
    }
    [[nodiscard]] QStringList names() const
    {
        return QDir(folder_.path()).entryList(QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot);
    }
    static std::string says(const Outcome& outcome)
    {
        return outcome.ok() ? "written" : outcome.error().sentence().toStdString();
    }

    QTemporaryDir folder_;
};

} // namespace

TEST_F(WriteAside, ANewFileAndNothingBesideIt)
{
    EXPECT_EQ(says(write("f.csv", "abc")), "written");
    EXPECT_EQ(bytes("f.csv"), "abc");
    EXPECT_EQ(names(), QStringList { QStringLiteral("f.csv") });
}

TEST_F(WriteAside, AnOlderFileOnlyWhenItWasSaidAndKeepsWhoMayReadIt)
{
    put("f.csv", "old");
    ::chmod(raw("f.csv").constData(), 0640);
    EXPECT_THAT(says(write("f.csv", "new")), HasSubstr("There is a file of this name already"));
    EXPECT_EQ(bytes("f.csv"), "old");
    EXPECT_EQ(says(write("f.csv", "new", Existing::Replace)), "written");
    EXPECT_EQ(bytes("f.csv"), "new");
    struct stat about { };
    ASSERT_EQ(::stat(raw("f.csv").constData(), &about), 0);
    EXPECT_EQ(about.st_mode & 0777, 0640U);
}

TEST_F(WriteAside, NeverThroughALinkNorOntoWhatIsNoPlainFile)
{
    put("target", "kept");
    ASSERT_EQ(::symlink("target", raw("link").constData()), 0);
    ASSERT_EQ(::symlink("nowhere", raw("dangling").constData()), 0);
    ASSERT_EQ(::symlink("/dev/null", raw("device").constData()), 0);
    ASSERT_EQ(::mkfifo(raw("pipe").constData(), 0600), 0);
    ASSERT_EQ(::mkdir(raw("folder").constData(), 0700), 0);
    const auto before = names();
    for (const auto existing : { Existing::Refuse, Existing::Replace }) {
        EXPECT_THAT(says(write("link", "x", existing)), HasSubstr("nothing is written through a link"));
        EXPECT_THAT(says(write("dangling", "x", existing)), HasSubstr("nothing is written through a link"));
        EXPECT_THAT(says(write("device", "x", existing)), HasSubstr("not a plain file"));
        EXPECT_THAT(says(write("pipe", "x", existing)), HasSubstr("not a plain file"));
        EXPECT_THAT(says(write("folder", "x", existing)), HasSubstr("This is a folder"));
        EXPECT_THAT(
            says(writeFiles({ { QStringLiteral("/dev/null"), "x" } }, existing)), HasSubstr("not a plain file"));
    }
    EXPECT_EQ(bytes("target"), "kept");
    EXPECT_EQ(names(), before);
    EXPECT_EQ(write("none/f", "x").error().code, Trouble::NotFound);
}

// Of two files none is moved while the other cannot be written.
TEST_F(WriteAside, OneThatCannotBeWrittenLeavesTheOtherAsItWas)
{
    put("a", "old");
    ASSERT_EQ(::mkdir(raw("b").constData(), 0700), 0);
    EXPECT_FALSE(writeFiles({ { path("a"), "new" }, { path("b"), "new" } }, Existing::Replace));
    EXPECT_EQ(bytes("a"), "old");
}

// A limit on the size of files stands for a full disk; it needs no rights.
TEST_F(WriteAside, WhatDoesNotFitLeavesTheOlderFile)
{
    put("f", "old");
    const auto said = inChild([&]() -> std::string {
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit limit { 100'000, 100'000 };
        if (setrlimit(RLIMIT_FSIZE, &limit) != 0)
            return "no limit";
        return says(write("f", QByteArray(200'000, 'x'), Existing::Replace));
    });
    EXPECT_THAT(said, HasSubstr("larger than is allowed"));
    EXPECT_THAT(said, HasSubstr("/f: ")) << "the name that was given, not the one aside";
    EXPECT_EQ(bytes("f"), "old");
    EXPECT_EQ(names(), QStringList { QStringLiteral("f") });
}

TEST_F(WriteAside, AFullDiskLeavesTheOlderFile)
{
    const auto said = inChild([&]() -> std::string {
        if (!mountSmallDisk(folder_.path().toStdString(), 300'000))
            return "not mounted";
        put("f", "old");
        const auto told = says(write("f", QByteArray(400'000, 'x'), Existing::Replace));
        return told + "; " + bytes("f").toStdString() + "; " + std::to_string(names().size());
    });
    if (said == "not mounted")
        GTEST_SKIP() << "a small disk cannot be mounted here";
    EXPECT_THAT(said, HasSubstr("The disk is full"));
    EXPECT_THAT(said, HasSubstr("; old; 1"));
}

TEST_F(WriteAside, AFolderThatMayNotBeWritten)
{
    ASSERT_EQ(::mkdir(raw("shut").constData(), 0500), 0);
    ASSERT_EQ(::chmod(QFile::encodeName(folder_.path()).constData(), 0755), 0);
    const auto said = inChild([&]() -> std::string {
        giveUpRights();
        return says(write("shut/f", "x"));
    });
    EXPECT_THAT(said, HasSubstr("Nothing can be written here"));
}

TEST_F(WriteAside, WhatAKilledProcessLeftIsRemovedAndWhatIsInUseIsNot)
{
    const auto said = inChild([&]() -> std::string {
        auto aside = Aside::beside(path("f"));
        if (!aside || !(*aside)->put(QStringLiteral("half"), "x"))
            return "not made";
        ::raise(SIGKILL);
        return "not killed";
    });
    EXPECT_THAT(said, HasSubstr("ended by signal 9"));
    ASSERT_EQ(names().size(), 1);
    {
        const auto mine = Aside::beside(path("g"));
        ASSERT_TRUE(mine);
        ASSERT_TRUE((*mine)->put(QStringLiteral("kept"), "y"));
        EXPECT_EQ(names().size(), 1) << "the left one is gone, this one is there";
        EXPECT_TRUE(write("f", "z"));
        EXPECT_TRUE(QFile::exists((*mine)->path(QStringLiteral("kept")))) << "it is in use";
    }
    EXPECT_EQ(names(), QStringList { QStringLiteral("f") });
}

} // namespace WASHFAST_FILE
