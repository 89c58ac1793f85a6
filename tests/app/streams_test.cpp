// Standard input and output, pipes, devices and names: what a shell can put where the program expects a file.
#include "tests/support/run_program.h"
#include "tests/support/scratch_notebook.h"

#include <QBuffer>
#include <QImage>
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
using testing::StartsWith;

namespace {

const QByteArray curveTable = "log_h,density\n-1,0.05\n-0.5,0.12\n0,0.4\n0.3,0.7\n0.6,1.0\n0.9,1.2\n1.3,1.31\n";
const QByteArray spectrum = "wavelength_nm,transmittance\n300,0.2\n400,0.8\n500,0.9\n";
const QByteArray marks = R"({"regions":[{"name":"white","rect":[0,0,20,20],"density":0.05},
    {"name":"grey","rect":[30,0,20,20],"density":0.7},{"name":"deep","rect":[60,0,20,20]}]})";

QByteArray causesTable()
{
    QByteArray table = "code,failed,damp,x\n";
    for (int i = 0; i < 20; ++i)
        table += "P" + QByteArray::number(i) + (i < 10 ? ",yes,yes," : ",no,no,") + QByteArray::number(i % 3) + '\n';
    return table;
}

class Streams : public testing::Test {
protected:
    Ran run(const QList<QByteArray>& words, How how = {}) const
    {
        how.folder = folder_.path();
        const auto ran = runProgram(words, how);
        EXPECT_FALSE(ran.too_slow) << words.join(' ').toStdString();
        return ran;
    }
    void put(const char* name, const QByteArray& bytes) const { putBytes(folder_.filePath(text(name)), bytes); }
    [[nodiscard]] QByteArray bytes(const char* name) const { return bytesOf(folder_.filePath(text(name))); }
    void notebook() const
    {
        put("t.csv", "print_code,session_code,term_name,coat_passes\nA1,S1,Spring,2\nA2,S1,Spring,3\n");
        ASSERT_EQ(run({ "import", "n.washfast", "t.csv" }).status, 0);
    }
    static QByteArray photo()
    {
        QImage image(90, 20, QImage::Format_RGB32);
        image.fill(qRgb(230, 230, 230));
        for (int y = 0; y < 20; ++y)
            for (int x = 30; x < 90; ++x)
                image.setPixel(x, y, x < 60 ? qRgb(110, 110, 110) : qRgb(40, 50, 90));
        QByteArray bytes;
        QBuffer buffer(&bytes);
        buffer.open(QIODevice::WriteOnly);
        image.save(&buffer, "png");
        return bytes;
    }

    QTemporaryDir folder_;
};

const QList<QByteArray> sunWords { "sun", "--lat", "52", "--lon", "10", "--at", "2026-06-20T12:00+02:00" };

} // namespace

// Each file that a verb reads, from a pipe that can be opened once only.
TEST_F(Streams, WhatIsReadMayComeFromAPipe)
{
    put("marks.json", marks);
    put("photo.png", photo());
    const auto pipe = [&](QByteArray bytes) {
        How how;
        how.piped = std::move(bytes);
        return how;
    };
    const auto good = [](const Ran& ran) { return ran.status == 0 ? std::string("done") : ran.err; };
    EXPECT_EQ(good(run({ "curve", pipedPath }, pipe(curveTable))), "done");
    EXPECT_EQ(good(run({ "causes", pipedPath, "--outcome", "failed" }, pipe(causesTable()))), "done");
    EXPECT_EQ(good(run({ "next", pipedPath, "--outcome", "failed" }, pipe(causesTable()))), "done");
    EXPECT_EQ(good(run({ "density", pipedPath, "--marks", "marks.json" }, pipe(photo()))), "done");
    EXPECT_EQ(good(run({ "density", "photo.png", "--marks", pipedPath }, pipe(marks))), "done");
    EXPECT_EQ(
        good(run(sunWords + QList<QByteArray> { "--cover", QByteArray("file:") + pipedPath }, pipe(spectrum))), "done");
    EXPECT_EQ(good(run({ "import", "n.washfast", pipedPath }, pipe("print_code,coat_passes\nA1,2\n"))), "done");
    EXPECT_THAT(run({ "list", "n.washfast" }).out, HasSubstr("A1"));
}

TEST_F(Streams, AMinusIsStandardInput)
{
    put("marks.json", marks);
    put("photo.png", photo());
    const auto good = [](const Ran& ran) { return ran.status == 0 ? std::string("done") : ran.err; };
    EXPECT_EQ(good(run({ "curve", "-" }, { .input = curveTable })), "done");
    EXPECT_EQ(good(run({ "causes", "-", "--outcome", "failed" }, { .input = causesTable() })), "done");
    EXPECT_EQ(good(run({ "next", "-", "--outcome", "failed" }, { .input = causesTable() })), "done");
    EXPECT_EQ(good(run({ "density", "-", "--marks", "marks.json" }, { .input = photo() })), "done");
    EXPECT_EQ(good(run({ "density", "photo.png", "--marks", "-" }, { .input = marks })), "done");
    EXPECT_EQ(good(run(sunWords + QList<QByteArray> { "--cover", "file:-" }, { .input = spectrum })), "done");
    EXPECT_EQ(good(run({ "import", "n.washfast", "-" }, { .input = "print_code,coat_passes\nA1,2\n" })), "done");
    const auto wrong = run({ "curve", "-" }, { .input = "a,b\n1,2\n" });
    EXPECT_EQ(wrong.status, 1);
    EXPECT_THAT(wrong.err, HasSubstr("standard input"));
}

TEST_F(Streams, StandardInputIsReadOnceAndIsNoNotebook)
{
    const auto twice = run({ "density", "-", "--marks", "-" }, { .input = photo() });
    EXPECT_EQ(twice.status, 2);
    EXPECT_THAT(twice.err, HasSubstr("only once"));
    EXPECT_EQ(run(sunWords + QList<QByteArray> { "--cover", "file:-", "--cover", "file:-" }).status, 2);
    notebook();
    for (const QByteArray& verb : { QByteArray("list"), QByteArray("check"), QByteArray("demo") }) {
        const auto ran = run({ verb, "-" }, { .input = bytes("n.washfast") });
        EXPECT_EQ(ran.status, 1) << verb.toStdString();
        EXPECT_THAT(ran.err, HasSubstr("A notebook has to be a file on a disk")) << verb.toStdString();
        How how;
        how.piped = bytes("n.washfast");
        const auto piped = run({ verb, pipedPath }, how);
        EXPECT_EQ(piped.status, 1) << verb.toStdString();
        EXPECT_THAT(piped.err, StartsWith("washfast: ")) << verb.toStdString();
    }
    How how;
    how.piped = bytes("n.washfast");
    const auto causes = run({ "causes", pipedPath, "--outcome", "failed" }, how);
    EXPECT_EQ(causes.status, 1);
    EXPECT_THAT(causes.err, HasSubstr("A notebook has to be a file on a disk"));
    EXPECT_FALSE(QFile::exists(folder_.filePath(text("-"))));
}

TEST_F(Streams, ADeviceThatNeverEndsIsRefusedWithTheLimit)
{
    put("marks.json", marks);
    put("photo.png", photo());
    const std::vector<QList<QByteArray>> all { { "curve", "/dev/zero" },
        { "causes", "/dev/zero", "--outcome", "failed" }, { "next", "/dev/zero", "--outcome", "failed" },
        { "density", "/dev/zero", "--marks", "marks.json" }, { "density", "photo.png", "--marks", "/dev/zero" },
        { "import", "n.washfast", "/dev/zero" } };
    for (const auto& words : all) {
        const auto ran = run(words);
        EXPECT_EQ(ran.status, 1) << words.join(' ').toStdString();
        EXPECT_THAT(ran.err, testing::ContainsRegex("more than [0-9]+ MB")) << words.join(' ').toStdString();
    }
    const auto cover = run(sunWords + QList<QByteArray> { "--cover", "file:/dev/zero" });
    EXPECT_NE(cover.status, 0);
    EXPECT_THAT(cover.err, testing::ContainsRegex("more than [0-9]+ MB"));
    EXPECT_FALSE(QFile::exists(folder_.filePath(text("n.washfast"))));
}

TEST_F(Streams, AFullStandardOutputIsNeverDone)
{
    notebook();
    put("marks.json", marks);
    put("photo.png", photo());
    put("curve.csv", curveTable);
    put("causes.csv", causesTable());
    put("other.csv", "print_code\nB1\n");
    ASSERT_EQ(run({ "import", "o.washfast", "other.csv" }).status, 0);
    std::vector<QList<QByteArray>> all { { "--help" }, { "--version" }, { "list", "--help" }, { "list", "n.washfast" },
        { "check", "n.washfast" }, { "demo", "d.washfast" }, { "import", "m.washfast", "t.csv" },
        { "merge", "n.washfast", "o.washfast" }, { "export", "n.washfast", "--to", "x.csv" },
        { "export", "n.washfast", "--to", "-", "--format", "csv" }, { "causes", "causes.csv", "--outcome", "failed" },
        { "next", "causes.csv", "--outcome", "failed" }, sunWords, sunWords + QList<QByteArray> { "--spectrum", "-" },
        { "mix", "--molar-mass", "H2O" }, { "mix", "--weighed", "FeCl3.6H2O=0.60", "--water", "20" },
        { "curve", "curve.csv" }, { "density", "photo.png", "--marks", "marks.json" } };
    How how;
    how.out_to = "/dev/full";
    for (const auto& words : all) {
        const auto ran = run(words, how);
        EXPECT_EQ(ran.status, 1) << words.join(' ').toStdString();
        EXPECT_THAT(ran.err, HasSubstr("standard output")) << words.join(' ').toStdString();
    }
    // What the verb did is done, and the sentence says so.
    EXPECT_THAT(run({ "list", "m.washfast" }).out, HasSubstr("A1"));
    EXPECT_EQ(run({ "check", "d.washfast" }).status, 0);
    EXPECT_TRUE(QFile::exists(folder_.filePath(text("x.csv"))));
    EXPECT_THAT(run({ "import", "p.washfast", "t.csv" }, how).err, HasSubstr("was done"));
}

TEST_F(Streams, AClosedStandardOutputIsNotMistakenForAFile)
{
    notebook();
    How how;
    how.before = [] { ::close(STDOUT_FILENO); };
    const auto ran = run({ "export", "n.washfast", "--to", "x.json", "--json" }, how);
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("standard output"));
    EXPECT_TRUE(QJsonDocument::fromJson(bytes("x.json")).isObject()) << "the answer is not in the file";
}

TEST_F(Streams, NamesThatAreNotUtf8)
{
    const QByteArray name("caf\xe9.csv");
    const auto path = QFile::encodeName(folder_.path()) + '/' + name;
    const int handle = ::open(path.constData(), O_WRONLY | O_CREAT, 0600);
    ASSERT_GE(handle, 0);
    ASSERT_EQ(::write(handle, curveTable.constData(), size_t(curveTable.size())), curveTable.size());
    ::close(handle);
    const std::vector<QList<QByteArray>> all { { "curve", name }, { name }, { "list", name },
        { "export", "n.washfast", "--to", name }, { "import", "n.washfast", name },
        sunWords + QList<QByteArray> { "--spectrum=" + name } };
    for (const auto& words : all) {
        const auto ran = run(words);
        EXPECT_EQ(ran.status, 2) << words.back().toPercentEncoding().toStdString();
        EXPECT_THAT(ran.err, HasSubstr("caf\\xE9.csv")) << ran.err;
        EXPECT_THAT(ran.err, HasSubstr("UTF-8"));
    }
    EXPECT_EQ(::unlink(path.constData()), 0);
    EXPECT_TRUE(QDir(folder_.path()).isEmpty(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot));
}

} // namespace WASHFAST_FILE
