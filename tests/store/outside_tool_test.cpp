// Any tool for SQLite can open a notebook; here it is the sqlite3 command. What such a tool writes is in the history
// too.
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Writer;

namespace {

const Ref first(Entity::Print, 1);

class OutsideTool : public testing::Test {
protected:
    void SetUp() override
    {
        file_ = scratch_.open();
        addWholePrint(*file_, "P1", 3);
        must(setField(*file_, first, "print_notes", Known { text("blau; \"ran off\"") }));
    }
    [[nodiscard]] QStringList ask(const char* sql) const { return sqlite3Command(scratch_.path(), sql); }

    ScratchNotebook scratch_;
    std::unique_ptr<store::NotebookFile> file_;
};

} // namespace

TEST_F(OutsideTool, ReadsTheNotebookWhileItIsOpen)
{
    EXPECT_EQ(ask("PRAGMA integrity_check"), QStringList { text("ok") });
    EXPECT_EQ(
        ask("SELECT print_code, print_notes, print_width_mm, coat_start, dry_covered, print_mix IS NULL FROM print"),
        QStringList { text("P1|blau; \"ran off\"|100.0|2026-05-04T08:03:00+02:00|0|1") });
    EXPECT_EQ(ask("SELECT weigh_state FROM weighing WHERE print = 1 ORDER BY id"),
        (QStringList { text("bare"), text("coated"), text("before_expose"), text("before_rinse") }));
    EXPECT_EQ(
        ask("SELECT json_extract(not_measured, '$.dry_temperature_c') FROM print"), QStringList { text("estimated") });
}

// Every value of every row, as the command prints it, against what the program reads.
TEST_F(OutsideTool, ReadsEveryValueThatTheProgramReads)
{
    const auto notebook = must(file_->read());
    int compared = 0;
    for (const auto entity : allEntities())
        for (const auto& field : scratch_.catalogue().columns(entity)) {
            const auto sql = QStringLiteral(
                "SELECT id || '=' || coalesce(quote(%1), 'NULL') FROM %2 WHERE removed = 0 ORDER BY id")
                                 .arg(field.key, entityKey(entity));
            QStringList expected;
            const auto& table = notebook.table(entity);
            for (int row = 0; row < table.rows(); ++row) {
                const auto known = table.at(row, field.ordinal);
                QString said = QStringLiteral("NULL");
                if (const auto yes = known.yes())
                    said = *yes ? QStringLiteral("1") : QStringLiteral("0");
                else if (const auto number = known.number()) {
                    said = QString::number(*number, 'g', 15);
                    if (!said.contains(QLatin1Char('.')) && !said.contains(QLatin1Char('e')))
                        said += QStringLiteral(".0"); // how SQLite writes a whole REAL
                } else if (const auto time = known.time())
                    said = QLatin1Char('\'') + time->toIso() + QLatin1Char('\'');
                else if (const auto text = known.text())
                    said = QLatin1Char('\'') + *text + QLatin1Char('\'');
                else if (const auto link = known.link())
                    said = QString::number(*link);
                compared += known.has() ? 1 : 0;
                expected << QStringLiteral("%1=%2").arg(table.id(row)).arg(said);
            }
            QStringList got = ask(qPrintable(sql));
            if (field.kind == Kind::Number) // 17 digits where 15 are not enough: compare as numbers
                for (qsizetype i = 0; i < got.size() && i < expected.size(); ++i) {
                    const auto number = got[i].section(QLatin1Char('='), 1).toDouble();
                    const auto wanted = table.at(int(i), field.ordinal).number();
                    if (wanted && *wanted == number)
                        got[i] = expected[i];
                }
            EXPECT_EQ(got, expected) << field.key.toStdString();
        }
    EXPECT_GT(compared, 60);
}

TEST_F(OutsideTool, ChangesAreInTheHistoryWithoutAStepAndAreNotUndone)
{
    auto notebook = must(file_->read());
    (void)file_->changedElsewhere();
    (void)ask("UPDATE print SET coat_passes = 7 WHERE print_code = 'P1'");
    EXPECT_TRUE(file_->changedElsewhere());
    const auto changes = must(file_->refresh(notebook));
    ASSERT_EQ(changes.size(), 1U);
    EXPECT_EQ(changes.front().row, first);
    EXPECT_EQ(changes.front().field, text("coat_passes"));
    EXPECT_EQ(notebook.get(first, u"coat_passes"), Known { 7.0 });

    const auto entry = must(file_->historyOf(first)).back();
    EXPECT_EQ(entry.step, 0) << "of no step of ours";
    EXPECT_TRUE(entry.step_label.isNull());
    EXPECT_EQ(std::get<double>(entry.old_value), 3.0);
    EXPECT_EQ(std::get<double>(entry.new_value), 7.0);
    EXPECT_EQ(Outside(scratch_.path()).row("SELECT step FROM history ORDER BY id DESC LIMIT 1"), text("NULL"));

    EXPECT_EQ(must(file_->nextUndo())->label, text("Set print_notes")) << "the last thing that was done here";
    must(file_->undo());
    EXPECT_EQ(fieldOf(*file_, first, "coat_passes"), Known { 7.0 });
    EXPECT_FALSE(fieldOf(*file_, first, "print_notes").has());
}

TEST_F(OutsideTool, AddedRowsAreTakenIn)
{
    auto notebook = must(file_->read());
    (void)ask("INSERT INTO print(uuid, print_code, coat_volume_ml) VALUES ('1b4e28ba-2fa1-41d2-883f-0016d3cca427', "
              "'X1', 0.5); "
              "INSERT INTO bath(uuid, print, bath_position, bath_minutes) SELECT 'b1', id, 1, 6 FROM print WHERE "
              "print_code = 'X1'");
    const auto changes = must(file_->refresh(notebook));
    EXPECT_EQ(changes.size(), 2U);
    const auto id = notebook.byName(Entity::Print, text("X1"));
    ASSERT_TRUE(id);
    EXPECT_EQ(notebook.get({ Entity::Print, *id }, u"coat_volume_ml"), Known { 0.5 });
    EXPECT_EQ(notebook.children(Entity::Bath, *id).size(), 1U);
    EXPECT_EQ(differences(notebook, must(file_->read())), QStringList());
    EXPECT_EQ(must(file_->nextUndo())->label, text("Set print_notes"));
}

TEST_F(OutsideTool, CannotBreakTheHistory)
{
    EXPECT_THROW((void)ask("DELETE FROM history"), std::runtime_error);
    EXPECT_THROW((void)ask("DELETE FROM print"), std::runtime_error);
    EXPECT_THROW((void)ask("REPLACE INTO print(id, uuid) VALUES (1, 'u')"), std::runtime_error);
    EXPECT_EQ(must(file_->read()).prints().rows(), 1);
}

TEST_F(OutsideTool, ADumpMakesANotebookAgain)
{
    const auto dump = sqlite3Command(scratch_.path(), ".dump").join(QLatin1Char('\n'));
    const ScratchNotebook again;
    {
        Outside made(again.path());
        // A dump leaves these two out.
        const auto version = sqlite3Command(scratch_.path(), "PRAGMA user_version").join(QString());
        made.run("PRAGMA application_id = 1464233570");
        made.run(("PRAGMA user_version = " + version.toUtf8()).constData());
        made.run(dump.toUtf8().constData());
    }
    const auto file = again.open();
    EXPECT_EQ(differences(must(file->read()), must(file_->read())), QStringList());
    must(file->undo());
    EXPECT_FALSE(fieldOf(*file, first, "print_notes").has());
}

} // namespace WASHFAST_FILE
