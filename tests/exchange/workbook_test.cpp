// Workbooks, read back by a program that is not ours: LibreOffice Calc turns them into CSV (the same numbers must come
// out) and into flat OpenDocument (ISO/IEC 26300), which shows types, styles, panes, filters and charts.
#include "core/exchange/delimited.h"
#include "core/exchange/workbook.h"

#include <QDir>
#include <QFile>
#include <QMap>
#include <QProcess>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QXmlStreamReader>
#include <cmath>
#include <csignal>
#include <gtest/gtest.h>
#include <limits>
#include <random>
#include <sys/resource.h>
#include <xlsxwriter.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::exchange;
using namespace Qt::StringLiterals;

namespace {

/// A cell as the spreadsheet holds it.
struct ReadCell {
    QString type; // of OpenDocument: float, string, boolean, date, time; empty for a blank cell
    QString value;
    bool italic = false, bold = false;
};

/// What a flat OpenDocument spreadsheet says.
struct ReadBook {
    QMap<QString, std::vector<std::vector<ReadCell>>> sheets;
    QStringList sheet_order, filters, charts, series_ranges, titles, names_of_people;
    QString title;
};

class FlatReader {
public:
    explicit FlatReader(const QByteArray& bytes)
        : xml_(bytes)
    {
        while (!xml_.atEnd())
            if (xml_.readNext() == QXmlStreamReader::StartElement)
                element();
        EXPECT_FALSE(xml_.hasError()) << xml_.errorString().toStdString();
    }
    ReadBook book;

private:
    QString attribute(const char* name) const { return xml_.attributes().value(QLatin1String(name)).toString(); }
    void element()
    {
        const QString name = xml_.qualifiedName().toString();
        if (name == u"style:style")
            style_ = attribute("style:name");
        else if (name == u"style:text-properties") {
            if (attribute("fo:font-style") == u"italic")
                italic_ << style_;
            if (attribute("fo:font-weight") == u"bold")
                bold_ << style_;
        } else if (name == u"dc:title")
            book.title = xml_.readElementText();
        else if (name == u"dc:creator" || name == u"meta:initial-creator" || name == u"meta:printed-by")
            book.names_of_people << xml_.readElementText();
        else if (name == u"table:database-range")
            book.filters << attribute("table:target-range-address");
        else if (name == u"chart:chart")
            book.charts << attribute("chart:class");
        else if (name == u"chart:series")
            book.series_ranges << attribute("chart:values-cell-range-address");
        else if (name == u"chart:domain")
            book.series_ranges << attribute("table:cell-range-address");
        else if (name == u"chart:title")
            book.titles << xml_.readElementText(QXmlStreamReader::IncludeChildElements);
        else if (name == u"table:table" && !attribute("table:name").startsWith(u"local-table"))
            book.sheet_order << (sheet_ = attribute("table:name"));
        else if (name == u"table:table")
            sheet_.clear(); // the copy of the data inside a chart
        else if (name == u"table:table-row" && !sheet_.isEmpty())
            row();
    }
    void row()
    {
        std::vector<ReadCell> cells;
        while (xml_.readNextStartElement()) {
            if (xml_.qualifiedName() != u"table:table-cell") {
                xml_.skipCurrentElement();
                continue;
            }
            const QString style = attribute("table:style-name");
            ReadCell cell { attribute("office:value-type"), {}, italic_.contains(style), bold_.contains(style) };
            for (const char* holder :
                { "office:value", "office:date-value", "office:time-value", "office:boolean-value" })
                cell.value += attribute(holder);
            const int times = std::min(std::max(1, attribute("table:number-columns-repeated").toInt()), 100);
            QString text;
            while (xml_.readNextStartElement()) {
                if (xml_.qualifiedName() == u"text:p")
                    text += xml_.readElementText(QXmlStreamReader::IncludeChildElements);
                else if (xml_.qualifiedName() == u"draw:frame")
                    chart();
                else
                    xml_.skipCurrentElement();
            }
            if (cell.type == u"string")
                cell.value = text;
            cells.insert(cells.end(), size_t(times), cell);
        }
        book.sheets[sheet_].push_back(cells);
    }
    /// Inside a cell's frame, up to its end.
    void chart()
    {
        const QString sheet = std::exchange(sheet_, {});
        while (!xml_.atEnd() && !(xml_.isEndElement() && xml_.qualifiedName() == u"draw:frame"))
            if (xml_.readNext() == QXmlStreamReader::StartElement)
                element();
        sheet_ = sheet;
    }
    QXmlStreamReader xml_;
    QString sheet_, style_;
    QStringList italic_, bold_;
};

const QDateTime exposed(QDate(2026, 5, 4), QTime(10, 15, 30), Qt::OffsetFromUTC, 2 * 3600);

/// Numbers of every size, and some with more digits than a spreadsheet shows.
std::vector<double> numbers()
{
    std::vector<double> out { 0, -0.5, 93.51234567890123, 1e-300, 1e300, 1.0 / 3.0, 46146.427, -1e-9, 123456789012345 };
    std::mt19937_64 random(29500);
    std::uniform_real_distribution<double> mantissa(-10, 10);
    std::uniform_int_distribution<int> exponent(-12, 12);
    while (out.size() < 300)
        out.push_back(mantissa(random) * std::pow(10, exponent(random)));
    return out;
}

class WorkbookReadBack : public testing::Test {
protected:
    static void SetUpTestSuite()
    {
        program = QStandardPaths::findExecutable(u"soffice"_s);
        if (program.isEmpty())
            return;
        folder = new QTemporaryDir;
        ASSERT_TRUE(folder->isValid());
        const QString path = folder->filePath(u"term.xlsx"_s);
        Workbook book({ .title = u"Term"_s, .subject = u"Prints"_s, .keywords = { u"blue"_s }, .created = exposed });
        Sheet& prints = book.addSheet(u"Prints: 2026/1"_s,
            { { u"code"_s }, { u"kept [%]"_s, numberFormat(1) }, { u"exposed"_s }, { u"film"_s }, { u"day"_s },
                { u"clock"_s }, { .heading = u"note"_s, .width = 30 } });
        prints.addRow({ { u"A1"_s }, { 93.5 }, { exposed }, { true }, { QDate(2026, 5, 4) }, { QTime(10, 15) },
            { u"été <&> µ \U0001F9EA"_s } });
        prints.addRow(
            { { u"=1+1"_s }, { 12.25, true }, {}, { false, true }, { QDate(1850, 1, 1) }, {}, { u"two\nlines"_s } });
        prints.addRow({ { u"A3"_s }, {}, { exposed, true }, {}, {}, {}, { std::nan("") } });
        prints.addRow({ { u"A4"_s }, { 0.0 } });
        Sheet& values = book.addSheet(u"Values"_s, { { u"x"_s }, { u"y"_s } });
        for (const double number : numbers())
            values.addRow({ { number }, { -number, true } });
        book.addScatter(values, 1, 3,
            { .title = u"Density against dose"_s,
                .x_title = u"log dose"_s,
                .y_title = u"=density"_s,
                .series = { { &values, 0, 1, u"all"_s } } });
        const Outcome saved = book.save(path);
        ASSERT_TRUE(saved.ok()) << saved.error().sentence().toStdString();
        // All sheets, each to a file of its own, numbers in full rather than as shown.
        convert(path, u"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1"_s);
        convert(path, u"fods"_s);
        read = FlatReader(contents(u"term.fods"_s)).book;
    }
    static void TearDownTestSuite() { delete std::exchange(folder, nullptr); }
    void SetUp() override
    {
        if (program.isEmpty())
            FAIL() << "LibreOffice Calc is not installed; tests/run.sh installs it";
    }

    static void convert(const QString& path, const QString& filter)
    {
        QProcess office;
        office.start(program,
            { u"-env:UserInstallation=file://"_s + folder->filePath(u"profile"_s), u"--headless"_s, u"--convert-to"_s,
                filter, u"--outdir"_s, folder->path(), path });
        ASSERT_TRUE(office.waitForFinished(120'000));
        ASSERT_EQ(office.exitCode(), 0) << office.readAllStandardError().toStdString();
    }
    static QByteArray contents(const QString& name)
    {
        QFile file(folder->filePath(name));
        EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << name.toStdString();
        return file.readAll();
    }
    /// One part of the packed file, for what an office without a window does not pass on.
    static QByteArray part(const QString& name)
    {
        QProcess unpack;
        unpack.start(unzip, { u"-p"_s, folder->filePath(u"term.xlsx"_s), name });
        EXPECT_TRUE(unpack.waitForFinished());
        EXPECT_EQ(unpack.exitCode(), 0) << name.toStdString();
        return unpack.readAllStandardOutput();
    }
    static const ReadCell& cell(const QString& sheet, size_t row, size_t column)
    {
        static const ReadCell none { u"no such cell"_s, {}, false, false };
        const auto& rows = read.sheets[sheet];
        return row < rows.size() && column < rows[row].size() ? rows[row][column] : none;
    }

    static inline QString program, unzip = QStandardPaths::findExecutable(u"unzip"_s);
    static inline QTemporaryDir* folder = nullptr;
    static inline ReadBook read;
    const QString prints = u"Prints 2026 1"_s;
};

} // namespace

TEST_F(WorkbookReadBack, TheSameNumbersComeOut)
{
    const DelimitedTable table = readDelimited(contents(u"term-Values.csv"_s));
    ASSERT_TRUE(table.readable());
    EXPECT_EQ(table.header, (QStringList { u"x"_s, u"y"_s }));
    const std::vector<double> wanted = numbers();
    ASSERT_EQ(table.rows.size(), wanted.size());
    for (size_t i = 0; i < wanted.size(); ++i) {
        bool x_ok = false, y_ok = false;
        const double x = table.rows[i].cells[0].toDouble(&x_ok), y = table.rows[i].cells[1].toDouble(&y_ok);
        EXPECT_TRUE(x_ok && y_ok) << i;
        // The library writes 16 digits; the spreadsheet gives 15 of them back, none beyond the 20th decimal.
        const double slack = std::max(1e-14 * std::abs(wanted[i]), 1e-20);
        EXPECT_NEAR(x, wanted[i], slack);
        EXPECT_NEAR(y, -wanted[i], slack);
        EXPECT_EQ(cell(u"Values"_s, i + 1, 0).type, u"float");
    }
}

TEST_F(WorkbookReadBack, SheetsHaveTheirNamesAndOrder)
{
    EXPECT_EQ(read.sheet_order, (QStringList { prints, u"Values"_s }));
    EXPECT_EQ(read.title, u"Term");
    const DelimitedTable table = readDelimited(contents(u"term-Prints 2026 1.csv"_s));
    EXPECT_EQ(table.header.front(), u"code");
    EXPECT_EQ(table.rows.size(), 4u);
}

TEST_F(WorkbookReadBack, NothingRecordedIsBlankAndZeroIsZero)
{
    EXPECT_EQ(cell(prints, 3, 1).type, QString()); // A3 has no density
    EXPECT_EQ(cell(prints, 2, 2).type, QString());
    EXPECT_EQ(cell(prints, 4, 1).type, u"float");
    EXPECT_EQ(cell(prints, 4, 1).value, u"0");
    EXPECT_EQ(cell(prints, 3, 6).value, u"NaN"); // cannot be a number in a spreadsheet, so it is a text
    EXPECT_EQ(cell(prints, 3, 6).type, u"string");
}

TEST_F(WorkbookReadBack, MomentsAreDatesOnTheirOwnClock)
{
    EXPECT_EQ(cell(prints, 1, 2).type, u"date");
    EXPECT_EQ(cell(prints, 1, 2).value, u"2026-05-04T10:15:30"); // not 08:15:30, which is UTC
    EXPECT_EQ(cell(prints, 1, 4).value, u"2026-05-04");
    EXPECT_EQ(cell(prints, 1, 5).value, u"PT10H15M00S");
    EXPECT_EQ(cell(prints, 2, 4).value, u"1850-01-01"); // before the first day of spreadsheets: a text
    EXPECT_EQ(cell(prints, 2, 4).type, u"string");
}

TEST_F(WorkbookReadBack, TextsStayTexts)
{
    EXPECT_EQ(cell(prints, 2, 0).type, u"string"); // not a formula
    EXPECT_EQ(cell(prints, 2, 0).value, u"=1+1");
    EXPECT_EQ(cell(prints, 1, 6).value, u"été <&> µ \U0001F9EA");
    EXPECT_EQ(cell(prints, 1, 3).value, u"1"); // yes
    EXPECT_EQ(cell(prints, 2, 3).value, u"0");
    const DelimitedTable table = readDelimited(contents(u"term-Prints 2026 1.csv"_s));
    ASSERT_EQ(table.rows.size(), 4u);
    EXPECT_EQ(table.rows[0].cells[3], u"TRUE");
    EXPECT_EQ(table.rows[1].cells[6], u"two\nlines");
}

TEST_F(WorkbookReadBack, EstimatesAreInItalics)
{
    EXPECT_FALSE(cell(prints, 1, 1).italic);
    EXPECT_TRUE(cell(prints, 2, 1).italic);
    EXPECT_TRUE(cell(prints, 2, 3).italic);
    EXPECT_TRUE(cell(prints, 3, 2).italic);
    EXPECT_EQ(cell(prints, 3, 2).type, u"date");
    EXPECT_FALSE(cell(u"Values"_s, 5, 0).italic);
    EXPECT_TRUE(cell(u"Values"_s, 5, 1).italic);
}

TEST_F(WorkbookReadBack, HeadingsAreBoldAndFilter)
{
    for (size_t column = 0; column < 7; ++column)
        EXPECT_TRUE(cell(prints, 0, column).bold) << column;
    EXPECT_FALSE(cell(prints, 1, 0).bold);
    ASSERT_EQ(read.filters.size(), 2);
    EXPECT_TRUE(read.filters.join(u' ').contains(u"A1:'Prints 2026 1'.G5")) << read.filters.join(u' ').toStdString();
    EXPECT_TRUE(read.filters.join(u' ').contains(u"Values.A1:Values.B301")) << read.filters.join(u' ').toStdString();
}

TEST_F(WorkbookReadBack, HasAScatterChartOfTheRightCells)
{
    EXPECT_EQ(read.charts, QStringList { u"chart:scatter"_s });
    EXPECT_EQ(QSet<QString>(read.series_ranges.begin(), read.series_ranges.end()),
        (QSet<QString> { u"Values.A2:Values.A301"_s, u"Values.B2:Values.B301"_s }))
        << read.series_ranges.join(u' ').toStdString();
    for (const QString& title : { u"Density against dose"_s, u"log dose"_s, u"=density"_s })
        EXPECT_TRUE(read.titles.join(u'|').contains(title)) << read.titles.join(u'|').toStdString();
}

// ISO/IEC 29500-1, section 18.3.1.66 (pane): the first row stays where it is.
TEST_F(WorkbookReadBack, HeadingsStayInSight)
{
    if (unzip.isEmpty())
        FAIL() << "unzip is not installed; tests/run.sh installs it";
    for (const QString& sheet : { u"xl/worksheets/sheet1.xml"_s, u"xl/worksheets/sheet2.xml"_s }) {
        QXmlStreamReader xml(part(sheet));
        while (!xml.atEnd() && xml.name() != u"pane")
            xml.readNext();
        EXPECT_EQ(xml.attributes().value("ySplit"_L1), u"1");
        EXPECT_EQ(xml.attributes().value("topLeftCell"_L1), u"A2");
        EXPECT_EQ(xml.attributes().value("state"_L1), u"frozen");
    }
}

TEST_F(WorkbookReadBack, NamesNobody)
{
    EXPECT_EQ(read.names_of_people.join(QString()), QString());
    if (unzip.isEmpty())
        FAIL() << "unzip is not installed; tests/run.sh installs it";
    QXmlStreamReader core(part(u"docProps/core.xml"_s)), app(part(u"docProps/app.xml"_s));
    int seen = 0;
    for (QXmlStreamReader* xml : { &core, &app })
        while (!xml->atEnd())
            if (xml->readNext() == QXmlStreamReader::StartElement
                && (xml->name() == u"creator" || xml->name() == u"lastModifiedBy" || xml->name() == u"Manager"
                    || xml->name() == u"Company")) {
                EXPECT_EQ(xml->readElementText(), QString());
                ++seen;
            }
    EXPECT_GE(seen, 3);
}

TEST(Workbook, SheetNamesAreWhatTheLibraryTakes)
{
    EXPECT_EQ(sheetName(u"Prints"_s), u"Prints");
    EXPECT_EQ(sheetName(u"a/b:c*d?e[f]g\\h"_s), u"a b c d e f g h");
    EXPECT_EQ(sheetName(u"'quoted'"_s), u"quoted");
    EXPECT_EQ(sheetName(u" \t"_s), u"Sheet");
    EXPECT_EQ(sheetName(u"history"_s), u"history_");
    EXPECT_EQ(sheetName(u"prints"_s, { u"Prints"_s }), u"prints (2)");
    EXPECT_EQ(sheetName(QString(40, u'x'), { QString(31, u'x') }), QString(27, u'x') + u" (2)"_s);
    std::mt19937 random(31);
    const QString letters = u"abcXYZ'[]:*?/\\ \t\né\U0001F9EA0\u0001"_s;
    lxw_workbook* judge = workbook_new("never-written.xlsx");
    QStringList taken;
    for (int i = 0; i < 3000; ++i) {
        QString wanted;
        for (int n = int(random() % 40); n > 0; --n)
            wanted += letters[qsizetype(random() % quint32(letters.size()))];
        const QString name = sheetName(wanted, taken);
        EXPECT_LE(name.size(), 31);
        EXPECT_EQ(workbook_validate_sheet_name(judge, name.toUtf8().constData()), LXW_NO_ERROR) << name.toStdString();
        EXPECT_FALSE(taken.contains(name, Qt::CaseInsensitive));
        taken << name;
    }
    lxw_workbook_free(judge);
}

TEST(Workbook, SaysWhereItCannotWrite)
{
    QTemporaryDir folder;
    const auto save = [](const QString& path) {
        Workbook book;
        book.addSheet(u"Prints"_s, { { u"code"_s } }).addRow({ { u"A1"_s } });
        return book.save(path);
    };
    const Outcome nowhere = save(folder.filePath(u"no/such/folder/term.xlsx"_s));
    ASSERT_FALSE(nowhere.ok());
    EXPECT_EQ(nowhere.error().code, Trouble::NotFound);
    EXPECT_TRUE(nowhere.error().where.endsWith(u"no/such/folder"));
    const Outcome on_folder = save(folder.path());
    ASSERT_FALSE(on_folder.ok());
    EXPECT_EQ(on_folder.error().code, Trouble::BadInput);
    EXPECT_TRUE(save(folder.filePath(u"term.xlsx"_s)).ok());
    EXPECT_EQ(QDir(folder.path()).entryList(QDir::Files | QDir::Hidden),
        QStringList { u"term.xlsx"_s }); // nothing left beside it
}

// Files of this process may not grow beyond a limit, as on a full disk: the older file has to stay.
TEST(Workbook, AFullDiskLeavesTheOlderFile)
{
    QTemporaryDir folder;
    const QString path = folder.filePath(u"term.xlsx"_s);
    QFile older(path);
    ASSERT_TRUE(older.open(QIODevice::WriteOnly));
    older.write("older");
    older.close();
    Workbook book;
    Sheet& sheet = book.addSheet(u"Values"_s, { { u"x"_s }, { u"y"_s } });
    std::mt19937_64 random(7);
    for (int i = 0; i < 2000; ++i)
        sheet.addRow({ { double(random()) / 3.0 }, { double(random()) / 7.0 } });
    rlimit before {};
    ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &before), 0);
    const auto handler = std::signal(SIGXFSZ, SIG_IGN);
    rlimit tight = before;
    tight.rlim_cur = 8192;
    ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &tight), 0);
    const Outcome saved = book.save(path);
    setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, handler);
    ASSERT_FALSE(saved.ok());
    EXPECT_EQ(saved.error().code, Trouble::NoSpace);
    ASSERT_TRUE(older.open(QIODevice::ReadOnly));
    EXPECT_EQ(older.readAll(), QByteArray("older"));
    EXPECT_EQ(QDir(folder.path()).entryList(QDir::Files | QDir::Hidden), QStringList { u"term.xlsx"_s });
}

TEST(Workbook, RefusesWhatASheetCannotHold)
{
    QTemporaryDir folder;
    const QString path = folder.filePath(u"term.xlsx"_s);
    Workbook wide;
    wide.addSheet(u"Prints"_s, { { u"code"_s } }).addRow({ { u"A1"_s }, { 1.0 } });
    const Outcome refused = wide.save(path);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, Trouble::BadInput);
    EXPECT_EQ(refused.error().where, u"Prints");
    Workbook empty;
    EXPECT_FALSE(empty.save(path).ok());
    EXPECT_FALSE(QFile::exists(path));
    Workbook once;
    once.addSheet(u"a"_s, { { u"x"_s } });
    EXPECT_TRUE(once.save(path).ok());
    EXPECT_FALSE(once.save(path).ok()); // written once
}

TEST(Workbook, CutsTextsThatNoCellCanHold)
{
    QTemporaryDir folder;
    Workbook book;
    Sheet& sheet = book.addSheet(u"Notes"_s, { { u"note"_s } });
    sheet.addRow({ { QString(32767, u'a') } });
    EXPECT_EQ(sheet.cuts(), 0);
    sheet.addRow({ { QString(32768, u'a') } });
    sheet.addRow({ { QString(32765, u'a') + u"\U0001F9EA\U0001F9EA"_s } });
    EXPECT_EQ(sheet.cuts(), 2);
    EXPECT_EQ(sheet.rows(), 3);
    EXPECT_TRUE(book.save(folder.filePath(u"term.xlsx"_s)).ok());
}

} // namespace WASHFAST_FILE
