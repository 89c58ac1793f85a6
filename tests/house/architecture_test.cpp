// The house is built as DEVELOPERS.md says: dependencies point one way, files stay short, the top level stays tidy.
#include "tests/house/source_rules.h"

#include <QDirIterator>
#include <QFile>
#include <algorithm>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast::house;

namespace {

QString text(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        ADD_FAILURE() << "cannot read " << path.toStdString();
    return QString::fromUtf8(file.readAll());
}

QDir projectRoot()
{
    return QDir(QStringLiteral(WASHFAST_SOURCE_DIR));
}

QStringList sources(const QStringList& wildcards)
{
    QStringList found;
    for (const char* house : { "app", "core", "ui", "tests", "resources" }) {
        QDirIterator files(
            projectRoot().filePath(QLatin1String(house)), wildcards, QDir::Files, QDirIterator::Subdirectories);
        while (files.hasNext())
            found << projectRoot().relativeFilePath(files.next());
    }
    found.sort();
    return found;
}

const SourceRules& rules()
{
    static const SourceRules scanner(qtModuleHeaders());
    return scanner;
}

// What the scanner says of one line of code at that place.
std::vector<Finding> planted(const char* path, const char* line)
{
    return rules().check(QLatin1String(path), QLatin1String(line));
}

} // namespace

TEST(Architecture, KnowsTheHeadersOfQt)
{
    const auto moduleOf = qtModuleHeaders();
    EXPECT_EQ(moduleOf.value(QStringLiteral("QWidget")), QStringLiteral("QtWidgets"));
    EXPECT_EQ(moduleOf.value(QStringLiteral("qlabel.h")), QStringLiteral("QtWidgets"));
    EXPECT_EQ(moduleOf.value(QStringLiteral("QChartView")), QStringLiteral("QtCharts"));
    EXPECT_EQ(moduleOf.value(QStringLiteral("QPrinter")), QStringLiteral("QtPrintSupport"));
    EXPECT_EQ(moduleOf.value(QStringLiteral("QImage")), QStringLiteral("QtGui"));
    EXPECT_EQ(moduleOf.value(QStringLiteral("QSqlQuery")), QStringLiteral("QtSql"));
    EXPECT_EQ(moduleOf.value(QStringLiteral("QString")), QStringLiteral("QtCore"));
}

TEST(Architecture, NoFileBreaksARule)
{
    const QStringList all = sources({ QStringLiteral("*.cpp"), QStringLiteral("*.h"), QStringLiteral("*.sh"),
        QStringLiteral("*.sql"), QStringLiteral("CMakeLists.txt") });
    ASSERT_GT(all.size(), 50) << "the sources were not found";
    std::vector<Finding> findings;
    for (const QString& path : all) {
        const auto found = rules().check(path, text(projectRoot().filePath(path)));
        findings.insert(findings.end(), found.begin(), found.end());
    }
    EXPECT_THAT(findings, testing::IsEmpty());
}

TEST(Architecture, EveryTestFileHasANamespaceOfItsOwn)
{
    const QStringList tests = sources({ QStringLiteral("*_test.cpp") });
    ASSERT_GT(tests.size(), 100) << "the tests were not found";
    for (const QString& path : tests)
        EXPECT_TRUE(text(projectRoot().filePath(path)).contains(QStringLiteral("\nnamespace WASHFAST_FILE {\n")))
            << path.toStdString() << ": its body belongs in namespace WASHFAST_FILE (eight files are compiled as one)";
}

TEST(Architecture, TopLevelHoldsOnlyTheHouse)
{
    const QStringList names = projectRoot().entryList(QDir::AllEntries | QDir::NoDotAndDotDot | QDir::Hidden);
    const QStringList ignored = text(projectRoot().filePath(QStringLiteral(".gitignore"))).split(QLatin1Char('\n'));
    EXPECT_THAT(SourceRules::checkTopLevel(names, ignored), testing::IsEmpty());
}

TEST(Architecture, EveryCoreFolderIsInTheTableAndTheTableHasNoCircle)
{
    const QStringList rooms
        = QDir(projectRoot().filePath(QStringLiteral("core"))).entryList(QDir::Dirs | QDir::NoDotAndDotDot);
    for (const QString& room : rooms)
        EXPECT_TRUE(coreRooms().contains(room)) << room.toStdString();
    for (auto room = coreRooms().begin(); room != coreRooms().end(); ++room) {
        for (const QString& below : room.value()) {
            ASSERT_TRUE(coreRooms().contains(below)) << below.toStdString();
            EXPECT_FALSE(coreRooms().value(below).contains(room.key()))
                << room.key().toStdString() << " and " << below.toStdString() << " lean on each other";
            for (const QString& lower : coreRooms().value(below))
                EXPECT_TRUE(room.value().contains(lower))
                    << room.key().toStdString() << " reaches " << lower.toStdString();
        }
    }
}

struct Planted {
    const char* path;
    const char* line;
};

std::ostream& operator<<(std::ostream& out, const Planted& planted)
{
    return out << planted.path << ": " << planted.line;
}

class ABrokenRule : public testing::TestWithParam<Planted> { };

TEST_P(ABrokenRule, IsFound)
{
    const auto findings = planted(GetParam().path, GetParam().line);
    ASSERT_EQ(findings.size(), 1U) << testing::PrintToString(findings);
    EXPECT_EQ(findings.front().line, 1);
    EXPECT_EQ(findings.front().path, QLatin1String(GetParam().path));
}

INSTANTIATE_TEST_SUITE_P(Planted, ABrokenRule,
    testing::Values(Planted { "core/trial/print.h", "#include <QWidget>" },
        Planted { "core/trial/print.h", "#include <QtWidgets/QLabel>" },
        Planted { "core/trial/print.h", "#include <QtWidgets>" },
        Planted { "core/trial/print.h", "  #  include <qwidget.h>" },
        Planted { "core/causes/ledger.cpp", "#include <QChartView>" },
        Planted { "core/exchange/report.cpp", "#include <QPrinter>" },
        Planted { "core/exchange/report.cpp", "#include <QSvgRenderer>" },
        Planted { "core/report/report_pdf.cpp", "#include <QWidget>" },
        Planted { "core/exchange/report.cpp", "#include \"core/report/report_pdf.h\"" },
        Planted { "core/store/notebook.cpp", "#include <QImage>" },
        Planted { "core/density/patch.cpp", "#include <QPushButton>" },
        Planted { "core/trial/print.h", "#include \"ui/common/theme.h\"" },
        Planted { "core/trial/print.h", "#include \"app/cli/verbs.h\"" },
        Planted { "core/trial/print.h", "#include \"../quantity/value.h\"" },
        Planted { "core/quantity/value.h", "#include \"core/trial/print.h\"" },
        Planted { "core/trial/print.h", "#include \"core/stats/fisher.h\"" },
        Planted { "core/stats/fisher.h", "#include \"core/store/notebook.h\"" },
        Planted { "core/stats/fisher.h", "#include \"core/causes/answer.h\"" },
        Planted { "core/stats/fisher.h", "#include \"core/exchange/table.h\"" },
        Planted { "core/store/notebook.h", "#include \"core/causes/answer.h\"" },
        Planted { "core/causes/answer.h", "#include \"core/exchange/table.h\"" },
        Planted { "core/attic/box.h", "#include \"core/quantity/value.h\"" },
        Planted { "core/exchange/table.cpp", "#include <QSqlQuery>" },
        Planted { "ui/prints/table.cpp", "#include <QSqlQuery>" },
        Planted { "ui/prints/table.cpp", "#include <QtSql/QSqlDatabase>" },
        Planted { "ui/prints/table.cpp", "#include <sqlite3.h>" },
        Planted { "ui/prints/table.cpp", "#include \"app/window/main_window.h\"" },
        Planted { "app/cli/list.cpp", "#include <QSqlDatabase>" },
        Planted { "app/window/main_window.cpp", "#include <sqlite3.h>" },
        Planted { "app/cli/list.cpp", "#include <QMessageBox>" },
        Planted { "app/cli/list.cpp", "    file.script(\"PRAGMA user_version\");" },
        Planted { "ui/term/page.cpp", "auto rows = ask(\"SELECT id FROM print\");" },
        Planted { "core/exchange/table.cpp", "    \"INSERT INTO print VALUES (1)\"" },
        Planted { "core/light/sky.cpp", "QString say(const char* text)" },
        Planted { "ui/term/page.cpp", "QString tr(const char* words)" },
        Planted { "app/demo/prints.cpp", "#include \"ui/common/theme.h\"" },
        // \104 is D, \115 is M, \155 is m: spelt so that this file does not break the rule itself.
        Planted { "core/stats/fisher.cpp", "// TO\104O: two-sided" }, Planted { "ui/term/page.cpp", "FIX\115E" },
        Planted { "tests/store/notebook_test.cpp", "open(\"/t\155p/notebook\")" },
        Planted { "app/start.sh", "cd /ho\155e/someone" }));

class AProperLine : public testing::TestWithParam<Planted> { };

TEST_P(AProperLine, IsLeftAlone)
{
    EXPECT_THAT(planted(GetParam().path, GetParam().line), testing::IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(Planted, AProperLine,
    testing::Values(Planted { "core/trial/print.h", "#include <QString>" },
        Planted { "core/trial/print.h", "#include <optional>" },
        Planted { "core/trial/print.h", "#include \"core/quantity/value.h\"" },
        Planted { "core/trial/print.h", "#include \"core/trial/coat.h\"" },
        Planted { "core/density/patch.cpp", "#include <QImage>" },
        Planted { "core/report/report_pdf.cpp", "#include <QSvgRenderer>" },
        Planted { "core/report/report_pdf.cpp", "#include \"core/causes/answer.h\"" },
        Planted { "core/store/notebook.cpp", "#include <QSqlQuery>" },
        Planted { "core/store/backup.cpp", "#include <sqlite3.h>" },
        Planted { "core/causes/answer.h", "#include \"core/store/notebook.h\"" },
        Planted { "core/causes/answer.h", "#include \"core/stats/fisher.h\"" },
        Planted { "core/stats/fisher.cpp", "#include <Eigen/Dense>" },
        Planted { "core/stats/fisher.cpp", "// the widget of a header: QWidget" },
        Planted { "ui/prints/table.cpp", "#include <QTableView>" },
        Planted { "ui/curves/plot.cpp", "#include <QtCharts/QChart>" },
        Planted { "app/main.cpp", "#include <QApplication>" },
        Planted { "app/window/main_window.cpp", "#include \"ui/bench/bench_view.h\"" },
        Planted { "tests/store/notebook_test.cpp", "#include <QSqlQuery>" },
        Planted { "core/stats/next.cpp", "Random random(seed);" },
        Planted { "core/store/notebook.cpp", "    connection.script(\"PRAGMA user_version\");" },
        Planted { "ui/term/page.cpp", "QString label = tr(\"Update the list\");" },
        Planted { "core/quantity/field.cpp", "QString stationLabel(const char* key)" },
        Planted { "core/exchange/table.cpp", "// see https://www.w3.org/TR/work/ and a/home/b" }));

TEST(Architecture, ALongFileIsFound)
{
    const QString line = QStringLiteral("int x;\n");
    const QString path = QStringLiteral("core/stats/long.cpp");
    EXPECT_THAT(rules().check(path, line.repeated(SourceRules::mostLines)), testing::IsEmpty());
    const auto findings = rules().check(path, line.repeated(SourceRules::mostLines + 1));
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_TRUE(findings.front().says.contains(QStringLiteral("801")));
}

TEST(Architecture, AStrangerAtTheTopIsFound)
{
    const QStringList ignored { QStringLiteral("# made here"), QStringLiteral("/build*/"),
        QStringLiteral("*.washfast") };
    const QStringList names { QStringLiteral("core"), QStringLiteral(".git"), QStringLiteral(".ci"),
        QStringLiteral("build"), QStringLiteral("build-asan"), QStringLiteral("term.washfast"),
        QStringLiteral("LICENSE") };
    EXPECT_THAT(SourceRules::checkTopLevel(names, ignored), testing::IsEmpty());
    for (const char* stranger : { "src", "notes.txt", "docs", "rebuild", "package.json" }) {
        const auto findings = SourceRules::checkTopLevel(names + QStringList { QLatin1String(stranger) }, ignored);
        ASSERT_EQ(findings.size(), 1U) << stranger;
        EXPECT_EQ(findings.front().path, QLatin1String(stranger));
    }
}

} // namespace WASHFAST_FILE
