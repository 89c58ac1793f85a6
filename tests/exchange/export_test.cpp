// What is exported says what the notebook says: read back by the import, by a spreadsheet program that is not ours
// (LibreOffice Calc), and against the rules of RFC 4180 and CSV on the Web. Invented data.
#include "core/exchange/dictionary.h"
#include "core/exchange/export.h"
#include "core/exchange/import_cells.h"
#include "core/quantity/value_text.h"
#include "tests/support/import_desk.h"
#include "tests/support/one_more_field.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QRegularExpression>
#include <QStandardPaths>
#include <gmock/gmock.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::exchange;
using namespace washfast::test;
using testing::IsEmpty;

namespace {

/// A table with a value in every field that can be imported, drawn from the catalogue itself.
class RandomTerm {
public:
    RandomTerm(const Catalogue& catalogue, unsigned seed)
        : catalogue_(catalogue)
        , random_(seed)
    {
        for (const auto& field : catalogue.printFields())
            if (isImportable(field))
                fields_.push_back(&field);
    }

    QByteArray table(int prints)
    {
        DelimitedWriter writer;
        QStringList headings;
        for (const auto* field : fields_)
            headings << field->key;
        writer.header(headings << notMeasuredHeading());
        for (int n = 0; n < prints; ++n)
            writer.row(row(n));
        return writer.bytes();
    }

private:
    double share() { return std::uniform_real_distribution<double>(0, 1)(random_); }

    std::vector<DelimitedCell> row(int n)
    {
        clock_ = Instant { 1'777'870'800'000 + n * 86'400'000LL, share() < 0.5 ? 7200 : -12600 };
        std::vector<DelimitedCell> cells;
        QStringList weak;
        times_.clear();
        for (const char* key : { "term_start", "term_end", "mix_made", "coat_start", "coat_end", "dry_start", "dry_end",
                 "expose_start", "expose_end", "hold_start", "hold_end", "rinse_start", "rinse_end" })
            times_.insert(text(key), next());
        for (const auto* field : fields_) {
            const bool name = field->identity;
            if (!name && share() < 0.3) {
                cells.emplace_back();
                continue;
            }
            cells.push_back(DelimitedCell::text(isoText(*field, value(*field, n))));
            if (field->kind != Kind::Text && share() < 0.3)
                weak << field->key + text(share() < 0.5 ? ":estimated" : ":assumed");
        }
        cells.push_back(DelimitedCell::text(weak.join(QStringLiteral("; "))));
        return cells;
    }
    Instant next()
    {
        clock_.ms_utc += 1000 * (1 + qint64(share() * 3000));
        return clock_;
    }
    Value value(const Field& field, int n)
    {
        switch (field.kind) {
        case Kind::Number:
            if (field.key.startsWith(QLatin1String("mass_")))
                return field.key == QLatin1String("mass_bare_g") ? 5 + share()
                                                                 : 7 + share(); // no sheet below its bare mass
            return field.low.value_or(0) + share() * (field.high.value_or(1) - field.low.value_or(0));
        case Kind::YesNo:
            return share() < 0.5;
        case Kind::Time:
            return times_.contains(field.key) ? times_.value(field.key) : next();
        case Kind::Choice:
            return field.choices[size_t(share() * double(field.choices.size()))].key;
        case Kind::ChoiceSet:
            return joinSet(field, { field.choices[1 + size_t(share() * 3)].key, field.choices[5].key });
        default:
            break;
        }
        // Quotes, separators and line breaks in texts, beginnings that a spreadsheet runs; each record of its own.
        static const QStringList beginnings { QStringLiteral("="), QStringLiteral("+"), QStringLiteral("-"),
            QStringLiteral("@"), QStringLiteral("'="), QStringLiteral("''-"), QString(), QString() };
        const QString begins = beginnings[qsizetype(share() * double(beginnings.size()))];
        const QString stem = field.identity ? QStringLiteral("%1%2 %3").arg(begins, field.key).arg(n)
                                            : begins + QStringLiteral("a \"b\"; c, d\nÄ‰");
        return stem + QString::number(int(share() * 1000));
    }

    const Catalogue& catalogue_;
    std::mt19937 random_;
    std::vector<const Field*> fields_;
    QHash<QString, Instant> times_;
    Instant clock_;
};

/// All recorded values of all prints, a line each.
QStringList recorded(const Notebook& notebook)
{
    const PrintReader reader(notebook);
    QStringList lines;
    const auto& fields = notebook.catalogue().printFields();
    for (int row = 0; row < notebook.prints().rows(); ++row)
        for (int i = 0; i < int(fields.size()); ++i)
            if (const auto known = reader.get(row, i); known.has() && !fields[size_t(i)].derived())
                lines << QStringLiteral("%1 %2 = %3 (%4)")
                             .arg(QString::number(row), fields[size_t(i)].key, isoText(fields[size_t(i)], known.value),
                                 evidenceKey(known.evidence));
    return lines;
}

ExportDone write(const ImportDesk& desk, const QString& path, const std::optional<QString>& term = std::nullopt)
{
    return must(exportPrints(must(selectForExport(desk.notebook(), term)), path));
}

const char* const smallTerm
    = "print_code,session_code,term_name,mix_code,room_humidity_pct,coat_volume_ml,coat_start,dry_covered,coat_tool,"
      "print_outcome,"
      "expose_start,expose_end,meter1_uva_w_m2,meter2_uva_w_m2,density_before_rinse_deepest,density_before_rinse_"
      "covered,"
      "density_day_after_deepest,density_day_after_paper,print_notes\n"
      "A1,S1,Spring,M1,45,0.6,2026-05-04T10:15:00+02:00,yes,foam_brush,kept,2026-05-04T10:40:00+02:00,"
      "2026-05-04T10:50:00+02:00,30.5,28.5,1.05,0.08,0.97,0.06,\"=SUM(1,2)\"\n"
      "A2,S1,Spring,M1,45,~0.61,,no,,pale; "
      "striped,2026-05-04T10:40:00+02:00,2026-05-04T10:46:00+02:00,30,,0.8,,0.7,0.06,\n"
      "B1,S2,Autumn,M2,60,0.123456789012345,,,rod,,,,,,,,,,\n";

} // namespace

TEST(ExportTable, AnExportedTableImportedAgainGivesTheSameRecords)
{
    for (unsigned seed = 1; seed <= 8; ++seed) {
        SCOPED_TRACE(seed);
        ImportDesk first;
        const auto table = RandomTerm(first.catalogue(), seed).table(6);
        ASSERT_EQ(first.refused(table), QStringList());
        must(first.take(table));
        const auto a = first.inFolder("a.csv");
        write(first, a);
        ImportDesk second;
        second.options.zone = QTimeZone("Asia/Kathmandu"); // must not matter: every moment has its offset
        must(second.take(bytesOf(a)));
        EXPECT_GT(recorded(first.notebook()).size(), 6 * 80);
        EXPECT_EQ(recorded(first.notebook()), recorded(second.notebook()));
        write(second, second.inFolder("a.csv"));
        EXPECT_EQ(bytesOf(a), bytesOf(second.inFolder("a.csv"))) << "what is worked out is the same as well";
    }
}

TEST(ExportTable, IsPlainRfc4180InUtf8WithIsoDates)
{
    ImportDesk desk;
    must(desk.take(smallTerm));
    write(desk, desk.inFolder("t.csv"));
    const auto bytes = bytesOf(desk.inFolder("t.csv"));
    EXPECT_FALSE(bytes.startsWith("\xef\xbb\xbf"));
    EXPECT_TRUE(bytes.endsWith("\r\n"));
    EXPECT_EQ(bytes.count('\n'), bytes.count("\r\n"));
    const auto table = readDelimited(bytes);
    EXPECT_THAT(table.notes, IsEmpty());
    EXPECT_EQ(table.separator, QChar(u','));
    ASSERT_EQ(table.rows.size(), 3U);
    const auto cell
        = [&](size_t row, const char* key) { return table.rows[row].cells.value(table.header.indexOf(text(key))); };
    EXPECT_EQ(cell(0, "coat_start"), text("2026-05-04T10:15:00+02:00"));
    EXPECT_EQ(cell(2, "coat_volume_ml"), text("0.123456789012345"));
    EXPECT_EQ(cell(1, "coat_start"), QString()) << "not recorded is empty";
    EXPECT_EQ(cell(0, "dry_covered"), text("yes"));
    EXPECT_EQ(cell(1, "print_outcome"), text("pale; striped"));
    EXPECT_EQ(cell(0, "print_notes"), text("=SUM(1,2)")) << "the data as they are";
    EXPECT_TRUE(bytes.contains("\"'=SUM(1,2)\"")) << "a spreadsheet does not run it";
    // 29.5 W/m2 for 600 s is 17,700 J/m2, and a square metre has 10,000 cm2.
    EXPECT_DOUBLE_EQ(cell(0, "dose_j_cm2").toDouble(), 1.77);
    EXPECT_THAT(cell(1, "not_measured").toStdString(), testing::HasSubstr("coat_volume_ml:estimated"));
    EXPECT_THAT(cell(1, "not_measured").toStdString(), testing::HasSubstr("dose_j_cm2:estimated"))
        << "one reading only";
    EXPECT_THAT(cell(0, "not_measured").toStdString(), testing::Not(testing::HasSubstr("coat_volume_ml")));
    EXPECT_FALSE(table.header.contains(text("cover_name"))) << "nobody has a value there";
    EXPECT_FALSE(table.header.contains(text("print_import_mark")));
}

TEST(ExportTable, OnlyTheTermThatIsAskedFor)
{
    ImportDesk desk;
    must(desk.take(smallTerm));
    EXPECT_EQ(write(desk, desk.inFolder("t.csv"), text("spring")).prints, 2);
    const auto selection = must(selectForExport(desk.notebook(), text("Autumn")));
    EXPECT_EQ(selection.prints.size(), 1U);
    EXPECT_EQ(selection.sessions.size(), 1U);
    EXPECT_EQ(selection.mixes.size(), 1U);
    EXPECT_EQ(selection.readings.size(), 0U);
    const auto error = fails(selectForExport(desk.notebook(), text("Winter")));
    EXPECT_EQ(error.code, Trouble::NotFound);
    EXPECT_EQ(error.says, text("There is no term “Winter”. The terms are: Spring, Autumn."));
    EXPECT_EQ(write(desk, desk.inFolder("all.csv")).prints, 3);
}

TEST(ExportTable, TheMetadataBesideItDescribesEveryColumn)
{
    ImportDesk desk;
    must(desk.take(smallTerm));
    const auto done = write(desk, desk.inFolder("t.csv"));
    ASSERT_EQ(done.files.size(), 2);
    EXPECT_EQ(done.files[1], desk.inFolder("t.csv-metadata.json"));
    const auto document = QJsonDocument::fromJson(bytesOf(done.files[1])).object();
    EXPECT_EQ(document.value(QStringLiteral("@context")).isNull(), false);
    EXPECT_EQ(document.value(QStringLiteral("url")).toString(), text("t.csv"));
    const auto columns
        = document.value(QStringLiteral("tableSchema")).toObject().value(QStringLiteral("columns")).toArray();
    const auto header = readDelimited(bytesOf(done.files[0])).header;
    ASSERT_EQ(columns.size(), header.size());
    for (qsizetype i = 0; i < header.size(); ++i) {
        const auto column = columns[i].toObject();
        const auto titles = column.value(QStringLiteral("titles"));
        EXPECT_EQ((titles.isArray() ? titles.toArray().at(0) : titles).toString(), header[i]);
        EXPECT_FALSE(column.value(QStringLiteral("dc:description")).toString().isEmpty()) << header[i].toStdString();
        const auto* field = desk.catalogue().findPrintField(header[i]);
        EXPECT_EQ(column.value(QStringLiteral("schema:unitText")).toString(), field ? field->unit : QString());
    }
}

TEST(ExportTable, JsonHoldsTheSame)
{
    ImportDesk desk;
    must(desk.take(smallTerm));
    write(desk, desk.inFolder("t.json"), text("Spring"));
    const auto document = QJsonDocument::fromJson(bytesOf(desk.inFolder("t.json"))).object();
    const auto prints = document.value(QStringLiteral("prints")).toArray();
    ASSERT_EQ(prints.size(), 2);
    const auto first = prints[0].toObject();
    EXPECT_EQ(first.value(QStringLiteral("print_code")).toString(), text("A1"));
    EXPECT_EQ(first.value(QStringLiteral("coat_volume_ml")).toDouble(), 0.6);
    EXPECT_EQ(first.value(QStringLiteral("dry_covered")), QJsonValue(true));
    EXPECT_EQ(prints[1].toObject().value(QStringLiteral("coat_start")), QJsonValue(QJsonValue::Null));
    EXPECT_EQ(prints[1].toObject().value(QStringLiteral("print_outcome")).toArray().size(), 2);
    EXPECT_EQ(prints[1]
                  .toObject()
                  .value(QStringLiteral("not_measured"))
                  .toObject()
                  .value(QStringLiteral("coat_volume_ml"))
                  .toString(),
        text("estimated"));
    EXPECT_EQ(document.value(QStringLiteral("readings")).toArray().size(), 7);
    EXPECT_EQ(document.value(QStringLiteral("readings"))
                  .toArray()
                  .at(0)
                  .toObject()
                  .value(QStringLiteral("print_code"))
                  .toString(),
        text("A1"));
    EXPECT_EQ(document.value(QStringLiteral("sessions"))
                  .toArray()
                  .at(0)
                  .toObject()
                  .value(QStringLiteral("session_term"))
                  .toString(),
        text("Spring"));
    EXPECT_EQ(document.value(QStringLiteral("mixes")).toArray().size(), 1);
    EXPECT_GT(document.value(QStringLiteral("dictionary")).toArray().size(), 20);
}

TEST(ExportTable, OtherEndingsAndPlacesAreRefusedAndLeaveWhatWasThere)
{
    ImportDesk desk;
    must(desk.take(smallTerm));
    const auto selection = must(selectForExport(desk.notebook(), std::nullopt));
    EXPECT_EQ(fails(exportPrints(selection, desk.inFolder("t.pdf"))).code, Trouble::BadInput);
    EXPECT_EQ(fails(exportPrints(selection, desk.inFolder("t.html"))).code, Trouble::BadInput);
    EXPECT_EQ(fails(exportPrints(selection, desk.inFolder("t"))).code, Trouble::BadInput);
    EXPECT_EQ(fails(exportPrints(selection, desk.inFolder("none/t.csv"))).code, Trouble::NotFound);
    EXPECT_EQ(fails(exportPrints(selection, desk.inFolder("none/t.json"))).code, Trouble::NotFound);
    EXPECT_EQ(fails(exportPrints(selection, desk.inFolder("none/t.xlsx"))).code, Trouble::NotFound);
    putBytes(desk.inFolder("t.csv"), "older");
    QDir().mkdir(desk.inFolder("t.csv-metadata.json")); // the second of the two files cannot be written
    EXPECT_FALSE(exportPrints(selection, desk.inFolder("t.csv")).ok());
    EXPECT_EQ(bytesOf(desk.inFolder("t.csv")), "older");
}

TEST(ExportTable, AFieldThatWasAddedToTheCatalogueIsCarriedEverywhere)
{
    const auto grown = catalogueWithCurl();
    ImportDesk desk(grown.catalogue, grown.options());
    must(desk.take("print_code,dry_curl_mm\nA1,12.5\n"));
    write(desk, desk.inFolder("t.csv"));
    const auto table = readDelimited(bytesOf(desk.inFolder("t.csv")));
    EXPECT_EQ(table.rows.at(0).cells.value(table.header.indexOf(curlKey())), text("12.5"));
    EXPECT_TRUE(bytesOf(desk.inFolder("t.csv-metadata.json")).contains("How far the edge stands off the table."));
    write(desk, desk.inFolder("t.json"));
    EXPECT_TRUE(bytesOf(desk.inFolder("t.json")).contains("dry_curl_mm"));
    const auto entry = dictionaryEntry(*grown.catalogue.findPrintField(curlKey()));
    EXPECT_EQ(entry.unit, text("mm"));
    EXPECT_EQ(entry.station, stationLabel(Station::Dry));
    EXPECT_EQ(entry.high, 80.0);
}

TEST(ExportTable, TheDictionaryKnowsEveryField)
{
    const auto catalogue = standardCatalogue();
    for (const auto& field : catalogue.printFields()) {
        const auto entry = dictionaryEntry(field);
        EXPECT_FALSE(
            entry.label.isEmpty() || entry.kind.isEmpty() || entry.description.isEmpty() || entry.evidence.isEmpty())
            << field.key.toStdString();
        EXPECT_EQ(entry.choices.isEmpty(), field.choices.empty());
        CsvwTable table { .url = text("t.csv"),
            .title = text("T"),
            .description = {},
            .columns = { csvwColumn(field) },
            .primary_key = {} };
        EXPECT_THAT(csvwFaults(table), IsEmpty()) << field.key.toStdString();
    }
}

// ---- A spreadsheet program that is not ours

namespace {

/// Every sheet of a workbook as LibreOffice Calc turns it into CSV, numbers in full. Filter options: its documentation
/// of the filter "Text - txt - csv (StarCalc)": comma, double quotes, UTF-8, from line 1, ..., not as shown, ..., every
/// sheet.
class Spreadsheet {
public:
    [[nodiscard]] static bool installed()
    {
        return !QStandardPaths::findExecutable(QStringLiteral("soffice")).isEmpty();
    }

    explicit Spreadsheet(const QString& workbook)
    {
        convert(
            workbook, QStringLiteral("csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1"));
        convert(workbook, QStringLiteral("fods"));
        stem_ = QFileInfo(workbook).completeBaseName();
    }
    [[nodiscard]] QByteArray bytes(const char* sheet) const
    {
        return bytesOf(folder_.filePath(QStringLiteral("%1-%2.csv").arg(stem_, text(sheet))));
    }
    [[nodiscard]] DelimitedTable sheet(const char* name) const { return readDelimited(bytes(name)); }
    /// Kinds of the charts whose numbers come from the sheet Prints.
    [[nodiscard]] QStringList charts() const
    {
        static const QRegularExpression chart(
            QStringLiteral("<chart:chart [^>]*chart:class=\"([^\"]+)\"(.*?)</chart:chart>"),
            QRegularExpression::DotMatchesEverythingOption);
        const auto flat = QString::fromUtf8(bytesOf(folder_.filePath(stem_ + QStringLiteral(".fods"))));
        QStringList kinds;
        for (auto found = chart.globalMatch(flat); found.hasNext();)
            if (const auto match = found.next();
                match.captured(2).contains(QStringLiteral("cell-range-address=\"Prints.")))
                kinds << match.captured(1);
        return kinds;
    }

private:
    void convert(const QString& workbook, const QString& to)
    {
        QProcess office;
        office.start(QStringLiteral("soffice"),
            { QStringLiteral("-env:UserInstallation=file://") + folder_.filePath(QStringLiteral("profile")),
                QStringLiteral("--headless"), QStringLiteral("--convert-to"), to, QStringLiteral("--outdir"),
                folder_.path(), workbook });
        EXPECT_TRUE(office.waitForFinished(120'000));
        EXPECT_EQ(office.exitCode(), 0) << office.readAllStandardError().toStdString();
    }

    QTemporaryDir folder_;
    QString stem_;
};

} // namespace

TEST(ExportWorkbook, ASpreadsheetProgramFindsTheSameNumbersInIt)
{
    if (!Spreadsheet::installed())
        FAIL() << "LibreOffice Calc is not installed (Debian package libreoffice-calc-nogui); tests/run.sh installs it";
    ImportDesk desk;
    must(desk.take(bytesOf(QStringLiteral(WASHFAST_TEST_DATA "/tables/spring_term.csv")), true));
    const auto selection = must(selectForExport(desk.notebook(), std::nullopt));
    must(exportPrints(selection, desk.inFolder("book.xlsx")));
    const Spreadsheet book(desk.inFolder("book.xlsx"));

    const auto prints = book.sheet("Prints");
    ASSERT_EQ(prints.rows.size(), 45U);
    ASSERT_EQ(size_t(prints.header.size()), selection.fields.size() + 1);
    const PrintReader reader(desk.notebook());
    int numbers = 0;
    for (size_t row = 0; row < prints.rows.size(); ++row)
        for (size_t i = 0; i < selection.fields.size(); ++i) {
            const auto& field = selection.field(i);
            EXPECT_EQ(prints.header[qsizetype(i)], field.labelWithUnit());
            const auto known = reader.get(selection.prints[row], selection.fields[i]);
            const QString cell = prints.rows[row].cells.value(qsizetype(i));
            SCOPED_TRACE(QStringLiteral("row %1, %2: %3").arg(row).arg(field.key, cell).toStdString());
            EXPECT_EQ(cell.isEmpty(), !known.has());
            if (field.kind != Kind::Number || !known.has())
                continue;
            ++numbers;
            // A spreadsheet keeps 15 significant digits of a number when it writes it out.
            EXPECT_NEAR(cell.toDouble(), *known.number(), 1e-14 * std::max(1.0, std::abs(*known.number())));
        }
    EXPECT_GT(numbers, 900);
    EXPECT_EQ(book.sheet("Readings").rows.size(), size_t(desk.notebook().table(Entity::Reading).rows()));
    EXPECT_EQ(book.sheet("Sessions").rows.size(), 3U);
    EXPECT_EQ(book.sheet("Mixes").rows.size(), 3U);
    EXPECT_GT(book.sheet("Data dictionary").rows.size(), selection.fields.size());

    // What the spreadsheet wrote says of every print what the notebook says: labels, units in headings, dates and all.
    const auto again = must(desk.take(book.bytes("Prints")));
    EXPECT_EQ(again.already_there, 45);
    EXPECT_EQ(again.refused, 0);
    EXPECT_THAT(book.charts(), testing::ElementsAre(text("chart:scatter")));
    EXPECT_EQ(desk.look(bytesOf(desk.inFolder("book.xlsx"))).faults.size(), 1) << "a workbook itself is not a table";
}

} // namespace WASHFAST_FILE
