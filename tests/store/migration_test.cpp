// A notebook of an older schema is copied, brought up to date whole or not at all, and loses nothing.
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include "core/store/copies.h"
#include "core/trial/print_reader.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Access;
using store::Migration;
using store::OpenOptions;

namespace {

int newestSchema()
{
    return store::shippedMigrations().back().to;
}

/// The shipped migrations and these, numbered on from them.
OpenOptions grownBy(const std::vector<QByteArray>& scripts)
{
    OpenOptions options;
    for (const auto& sql : scripts)
        options.migrations.push_back({ options.migrations.back().to + 1, sql });
    return options;
}

const QByteArray addsCurl = "ALTER TABLE print ADD COLUMN print_curl_mm REAL;";
const QByteArray addsFrames
    = "CREATE TABLE frame (id INTEGER PRIMARY KEY, width REAL) STRICT; UPDATE print SET print_curl_mm = 1.5;";
const QByteArray breaks = "ALTER TABLE print ADD COLUMN print_warp_mm REAL; "
                          "UPDATE print SET print_notes = 'overwritten'; ALTER TABLE no_such_table ADD COLUMN x REAL;";

QString keptFile(int schema)
{
    return QStringLiteral(WASHFAST_TEST_DATA "/notebooks/schema-%1.washfast").arg(schema);
}

/// The tables' texts and the rows of the prints, however the file got there.
QStringList contents(const QString& path)
{
    Outside outside(path);
    return outside.rows("SELECT sql FROM sqlite_schema ORDER BY type, name") + outside.rows("SELECT * FROM print")
        + outside.rows("SELECT * FROM step") + outside.rows("SELECT * FROM history")
        + outside.rows("PRAGMA user_version");
}

class Migrations : public testing::Test {
protected:
    void SetUp() override { addWholePrint(*scratch_.open(), "P1"); }

    ScratchNotebook scratch_;
};

} // namespace

TEST(ShippedMigrations, AreNumberedFromOneWithoutAGap)
{
    const auto all = store::shippedMigrations();
    ASSERT_FALSE(all.empty());
    for (size_t i = 0; i < all.size(); ++i) {
        EXPECT_EQ(all[i].to, int(i) + 1);
        EXPECT_FALSE(all[i].sql.isEmpty());
    }
}

TEST(ShippedMigrations, MakeEveryColumnOfTheCatalogue)
{
    const ScratchNotebook scratch;
    const auto file = scratch.open(); // an open would fail if a column lacked
    Outside outside(scratch.path());
    for (const auto entity : allEntities()) {
        const auto columns = outside.rows(
            qPrintable(QStringLiteral("SELECT name FROM pragma_table_info('%1')").arg(entityKey(entity))));
        for (const auto& field : scratch.catalogue().columns(entity))
            EXPECT_TRUE(columns.contains(field.key)) << field.key.toStdString();
    }
}

class KeptNotebook : public testing::TestWithParam<int> { };

// The file was made by washfast_keep_notebook when the schema was released, and never touched since.
TEST_P(KeptNotebook, IsBroughtUpToDateAndReadWhole)
{
    const ScratchNotebook scratch;
    putBytes(scratch.path(), bytesOf(keptFile(GetParam())));
    const auto file = scratch.open();
    EXPECT_EQ(file->access(), Access::ReadWrite);
    EXPECT_EQ(file->schema(), newestSchema());
    EXPECT_EQ(file->copyBeforeMigration().isEmpty(), GetParam() == newestSchema());
    EXPECT_EQ(must(file->integrity()), QStringLiteral("ok"));

    const auto notebook = must(file->read());
    EXPECT_TRUE(notebook.problems.isEmpty()) << notebook.problems.join(QLatin1Char('\n')).toStdString();
    EXPECT_EQ(notebook.prints().rows(), 2) << "P3 was removed";
    const PrintReader reader(notebook);
    EXPECT_EQ(reader.get(0, u"print_code").text(), text("P1"));
    EXPECT_EQ(reader.get(0, u"coat_volume_ml"), (Known { 0.75, Evidence::Assumed }));
    EXPECT_EQ(reader.get(0, u"mix_code").text(), text("M7"));
    EXPECT_EQ(reader.get(0, u"paper_name").text(), text("Bütten 200"));
    EXPECT_EQ(reader.get(0, u"site_zone").text(), text("Europe/Vienna"));
    EXPECT_EQ(reader.get(0, u"coat_start").time()->toIso(), text("2026-05-04T08:03:00+02:00"));
    EXPECT_FALSE(reader.get(1, u"print_notes").has()) << "the note was undone";
    EXPECT_EQ(notebook.table(Entity::Weighing).rows(), 8);
    EXPECT_EQ(notebook.table(Entity::NegativeStep).rows(), 1);
    EXPECT_EQ(must(file->photo({ 1 })), QByteArray("these bytes stand for a photo"));

    // The history goes on from where it was.
    EXPECT_EQ(must(file->nextRedo()).value().label, text("Note"));
    must(file->redo());
    EXPECT_EQ(fieldOf(*file, Ref(Entity::Print, 2), "print_notes").text(), text("ran off"));
    must(file->undo());
    must(file->undo()); // the removing of P3
    EXPECT_EQ(must(file->read()).prints().rows(), 3);
    EXPECT_EQ(must(file->read()).table(Entity::Weighing).rows(), 12);
}

INSTANTIATE_TEST_SUITE_P(EverySchema, KeptNotebook, testing::Range(1, newestSchema() + 1));

TEST_F(Migrations, ACurrentFileIsNotCopied)
{
    const auto file = scratch_.open();
    EXPECT_TRUE(file->copyBeforeMigration().isEmpty());
    EXPECT_FALSE(QDir(store::copiesFolder(scratch_.path())).exists());
}

TEST_F(Migrations, AnOlderFileIsCopiedFirstAndThenGrows)
{
    const auto before = contents(scratch_.path());
    const auto file = scratch_.open(grownBy({ addsCurl, addsFrames }));
    EXPECT_EQ(file->schema(), newestSchema() + 2);
    ASSERT_TRUE(QFile::exists(file->copyBeforeMigration()));
    EXPECT_EQ(QFileInfo(file->copyBeforeMigration()).absolutePath(), store::copiesFolder(scratch_.path()));
    EXPECT_EQ(contents(file->copyBeforeMigration()), before);

    Outside outside(scratch_.path());
    EXPECT_EQ(outside.row("PRAGMA user_version").toInt(), newestSchema() + 2);
    EXPECT_EQ(outside.row("SELECT print_curl_mm FROM print"), text("1.5"));
    EXPECT_EQ(outside.row("SELECT count(*) FROM frame"), text("0"));
    EXPECT_EQ(fieldOf(*file, Ref(Entity::Print, 1), "print_code").text(), text("P1"));
}

TEST_F(Migrations, ANewColumnIsInTheHistoryByItself)
{
    const auto file = scratch_.open(grownBy({ addsCurl }));
    Outside(scratch_.path()).run("UPDATE print SET print_curl_mm = 3.5");
    const auto entries = must(file->historyOf(PrintId { 1 }));
    EXPECT_EQ(entries.back().field, text("print_curl_mm"));
    EXPECT_EQ(std::get<double>(entries.back().new_value), 3.5);
}

TEST_F(Migrations, TheCopyOpensWithTheProgramThatWroteIt)
{
    const auto copy = scratch_.open(grownBy({ addsCurl }))->copyBeforeMigration();
    const auto old = must(store::NotebookFile::open(copy, scratch_.catalogue()));
    EXPECT_EQ(old->access(), Access::ReadWrite);
    EXPECT_EQ(old->schema(), newestSchema());
    addPrint(*old, "P2");
    EXPECT_EQ(must(old->read()).prints().rows(), 2);
}

TEST_F(Migrations, AFailingOneLeavesTheFileAsItWas)
{
    const auto before = contents(scratch_.path());
    const auto error = fails(scratch_.tryOpen(grownBy({ addsCurl, addsFrames, breaks })));
    EXPECT_TRUE(error.sentence().contains(QString::number(newestSchema() + 3))) << error.sentence().toStdString();
    EXPECT_TRUE(error.sentence().contains(text("no_such_table"))) << error.sentence().toStdString();
    EXPECT_EQ(contents(scratch_.path()), before) << "not even the steps before it may stay";
    const auto file = scratch_.open(); // and it opens as before
    addPrint(*file, "P2");
    EXPECT_EQ(must(file->read()).prints().rows(), 2);
}

TEST_F(Migrations, WithoutACopyNothingIsChanged)
{
    const auto before = contents(scratch_.path());
    putBytes(store::copiesFolder(scratch_.path()), "a file where the folder should be");
    EXPECT_EQ(fails(scratch_.tryOpen(grownBy({ addsCurl }))).code, Trouble::ReadOnly);
    EXPECT_EQ(contents(scratch_.path()), before);
}

TEST_F(Migrations, AnOlderCopyIsNeverOverwritten)
{
    const auto before = bytesOf(scratch_.path());
    const auto first = scratch_.open(grownBy({ addsCurl }))->copyBeforeMigration();
    const auto first_bytes = bytesOf(first);
    putBytes(scratch_.path(), before); // somebody goes back, works on, and comes here again
    addPrint(*scratch_.open(), "P2");
    const auto second = scratch_.open(grownBy({ addsCurl }))->copyBeforeMigration();
    EXPECT_NE(first, second);
    EXPECT_EQ(bytesOf(first), first_bytes);
    EXPECT_EQ(Outside(second).row("SELECT count(*) FROM print"), text("2"));
}

TEST_F(Migrations, AWindowThatIsOpenMeanwhileGoesOnWorking)
{
    const auto old = scratch_.open();
    const auto grown = scratch_.open(grownBy({ addsCurl }));
    addPrint(*old, "P2"); // the older program does not know the new column
    EXPECT_EQ(must(grown->read()).prints().rows(), 2);
    EXPECT_EQ(must(grown->historyOf(PrintId { 2 })).size(), 1U);
}

} // namespace WASHFAST_FILE
