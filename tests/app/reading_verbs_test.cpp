// Verbs that read do not write: not a byte of the notebook, nothing beside it, whatever schema it has and whether or
// not a window has it open.
#include "tests/support/damaged_notebook.h"
#include "tests/support/scratch_notebook.h"

#include "core/store/migrations.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <gmock/gmock.h>
#include <sys/wait.h>
#include <unistd.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::AllOf;
using testing::HasSubstr;

namespace {

struct Ran {
    int status = -1;
    std::string out, err;
};

Ran runIn(const QString& folder, const QString& words)
{
    QProcess process;
    process.setWorkingDirectory(folder);
    process.start(QStringLiteral(WASHFAST_PROGRAM), words.split(QLatin1Char(' ')));
    if (!process.waitForFinished(60'000))
        throw std::runtime_error("the program did not come back");
    return { process.exitCode(), process.readAllStandardOutput().toStdString(),
        process.readAllStandardError().toStdString() };
}

int newestSchema()
{
    return store::shippedMigrations().back().to;
}

const char* const readingVerbs[] = { "list term.washfast", "list term.washfast --columns print_code,lamp_name",
    "check term.washfast", "check term.washfast --json", "export term.washfast --to a.csv",
    "export term.washfast --to a.html", "causes term.washfast --outcome coat_volume_ml",
    "next term.washfast --outcome coat_volume_ml", "import term.washfast t.csv --dry-run" };

} // namespace

class ReadingVerbs : public testing::TestWithParam<int> {
protected:
    void SetUp() override
    {
        kept_ = bytesOf(QStringLiteral(WASHFAST_TEST_DATA "/notebooks/schema-%1.washfast").arg(GetParam()));
        putBytes(scratch_.path(), kept_);
        putBytes(scratch_.inFolder("t.csv"), "print_code,coat_passes\nX-1,2\n");
    }
    [[nodiscard]] QString folder() const { return QFileInfo(scratch_.path()).absolutePath(); }
    /// What is there besides what the verbs were asked to write.
    [[nodiscard]] QStringList others() const
    {
        auto names = scratch_.names();
        for (const char* asked : { "t.csv", "a.csv", "a.csv-metadata.json", "a.html" })
            names.removeAll(text(asked));
        return names;
    }

    ScratchNotebook scratch_;
    QByteArray kept_;
};

TEST_P(ReadingVerbs, LeaveAFileAtRestAsItIs)
{
    for (const char* verb : readingVerbs) {
        const auto ran = runIn(folder(), text(verb));
        EXPECT_LE(ran.status, 1) << verb << ran.err;
        EXPECT_THAT(ran.err, testing::Not(HasSubstr("damaged"))) << verb;
        EXPECT_EQ(bytesOf(scratch_.path()), kept_) << verb;
        EXPECT_EQ(others(), QStringList { text("term.washfast") }) << verb;
    }
}

TEST_P(ReadingVerbs, ReadAnOlderOneAsIfItWereUpToDate)
{
    const auto list = runIn(folder(), text("list term.washfast --columns print_code,mix_code,lamp_name"));
    EXPECT_EQ(list.status, 0) << list.err;
    EXPECT_THAT(list.out, HasSubstr("P1"));
    EXPECT_THAT(list.out, HasSubstr("M7"));
    const auto check = runIn(folder(), text("check term.washfast --json"));
    EXPECT_EQ(check.status, 0) << check.err;
    const auto json = QJsonDocument::fromJson(QByteArray::fromStdString(check.out)).object();
    EXPECT_EQ(json.value(text("schema")).toInt(), GetParam()) << "what the file has";
    EXPECT_EQ(json.value(text("prints")).toInt(), 2);
    EXPECT_EQ(json.value(text("integrity")).toString(), text("ok"));
    EXPECT_EQ(json.value(text("findings")).toArray().size(), 0) << check.out;
    const auto said = runIn(folder(), text("check term.washfast"));
    EXPECT_EQ(said.out.find("brought up to date") == std::string::npos, GetParam() == newestSchema()) << said.out;
}

TEST_P(ReadingVerbs, StillLeaveTheUpgradeToTheVerbThatWrites)
{
    ASSERT_EQ(runIn(folder(), text("list term.washfast")).status, 0);
    const auto import = runIn(folder(), text("import term.washfast t.csv"));
    EXPECT_EQ(import.status, 0) << import.err;
    EXPECT_EQ(scratch_.open()->schema(), newestSchema());
    EXPECT_EQ(QDir(scratch_.path() + text(".copies")).exists(), GetParam() != newestSchema());
    EXPECT_EQ(must(scratch_.open()->read()).prints().rows(), 3);
}

INSTANTIATE_TEST_SUITE_P(EverySchema, ReadingVerbs, testing::Range(1, newestSchema() + 1));

TEST(ReadingBesideAWindow, SeesWhatIsInTheLogAndLeavesItThere)
{
    const ScratchNotebook scratch;
    const auto window = scratch.open();
    addWholePrint(*window, "P1");
    const auto folder = QFileInfo(scratch.path()).absolutePath();
    const auto log = scratch.path() + text("-wal");
    const auto file_before = bytesOf(scratch.path());
    const auto log_before = bytesOf(log);
    ASSERT_GT(log_before.size(), 0);
    for (const char* verb : { "list term.washfast", "check term.washfast", "export term.washfast --to a.csv" }) {
        const auto ran = runIn(folder, text(verb));
        EXPECT_EQ(ran.status, 0) << verb << ran.err;
        EXPECT_EQ(bytesOf(scratch.path()), file_before) << verb;
        EXPECT_EQ(bytesOf(log), log_before) << verb;
    }
    EXPECT_THAT(runIn(folder, text("list term.washfast")).out, HasSubstr("P1"));
    addWholePrint(*window, "P2");
    EXPECT_THAT(runIn(folder, text("list term.washfast")).out, HasSubstr("P2"));
    EXPECT_EQ(must(window->integrity()), text("ok"));
}

// A window that was killed leaves its log; what is only there is read, and stays there.
TEST(ReadingAfterAKill, LeavesTheLogToTheNextThatWrites)
{
    const ScratchNotebook scratch;
    const auto child = fork();
    if (child == 0) {
        const auto file = scratch.open();
        addWholePrint(*file, "P1");
        _exit(0); // without closing
    }
    int status = 0;
    waitpid(child, &status, 0);
    const auto log = bytesOf(scratch.path() + text("-wal"));
    const auto file = bytesOf(scratch.path());
    const auto ran = runIn(QFileInfo(scratch.path()).absolutePath(), text("list term.washfast"));
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_THAT(ran.out, HasSubstr("P1"));
    EXPECT_EQ(bytesOf(scratch.path()), file);
    EXPECT_EQ(bytesOf(scratch.path() + text("-wal")), log);
}

// The program's own patience is some seconds of the processor.
TEST(StrangeNotebook, HangsNoVerb)
{
    const ScratchNotebook scratch;
    addWholePrint(*scratch.open(), "P1");
    const std::string endless = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n";
    Outside(scratch.path())
        .run(("CREATE TRIGGER hang AFTER INSERT ON step BEGIN SELECT count(*) FROM (" + endless
            + "); END; CREATE VIEW all_numbers AS " + endless)
                 .c_str());
    putBytes(scratch.inFolder("t.csv"), "print_code,coat_passes\nX-1,2\n");
    const std::pair<const char*, int> verbs[]
        = { { "list term.washfast", 0 }, { "check term.washfast", 0 }, { "export term.washfast --to a.csv", 0 },
              { "causes term.washfast --outcome kept", 1 }, { "import term.washfast t.csv", 1 } };
    for (const auto& [verb, status] : verbs) {
        const auto ran = runIn(QFileInfo(scratch.path()).absolutePath(), text(verb));
        EXPECT_EQ(ran.status, status) << verb << ran.err;
        if (std::string(verb).starts_with("check"))
            EXPECT_THAT(ran.out, AllOf(HasSubstr("trigger hang"), HasSubstr("view all_numbers")));
        if (std::string(verb).starts_with("import"))
            EXPECT_THAT(ran.err, HasSubstr("does not come to an end"));
    }
    EXPECT_EQ(Outside(scratch.path()).row("SELECT count(*) FROM print"), text("1"));
}

} // namespace WASHFAST_FILE
