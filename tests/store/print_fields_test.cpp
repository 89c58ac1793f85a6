// Writing a field of a print by its catalogue key, wherever it is kept.
#include "tests/support/scratch_notebook.h"

#include "core/store/print_fields.h"
#include "core/trial/print_reader.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::NotebookFile;
using store::Writer;

namespace {

class PrintFields : public testing::Test {
protected:
    void SetUp() override
    {
        file_ = scratch_.open();
        print_ = addPrint(*file_, "P1");
    }
    Outcome set(const QString& key, const Known& value, bool make_missing = false,
        const std::optional<Known>& expected = std::nullopt)
    {
        const auto step = file_->perform(text("Set"),
            [&](Writer& writer) { return store::setPrintField(writer, print_, key, value, make_missing, expected); });
        return step.ok() ? Outcome(Done {}) : Outcome(step.error());
    }
    [[nodiscard]] Known get(const QString& key)
    {
        const auto notebook = must(file_->read());
        return PrintReader(notebook).get(0, key);
    }
    [[nodiscard]] int rows(Entity entity) { return must(file_->read()).table(entity).rows(); }

    ScratchNotebook scratch_;
    std::unique_ptr<NotebookFile> file_;
    PrintId print_;
};

Value sample(const Field& field)
{
    switch (field.kind) {
    case Kind::Number:
        return 2.0;
    case Kind::YesNo:
        return true;
    case Kind::Time:
        return *Instant::fromIso(std::string_view("2026-05-04T10:15:00+02:00"));
    case Kind::Choice:
    case Kind::ChoiceSet:
        return field.choices.back().key;
    case Kind::Text:
    case Kind::Link:
        break;
    }
    return text("N1");
}

} // namespace

TEST_F(PrintFields, EveryOneThatCanBeWrittenIsReadBack)
{
    int written = 0;
    for (const auto& field : scratch_.catalogue().printFields()) {
        const Known value { sample(field), field.nature };
        if (!store::isWritablePrintField(scratch_.catalogue(), field)) {
            EXPECT_EQ(fails(set(field.key, value, true)).code, Trouble::BadInput) << field.key.toStdString();
            continue;
        }
        ++written;
        must(set(field.key, value, true));
        EXPECT_TRUE(get(field.key).value == value.value) << field.key.toStdString();
        must(set(field.key, {}, true));
        EXPECT_FALSE(get(field.key).has()) << field.key.toStdString();
        if (field.key == QLatin1String("print_code"))
            must(set(field.key, Known { text("P1") }));
    }
    EXPECT_GT(written, 80);
}

TEST_F(PrintFields, AChildRowIsAddedOnceAndOnlyWhenThereIsSomethingToSay)
{
    must(set(text("bath2_minutes"), {}));
    EXPECT_EQ(rows(Entity::Bath), 0);
    must(set(text("bath2_minutes"), Known { 7.0 }));
    must(set(text("bath2_water"), Known { text("rain") }));
    must(set(text("bath1_minutes"), Known { 3.0 }));
    EXPECT_EQ(rows(Entity::Bath), 2);
    EXPECT_EQ(get(text("bath2_minutes")), Known { 7.0 });
    EXPECT_EQ(get(text("bath1_minutes")), Known { 3.0 });
    EXPECT_FALSE(get(text("bath1_water")).has());
    must(file_->undo());
    EXPECT_EQ(rows(Entity::Bath), 1);
}

TEST_F(PrintFields, TheLastOfTwoReadingsOfASpotIsTheOneThatIsWritten)
{
    must(file_->perform(text("Read twice"), [&](Writer& writer) -> Outcome {
        for (const double density : { 0.8, 0.9 })
            must(writer.add(Entity::Reading, print_.value,
                { chosen("reading_when", "day_after"), chosen("reading_where", "deepest"),
                    measured("reading_density", density) }));
        return Done {};
    }));
    EXPECT_EQ(get(text("density_day_after_deepest")), Known { 0.9 });
    must(set(text("density_day_after_deepest"), Known { 1.1 }));
    EXPECT_EQ(get(text("density_day_after_deepest")), Known { 1.1 });
    EXPECT_EQ(fieldOf(*file_, { Entity::Reading, 1 }, "reading_density"), Known { 0.8 });
}

TEST_F(PrintFields, ANameFindsItsRecordOrMakesItWhenAsked)
{
    EXPECT_EQ(fails(set(text("mix_code"), Known { text("M7") })).code, Trouble::NotFound);
    EXPECT_EQ(rows(Entity::Mix), 0);
    must(set(text("mix_code"), Known { text(" M7 ") }, true));
    EXPECT_EQ(get(text("mix_code")).text(), text("M7"));
    must(set(text("mix_code"), Known { text("m7") }, true)); // names count in any case
    EXPECT_EQ(rows(Entity::Mix), 1);
    must(set(text("mix_code"), {}));
    EXPECT_FALSE(get(text("mix_code")).has());
    EXPECT_EQ(rows(Entity::Mix), 1) << "the mix itself stays";
}

TEST_F(PrintFields, ANameBehindAChildIsReachedThroughIt)
{
    must(set(text("cover_name"), Known { text("G4") }, true));
    EXPECT_EQ(rows(Entity::Exposure), 1);
    must(set(text("cover2_name"), Known { text("F1") }, true));
    EXPECT_EQ(rows(Entity::Exposure), 1);
    EXPECT_EQ(get(text("cover_name")).text(), text("G4"));
    EXPECT_EQ(get(text("cover2_name")).text(), text("F1"));
}

TEST_F(PrintFields, WhatAnotherRecordSaysIsNotWrittenFromAPrint)
{
    must(set(text("mix_code"), Known { text("M7") }, true));
    EXPECT_EQ(fails(set(text("mix_ph"), Known { 5.0 })).code, Trouble::BadInput)
        << "it would change every print of the mix";
    EXPECT_EQ(fails(set(text("no_such_field"), Known { 5.0 })).code, Trouble::BadInput);
}

TEST_F(PrintFields, TheOldValueCanBeExpected)
{
    must(set(text("mix_code"), Known { text("M7") }, true));
    must(set(text("bath1_minutes"), Known { 3.0 }));
    EXPECT_EQ(fails(set(text("bath1_minutes"), Known { 4.0 }, false, Known { 2.0 })).code, Trouble::Conflict);
    EXPECT_EQ(fails(set(text("mix_code"), Known { text("M8") }, true, Known { text("M6") })).code, Trouble::Conflict);
    EXPECT_EQ(rows(Entity::Mix), 1) << "the new mix went with the step";
    must(set(text("bath1_minutes"), Known { 4.0 }, false, Known { 3.0 }));
    must(set(text("mix_code"), Known { text("M8") }, true, Known { text("M7") }));
    EXPECT_EQ(get(text("mix_code")).text(), text("M8"));
}

TEST_F(PrintFields, OfSeveralReadingsTheOneThatCountsIsWritten)
{
    const auto add = [&](const char* method, double density, Evidence evidence) {
        must(file_->perform(text("Read"), [&](Writer& writer) -> Outcome {
            const auto added = writer.add(Entity::Reading, print_.value,
                { { text("reading_when"), Known { text("day_after") } },
                    { text("reading_where"), Known { text("deepest") } },
                    { text("reading_method"), Known { text(method) } },
                    { text("reading_density"), Known { density, evidence } } });
            return added ? Outcome(Done {}) : Outcome(added.error());
        }));
    };
    add("scan", 0.98, Evidence::Measured);
    add("photo", 1.10, Evidence::Assumed);
    const auto key = text("density_day_after_deepest");
    EXPECT_EQ(get(key), Known { 0.98 });
    must(set(key, Known { 0.95 }));
    EXPECT_EQ(get(key), Known { 0.95 });
    EXPECT_EQ(rows(Entity::Reading), 2);
    EXPECT_EQ(fieldOf(*file_, Ref { Entity::Reading, 2 }, "reading_density"), (Known { 1.10, Evidence::Assumed }));
}

TEST_F(PrintFields, ADensityTakesTheWordBackThatThereIsNothingToRead)
{
    must(file_->perform(text("Look"), [&](Writer& writer) -> Outcome {
        const auto added = writer.add(Entity::Reading, print_.value,
            { { text("reading_when"), Known { text("day_after") } },
                { text("reading_where"), Known { text("deepest") } },
                { text("reading_method"), Known { text("nothing") } } });
        return added ? Outcome(Done {}) : Outcome(added.error());
    }));
    must(set(text("density_day_after_deepest"), Known { 0.3 }));
    EXPECT_EQ(rows(Entity::Reading), 1);
    EXPECT_FALSE(fieldOf(*file_, Ref { Entity::Reading, 1 }, "reading_method").has());
}

} // namespace WASHFAST_FILE
