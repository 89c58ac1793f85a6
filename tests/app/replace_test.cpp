// Files that a verb writes: an older one only with --replace, never through a link, and as it was when writing fails.
#include "tests/support/child_process.h"
#include "tests/support/run_program.h"
#include "tests/support/scratch_notebook.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <csignal>
#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/stat.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;
using testing::Not;

namespace {

class Replace : public testing::Test {
protected:
    Replace()
    {
        put("t.csv", "print_code,session_code,print_notes\nA1,S1,one\nA2,S1,two\n");
        EXPECT_EQ(run({ "import", "n.washfast", "t.csv" }).status, 0);
    }
    Ran run(const QList<QByteArray>& words, How how = {}) const
    {
        how.folder = folder_.path();
        return runProgram(words, how);
    }
    Ran exportTo(const QByteArray& name, const QList<QByteArray>& more = {}, const How& how = {}) const
    {
        return run(QList<QByteArray> { "export", "n.washfast", "--to", name } + more, how);
    }
    static QList<QByteArray> spectrumTo(const QByteArray& name)
    {
        return { "sun", "--lat", "52", "--lon", "10", "--at", "2026-06-20T12:00+02:00", "--spectrum", name };
    }
    [[nodiscard]] QString path(const char* name) const { return folder_.filePath(text(name)); }
    void put(const char* name, const QByteArray& bytes) const { putBytes(path(name), bytes); }
    [[nodiscard]] QByteArray bytes(const char* name) const { return bytesOf(path(name)); }
    [[nodiscard]] QStringList names() const { return namesIn(folder_.path()); }
    /// All but the log of a notebook, which SQLite keeps beside it when there is no room to take it away.
    static QStringList namesIn(const QString& folder)
    {
        auto names = QDir(folder).entryList(QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot);
        names.removeIf([](const QString& name) { return name.endsWith(text("-wal")) || name.endsWith(text("-shm")); });
        return names;
    }

    QTemporaryDir folder_;
};

constexpr std::array kinds { "x.xlsx", "x.csv", "x.json", "x.html", "x.pdf" };

} // namespace

TEST_F(Replace, AnOlderFileStaysUnlessItWasSaid)
{
    for (const char* name : kinds) {
        put(name, "mine");
        const auto refused = exportTo(name);
        EXPECT_EQ(refused.status, 1) << name;
        EXPECT_THAT(refused.err, HasSubstr("--replace")) << name;
        EXPECT_EQ(bytes(name), "mine");
        const auto done = exportTo(name, { "--replace" });
        EXPECT_EQ(done.status, 0) << done.err;
        EXPECT_NE(bytes(name), "mine") << name;
    }
    put("s.csv", "mine");
    EXPECT_THAT(run(spectrumTo("s.csv")).err, HasSubstr("--replace"));
    EXPECT_EQ(bytes("s.csv"), "mine");
    EXPECT_EQ(run(spectrumTo("s.csv") + QList<QByteArray> { "--replace" }).status, 0);
    EXPECT_THAT(bytes("s.csv").toStdString(), HasSubstr("wavelength_nm"));
}

TEST_F(Replace, TheDictionaryBesideATableIsAFileToo)
{
    put("x.csv-metadata.json", "mine");
    const auto refused = exportTo("x.csv");
    EXPECT_EQ(refused.status, 1);
    EXPECT_THAT(refused.err, HasSubstr("x.csv-metadata.json"));
    EXPECT_EQ(bytes("x.csv-metadata.json"), "mine");
    EXPECT_FALSE(QFile::exists(path("x.csv")));
}

TEST_F(Replace, NoLinkAndNothingThatIsNoPlainFile)
{
    put("target", "mine");
    for (const char* name : kinds) {
        const auto at = QFile::encodeName(path(name));
        ASSERT_EQ(::symlink("target", at.constData()), 0);
        const auto ran = exportTo(name, { "--replace" });
        EXPECT_EQ(ran.status, 1) << name;
        EXPECT_THAT(ran.err, HasSubstr("link")) << name;
        ASSERT_EQ(::unlink(at.constData()), 0);
        ASSERT_EQ(::mkfifo(at.constData(), 0600), 0);
        How how;
        how.seconds = 20;
        const auto pipe = exportTo(name, { "--replace" }, how);
        EXPECT_FALSE(pipe.too_slow) << name;
        EXPECT_EQ(pipe.status, 1) << name;
        EXPECT_THAT(pipe.err, HasSubstr("not a plain file")) << name;
        ASSERT_EQ(::unlink(at.constData()), 0);
        ASSERT_EQ(::mkdir(at.constData(), 0700), 0);
        EXPECT_THAT(exportTo(name, { "--replace" }).err, HasSubstr("folder")) << name;
    }
    EXPECT_EQ(bytes("target"), "mine");
    EXPECT_THAT(run(spectrumTo("/dev/null") + QList<QByteArray> { "--replace" }).err, HasSubstr("not a plain file"));
    ASSERT_EQ(::symlink("elsewhere", QFile::encodeName(path("link.washfast")).constData()), 0);
    for (const QList<QByteArray>& words :
        { QList<QByteArray> { "demo", "link.washfast" }, QList<QByteArray> { "import", "link.washfast", "t.csv" } }) {
        const auto ran = run(words);
        EXPECT_EQ(ran.status, 1);
        EXPECT_THAT(ran.err, HasSubstr("link"));
    }
    EXPECT_FALSE(QFile::exists(path("elsewhere")));
}

TEST_F(Replace, ANotebookIsNeverReplacedByAnExport)
{
    const auto before = bytes("n.washfast");
    const auto ran = run(spectrumTo("n.washfast") + QList<QByteArray> { "--replace" });
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("notebook"));
    EXPECT_EQ(bytes("n.washfast"), before);
}

TEST_F(Replace, ToStandardOutput)
{
    const auto json = exportTo("-", { "--format", "json" });
    EXPECT_EQ(json.status, 0) << json.err;
    EXPECT_TRUE(QJsonDocument::fromJson(QByteArray::fromStdString(json.out)).isObject());
    EXPECT_THAT(exportTo("-", { "--format", "csv" }).out, HasSubstr("A1,one,S1"));
    EXPECT_THAT(exportTo("-", { "--format", "xlsx" }).out, testing::StartsWith("PK"));
    EXPECT_THAT(exportTo("-", { "--format", "html" }).out, HasSubstr("<html"));
    EXPECT_THAT(exportTo("-", { "--format", "pdf" }).out, testing::StartsWith("%PDF"));
    EXPECT_EQ(exportTo("-").status, 2);
    EXPECT_EQ(exportTo("-", { "--format", "doc" }).status, 2);
    EXPECT_EQ(exportTo("-", { "--format", "csv", "--json" }).status, 2) << "two answers on one stream";
    EXPECT_EQ(exportTo("x.csv", { "--format", "csv" }).status, 2);
    const auto spectrum = run(spectrumTo("-"));
    EXPECT_EQ(spectrum.status, 0) << spectrum.err;
    EXPECT_THAT(spectrum.out, testing::StartsWith("wavelength_nm,"));
    EXPECT_THAT(spectrum.out, Not(HasSubstr("sunrise")));
    EXPECT_EQ(run(spectrumTo("-") + QList<QByteArray> { "--json" }).status, 2);
    EXPECT_FALSE(QFile::exists(path("-")));
}

// A limit on the size of files stands for a full disk; it needs no rights. What is read stays readable.
TEST_F(Replace, WhatDoesNotFitIsSaidAndLeavesTheOlderFile)
{
    const auto limited = [](rlim_t most) {
        How how;
        how.before = [most] {
            const rlimit limit { most, most };
            ::setrlimit(RLIMIT_FSIZE, &limit);
        };
        return how;
    };
    for (const char* name : kinds)
        put(name, "mine");
    put("x.csv-metadata.json", "mine");
    const auto before = names();
    for (const char* name : kinds) {
        const auto ran = exportTo(name, { "--replace" }, limited(100));
        EXPECT_EQ(ran.status, 1) << name << ' ' << ran.err;
        EXPECT_THAT(ran.err, testing::StartsWith("washfast: ")) << name;
        EXPECT_EQ(bytes(name), "mine") << name;
    }
    EXPECT_EQ(bytes("x.csv-metadata.json"), "mine");
    put("s.csv", "mine");
    const auto spectrum = run(spectrumTo("s.csv") + QList<QByteArray> { "--replace" }, limited(100));
    EXPECT_EQ(spectrum.status, 1) << spectrum.err;
    EXPECT_EQ(bytes("s.csv"), "mine");
    const auto demo = run({ "demo", "d.washfast" }, limited(100'000));
    EXPECT_EQ(demo.status, 1) << demo.err;
    EXPECT_THAT(demo.err, testing::StartsWith("washfast: "));
    const auto import = run({ "import", "i.washfast", "t.csv" }, limited(20'000));
    EXPECT_EQ(import.status, 1) << import.err;
    EXPECT_THAT(import.err, testing::StartsWith("washfast: "));
    EXPECT_THAT(demo.err, HasSubstr("d.washfast: The disk is full, so the notebook was not made."));
    EXPECT_THAT(import.err, HasSubstr("i.washfast: The disk is full, so the notebook was not made."));
    auto after = before + QStringList { text("s.csv") };
    after.sort();
    EXPECT_EQ(names(), after) << names().join(u' ').toStdString();
}

// The same on a disk that is really full, where one can be mounted.
TEST_F(Replace, AFullDiskGetsOneSentenceFromEveryVerb)
{
    const auto said = inChild([&]() -> std::string {
        const auto disk = path("disk");
        QDir().mkdir(disk);
        if (!mountSmallDisk(disk.toStdString(), 4'000'000))
            return "not mounted";
        QFile::copy(path("n.washfast"), disk + text("/n.washfast"));
        QFile::copy(path("n.washfast"), disk + text("/o.washfast"));
        putBytes(disk + text("/t.csv"), bytesOf(path("t.csv")) + "B9,S9,nine\n");
        QFile filler(disk + text("/filler"));
        if (!filler.open(QIODevice::WriteOnly | QIODevice::Unbuffered))
            return "no filler";
        for (const QByteArray& block : { QByteArray(65536, 'x'), QByteArray(1024, 'x'), QByteArray(1, 'x') })
            while (filler.write(block) == block.size())
                ;
        filler.close();
        How how;
        how.folder = disk;
        std::string wrong;
        const auto before = namesIn(disk);
        std::vector<QList<QByteArray>> all { { "demo", "d.washfast" }, { "import", "n.washfast", "t.csv" },
            { "import", "new.washfast", "t.csv" }, { "merge", "n.washfast", "o.washfast" }, spectrumTo("s.csv") };
        for (const char* name : kinds)
            all.push_back({ "export", "n.washfast", "--to", name });
        const std::vector<QList<QByteArray>> readers { { "list", "n.washfast" }, { "check", "n.washfast" },
            { "causes", "n.washfast", "--outcome", "failed" }, { "next", "n.washfast", "--outcome", "failed" } };
        for (const auto& words : readers) {
            const auto ran = runProgram(words, how);
            const auto line = QString::fromStdString(ran.err).trimmed();
            if (ran.status > 1 || (ran.status == 1 && (!line.startsWith(text("washfast: ")) || line.count(u'\n') > 0)))
                wrong += words.join(' ').toStdString() + ": " + std::to_string(ran.status) + ' ' + ran.err;
        }
        for (const auto& words : all) {
            const auto ran = runProgram(words, how);
            const auto line = QString::fromStdString(ran.err).trimmed();
            if (ran.status != 1 || !line.startsWith(text("washfast: ")) || line.count(u'\n') > 0)
                wrong += words.join(' ').toStdString() + ": " + std::to_string(ran.status) + ' ' + ran.err;
        }
        const auto after = namesIn(disk);
        if (after != before)
            wrong += "left: " + after.join(u' ').toStdString();
        return wrong.empty() ? "good" : wrong;
    });
    if (said == "not mounted")
        GTEST_SKIP() << "a small disk cannot be mounted here";
    EXPECT_EQ(said, "good");
}

} // namespace WASHFAST_FILE
