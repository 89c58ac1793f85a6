// What the file itself refuses, whoever writes to it: wrong types, dangling links, deleting, and any change of the
// history.
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>
#include <set>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

/// Two whole prints, an edit and a photo, made once and copied for each test.
const QByteArray& filledNotebook()
{
    static const QByteArray bytes = [] {
        const ScratchNotebook scratch;
        auto file = scratch.open();
        addWholePrint(*file, "P1");
        addWholePrint(*file, "P2", 1);
        must(setField(*file, Ref(Entity::Print, 1), "coat_passes", Known { 4.0 }));
        must(file->perform(QStringLiteral("Photo"), [](store::Writer& writer) -> Outcome {
            const auto photo = writer.addPhoto(1, QByteArray("\xff\xd8 not really a picture"), {});
            return photo.ok() ? Outcome(Done {}) : Outcome(photo.error());
        }));
        file.reset();
        return bytesOf(scratch.path());
    }();
    return bytes;
}

class Strictness : public testing::Test {
protected:
    void SetUp() override { putBytes(scratch_.path(), filledNotebook()); }
    [[nodiscard]] QStringList everything()
    {
        Outside outside(scratch_.path());
        QStringList all;
        for (const char* table : { "print", "exposure", "step", "history", "photo", "photo_data" })
            all += outside.rows(qPrintable(QStringLiteral("SELECT * FROM %1 ORDER BY 1").arg(text(table))));
        return all;
    }

    ScratchNotebook scratch_;
};

} // namespace

TEST_F(Strictness, EveryTableIsStrict)
{
    Outside outside(scratch_.path());
    EXPECT_EQ(outside.rows("SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' "
                           "AND name NOT LIKE 'sqlite%' AND strict = 0"),
        QStringList());
    EXPECT_GE(outside.row("SELECT count(*) FROM pragma_table_list WHERE strict = 1").toInt(), entityCount + 4);
}

struct Refused {
    const char* sql;
    const char* why; // part of what SQLite says
};

void PrintTo(const Refused& refused, std::ostream* out)
{
    *out << refused.sql;
}

class FileRefuses : public Strictness, public testing::WithParamInterface<Refused> { };

// A connection of another program: foreign keys are off and nothing of ours runs, only the triggers and types of the
// file.
TEST_P(FileRefuses, FromAnotherProgram)
{
    const auto before = everything();
    EXPECT_THAT(Outside(scratch_.path()).complaint(GetParam().sql), HasSubstr(GetParam().why));
    EXPECT_EQ(everything(), before);
}

TEST_P(FileRefuses, FromOurOwnConnection)
{
    const auto before = everything();
    const auto file = scratch_.open();
    EXPECT_FALSE(file->connection().script(GetParam().sql).ok());
    EXPECT_EQ(everything(), before);
}

INSTANTIATE_TEST_SUITE_P(Types, FileRefuses,
    testing::Values(Refused { "UPDATE print SET coat_volume_ml = 'a little'", "cannot store TEXT value in REAL" },
        Refused { "UPDATE print SET print_paper = 1.5", "cannot store REAL value in INTEGER" },
        Refused { "UPDATE print SET print_notes = x'00ff'", "cannot store BLOB value in TEXT" },
        Refused { "UPDATE photo SET removed = 2", "CHECK constraint failed" },
        Refused { "UPDATE print SET dry_covered = 3", "CHECK constraint failed" },
        Refused { "UPDATE print SET not_measured = 'dry_start'", "CHECK constraint failed" },
        Refused { "INSERT INTO weighing(uuid) VALUES ('u')", "NOT NULL constraint failed" },
        Refused { "INSERT INTO print(print_code) VALUES ('P3')", "NOT NULL constraint failed: print.uuid" },
        Refused {
            "INSERT INTO step(uuid, at, label, kind) VALUES ('u', 't', 'l', 'erase')", "CHECK constraint failed" }));

INSTANTIATE_TEST_SUITE_P(Deleting, FileRefuses,
    testing::Values(Refused { "DELETE FROM print WHERE id = 1", "never deleted" },
        Refused { "DELETE FROM exposure", "never deleted" }, Refused { "DELETE FROM photo", "never deleted" },
        Refused { "DELETE FROM photo_data", "never deleted" }, Refused { "DELETE FROM history", "never deleted" },
        Refused { "DELETE FROM history WHERE id = (SELECT max(id) FROM history)", "never deleted" },
        Refused { "DELETE FROM step", "never deleted" }));

INSTANTIATE_TEST_SUITE_P(Changing, FileRefuses,
    testing::Values(Refused { "UPDATE history SET new = 9 WHERE field = 'coat_passes'", "never changed" },
        Refused { "UPDATE history SET step = NULL", "never changed" },
        Refused { "UPDATE step SET label = 'nothing happened'", "never changed" },
        Refused { "UPDATE step SET closed = 0", "never changed" },
        Refused { "UPDATE photo_data SET data = x'00'", "never changed" },
        Refused { "UPDATE print SET uuid = 'another' WHERE id = 1", "never change" },
        Refused { "UPDATE print SET id = 9 WHERE id = 1", "never change" }));

// OR REPLACE deletes what is in its way, and SQLite asks no trigger then ("ON CONFLICT",
// sqlite.org/lang_conflict.html).
INSTANTIATE_TEST_SUITE_P(Replacing, FileRefuses,
    testing::Values(
        Refused { "INSERT OR REPLACE INTO history(id, at, entity, row) VALUES (1, 't', 'print', 1)", "never replaced" },
        Refused { "REPLACE INTO step(id, uuid, at, label, kind) VALUES (1, 'u', 't', 'l', 'edit')", "never replaced" },
        Refused { "REPLACE INTO photo_data(photo, data) VALUES (1, x'00')", "never replaced" },
        Refused { "REPLACE INTO print(id, uuid, print_code) VALUES (1, 'u', 'P9')", "never replaced" },
        Refused { "REPLACE INTO print(uuid, print_code) SELECT uuid, 'P9' FROM print WHERE id = 1", "never replaced" },
        Refused { "REPLACE INTO print(uuid, print_code) VALUES ('u', 'p1')", "never replaced" },
        Refused { "UPDATE OR REPLACE print SET print_code = 'P2' WHERE id = 1", "never replaced" },
        Refused { "REPLACE INTO bath(id, uuid, print) VALUES (1, 'u', 2)", "never replaced" }));

TEST_F(Strictness, OurConnectionKeepsLinks)
{
    const auto file = scratch_.open();
    const auto error = fails(setField(*file, Ref(Entity::Print, 1), "print_paper", Known { Link { 77 } }));
    EXPECT_EQ(error.code, Trouble::BadInput);
    EXPECT_FALSE(fieldOf(*file, Ref(Entity::Print, 1), "print_paper").has());
    const auto orphan = file->perform(QStringLiteral("Bath"), [](store::Writer& writer) -> Outcome {
        const auto bath = writer.add(Entity::Bath, 99, {});
        return bath.ok() ? Outcome(Done {}) : Outcome(bath.error());
    });
    EXPECT_EQ(fails(orphan).code, Trouble::BadInput);
}

// RFC 9562, sections 4 and 5.4: 36 characters, version 4, variant 8, 9, a or b.
TEST_F(Strictness, EveryRowAndStepHasAUuidOfItsOwn)
{
    Outside outside(scratch_.path());
    QStringList uuids = outside.rows("SELECT uuid FROM step");
    for (const auto entity : allEntities())
        uuids += outside.rows(qPrintable(QStringLiteral("SELECT uuid FROM %1").arg(entityKey(entity))));
    EXPECT_EQ(uuids.size(), 4 + 2 * (1 + childrenOfWholePrint) + 1);
    EXPECT_EQ(std::set<QString>(uuids.begin(), uuids.end()).size(), size_t(uuids.size()));
    for (const auto& uuid : uuids)
        EXPECT_THAT(uuid.toStdString(),
            testing::MatchesRegex("[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}"));
}

TEST_F(Strictness, AUuidIsNeverTakenTwice)
{
    Outside outside(scratch_.path());
    EXPECT_NE(outside.complaint("INSERT INTO bath(uuid, print) SELECT uuid, 1 FROM bath LIMIT 1"), "");
    EXPECT_NE(
        outside.complaint("INSERT INTO step(uuid, at, label, kind) SELECT uuid, 't', 'l', 'edit' FROM step LIMIT 1"),
        "");
}

TEST_F(Strictness, ANameIsTakenOnceInAnyCase)
{
    const auto file = scratch_.open();
    const auto twice = file->perform(QStringLiteral("Add"), [](store::Writer& writer) -> Outcome {
        const auto print = writer.add(Entity::Print, 0, { { QStringLiteral("print_code"), Known { text("p1") } } });
        return print.ok() ? Outcome(Done {}) : Outcome(print.error());
    });
    EXPECT_EQ(fails(twice).code, Trouble::BadInput);
    EXPECT_TRUE(fails(twice).says.contains(QStringLiteral("p1"))) << fails(twice).says.toStdString();
    const auto renamed = setField(*file, Ref(Entity::Print, 2), "print_code", Known { text("P1") });
    EXPECT_EQ(fails(renamed).code, Trouble::BadInput);
    // A removed print gives its name back.
    must(file->perform(
        QStringLiteral("Remove"), [](store::Writer& writer) { return writer.remove(Ref(Entity::Print, 1)); }));
    must(setField(*file, Ref(Entity::Print, 2), "print_code", Known { text("P1") }));
}

TEST_F(Strictness, TypedIdsOfDifferentTablesDoNotMix)
{
    static_assert(!std::is_convertible_v<PrintId, MixId>);
    static_assert(!std::is_convertible_v<qint64, PrintId>);
    static_assert(!std::is_convertible_v<PrintId, qint64>);
    static_assert(!std::is_assignable_v<PrintId&, SessionId>);
    static_assert(!std::is_invocable_v<decltype(&store::NotebookFile::photo), store::NotebookFile&, PrintId>);
    EXPECT_EQ(Ref(PrintId { 3 }), Ref(Entity::Print, 3));
}

} // namespace WASHFAST_FILE
