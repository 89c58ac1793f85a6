// The command line in a made-up language: help, results for people, and what it says when something is wrong. Verbs,
// options, keys and what stands in the files stay as they are.
#include "app/cli/cli.h"
#include "app/cli/verb.h"
#include "tests/i18n/made_up_language.h"
#include "tests/i18n/seen_text.h"
#include "tests/support/rendered_photo.h"
#include "tests/support/scratch_notebook.h"

#include "app/cli/whole_catalogue.h"
#include "core/chemistry/recipe.h"
#include "core/density/marks.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::i18n;

namespace {

class CommandInWords : public testing::Test {
protected:
    void SetUp() override
    {
        catalogue = std::make_unique<Catalogue>(wholeCatalogue());
        QDir::setCurrent(folder.path());
        for (const auto& verb : cli::verbs()) {
            data.add(QString::fromLatin1(verb.name));
            for (const char* file : verb.shape.files)
                data.add(QString::fromLatin1(file));
            for (const auto& option : verb.shape.options) {
                data.add(QString::fromLatin1(option.name));
                if (option.value)
                    data.add(QString::fromLatin1(option.value));
            }
        }
        for (const auto entity : allEntities())
            for (const auto& field : catalogue->columns(entity)) {
                data.add(field.unit);
                data.add(field.key);
                for (const auto& choice : field.choices)
                    data.add(choice.key);
            }
        for (const auto& field : catalogue->printFields()) {
            data.add(field.unit);
            data.add(field.key);
        }
        for (const auto& recipe : chemistry::recipes())
            data.add(recipe.key);
        // Names of a JSON document, of parameters and of marks, as the documents of the formats have them; the folder.
        data.add(QStringLiteral("washfast help version regions d_min d_max midpoint_log_h slope_per_log_h max_gradient "
                                "toe_log_h shoulder_log_h range_log_h metadata log_h copies before Xx"));
        data.add(folder.path());
    }
    void TearDown() override
    {
        QDir::setCurrent(home);
        EXPECT_EQ(language.takeMissing(), "") << "asked for and in no translation";
    }

    /// Runs it; what it says is held against the words of the call and the data.
    int run(const QStringList& words)
    {
        testing::internal::CaptureStdout();
        testing::internal::CaptureStderr();
        const int status = cli::run(words);
        std::fflush(stdout);
        std::fflush(stderr);
        out = QString::fromStdString(testing::internal::GetCapturedStdout());
        const auto err = QString::fromStdString(testing::internal::GetCapturedStderr());
        for (const auto& word : words)
            data.add(word);
        const auto call = words.join(QLatin1Char(' '));
        if (words.contains(QStringLiteral("--json"))) {
            readJson(call, QJsonDocument::fromJson(out.toUtf8()).object());
        } else {
            for (const auto& line : out.split(QLatin1Char('\n')))
                seen.add(call, line);
        }
        for (const auto& line : err.split(QLatin1Char('\n')))
            seen.add(call, line);
        return status;
    }
    int run(const char* words) { return run(text(words).split(QLatin1Char(' '), Qt::SkipEmptyParts)); }
    void put(const char* name, const QByteArray& bytes) { putBytes(folder.filePath(text(name)), bytes); }
    void expectNothingLeft() { EXPECT_TRUE(seen.leftIn(data).empty()) << seen.leftIn(data); }
    static QString text(const char* utf8) { return QString::fromUtf8(utf8); }

    MadeUpLanguage& language = MadeUpLanguage::spoken();
    QString home = QDir::currentPath();
    QTemporaryDir folder;
    std::unique_ptr<Catalogue> catalogue;
    DataWords data;
    SeenText seen;
    QString out;

private:
    /// Sentences of an object: under these keys a person is spoken to.
    void readJson(const QString& call, const QJsonValue& value, const QString& key = {})
    {
        static const QStringList spoken { text("says"), text("why"), text("warnings"), text("faults"), text("not_read"),
            text("note"), text("label"), text("seen_says"), text("title"), text("evidence_for"),
            text("evidence_against"), text("rival_would_show"), text("unit_says"), text("steps"), text("cautions"),
            text("source") };
        if (value.isObject()) {
            const auto object = value.toObject();
            for (auto member = object.begin(); member != object.end(); ++member)
                readJson(call, member.value(), member.key());
        } else if (value.isArray()) {
            for (const auto& item : value.toArray())
                readJson(call, item, key);
        } else if (value.isString() && spoken.contains(key)) {
            seen.add(call + QStringLiteral(" ") + key, value.toString());
        }
    }
};

} // namespace

TEST_F(CommandInWords, HelpAndWrongWords)
{
    EXPECT_EQ(run("--help"), 0);
    EXPECT_EQ(run("--version"), 0);
    for (const auto& verb : cli::verbs())
        EXPECT_EQ(run({ QString::fromLatin1(verb.name), text("--help") }), 0);
    for (const char* words :
        { "improt a b", "--nosuch", "list", "list a b", "list a --nosuch", "import a", "import a b --map x",
            "import a b --zone Nowhere/Town", "import a b --keep-good=1", "import a b --every-row x",
            "demo n.washfast --seed many", "export a", "export a --to", "export a --term x --term y --to z.csv",
            "causes t.csv", "check", "curve", "density p.jpg", "mix", "mix --formula none --sheets 3 --size 10x10",
            "mix --weighed x", "mix --weighed K3[Fe(CN)6]=much --water 2", "mix --formula traditional --sheets 3",
            "mix --formula traditional --sheets 3 --size large", "mix --molar-mass Xx2", "sun", "sun --lat 1 --lon 2",
            "sun --lat 100 --lon 2 --at 2026-06-20T12:00Z", "sun --lat 1 --lon 2 --at noon",
            "sun --lat 1 --lon 2 --at 2026-06-20T12:00",
            "sun --lat 1 --lon 2 --at 2026-06-20T12:00Z --zone Nowhere/Town",
            "sun --lat 1 --lon 2 --at 2026-06-20T12:00Z --until 2026-06-20T11:00Z",
            "sun --lat 1 --lon 2 --at 2026-06-20T12:00Z --disc maybe",
            "sun --lat 1 --lon 2 --at 2026-06-20T12:00Z --ground moss",
            "sun --lat 1 --lon 2 --at 2026-06-20T12:00Z --cover brick:4mm",
            "sun --lat 1 --lon 2 --at 2026-06-20T12:00Z --cover file:none.csv",
            "sun --lat 1 --lon 2 --at 2026-06-20T12:00Z --tilt 20",
            "sun --lat 1 --lon 2 --at 2026-06-20T12:00Z --weighting none",
            "sun --lat 1 --lon 2 --at 2026-03-29T02:30 --zone Europe/Berlin" })
        EXPECT_NE(run(words), 0) << words;
    expectNothingLeft();
}

TEST_F(CommandInWords, WhatCannotBeDone)
{
    put("text.txt", "not a notebook");
    put("short.washfast", "SQLite format 3");
    put("t.csv", "print_code,coat_passes\nA1,2\n");
    const QByteArray bad = "print_code,coat_volume_ml,coat_start,print_outcome,Remark\nX1,much,yesterday,odd,fine\n"
                           ",0.5,,,\nX1,9000,,,\nX2,-1,,,\n";
    put("bad.csv", bad);
    data.add(QString::fromUtf8(bad));
    put("odd.csv", "a,a,\n1,2,3,4\n\"open,1\n");
    put("nul.csv", QByteArray("a,b\n1,\0\n", 8));
    put("empty.csv", "");
    put("book.csv", QByteArray("PK\x03\x04") + QByteArray(200, '\0'));
    put("few.csv", "log_h,density\n0,1\n");
    put("zero.csv", "h,density\n0,1\n-1,2\n2,3\n");
    put("other.csv", "x,y\n1,2\n");
    put("photo.jpg", QByteArray("\xFF\xD8\xFF\xE0", 4) + QByteArray(20, 'x'));
    put("cut.png", QByteArray("\x89PNG\r\n\x1a\n", 8));
    put("marks.json", "{ \"regions\": 3 }");
    put("bad.json", "{ not");
    ASSERT_EQ(run("import n.washfast t.csv"), 0);
    ASSERT_EQ(run("import m.washfast t.csv"), 0);
    for (const char* words :
        { "list none.washfast", "list text.txt", "list short.washfast", "check none.washfast", "check text.txt",
            "export none.washfast --to a.csv", "export n.washfast --to a.doc", "export n.washfast --to no/where.csv",
            "export n.washfast --term None --to a.csv", "export n.washfast --to no/where.xlsx",
            "import n.washfast none.csv", "import text.txt t.csv", "import n.washfast bad.csv",
            "import n.washfast odd.csv", "import n.washfast nul.csv", "import n.washfast empty.csv",
            "import n.washfast book.csv", "import n.washfast t.csv --map print_code=none",
            "import n.washfast bad.csv --every-row none=3", "import n.washfast bad.csv --every-row coat_volume_ml=much",
            "merge n.washfast none.washfast", "merge n.washfast text.txt", "merge n.washfast n.washfast",
            "causes none.csv --outcome x", "causes t.csv --outcome none",
            "causes t.csv --outcome coat_passes --where x", "causes n.washfast --outcome none",
            "causes n.washfast --outcome kept --where x", "next t.csv --outcome none", "demo text.txt",
            "demo n.washfast", "list n.washfast --columns none", "curve missing.csv", "curve few.csv", "curve zero.csv",
            "curve other.csv", "curve few.csv --fix colour=3", "curve few.csv --target much",
            "density none.jpg --marks marks.json", "density photo.jpg --marks none.json",
            "density photo.jpg --marks bad.json", "density photo.jpg --marks marks.json",
            "density cut.png --marks marks.json", "density text.txt --marks marks.json" })
        EXPECT_NE(run(words), 0) << words;
    for (const char* filter : { "kept <", "nonsense = 4", "kept < x", "(kept < 1", "kept < 1)", "kept and",
             "kept has 3", "print_outcome = nothing", "\"open", "coat_start > noon", "kept = unknown", "coat > 3" })
        EXPECT_NE(run({ text("list"), text("n.washfast"), text("--where"), text(filter) }), 0) << filter;
    expectNothingLeft();
}

TEST_F(CommandInWords, ResultsForPeople)
{
    ASSERT_EQ(run("demo n.washfast"), 0);
    {
        auto file = must(store::NotebookFile::open(text("n.washfast"), *catalogue));
        const auto book = must(file->read());
        data.add(book, *catalogue);
    }
    const QByteArray table = "print_code,session_code,coat_volume_ml,print_outcome,Remark\nX1,S7,0.6,kept,fine\n"
                             "X2,S7,much,kept,poor\nX1,S7,0.7,pale,twice\n";
    put("t.csv", table);
    data.add(QString::fromUtf8(table));
    QByteArray tangled = "code,failed,damp,glass,x\n";
    QByteArray cause = "code,failed,damp,x\n";
    for (int i = 0; i < 20; ++i) {
        const QByteArray bad = i < 10 ? "yes" : "no";
        const QByteArray other = i % 2 ? "yes" : "no";
        tangled += "P" + QByteArray::number(i) + ',' + bad + ',' + bad + ',' + bad + ',' + other + '\n';
        cause += "P" + QByteArray::number(i) + ',' + bad + ',' + bad + ',' + other + '\n';
    }
    put("tangled.csv", tangled);
    put("cause.csv", cause);
    QByteArray wedge = "log_h,density\n";
    for (int i = 0; i <= 20; ++i) {
        const double x = -1.5 + 0.15 * i;
        wedge += QByteArray::number(x) + ',' + QByteArray::number(0.06 + 1.30 / (1 + std::exp(-4.6 * x))) + '\n';
    }
    put("wedge.csv", wedge);
    Scene scene;
    scene.patches = { { "white", 0.05, 0.05, 0.15, 0.15, { 0.05, 0.05, 0.05 } },
        { "grey", 0.25, 0.05, 0.15, 0.15, { 0.70, 0.70, 0.70 } },
        { "deep", 0.45, 0.35, 0.20, 0.30, { 1.10, 0.85, 0.45 } } };
    scene.noise = 1;
    put("photo.jpg", encode(render(scene, 1), "jpeg", 95));
    density::Marks marks;
    marks.corners = scene.corners;
    for (const auto& patch : scene.patches)
        marks.regions.push_back({ text(patch.name),
            density::rectangle(patch.u + 0.03, patch.v + 0.03, patch.width - 0.06, patch.height - 0.06), {}, {} });
    marks.regions[0].density = scene.patches[0].density;
    marks.regions[1].density = scene.patches[1].density;
    put("marks.json", density::writeMarks(marks));
    data.add(text("white grey deep code failed damp glass tangled cause wedge"));
    for (const QString& also : { QString(), text(" --json") })
        for (const char* words :
            { "list n.washfast", "list n.washfast --columns print_code,coat_tool,expose_start,kept", "check n.washfast",
                "causes tangled.csv --outcome failed", "causes cause.csv --outcome failed",
                "causes tangled.csv --outcome failed --model damp,x", "next tangled.csv --outcome failed",
                "next cause.csv --outcome failed", "causes n.washfast --outcome is_ran_off --block session_code",
                "next n.washfast --outcome is_ran_off", "curve wedge.csv --target 0.66 --target 3",
                "density photo.jpg --marks marks.json",
                "mix --formula traditional --sheets 30 --size 148x210 --coat 20 --spare 10",
                "mix --formula iron_chloride --sheets 3 --size 148x210",
                "mix --weighed FeCl3.6H2O=0.60 --weighed C6H8O7.H2O=0.66 --weighed K3[Fe(CN)6]=0.27 --water 20",
                "mix --weighed NH4HCO3.NH2COONH4=2.60 --weighed FeCl3=0.66 --weighed K3[Fe(CN)6]=5 --water 20",
                "sun --lat 52 --lon 13 --at 2026-06-20T12:00+02:00 --until 2026-06-20T12:30+02:00 --cover glass:4mm",
                "sun --lat 70 --lon 13 --at 2026-12-20T12:00+02:00 --weighting coat --cloud 4 --disc partly",
                "import fresh.washfast t.csv --zone Europe/Berlin --keep-good --dry-run",
                "import fresh.washfast t.csv --zone Europe/Berlin --keep-good", "export n.washfast --to out.csv",
                "export n.washfast --to out.html", "merge fresh.washfast n.washfast" })
            EXPECT_EQ(run((text(words) + also
                          + (also.isEmpty() || !QLatin1String(words).startsWith(QLatin1String("export"))
                                  ? QString()
                                  : text(" --replace")))
                              .split(QLatin1Char(' '), Qt::SkipEmptyParts)),
                0)
                << words << also.toStdString();
    expectNothingLeft();
}

} // namespace WASHFAST_FILE
