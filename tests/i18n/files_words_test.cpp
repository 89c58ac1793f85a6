// What is written for others in a made-up language: the report, the workbook, the data dictionary. Keys stay.
#include "app/cli/whole_catalogue.h"
#include "app/demo/demo_notebook.h"
#include "core/report/report_answers.h"
#include "core/report/report_files.h"
#include "tests/i18n/made_up_language.h"
#include "tests/i18n/seen_text.h"
#include "tests/support/scratch_notebook.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::i18n;

namespace {

class FilesInWords : public testing::Test {
protected:
    void SetUp() override
    {
        catalogue = std::make_unique<Catalogue>(wholeCatalogue());
        file = must(store::NotebookFile::open(folder.filePath(QStringLiteral("n.washfast")), *catalogue));
        ASSERT_TRUE(demo::writeDemo(*file));
        book = std::make_unique<Notebook>(must(file->read()));
        data.add(*book, *catalogue);
        // Formats, the evidence as the column `not_measured` has it, and what libxlsxwriter itself writes.
        data.add(
            QStringLiteral("not_measured measured estimated assumed Microsoft Excel Worksheets General false true"));
        for (const auto entity : allEntities()) {
            data.add(entityKey(entity));
            for (const auto& field : catalogue->columns(entity))
                addKeys(field);
        }
        for (const auto& field : catalogue->printFields())
            addKeys(field);
    }
    void TearDown() override { EXPECT_EQ(language.takeMissing(), "") << "asked for and in no translation"; }

    /// The export as a file of this ending.
    QString written(const char* ending)
    {
        const auto path = folder.filePath(QStringLiteral("out.") + QLatin1String(ending));
        const auto selection = must(exchange::selectForExport(*book, {}));
        exchange::ReportOptions contents;
        contents.makers = true;
        contents.written = QDate(2026, 7, 1);
        const PrintColumns columns(*book);
        if (report::isReport(path))
            contents.answers = report::answersTo(report::questionsFor(columns, selection));
        (void)must(report::exportTerm(selection, path, contents));
        return path;
    }
    static QString output(const QString& tool, const QStringList& words)
    {
        QProcess process;
        process.start(tool, words);
        if (!process.waitForFinished(60'000) || process.exitCode() != 0)
            throw std::runtime_error(tool.toStdString() + ": " + process.readAllStandardError().toStdString());
        return QString::fromUtf8(process.readAllStandardOutput());
    }
    void readLines(const QString& where, const QString& text)
    {
        for (const auto& line : text.split(QLatin1Char('\n')))
            seen.add(where, line);
    }
    /// Texts of well-formed XML: between the tags.
    void readXml(const QString& where, const QByteArray& bytes)
    {
        QXmlStreamReader xml(bytes);
        bool style = false;
        while (!xml.atEnd()) {
            const auto token = xml.readNext();
            if (token == QXmlStreamReader::StartElement)
                style = xml.name() == QLatin1String("style");
            else if (token == QXmlStreamReader::EndElement)
                style = false;
            else if (token == QXmlStreamReader::Characters && !style)
                seen.add(where, xml.text().toString());
        }
        EXPECT_FALSE(xml.hasError()) << where.toStdString() << ": " << xml.errorString().toStdString();
    }
    void expectNothingLeft() { EXPECT_TRUE(seen.leftIn(data).empty()) << seen.leftIn(data); }

    MadeUpLanguage& language = MadeUpLanguage::spoken();
    QTemporaryDir folder;
    std::unique_ptr<Catalogue> catalogue;
    std::unique_ptr<store::NotebookFile> file;
    std::unique_ptr<Notebook> book;
    DataWords data;
    SeenText seen;

private:
    void addKeys(const Field& field)
    {
        data.add(field.key);
        data.add(field.unit);
        data.add(kindKey(field.kind));
        data.add(stationKey(field.station));
        for (const auto& choice : field.choices)
            data.add(choice.key);
    }
};

} // namespace

TEST_F(FilesInWords, TheReportAsAPage)
{
    readXml(QStringLiteral("html"), bytesOf(written("html")));
    EXPECT_GT(seen.count(), 500);
    expectNothingLeft();
}

TEST_F(FilesInWords, TheReportOnPaper)
{
    readLines(QStringLiteral("pdf"),
        output(QStringLiteral("pdftotext"), { QStringLiteral("-layout"), written("pdf"), QStringLiteral("-") }));
    EXPECT_GT(seen.count(), 100);
    expectNothingLeft();
}

TEST_F(FilesInWords, TheWorkbook)
{
    const auto path = written("xlsx");
    for (const auto& part : output(QStringLiteral("unzip"), { QStringLiteral("-Z1"), path }).split(QLatin1Char('\n')))
        if (part == QLatin1String("xl/sharedStrings.xml") || part.startsWith(QLatin1String("xl/charts/"))
            || part.startsWith(QLatin1String("docProps/")))
            readXml(part, output(QStringLiteral("unzip"), { QStringLiteral("-p"), path, part }).toUtf8());
    const auto workbook
        = output(QStringLiteral("unzip"), { QStringLiteral("-p"), path, QStringLiteral("xl/workbook.xml") });
    static const QRegularExpression sheet(QStringLiteral("<sheet name=\"([^\"]*)\""));
    for (auto found = sheet.globalMatch(workbook); found.hasNext();)
        seen.add(QStringLiteral("sheet"), found.next().captured(1));
    EXPECT_GT(seen.count(), 500);
    expectNothingLeft();
}

TEST_F(FilesInWords, TheDataDictionary)
{
    const auto csv = written("csv");
    const auto document = QJsonDocument::fromJson(bytesOf(csv + QStringLiteral("-metadata.json"))).object();
    EXPECT_EQ(document.value(QStringLiteral("@context")).toArray().last().toObject().value(QStringLiteral("@language")),
        QJsonValue(QStringLiteral("ru")));
    const auto table = document.value(QStringLiteral("tableSchema")).toObject();
    const auto columns = table.value(QStringLiteral("columns")).toArray();
    ASSERT_GT(columns.size(), 20);
    for (const auto& one : columns) {
        const auto column = one.toObject();
        const auto titles = column.value(QStringLiteral("titles"));
        for (const auto& title : titles.isArray() ? titles.toArray() : QJsonArray { titles })
            seen.add(QStringLiteral("title"), title.toString());
        for (const char* key : { "dc:description", "dc:title", "rdfs:comment" })
            seen.add(QLatin1String(key), column.value(QLatin1String(key)).toString());
    }
    for (const char* key : { "dc:description", "dc:title" })
        seen.add(QLatin1String(key), document.value(QLatin1String(key)).toString());
    EXPECT_GT(seen.count(), 40);
    expectNothingLeft();
}

// What the example's people wrote is in the language of whoever looks at it.
TEST_F(FilesInWords, TheExampleNotebook)
{
    static const QRegularExpression name(QStringLiteral("^[A-Za-z]+/[A-Za-z_]+$|^\\S*[0-9]\\S*$")); // zones and codes
    QString left;
    int looked = 0;
    DataWords none;
    none.add(QStringLiteral("ammonium iron(III) citrate, green")); // by this the chemistry knows it
    for (const auto entity : allEntities()) {
        const auto& table = book->table(entity);
        for (int row = 0; row < table.rows(); ++row)
            for (const auto& field : catalogue->columns(entity)) {
                const auto text = field.kind == Kind::Text ? table.at(row, field.ordinal).text() : std::nullopt;
                if (!text || field.hidden || name.match(*text).hasMatch())
                    continue;
                ++looked;
                for (const auto& word : DataWords::wordsOf(*text))
                    if (!none.has(word)) {
                        left += field.key + QStringLiteral(": ") + *text + QLatin1Char('\n');
                        break;
                    }
            }
    }
    EXPECT_GT(looked, 100);
    EXPECT_TRUE(left.isEmpty()) << left.toStdString();
}

} // namespace WASHFAST_FILE
