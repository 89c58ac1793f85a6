// The command line as another program sees it: what stands on standard output and standard error, and the exit status.
#include "tests/support/scratch_notebook.h"

#include <QJsonArray>
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

    [[nodiscard]] QJsonObject json() const
    {
        QJsonParseError error;
        const auto document = QJsonDocument::fromJson(QByteArray::fromStdString(out), &error);
        EXPECT_EQ(error.error, QJsonParseError::NoError) << out;
        return document.object();
    }
};

class CommandLine : public testing::Test {
protected:
    Ran run(const QStringList& words)
    {
        QProcess process;
        process.setWorkingDirectory(folder_.path());
        process.start(QStringLiteral(WASHFAST_PROGRAM), words);
        if (!process.waitForFinished(60'000))
            throw std::runtime_error("the program did not come back: " + process.errorString().toStdString());
        EXPECT_EQ(process.exitStatus(), QProcess::NormalExit);
        return { process.exitCode(), process.readAllStandardOutput().toStdString(),
            process.readAllStandardError().toStdString() };
    }
    Ran run(const char* words) { return run(text(words).split(QLatin1Char(' '), Qt::SkipEmptyParts)); }

    void put(const char* name, const QByteArray& bytes) { putBytes(folder_.filePath(text(name)), bytes); }
    [[nodiscard]] bool exists(const char* name) const { return QFile::exists(folder_.filePath(text(name))); }
    [[nodiscard]] QByteArray bytes(const char* name) const { return bytesOf(folder_.filePath(text(name))); }
    void copyTable() { put("spring_term.csv", bytesOf(QStringLiteral(WASHFAST_TEST_DATA "/tables/spring_term.csv"))); }

    static QJsonValue at(const QJsonObject& object, const char* key) { return object.value(text(key)); }

private:
    QTemporaryDir folder_;
};

} // namespace

TEST_F(CommandLine, HelpAndVersion)
{
    const auto help = run("--help");
    EXPECT_EQ(help.status, 0);
    for (const char* verb : { "demo", "import", "list", "causes", "export", "merge", "check" }) {
        EXPECT_THAT(help.out, HasSubstr(std::string("washfast ") + verb));
        const auto one = run(QStringList { text(verb), text("--help") });
        EXPECT_EQ(one.status, 0);
        EXPECT_THAT(one.out, HasSubstr("--json"));
        EXPECT_EQ(one.err, "");
    }
    EXPECT_EQ(run("--version").out, "washfast " WASHFAST_VERSION "\n");
}

TEST_F(CommandLine, WrongWordsAreTwo)
{
    for (const char* words : { "improt a b", "nosuchverb", "--nosuch", "list", "list a b", "list a --nosuch",
             "import a", "import a b --map x", "import a b --zone Nowhere/Town", "import a b --keep-good=1",
             "import a b --every-row x", "demo n.washfast --seed many", "export a", "export a --to",
             "export a --term x --term y --to z.csv", "causes t.csv", "check" }) {
        const auto ran = run(words);
        EXPECT_EQ(ran.status, 2) << words;
        EXPECT_EQ(ran.out, "") << words;
        EXPECT_THAT(ran.err, testing::StartsWith("washfast: ")) << words;
    }
    EXPECT_FALSE(exists("n.washfast"));
    EXPECT_THAT(run("list a --nosuch").err, HasSubstr("There is no option --nosuch here."));
    EXPECT_THAT(run("import a").err, HasSubstr("TABLE.csv is missing."));
}

TEST_F(CommandLine, WhatCannotBeDoneIsOne)
{
    put("text.txt", "not a notebook");
    put("t.csv", "print_code,coat_passes\nA1,2\n");
    for (const char* words : { "list none.washfast", "list text.txt", "check none.washfast", "check text.txt",
             "export none.washfast --to a.csv", "import n.washfast none.csv", "import text.txt t.csv",
             "causes none.csv --outcome x", "causes t.csv --outcome none", "demo text.txt" }) {
        const auto ran = run(words);
        EXPECT_EQ(ran.status, 1) << words;
        EXPECT_EQ(ran.out, "") << words;
        EXPECT_THAT(ran.err, testing::StartsWith("washfast: ")) << words;
    }
    EXPECT_FALSE(exists("none.washfast"));
    EXPECT_FALSE(exists("n.washfast"));
    EXPECT_EQ(bytes("text.txt"), "not a notebook");
}

TEST_F(CommandLine, DemoWritesOneExampleAndSparesWhatIsThere)
{
    const auto made = run("demo n.washfast --json");
    EXPECT_EQ(made.status, 0) << made.err;
    const int prints = at(made.json(), "prints").toInt();
    EXPECT_GT(prints, 20);
    const auto again = run("demo n.washfast");
    EXPECT_EQ(again.status, 1);
    EXPECT_THAT(again.err, HasSubstr("has records already"));
    const auto check = run("check n.washfast --json");
    EXPECT_EQ(check.status, 0);
    EXPECT_EQ(at(check.json(), "integrity").toString(), text("ok"));
    EXPECT_EQ(at(check.json(), "prints").toInt(), prints);
    EXPECT_GE(at(check.json(), "schema").toInt(), 1);
    EXPECT_TRUE(at(check.json(), "findings").isArray());
}

TEST_F(CommandLine, ImportNamesTheRefusedRowsAndTakesAllOrNothing)
{
    copyTable();
    const auto nothing = run("import n.washfast spring_term.csv --zone Europe/Berlin --json");
    EXPECT_EQ(nothing.status, 1);
    EXPECT_FALSE(exists("n.washfast")) << "not even an empty notebook";
    EXPECT_THAT(nothing.err, HasSubstr("spring_term.csv: Line 7, Mix on the sheet [µL]: “3O0” is not a number."));
    EXPECT_THAT(nothing.err, HasSubstr("7 of 52 rows cannot be taken as they are, so nothing is imported."));
    const auto json = nothing.json();
    EXPECT_EQ(at(json, "applied"), QJsonValue(false));
    EXPECT_EQ(at(json, "imported").toInt(), 0);
    EXPECT_EQ(at(json, "rows_refused").toInt(), 7);
    std::vector<int> lines;
    for (const auto& one : at(json, "refused").toArray()) {
        lines.push_back(one.toObject().value(QStringLiteral("line")).toInt());
        EXPECT_FALSE(one.toObject().value(QStringLiteral("says")).toString().isEmpty());
    }
    EXPECT_THAT(lines, testing::ElementsAre(7, 14, 21, 26, 32, 40, 46));

    const auto only_look = run("import n.washfast spring_term.csv --zone Europe/Berlin --keep-good --dry-run");
    EXPECT_EQ(only_look.status, 0);
    EXPECT_EQ(only_look.out, "45 prints would be imported; already there: 0, rows refused: 7.\n");
    EXPECT_FALSE(exists("n.washfast"));

    const auto good
        = run("import n.washfast spring_term.csv --zone Europe/Berlin --keep-good --map Bemerkung=print_notes --json");
    EXPECT_EQ(good.status, 0) << good.err;
    EXPECT_EQ(at(good.json(), "imported").toInt(), 45);
    EXPECT_EQ(at(good.json(), "not_read").toArray().size(), 1);
    const auto again
        = run("import n.washfast spring_term.csv --zone Europe/Berlin --keep-good --map Bemerkung=print_notes");
    EXPECT_EQ(again.status, 0);
    EXPECT_EQ(again.out, "0 prints imported; already there: 45, rows refused: 7.\n");
}

TEST_F(CommandLine, ImportSaysWhatIsWrongWithTheHeadings)
{
    put("t.csv", "Blatt,Menge [g]\nA1,2\n");
    const auto ran = run("import n.washfast t.csv");
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("No heading of this table names a field"));
    const auto unit = run(QStringList {
        text("import"), text("n.washfast"), text("t.csv"), text("--map"), text("Menge [g]=coat_volume_ml") });
    EXPECT_EQ(unit.status, 1);
    EXPECT_THAT(unit.err, HasSubstr("cannot be turned into the mL"));
    const auto mapped = run(QStringList { text("import"), text("n.washfast"), text("t.csv"), text("--map"),
        text("Menge [g]=mass_bare_g"), text("--map=Blatt=print_code"), text("--every-row"), text("session_code=S1") });
    EXPECT_EQ(mapped.status, 0) << mapped.err;
    const auto print = at(run("list n.washfast --columns mass_bare_g,session_code --json").json(), "prints")
                           .toArray()
                           .at(0)
                           .toObject();
    EXPECT_EQ(at(print, "mass_bare_g").toDouble(), 2);
    EXPECT_EQ(at(print, "session_code").toString(), text("S1"));
    put("bad.csv", "print_code,coat_tool\nA2,sponge\n");
    EXPECT_EQ(run("import n.washfast bad.csv --keep-good").status, 1) << "not one row";
}

TEST_F(CommandLine, ListFiltersAndKeepsFullPrecision)
{
    put("t.csv",
        "print_code,coat_volume_ml,coat_tool,coat_start\nA1,0.123456789012345,rod,2026-05-04T10:15:00+02:00\nA2,~0.5,"
        "brush,\n");
    ASSERT_EQ(run("import n.washfast t.csv").status, 0);
    const auto one = run(QStringList { text("list"), text("n.washfast"), text("--where"), text("coat_tool = rod"),
        text("--json"), text("--columns"), text("print_code,coat_volume_ml,coat_start,coat_passes") });
    EXPECT_EQ(one.status, 0) << one.err;
    const auto prints = at(one.json(), "prints").toArray();
    ASSERT_EQ(prints.size(), 1);
    const auto print = prints.at(0).toObject();
    EXPECT_EQ(at(print, "coat_volume_ml").toDouble(), 0.123456789012345);
    EXPECT_EQ(at(print, "coat_start").toString(), text("2026-05-04T10:15:00+02:00"));
    EXPECT_TRUE(at(print, "coat_passes").isNull());
    EXPECT_TRUE(print.contains(text("coat_passes"))) << "missing is null";
    const auto all = run("list n.washfast --columns print_code,coat_volume_ml");
    EXPECT_EQ(all.out,
        "print_code  coat_volume_ml\n----------  --------------\nA1          0.12          \nA2          ≈0.50         "
        "\n");
    const auto wrong = run(QStringList { text("list"), text("n.washfast"), text("--where"), text("coat_tool = ") });
    EXPECT_EQ(wrong.status, 2);
    EXPECT_THAT(wrong.err, HasSubstr("character"));
    EXPECT_EQ(run("list n.washfast --columns none").status, 2);
}

TEST_F(CommandLine, ExportWritesWhatItSaysAndListsTheTerms)
{
    put("t.csv", "print_code,session_code,term_name,coat_passes\nA1,S1,Spring,2\nA2,S2,Autumn,3\n");
    ASSERT_EQ(run("import n.washfast t.csv").status, 0);
    const auto done = run("export n.washfast --term Spring --to out.csv --json");
    EXPECT_EQ(done.status, 0) << done.err;
    EXPECT_EQ(at(done.json(), "prints").toInt(), 1);
    for (const auto& file : at(done.json(), "files").toArray())
        EXPECT_TRUE(exists(file.toString().toUtf8().constData())) << file.toString().toStdString();
    EXPECT_THAT(bytes("out.csv").toStdString(), HasSubstr("A1,S1,Spring"));
    const auto wrong = run("export n.washfast --term Winter --to out.json");
    EXPECT_EQ(wrong.status, 1);
    EXPECT_THAT(wrong.err, HasSubstr("The terms are: Spring, Autumn."));
    EXPECT_FALSE(exists("out.json"));
    const auto ending = run("export n.washfast --to out.doc");
    EXPECT_EQ(ending.status, 1);
    EXPECT_THAT(ending.err, HasSubstr(".html or .pdf"));
    EXPECT_EQ(run("export n.washfast --to out.json").status, 0);
    EXPECT_EQ(run("export n.washfast --to out.xlsx").status, 0);
    EXPECT_TRUE(bytes("out.xlsx").startsWith("PK"));
}

TEST_F(CommandLine, CheckTellsWhatContradictsAndFailsOnlyForADamagedFile)
{
    put("t.csv", "print_code,coat_volume_ml\nA1,700\nA2,0.6\n");
    ASSERT_EQ(run("import n.washfast t.csv --any-size").status, 0);
    const auto advice = run("check n.washfast --json");
    EXPECT_EQ(advice.status, 0) << "findings are advice";
    const auto findings = at(advice.json(), "findings").toArray();
    ASSERT_EQ(findings.size(), 1);
    EXPECT_EQ(at(findings.at(0).toObject(), "print").toString(), text("A1"));
    EXPECT_EQ(at(findings.at(0).toObject(), "field").toString(), text("coat_volume_ml"));

    auto damaged = bytes("n.washfast");
    for (qsizetype i = damaged.size() / 2; i < damaged.size(); ++i)
        damaged[i] = char(0x55);
    put("broken.washfast", damaged);
    const auto broken = run("check broken.washfast --json");
    EXPECT_EQ(broken.status, 1);
    EXPECT_FALSE(broken.err.empty());
}

TEST_F(CommandLine, CausesTakesATableOrANotebook)
{
    QByteArray table = "code,damp,tray,failed\n";
    for (int i = 0; i < 24; ++i) {
        const bool damp = i < 8;
        table += "P" + QByteArray::number(i) + (damp ? ",yes," : ",no,") + QByteArray::number(i % 3)
            + (damp && i > 0 ? ",yes\n" : ",no\n");
    }
    put("t.csv", table);
    const auto ran = run("causes t.csv --outcome failed --factors damp,tray --model damp --json");
    EXPECT_EQ(ran.status, 0) << ran.err;
    const auto json = ran.json();
    for (const char* key : { "answer", "factors_named", "why", "outcome", "n", "n_failed", "factors", "firth_model",
             "missing", "warnings" })
        EXPECT_TRUE(json.contains(text(key))) << key;
    EXPECT_EQ(at(json, "answer").toString(), text("cause"));
    EXPECT_EQ(at(json, "factors_named").toArray().at(0).toString(), text("damp"));
    EXPECT_EQ(at(json, "n").toInt(), 24);
    EXPECT_EQ(at(json, "n_failed").toInt(), 7);
    // Fisher's exact test, two-sided, of 7 of 8 against 0 of 16: the hypergeometric weights of 7 and 0 failures among
    // the eight are C(8,7)/C(24,7) = 8/346,104 and C(16,7)/C(24,7) = 0.033; only the first is as rare as what was seen.
    EXPECT_NEAR(at(at(json, "factors").toArray().at(0).toObject(), "p_exact").toDouble(), 8.0 / 346104.0, 1e-12);
    EXPECT_EQ(run("causes t.csv --outcome failed --model none").status, 2);
    EXPECT_EQ(run("causes t.csv --outcome failed --where x").status, 1);
    EXPECT_THAT(run("causes t.csv --outcome failed --factors damp,tray").out, HasSubstr("Answer: a cause"));

    ASSERT_EQ(run("demo n.washfast").status, 0);
    const auto notebook
        = run("causes n.washfast --outcome is_ran_off --factors touch_at_expose,mix_code --block session_code --json");
    EXPECT_EQ(notebook.status, 0) << notebook.err;
    EXPECT_EQ(at(notebook.json(), "factors").toArray().size(), 2);
    const auto groups = run(QStringList { text("causes"), text("n.washfast"), text("--where"), text("kept < 0.5"),
        text("--against"), text("kept >= 0.8"), text("--json") });
    EXPECT_EQ(groups.status, 0) << groups.err;
    EXPECT_GT(at(groups.json(), "n").toInt(), at(groups.json(), "n_failed").toInt());
    const auto both = run(QStringList { text("causes"), text("n.washfast"), text("--where"), text("kept < 0.5"),
        text("--against"), text("kept < 0.9") });
    EXPECT_EQ(both.status, 1);
    EXPECT_THAT(both.err, HasSubstr("A print cannot be in both groups"));
}

} // namespace WASHFAST_FILE
