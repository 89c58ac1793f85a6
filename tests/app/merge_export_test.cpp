// The verbs merge and export (as a report), as another program sees them. The PDF is read by pdftotext and pdfinfo of
// poppler-utils, where they are installed. Invented data.
#include "tests/support/scratch_notebook.h"

#include <QDir>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QRegularExpression>
#include <QStandardPaths>
#include <QXmlStreamReader>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;
using testing::Not;

namespace {

struct Ran {
    int status = -1;
    std::string out, err;

    [[nodiscard]] QJsonObject json() const { return QJsonDocument::fromJson(QByteArray::fromStdString(out)).object(); }
};

class MergeAndExport : public testing::Test {
protected:
    Ran run(const char* words, const QString& program = QStringLiteral(WASHFAST_PROGRAM))
    {
        QProcess process;
        process.setWorkingDirectory(folder_.path());
        process.start(program, text(words).split(QLatin1Char(' ')));
        if (!process.waitForFinished(60'000))
            throw std::runtime_error("the program did not come back: " + process.errorString().toStdString());
        return { process.exitCode(), process.readAllStandardOutput().toStdString(),
            process.readAllStandardError().toStdString() };
    }
    void put(const char* name, const QByteArray& bytes) { putBytes(folder_.filePath(text(name)), bytes); }
    [[nodiscard]] QByteArray bytes(const char* name) const { return bytesOf(folder_.filePath(text(name))); }
    [[nodiscard]] QString folder(const char* name) const { return folder_.filePath(text(name)); }
    [[nodiscard]] bool exists(const char* name) const { return QFile::exists(folder_.filePath(text(name))); }

private:
    QTemporaryDir folder_;
};

} // namespace

TEST_F(MergeAndExport, TheOtherOnesPrintsComeAndTakenNamesAreTold)
{
    put("a.csv", "print_code,session_code,coat_passes\nA1,S1,2\n");
    put("b.csv", "print_code,session_code,coat_passes\nA1,S1,3\nB1,S2,4\n");
    ASSERT_EQ(run("import a.washfast a.csv").status, 0);
    ASSERT_EQ(run("import b.washfast b.csv").status, 0);
    const auto other = bytes("b.washfast");
    const auto merged = run("merge a.washfast b.washfast --json");
    ASSERT_EQ(merged.status, 0) << merged.err;
    const auto json = merged.json();
    const auto added = json.value(text("added")).toObject();
    EXPECT_EQ(added.value(text("print")).toInt(), 2);
    EXPECT_EQ(added.value(text("session")).toInt(), 2);
    EXPECT_EQ(json.value(text("changed")).toInt(-1), 0);
    EXPECT_EQ(json.value(text("renamed")).toArray().size(), 2);
    EXPECT_EQ(json.value(text("renamed")).toArray().at(1).toObject().value(text("to")).toString(), text("A1 (2)"));
    EXPECT_TRUE(json.value(text("differences")).toArray().isEmpty());
    EXPECT_TRUE(exists(json.value(text("copy")).toString().toUtf8().constData()));
    EXPECT_EQ(bytes("b.washfast"), other);
    EXPECT_THAT(run("list a.washfast --columns print_code,session_code").out, HasSubstr("A1 (2)      S1 (2)"));
    EXPECT_THAT(run("merge a.washfast b.washfast").out, HasSubstr("nothing was written"));
}

TEST_F(MergeAndExport, BothValuesOfADifferenceAreTold)
{
    put("a.csv", "print_code,coat_passes,print_notes\nA1,2,first\n");
    ASSERT_EQ(run("import a.washfast a.csv").status, 0);
    put("b.washfast", bytes("a.washfast"));
    {
        const auto catalogue = standardCatalogue();
        for (const auto& [name, passes] : { std::pair("a.washfast", 3.0), std::pair("b.washfast", 4.0) }) {
            const auto file = must(store::NotebookFile::open(folder(name), catalogue));
            must(setField(*file, { Entity::Print, 1 }, "coat_passes", Known { passes }));
        }
    }
    const auto merged = run("merge a.washfast b.washfast --json");
    ASSERT_EQ(merged.status, 0) << merged.err;
    const auto one = merged.json().value(text("differences")).toArray().at(0).toObject();
    EXPECT_EQ(one.value(text("print")).toString(), text("A1"));
    EXPECT_EQ(one.value(text("field")).toString(), text("coat_passes"));
    EXPECT_EQ(one.value(text("ours")).toDouble(), 3.0);
    EXPECT_EQ(one.value(text("theirs")).toDouble(), 4.0);
}

TEST_F(MergeAndExport, WhatCannotBeMergedIsOne)
{
    put("a.csv", "print_code\nA1\n");
    put("text.txt", "not a notebook");
    ASSERT_EQ(run("import a.washfast a.csv").status, 0);
    for (const char* words : { "merge a.washfast a.washfast", "merge a.washfast none.washfast",
             "merge a.washfast text.txt", "merge none.washfast a.washfast" }) {
        const auto ran = run(words);
        EXPECT_EQ(ran.status, 1) << words;
        EXPECT_EQ(ran.out, "") << words;
        EXPECT_THAT(ran.err, testing::StartsWith("washfast: ")) << words;
    }
    EXPECT_EQ(run("merge a.washfast").status, 2);
    EXPECT_FALSE(exists("none.washfast"));
}

TEST_F(MergeAndExport, AReportAsAPage)
{
    ASSERT_EQ(run("demo n.washfast").status, 0);
    const auto done = run("export n.washfast --to report.html --json");
    ASSERT_EQ(done.status, 0) << done.err;
    const auto page = bytes("report.html");
    QXmlStreamReader reader(page);
    while (!reader.atEnd())
        reader.readNext();
    EXPECT_FALSE(reader.hasError()) << reader.errorString().toStdString();
    EXPECT_THAT(page.toStdString(), HasSubstr("a cause is named, “Moisture left at the rinse”"))
        << "the batch of the example that was rinsed damp";
    EXPECT_THAT(page.toStdString(), Not(HasSubstr("Maker")));
    ASSERT_EQ(run("export n.washfast --to makers.html --makers").status, 0);
    EXPECT_THAT(bytes("makers.html").toStdString(), HasSubstr("Maker"));
}

TEST_F(MergeAndExport, AReportOnPaper)
{
    put("t.csv",
        "print_code,session_code,term_name,coat_passes,print_outcome\nA1,S1,Spring,2,kept\nA2,S1,Spring,3,ran_off\n");
    ASSERT_EQ(run("import n.washfast t.csv").status, 0);
    const auto done = run("export n.washfast --term Spring --to report.pdf");
    ASSERT_EQ(done.status, 0) << done.err;
    EXPECT_TRUE(bytes("report.pdf").startsWith("%PDF-"));
    const auto reader = QStandardPaths::findExecutable(QStringLiteral("pdftotext"));
    const auto info = QStandardPaths::findExecutable(QStringLiteral("pdfinfo"));
    ASSERT_FALSE(reader.isEmpty() || info.isEmpty()) << "poppler-utils is missing; tests/run.sh installs it";
    const auto words = run("report.pdf -", reader).out;
    for (const char* wanted :
        { "Blue prints of Spring", "Of 2 prints 1 kept, 1 failed", "Session S1", "A2", "page 1 of" })
        EXPECT_THAT(words, HasSubstr(wanted));
    const auto about = run("report.pdf", info).out;
    EXPECT_THAT(about, HasSubstr("A4"));
    EXPECT_THAT(about, testing::ContainsRegex("Title: +Blue prints of Spring"));
}

TEST_F(MergeAndExport, NoTableRunsOffThePaper)
{
    ASSERT_EQ(run("demo n.washfast").status, 0);
    ASSERT_EQ(run("export n.washfast --to report.pdf").status, 0);
    const auto reader = QStandardPaths::findExecutable(QStringLiteral("pdftotext"));
    ASSERT_FALSE(reader.isEmpty()) << "poppler-utils is missing; tests/run.sh installs it";
    const auto boxes = QString::fromStdString(run("-bbox report.pdf -", reader).out);
    auto found = QRegularExpression(QStringLiteral("<word xMin=\"([0-9.]+)\" yMin=\"([0-9.]+)\" xMax=\"([0-9.]+)\" "
                                                   "yMax=\"([0-9.]+)\">"))
                     .globalMatch(boxes);
    int words = 0;
    const double mm = 72 / 25.4;
    while (found.hasNext()) {
        const auto word = found.next();
        ++words;
        ASSERT_GE(word.captured(1).toDouble(), 14.5 * mm);
        ASSERT_LE(word.captured(3).toDouble(), (210 - 14.5) * mm) << word.captured().toStdString();
        ASSERT_LE(word.captured(4).toDouble(), (297 - 8) * mm);
    }
    EXPECT_GT(words, 3000);
    // Qt also writes the last line of the page before, clipped away: what the upper margin shows is judged by its
    // picture.
    const auto painter = QStandardPaths::findExecutable(QStringLiteral("pdftoppm"));
    ASSERT_FALSE(painter.isEmpty()) << "poppler-utils is missing; tests/run.sh installs it";
    run("-gray -r 72 report.pdf page", painter);
    int pages = 0;
    for (const auto& name : QDir(folder(".")).entryList({ QStringLiteral("page-*.pgm") })) {
        const auto picture = bytes(qPrintable(name));
        const auto header = picture.left(32).split('\n'); // P5, width and height, largest value
        ASSERT_EQ(header.value(0), "P5");
        const int wide = header.value(1).split(' ').value(0).toInt();
        const auto pixels = picture.mid(header.value(0).size() + header.value(1).size() + header.value(2).size() + 3);
        ASSERT_GT(wide, 500);
        for (int i = 0; i < wide * int(13 * mm); ++i)
            ASSERT_EQ(uchar(pixels[i]), 255) << name.toStdString() << ": something stands in the upper margin";
        ++pages;
    }
    EXPECT_GT(pages, 4);
    // Every print of the example is there, as often as in the page that a browser shows.
    const auto text_of = run("report.pdf -", reader).out;
    for (const char* code : { "S1-01", "S4-14", "S8-24" })
        EXPECT_THAT(text_of, HasSubstr(code));
}

} // namespace WASHFAST_FILE
