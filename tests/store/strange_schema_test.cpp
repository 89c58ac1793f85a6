// Files to which another program has added triggers and views, some of which never come to an end.
#include "core/store/own_objects.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <QElapsedTimer>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Access;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

namespace {

constexpr const char* endless = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) ";

class StrangeSchema : public testing::Test {
protected:
    void SetUp() override { addWholePrint(*scratch_.open(), "P1"); }
    void outside(const std::string& sql) const { Outside(scratch_.path()).run(sql.c_str()); }
    [[nodiscard]] std::vector<std::string> strange() const
    {
        const auto file = scratch_.open();
        std::vector<std::string> says;
        for (const auto& one : must(store::strangeObjects(*file)))
            says.push_back(one.toStdString());
        return says;
    }

    ScratchNotebook scratch_;
};

} // namespace

TEST_F(StrangeSchema, OfOurOwnNothingIsStrange)
{
    EXPECT_THAT(strange(), IsEmpty());
}

TEST_F(StrangeSchema, WhatOthersAddedIsNamed)
{
    outside("CREATE VIEW good_prints AS SELECT * FROM print WHERE print_outcome = 'kept';"
            "CREATE TRIGGER tell AFTER INSERT ON print BEGIN SELECT 1; END;");
    EXPECT_THAT(strange(),
        ElementsAre(HasSubstr("The view good_prints is not one that Washfast makes"),
            AllOf(HasSubstr("The trigger tell"), HasSubstr("print"))));
    const auto file = scratch_.open();
    addPrint(*file, "P2"); // they are no harm
    EXPECT_EQ(must(file->read()).prints().rows(), 2);
}

TEST_F(StrangeSchema, WhatIsMissingOrChangedIsNamed)
{
    outside("DROP TRIGGER print_changed; DROP TRIGGER bath_added;"
            "CREATE TRIGGER bath_added AFTER INSERT ON bath BEGIN SELECT 1; END;");
    EXPECT_THAT(strange(),
        ElementsAre(AllOf(HasSubstr("bath_added"), HasSubstr("is not as Washfast makes it")),
            AllOf(HasSubstr("print_changed"), HasSubstr("missing"))));
}

TEST_F(StrangeSchema, ATriggerWithoutAnEndStopsTheStepAndNothingElse)
{
    outside(std::string("CREATE TRIGGER hang AFTER INSERT ON print BEGIN ") + "INSERT INTO setting(key) "
        + "SELECT i FROM (WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n) "
        + "WHERE i < 0; END;");
    const auto file = scratch_.open();
    file->connection().patience().allow(0.2);
    const auto error = fails(file->perform(text("Add"), [](store::Writer& writer) -> Outcome {
        const auto added = writer.add(Entity::Print, 0, {});
        return added ? Outcome(Done {}) : Outcome(added.error());
    }));
    EXPECT_THAT(error.says.toStdString(), HasSubstr("does not come to an end"));
    EXPECT_THAT(error.says.toStdString(), HasSubstr("washfast check"));
    EXPECT_EQ(must(file->read()).prints().rows(), 1);
    EXPECT_TRUE(setField(*file, Ref(Entity::Print, 1), "print_notes", Known { text("still works") }));
    EXPECT_EQ(must(file->integrity()), text("ok"));
}

TEST_F(StrangeSchema, AViewInThePlaceOfATableIsNotRead)
{
    for (const char* table : { "sign", "setting", "history" }) {
        const ScratchNotebook scratch;
        putBytes(scratch.path(), bytesOf(scratch_.path()));
        Outside(scratch.path())
            .run((std::string("PRAGMA writable_schema = ON; DELETE FROM sqlite_schema WHERE name = '") + table
                + "' OR tbl_name = '" + table + "'; PRAGMA writable_schema = RESET; CREATE VIEW " + table + " AS "
                + endless + "SELECT i AS id, 'x' AS key, 'y' AS value FROM n")
                     .c_str());
        QElapsedTimer took;
        took.start();
        const auto opened = scratch.tryOpen();
        const auto says = opened ? (*opened)->damage().value_or(Error {}).says : opened.error().says;
        EXPECT_THAT(says.toStdString(), AllOf(HasSubstr("damaged"), HasSubstr(table)));
        if (opened)
            EXPECT_FALSE((*opened)->writable()) << table;
        EXPECT_LT(took.elapsed(), 20'000) << table << ": an endless view was asked";
    }
}

TEST_F(StrangeSchema, TheFileCannotBeTurnedAgainstItself)
{
    const auto file = scratch_.open();
    auto& connection = file->connection();
    EXPECT_EQ(must(connection.integer("PRAGMA trusted_schema")), 0);
    EXPECT_FALSE(connection.script("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = sql"));
    EXPECT_EQ(must(connection.text("PRAGMA journal_mode = OFF")), text("wal"));
}

TEST_F(StrangeSchema, TheHistoryIsKeptAllTheSame)
{
    const auto file = scratch_.open();
    // The checks and triggers of our own tables use SQLite's functions.
    must(file->perform(text("Set"), [](store::Writer& writer) {
        return writer.set(Ref(Entity::Print, 1), text("coat_volume_ml"), Known { 0.9, Evidence::Assumed });
    }));
    EXPECT_EQ(fieldOf(*file, Ref(Entity::Print, 1), "coat_volume_ml"), (Known { 0.9, Evidence::Assumed }));
    QStringList fields;
    for (const auto& entry : must(file->historyOf(PrintId { 1 })))
        fields << entry.field;
    EXPECT_TRUE(fields.contains(text("not_measured")) && fields.contains(text("coat_volume_ml")));
    EXPECT_THAT(
        fails(Outcome(file->connection().script("UPDATE print SET not_measured = '{broken'"))).says.toStdString(),
        HasSubstr("CHECK"));
    EXPECT_TRUE(file->connection().script("UPDATE print SET not_measured = '{\"coat_passes\":\"assumed\"}'"));
}

} // namespace WASHFAST_FILE
