// Reading what somebody named: once, and never beyond the limit.
#include "core/files/read_once.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <fcntl.h>
#include <gmock/gmock.h>
#include <sys/stat.h>
#include <thread>
#include <unistd.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::files;
using testing::HasSubstr;

namespace {

class ReadOnce : public testing::Test {
protected:
    QString put(const char* name, const QByteArray& bytes) const
    {
        const auto path = folder_.filePath(QString::fromLatin1(name));
        QFile file(path);
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        EXPECT_EQ(file.write(bytes), bytes.size());
        return path;
    }
    [[nodiscard]] QString path(const char* name) const { return folder_.filePath(QString::fromLatin1(name)); }

    static std::string says(const Result<QByteArray>& result)
    {
        return result.ok() ? "read" : result.error().sentence().toStdString();
    }

private:
    QTemporaryDir folder_;
};

} // namespace

TEST_F(ReadOnce, AFileToItsLimitAndNotBeyond)
{
    const auto file = put("f", QByteArray(1000, 'x'));
    const auto whole = readOnce(file, 1000);
    ASSERT_TRUE(whole) << says(whole);
    EXPECT_EQ(whole->size(), 1000);
    const auto refused = readOnce(file, 999);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, Trouble::BadInput);
    EXPECT_EQ(readOnce(put("none", {}), 10)->size(), 0);
}

TEST_F(ReadOnce, WhatIsNotThereOrIsAFolder)
{
    EXPECT_EQ(readOnce(path("gone"), 10).error().code, Trouble::NotFound);
    EXPECT_EQ(readOnce(put("f", "x") + QStringLiteral("/g"), 10).error().code, Trouble::NotFound);
    EXPECT_THAT(says(readOnce(path(""), 10)), HasSubstr("This is a folder"));
}

TEST_F(ReadOnce, AnEndlessDeviceIsRefusedAtTheLimit)
{
    EXPECT_THAT(says(readOnce(QStringLiteral("/dev/zero"), 3 << 20)), HasSubstr("more than 3 MB"));
}

// The writer opens the pipe once and closes it: who opens it a second time waits for ever.
TEST_F(ReadOnce, APipeIsOpenedOnceAndItsStartIsNotLost)
{
    const auto pipe = QFile::encodeName(path("pipe"));
    ASSERT_EQ(::mkfifo(pipe.constData(), 0600), 0);
    const QByteArray bytes = "SQLite is not what this begins with" + QByteArray(300'000, 'y');
    std::thread writer([&] {
        QFile file(QFile::decodeName(pipe));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    });
    auto file = OpenFile::open(QFile::decodeName(pipe));
    ASSERT_TRUE(file) << file.error().sentence().toStdString();
    EXPECT_FALSE(file->onDisk());
    EXPECT_EQ(*file->start(6), QByteArray("SQLite"));
    EXPECT_EQ(*file->all(1 << 20), bytes);
    writer.join();
}

TEST_F(ReadOnce, AWindowDoesNotWaitForAPipe)
{
    const auto pipe = path("pipe");
    ASSERT_EQ(::mkfifo(QFile::encodeName(pipe).constData(), 0600), 0);
    EXPECT_THAT(says(readOnce(pipe, 10, From::DiskOnly)), HasSubstr("a pipe or a device"));
    EXPECT_THAT(says(readOnce(QStringLiteral("/dev/zero"), 10, From::DiskOnly)), HasSubstr("a pipe or a device"));
}

TEST_F(ReadOnce, NamesAndSizesForSentences)
{
    EXPECT_EQ(spokenName(QStringLiteral("-")), QStringLiteral("standard input"));
    EXPECT_EQ(spokenName(QStringLiteral("a/t.csv")), QStringLiteral("t.csv"));
    EXPECT_EQ(spokenSize(64 << 20), QStringLiteral("64 MB"));
}

} // namespace WASHFAST_FILE
