// Damaged notebooks on the command line: whatever SQLite itself calls damaged is never written into, and no verb that
// reads it ends as if all were well.
#include "tests/support/damaged_notebook.h"
#include "tests/support/scratch_notebook.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

struct Ran {
    int status = -1;
    std::string out, err;
};

class DamagedFile : public testing::Test {
protected:
    [[nodiscard]] QString at(const char* name) const { return folder_.filePath(text(name)); }
    Ran run(const QStringList& words)
    {
        QProcess process;
        process.setWorkingDirectory(folder_.path());
        process.start(QStringLiteral(WASHFAST_PROGRAM), words);
        if (!process.waitForFinished(60'000))
            throw std::runtime_error("the program did not come back");
        EXPECT_EQ(process.exitStatus(), QProcess::NormalExit) << words.join(QLatin1Char(' ')).toStdString();
        return { process.exitCode(), process.readAllStandardOutput().toStdString(),
            process.readAllStandardError().toStdString() };
    }
    Ran run(const char* words) { return run(text(words).split(QLatin1Char(' '), Qt::SkipEmptyParts)); }
    /// The example, made once for all seeds.
    static const QByteArray& sound()
    {
        static const QByteArray bytes = [] {
            const QTemporaryDir folder;
            const auto path = folder.filePath(text("n.washfast"));
            if (QProcess::execute(QStringLiteral(WASHFAST_PROGRAM), { text("demo"), path }) != 0)
                throw std::runtime_error("no example");
            return bytesOf(path);
        }();
        return bytes;
    }
    [[nodiscard]] QStringList names() const
    {
        return QDir(folder_.path()).entryList(QDir::AllEntries | QDir::NoDotAndDotDot, QDir::Name);
    }

private:
    QTemporaryDir folder_;
};

constexpr unsigned seeds = 140; // twenty of each kind

} // namespace

TEST_F(DamagedFile, TheSoundOneIsReadAndWritten)
{
    putBytes(at("n.washfast"), sound());
    EXPECT_EQ(sqliteSays(sound(), at("judge")), text("ok"));
    putBytes(at("t.csv"), "print_code,coat_passes\nX-1,2\n");
    for (const char* verb : { "list n.washfast", "check n.washfast", "export n.washfast --to a.csv",
             "causes n.washfast --outcome kept", "next n.washfast --outcome kept" })
        EXPECT_EQ(run(verb).status, 0) << verb;
    EXPECT_EQ(bytesOf(at("n.washfast")), sound()) << "verbs that read do not write";
    EXPECT_EQ(run("import n.washfast t.csv").status, 0);
    EXPECT_NE(bytesOf(at("n.washfast")), sound());
}

TEST_F(DamagedFile, IsNeverWrittenIntoAndNeverReadAsIfItWereWhole)
{
    putBytes(at("t.csv"), "print_code,coat_passes\nX-1,2\n");
    int damaged = 0;
    for (unsigned seed = 0; seed < seeds; ++seed) {
        const auto bytes = damagedNotebook(sound(), seed);
        const auto says = sqliteSays(bytes, at("judge"));
        if (says == QLatin1String("ok"))
            continue; // a bit within a value
        ++damaged;
        SCOPED_TRACE("seed " + std::to_string(seed) + ": " + says.left(120).toStdString());
        putBytes(at("n.washfast"), bytes);
        const auto before = names();
        for (const char* words :
            { "import n.washfast t.csv", "list n.washfast", "export n.washfast --to a.csv", "check n.washfast" }) {
            const auto ran = run(words);
            EXPECT_EQ(ran.status, 1) << words << "\n" << ran.out.substr(0, 200) << ran.err;
            EXPECT_THAT(ran.err, HasSubstr("washfast: ")) << words;
        }
        EXPECT_EQ(bytesOf(at("n.washfast")), bytes);
        EXPECT_EQ(names(), before) << "nothing is left beside it, and no table of a part";
    }
    EXPECT_GE(damaged, 100) << "so many of the seeds have to be worth something";
}

TEST_F(DamagedFile, TheNewestSoundCopyIsNamed)
{
    const auto damaged = damagedNotebook(sound(), 5); // a page of rubbish
    ASSERT_NE(sqliteSays(damaged, at("judge")), text("ok"));
    putBytes(at("n.washfast"), damaged);
    EXPECT_THAT(run("list n.washfast").err, HasSubstr("There is no copy of it in the folder"));
    ASSERT_TRUE(QDir().mkdir(at("n.washfast.copies")));
    putBytes(at("t.csv"), "print_code,coat_passes\nX-1,2\n");
    const std::pair<const char*, bool> copies[] = { { "n.washfast.copies/n-2026-05-01.washfast", true },
        { "n.washfast.copies/n-2026-05-02.washfast", true }, { "n.washfast.copies/n-2026-05-03.washfast", false } };
    auto day = QDateTime::currentDateTime().addDays(-4);
    for (const auto& [name, is_sound] : copies) {
        putBytes(at(name), is_sound ? sound() : damaged);
        QFile file(at(name));
        ASSERT_TRUE(file.open(QIODevice::ReadWrite));
        day = day.addDays(1);
        ASSERT_TRUE(file.setFileTime(day, QFileDevice::FileModificationTime));
    }
    for (const char* verb : { "import n.washfast t.csv", "list n.washfast", "check n.washfast",
             "export n.washfast --to a.csv", "merge n.washfast judge" }) {
        const auto ran = run(verb);
        EXPECT_EQ(ran.status, 1) << verb;
        EXPECT_THAT(ran.err, HasSubstr("n-2026-05-02.washfast")) << verb;
        EXPECT_THAT(ran.err, testing::Not(HasSubstr("n-2026-05-01"))) << verb;
        EXPECT_THAT(ran.err, testing::Not(HasSubstr("n-2026-05-03"))) << verb;
    }
    EXPECT_EQ(bytesOf(at("n.washfast")), damaged);
}

TEST_F(DamagedFile, CheckSaysInJsonWhatIsWrongEvenWhenNothingCanBeRead)
{
    putBytes(at("n.washfast"), sound().left(pageSizeOf(sound()) + 1));
    const auto ran = run("check n.washfast --json");
    EXPECT_EQ(ran.status, 1);
    const auto json = QJsonDocument::fromJson(QByteArray::fromStdString(ran.out)).object();
    EXPECT_THAT(json.value(text("integrity")).toString().toStdString(), HasSubstr("damaged"));
    EXPECT_TRUE(json.value(text("prints")).isNull());
}

} // namespace WASHFAST_FILE
