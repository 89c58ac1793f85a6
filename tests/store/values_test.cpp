// Every column of the catalogue keeps what is written to it, with its evidence; what does not fit is refused; what
// another program wrote and nobody understands is told and shown as unknown.
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <QCryptographicHash>
#include <gmock/gmock.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::FieldValue;
using store::NotebookFile;
using store::Writer;

namespace {

/// Values of a column's kind, the awkward ones among them.
std::vector<Value> samples(const Field& field)
{
    const auto choice = [&](size_t i) { return field.choices[std::min(i, field.choices.size() - 1)].key; };
    switch (field.kind) {
    case Kind::Number:
        return { 0.0, -1.5, 0.1 + 0.2, 1e-300, 123456789.125, -40.0 };
    case Kind::YesNo:
        return { false, true };
    case Kind::Time:
        return { *Instant::fromIso(std::string_view("2026-05-04T10:15:00+02:00")),
            *Instant::fromIso(std::string_view("1999-12-31T23:59:59.250-09:30")), Instant { 0, 0 } };
    case Kind::Choice:
        return { choice(0), choice(field.choices.size()) };
    case Kind::ChoiceSet:
        return { choice(1), joinSet(field, { choice(2), choice(0) }) };
    case Kind::Text:
        return { text("x"), text("Bütten; 'quoted' \"twice\", % _ \\ --"), text("two\nlines\tand a tab"),
            text("青写真 🟦"), text("0012"), text("1e5"), text("  spaces  ") };
    case Kind::Link:
        return { Link { 1 } };
    }
    return {};
}

/// A value that is not of the column's kind.
Value misfit(const Field& field)
{
    if (field.kind == Kind::Number)
        return text("much");
    return field.kind == Kind::Choice || field.kind == Kind::ChoiceSet ? Value(text("no_such_choice")) : Value(1.0);
}

class Values : public testing::Test {
protected:
    /// One row of each kind, each belonging to or pointing at the first of its kind.
    void SetUp() override
    {
        file_ = scratch_.open();
        must(file_->perform(text("One of each"), [](Writer& writer) -> Outcome {
            for (const auto entity : allEntities())
                if (const auto id = writer.add(entity, ownerOf(entity) ? 1 : 0, {}); !id)
                    return id.error();
            return Done {};
        }));
    }

    ScratchNotebook scratch_;
    std::unique_ptr<NotebookFile> file_;
};

} // namespace

TEST_F(Values, NothingRecordedIsNothingKnown)
{
    const auto notebook = must(file_->read());
    for (const auto entity : allEntities())
        for (const auto& field : scratch_.catalogue().columns(entity))
            EXPECT_FALSE(notebook.get({ entity, 1 }, field.key).has()) << field.key.toStdString();
}

TEST_F(Values, EveryColumnKeepsWhatIsSetWithItsEvidence)
{
    for (const auto evidence : { Evidence::Measured, Evidence::Estimated, Evidence::Assumed })
        for (size_t i = 0; i < 7; ++i) {
            const auto value = [&](const Field& field) {
                const auto all = samples(field);
                return Known { all[i % all.size()], evidence };
            };
            must(file_->perform(text("Set all"), [&](Writer& writer) -> Outcome {
                for (const auto entity : allEntities())
                    for (const auto& field : writer.catalogue().columns(entity))
                        if (auto done = writer.set({ entity, 1 }, field.key, value(field)); !done)
                            return done;
                return Done {};
            }));
            const auto notebook = must(file_->read());
            ASSERT_TRUE(notebook.problems.isEmpty()) << notebook.problems.first().toStdString();
            for (const auto entity : allEntities())
                for (const auto& field : scratch_.catalogue().columns(entity)) {
                    auto expected = value(field);
                    const auto got = notebook.get({ entity, 1 }, field.key);
                    EXPECT_TRUE(got.value == expected.value) << field.key.toStdString() << " sample " << i;
                    // A reading by eye is never more than an estimate, whatever it is called.
                    if (field.estimated_when && evidence == Evidence::Measured
                        && notebook.get({ entity, 1 }, field.estimated_when->first).text()
                            == field.estimated_when->second)
                        expected.evidence = Evidence::Estimated;
                    EXPECT_EQ(got.evidence, expected.evidence) << field.key.toStdString();
                }
        }
}

TEST_F(Values, EveryColumnKeepsWhatARowIsAddedWith)
{
    for (const auto entity : allEntities()) {
        std::vector<FieldValue> values;
        for (const auto& field : scratch_.catalogue().columns(entity))
            values.emplace_back(field.key, Known { samples(field).back(), Evidence::Assumed });
        must(file_->perform(text("Add"), [&](Writer& writer) -> Outcome {
            const auto id = writer.add(entity, ownerOf(entity) ? 1 : 0, values);
            if (!id)
                return id.error();
            const auto inside = must(writer.read({ entity, *id }));
            EXPECT_EQ(inside->uuid.size(), 36);
            for (size_t i = 0; i < values.size(); ++i)
                EXPECT_TRUE(inside->values[i] == values[i].second) << values[i].first.toStdString();
            return Done {};
        }));
        const auto notebook = must(file_->read());
        for (const auto& [column, known] : values)
            EXPECT_TRUE(notebook.get({ entity, 2 }, column) == known) << column.toStdString();
    }
}

TEST_F(Values, TheClockThatATimeWasReadFromIsKept)
{
    const auto time = *Instant::fromIso(std::string_view("2026-05-04T10:15:00.250-09:30"));
    must(setField(*file_, Ref(Entity::Print, 1), "coat_start", Known { time }));
    const auto back = fieldOf(*file_, Ref(Entity::Print, 1), "coat_start").time();
    EXPECT_EQ(back->toIso(), text("2026-05-04T10:15:00.250-09:30"));
    EXPECT_EQ(Outside(scratch_.path()).row("SELECT coat_start FROM print"), text("2026-05-04T10:15:00.250-09:30"));
}

TEST_F(Values, AMisfitIsRefusedAndNothingIsWritten)
{
    for (const auto entity : allEntities())
        for (const auto& field : scratch_.catalogue().columns(entity)) {
            const auto set = setField(*file_, { entity, 1 }, qPrintable(field.key), Known { misfit(field) });
            EXPECT_EQ(fails(set).code, Trouble::BadInput) << field.key.toStdString();
            const auto add = file_->perform(text("Add"), [&](Writer& writer) -> Outcome {
                const auto id = writer.add(entity, ownerOf(entity) ? 1 : 0, { { field.key, Known { misfit(field) } } });
                return id.ok() ? Outcome(Done {}) : Outcome(id.error());
            });
            EXPECT_EQ(fails(add).code, Trouble::BadInput) << field.key.toStdString();
            EXPECT_EQ(fails(add).where, field.label);
        }
    EXPECT_EQ(Outside(scratch_.path()).row("SELECT count(*) FROM step"), text("1"));
}

TEST_F(Values, AColumnThatIsNotThereIsRefused)
{
    EXPECT_EQ(fails(setField(*file_, Ref(Entity::Print, 1), "uuid", Known { text("x") })).code, Trouble::BadInput);
    EXPECT_EQ(fails(setField(*file_, Ref(Entity::Print, 1), "removed", Known { 1.0 })).code, Trouble::BadInput);
    EXPECT_EQ(fails(setField(*file_, Ref(Entity::Print, 1), "x; DROP TABLE print", Known {})).code, Trouble::BadInput);
}

TEST_F(Values, WhatAnotherProgramWroteAndNobodyUnderstandsIsTold)
{
    auto notebook = must(file_->read());
    Outside(scratch_.path())
        .run("UPDATE print SET coat_tool = 'mop', coat_start = 'yesterday', print_outcome = 'kept; purple', "
             "coat_passes = 4; "
             "UPDATE reading SET reading_when = ''");
    must(file_->refresh(notebook));
    const auto afresh = must(file_->read());
    for (const Notebook* read : { &std::as_const(notebook), &afresh }) {
        const auto problems = read->problems.join(QLatin1Char('\n'));
        EXPECT_EQ(read->problems.size(), 4) << problems.toStdString();
        for (const char* part : { "print 1, Tool: \"mop\"", "Coating starts: \"yesterday\"",
                 "Outcome: \"kept; purple\"", "density reading 1, When: \"\"" })
            EXPECT_TRUE(problems.contains(text(part))) << part << " in\n" << problems.toStdString();
        for (const char* column : { "coat_tool", "coat_start", "print_outcome" })
            EXPECT_FALSE(read->get(Ref(Entity::Print, 1), text(column)).has()) << column;
        EXPECT_EQ(read->get(Ref(Entity::Print, 1), u"coat_passes"), Known { 4.0 }) << "the rest of the row is read";
    }
    EXPECT_EQ(Outside(scratch_.path()).row("SELECT coat_tool FROM print"), text("mop"))
        << "it stands as it was written";
}

TEST_F(Values, EvidenceThatNobodyUnderstandsIsPassedOver)
{
    Outside(scratch_.path())
        .run(
            "UPDATE print SET coat_passes = 4, not_measured = '{\"coat_passes\":\"guessed\",\"no_such\":\"assumed\"}'; "
            "UPDATE exposure SET expose_sky_share = 1, not_measured = '[1, 2]'");
    const auto notebook = must(file_->read());
    EXPECT_EQ(notebook.get(Ref(Entity::Print, 1), u"coat_passes"), Known { 4.0 });
    EXPECT_EQ(notebook.get(Ref(Entity::Exposure, 1), u"expose_sky_share"), (Known { 1.0, Evidence::Estimated }));
}

TEST_F(Values, APhotoIsStoredInsideByteForByte)
{
    std::mt19937 random(3);
    QByteArray bytes(3'000'000, '\0');
    for (auto& byte : bytes)
        byte = char(random() & 0xff);
    qint64 photo = 0;
    must(file_->perform(text("Photo"), [&](Writer& writer) -> Outcome {
        const auto id = writer.addPhoto(1, bytes, { { text("photo_name"), Known { text("p1.jpg") } } });
        photo = id.ok() ? *id : 0;
        return id.ok() ? Outcome(Done {}) : Outcome(id.error());
    }));
    file_.reset();
    EXPECT_EQ(scratch_.names(), QStringList { text("term.washfast") }) << "inside, not beside";
    file_ = scratch_.open();
    EXPECT_EQ(must(file_->photo({ photo })), bytes);
    EXPECT_EQ(fieldOf(*file_, { Entity::Photo, photo }, "photo_name").text(), text("p1.jpg"));
    EXPECT_EQ(fails(file_->photo({ photo + 1 })).code, Trouble::NotFound);
    must(file_->undo());
    EXPECT_EQ(must(file_->read()).table(Entity::Photo).rows(), 1) << "only the one without bytes";
    EXPECT_EQ(must(file_->photo({ photo })), bytes) << "hidden, not lost";
}

TEST_F(Values, SettingsAreKeptInTheNotebook)
{
    EXPECT_TRUE(must(file_->setting(text("k"))).isNull());
    must(file_->setSetting(text("k"), text("one")));
    must(file_->setSetting(text("k"), text("two")));
    file_ = nullptr;
    EXPECT_EQ(must(scratch_.open()->setting(text("k"))), text("two"));
}

} // namespace WASHFAST_FILE
