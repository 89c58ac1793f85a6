// The history is the undo stack: every step can be taken back and made again, also after the notebook was closed.
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::NotebookFile;
using store::Writer;

namespace {

const Ref first(Entity::Print, 1);

class Undo : public testing::Test {
protected:
    void SetUp() override { file_ = scratch_.open(); }

    void reopen()
    {
        file_.reset();
        file_ = scratch_.open();
    }
    [[nodiscard]] int prints() { return must(file_->read()).prints().rows(); }
    [[nodiscard]] int rows(Entity entity) { return must(file_->read()).table(entity).rows(); }
    [[nodiscard]] Known volume() { return fieldOf(*file_, first, "coat_volume_ml"); }
    [[nodiscard]] QString undoLabel()
    {
        const auto next = must(file_->nextUndo());
        return next ? next->label : QStringLiteral("nothing");
    }
    [[nodiscard]] QString redoLabel()
    {
        const auto next = must(file_->nextRedo());
        return next ? next->label : QStringLiteral("nothing");
    }

    ScratchNotebook scratch_;
    std::unique_ptr<NotebookFile> file_;
};

} // namespace

TEST_F(Undo, NothingToUndoIsSaid)
{
    EXPECT_EQ(fails(file_->undo()).code, Trouble::NotFound);
    EXPECT_EQ(fails(file_->redo()).code, Trouble::NotFound);
    EXPECT_EQ(undoLabel(), text("nothing"));
}

TEST_F(Undo, AnAddedPrintGoesAndComesBackWithAllItsRows)
{
    addWholePrint(*file_, "P1");
    must(file_->undo());
    EXPECT_EQ(prints(), 0);
    EXPECT_EQ(rows(Entity::Weighing), 0);
    must(file_->redo());
    const auto notebook = must(file_->read());
    EXPECT_EQ(notebook.nameOf(first), text("P1"));
    EXPECT_EQ(notebook.children(Entity::Weighing, 1).size(), 4U);
    EXPECT_EQ(notebook.children(Entity::Reading, 1).size(), 4U);
}

TEST_F(Undo, AValueGoesBackWithItsEvidence)
{
    addPrint(*file_, "P1");
    must(setField(*file_, first, "coat_volume_ml", Known { 0.6 }));
    must(setField(*file_, first, "coat_volume_ml", Known { 0.8, Evidence::Estimated }));
    must(setField(*file_, first, "coat_volume_ml", {}));
    must(file_->undo());
    EXPECT_EQ(volume(), (Known { 0.8, Evidence::Estimated }));
    must(file_->undo());
    EXPECT_EQ(volume(), Known { 0.6 });
    must(file_->undo());
    EXPECT_FALSE(volume().has()) << "unknown again, not zero";
    for (int redo = 0; redo < 3; ++redo)
        must(file_->redo());
    EXPECT_FALSE(volume().has());
    EXPECT_EQ(redoLabel(), text("nothing"));
}

TEST_F(Undo, OnlyTheEvidenceCanBeTakenBackToo)
{
    addPrint(*file_, "P1");
    must(setField(*file_, first, "coat_volume_ml", Known { 0.6 }));
    must(setField(*file_, first, "coat_volume_ml", Known { 0.6, Evidence::Assumed }));
    EXPECT_EQ(volume(), (Known { 0.6, Evidence::Assumed }));
    must(file_->undo());
    EXPECT_EQ(volume(), Known { 0.6 });
}

TEST_F(Undo, WalksBackAndForthAcrossReopening)
{
    addPrint(*file_, "P1");
    for (const double volume : { 0.5, 0.6, 0.7 })
        must(setField(*file_, first, "coat_volume_ml", Known { volume }));
    reopen();
    EXPECT_EQ(undoLabel(), text("Set coat_volume_ml"));
    must(file_->undo());
    reopen();
    EXPECT_EQ(volume(), Known { 0.6 });
    must(file_->undo());
    reopen();
    EXPECT_EQ(volume(), Known { 0.5 });
    EXPECT_EQ(redoLabel(), text("Set coat_volume_ml"));
    must(file_->redo());
    must(file_->redo());
    reopen();
    EXPECT_EQ(volume(), Known { 0.7 });
    EXPECT_EQ(redoLabel(), text("nothing"));
    for (int undo = 0; undo < 4; ++undo) {
        must(file_->undo());
        reopen();
    }
    EXPECT_EQ(prints(), 0);
    EXPECT_EQ(undoLabel(), text("nothing"));
}

TEST_F(Undo, ANewEditClearsWhatCouldBeMadeAgain)
{
    addPrint(*file_, "P1");
    must(setField(*file_, first, "coat_volume_ml", Known { 0.5 }));
    must(file_->undo());
    EXPECT_EQ(redoLabel(), text("Set coat_volume_ml"));
    must(setField(*file_, first, "coat_passes", Known { 2.0 }));
    EXPECT_EQ(redoLabel(), text("nothing"));
    reopen();
    EXPECT_EQ(redoLabel(), text("nothing"));
    must(file_->undo());
    EXPECT_EQ(undoLabel(), text("Add P1")) << "the step that was taken back stays taken back";
}

TEST_F(Undo, ARemovedPrintComesBackWithTheChildrenThatItHad)
{
    const auto print = addWholePrint(*file_, "P1");
    must(file_->perform(text("Remove a weighing"), [](Writer& writer) {
        return writer.remove({ Entity::Weighing, 2 });
    }));
    must(file_->perform(text("Remove"), [&](Writer& writer) { return writer.remove(print); }));
    EXPECT_EQ(prints(), 0);
    EXPECT_EQ(rows(Entity::Bath), 0);
    reopen();
    must(file_->undo());
    EXPECT_EQ(prints(), 1);
    EXPECT_EQ(rows(Entity::Bath), 2);
    EXPECT_EQ(rows(Entity::Weighing), 3) << "the one that was removed before stays removed";
    must(file_->redo());
    EXPECT_EQ(rows(Entity::Bath), 0);
}

TEST_F(Undo, AStepOfManyEditsIsOne)
{
    addPrint(*file_, "P1");
    must(file_->perform(text("Several"), [](Writer& writer) -> Outcome {
        for (const double volume : { 0.1, 0.2, 0.3 })
            if (auto done = writer.set(first, text("coat_volume_ml"), Known { volume }); !done)
                return done;
        const auto bath = writer.add(Entity::Bath, 1, {});
        if (!bath)
            return bath.error();
        if (auto done = writer.set({ Entity::Bath, *bath }, text("bath_minutes"), Known { 5.0 }); !done)
            return done;
        return writer.remove({ Entity::Bath, *bath });
    }));
    EXPECT_EQ(volume(), Known { 0.3 });
    must(file_->undo());
    EXPECT_FALSE(volume().has());
    EXPECT_EQ(rows(Entity::Bath), 0);
    must(file_->redo());
    EXPECT_EQ(volume(), Known { 0.3 });
    EXPECT_EQ(rows(Entity::Bath), 0);
    must(file_->undo());
    EXPECT_EQ(undoLabel(), text("Add P1"));
}

TEST_F(Undo, AStepThatFailsOrChangesNothingLeavesNoTrace)
{
    addPrint(*file_, "P1");
    must(setField(*file_, first, "coat_volume_ml", Known { 0.5 }));
    const auto steps = must(file_->connection().integer("SELECT count(*) FROM step"));
    const auto entries = must(file_->connection().integer("SELECT count(*) FROM history"));
    const auto step = file_->perform(text("Half"), [](Writer& writer) -> Outcome {
        must(writer.set(first, text("coat_volume_ml"), Known { 0.9 }));
        must(writer.add(Entity::Bath, 1, {}));
        return Error { Trouble::BadInput, text("no"), {} };
    });
    EXPECT_EQ(fails(step).says, text("no"));
    EXPECT_EQ(must(file_->perform(text("Same"),
                  [](Writer& writer) { return writer.set(first, text("coat_volume_ml"), Known { 0.5 }); })),
        0);
    EXPECT_EQ(volume(), Known { 0.5 });
    EXPECT_EQ(must(file_->connection().integer("SELECT count(*) FROM step")), steps);
    EXPECT_EQ(must(file_->connection().integer("SELECT count(*) FROM history")), entries);
    EXPECT_EQ(undoLabel(), text("Set coat_volume_ml"));
}

TEST_F(Undo, RowsThatAProgramMadeStay)
{
    must(file_->performOrigin(text("Example"), [](Writer& writer) -> Outcome {
        const auto print = addRows(writer, wholePrint(text("P1"), 1));
        return print.ok() ? Outcome(Done {}) : Outcome(print.error());
    }));
    EXPECT_EQ(undoLabel(), text("nothing"));
    must(setField(*file_, first, "coat_passes", Known { 9.0 }));
    must(file_->undo());
    EXPECT_EQ(undoLabel(), text("nothing"));
    EXPECT_EQ(prints(), 1);
}

TEST_F(Undo, AFieldThatAnotherProgramChangedIsNotOverwritten)
{
    addPrint(*file_, "P1");
    must(file_->perform(text("Two"), [](Writer& writer) -> Outcome {
        must(writer.set(first, text("coat_volume_ml"), Known { 0.6 }));
        return writer.set(first, text("coat_passes"), Known { 3.0 });
    }));
    Outside(scratch_.path()).run("UPDATE print SET coat_volume_ml = 0.99");
    const auto error = fails(file_->undo());
    EXPECT_EQ(error.code, Trouble::Conflict);
    EXPECT_EQ(error.where, text("Mix on the sheet"));
    EXPECT_EQ(volume(), Known { 0.99 });
    EXPECT_EQ(fieldOf(*file_, first, "coat_passes"), Known { 3.0 }) << "not the half of a step";
    EXPECT_EQ(undoLabel(), text("Two"));
    Outside(scratch_.path()).run("UPDATE print SET coat_volume_ml = 0.6");
    must(file_->undo());
    EXPECT_FALSE(volume().has());
}

TEST_F(Undo, ANameThatIsTakenMeanwhileIsNotTakenAway)
{
    const auto old = addPrint(*file_, "P1");
    must(file_->perform(text("Remove"), [&](Writer& writer) { return writer.remove(old); }));
    Outside(scratch_.path()).run("INSERT INTO print(uuid, print_code) VALUES ('from-outside', 'p1')");
    const auto error = fails(file_->undo());
    EXPECT_EQ(error.code, Trouble::Conflict);
    EXPECT_EQ(error.where, text("P1"));
    EXPECT_EQ(prints(), 1);
}

TEST_F(Undo, AnImportOfManyRowsIsOneStep)
{
    constexpr int many = 400;
    must(file_->perform(text("Import"), [](Writer& writer) -> Outcome {
        for (int n = 0; n < many; ++n)
            if (const auto print = addRows(writer, wholePrint(QStringLiteral("I%1").arg(n), n)); !print)
                return print.error();
        return Done {};
    }));
    const auto before = must(file_->read());
    must(file_->undo());
    EXPECT_EQ(prints(), 0);
    reopen();
    must(file_->redo());
    const auto after = must(file_->read());
    EXPECT_EQ(after.prints().rows(), many);
    EXPECT_EQ(differences(before, after), QStringList());
}

TEST_F(Undo, GoesBackFurtherThanAnyoneRemembers)
{
    addPrint(*file_, "P1");
    must(file_->connection().script("PRAGMA synchronous = OFF")); // only to be quicker
    constexpr int many = 1500;
    for (int n = 1; n <= many; ++n)
        must(setField(*file_, first, "coat_passes", Known { double(n) }));
    reopen();
    must(file_->connection().script("PRAGMA synchronous = OFF"));
    for (int n = many; n > 0; --n)
        must(file_->undo());
    EXPECT_FALSE(fieldOf(*file_, first, "coat_passes").has());
    reopen();
    EXPECT_EQ(undoLabel(), text("Add P1"));
    must(file_->redo());
    EXPECT_EQ(fieldOf(*file_, first, "coat_passes"), Known { 1.0 });
}

TEST_F(Undo, UndoingIsItselfInTheHistory)
{
    addPrint(*file_, "P1");
    must(setField(*file_, first, "coat_volume_ml", Known { 0.5 }));
    must(file_->undo());
    must(file_->redo());
    const auto entries = must(file_->historyOf(first));
    ASSERT_EQ(entries.size(), 4U);
    EXPECT_TRUE(entries[0].field.isEmpty()) << "the row was added";
    EXPECT_EQ(entries[0].step_label, text("Add P1"));
    const store::Raw none;
    const store::Raw half = 0.5;
    EXPECT_EQ(std::pair(entries[1].old_value, entries[1].new_value), std::pair(none, half));
    EXPECT_EQ(std::pair(entries[2].old_value, entries[2].new_value), std::pair(half, none));
    EXPECT_EQ(entries[2].step_label, text("Undo: Set coat_volume_ml"));
    EXPECT_EQ(std::pair(entries[3].old_value, entries[3].new_value), std::pair(none, half));
    for (size_t i = 1; i < entries.size(); ++i) {
        EXPECT_GT(entries[i].id, entries[i - 1].id);
        EXPECT_GT(entries[i].step, entries[i - 1].step);
        EXPECT_TRUE(Instant::fromIso(QStringView(entries[i].at))) << entries[i].at.toStdString();
    }
}

TEST_F(Undo, TheHistoryOfAPrintHasItsChildrenAndNothingElse)
{
    const auto one = addWholePrint(*file_, "P1");
    const auto two = addWholePrint(*file_, "P2", 1);
    must(setField(*file_, Ref(Entity::Bath, 1), "bath_minutes", Known { 9.0 }));
    must(setField(*file_, Ref(Entity::Bath, 3), "bath_minutes", Known { 8.0 }));
    const auto entries = must(file_->historyOf(one));
    EXPECT_EQ(entries.size(), size_t(1 + childrenOfWholePrint + 1));
    EXPECT_EQ(entries.back().row, Ref(Entity::Bath, 1));
    EXPECT_EQ(must(file_->historyOf(two)).back().row, Ref(Entity::Bath, 3));
    EXPECT_EQ(must(file_->changesSince(entries.back().id)).size(), 1U);
}

namespace {

/// Steps of a run that set a print's volume, one each.
class UndoRuns : public Undo {
protected:
    void SetUp() override
    {
        Undo::SetUp();
        addPrint(*file_, "P1");
    }
    qint64 enter(double ml, qint64 run = 0)
    {
        const auto step = must(file_->perform(
            text("%1 so far").arg(ml),
            [&](Writer& writer) { return writer.set(first, text("coat_volume_ml"), Known { ml }); }, run));
        EXPECT_GT(step, 0);
        return step;
    }
};

} // namespace

TEST_F(UndoRuns, ARunIsTakenBackAndMadeAgainAsOne)
{
    enter(0.1);
    const auto run = enter(1);
    enter(2, run);
    enter(3, run);
    EXPECT_EQ(undoLabel(), text("3 so far"));
    EXPECT_EQ(must(file_->nextUndo())->steps.size(), 3U);
    must(file_->undo());
    EXPECT_EQ(volume(), Known { 0.1 });
    EXPECT_EQ(undoLabel(), text("0.1 so far"));
    EXPECT_EQ(redoLabel(), text("3 so far"));
    reopen();
    EXPECT_EQ(redoLabel(), text("3 so far"));
    must(file_->redo());
    EXPECT_EQ(volume(), Known { 3.0 });
    EXPECT_EQ(redoLabel(), text("nothing"));
    reopen();
    must(file_->undo());
    EXPECT_EQ(volume(), Known { 0.1 });
}

TEST_F(UndoRuns, WhileARunGoesOnItsStepsAreTakenBackOneByOne)
{
    const auto run = enter(1);
    const auto second = enter(2, run);
    file_->setOpenRun(run);
    must(file_->undo());
    EXPECT_EQ(volume(), Known { 1.0 });
    EXPECT_FALSE(must(file_->isDone(second)));
    EXPECT_TRUE(must(file_->isDone(run)));
    enter(3, run);
    file_->setOpenRun(0);
    must(file_->undo());
    EXPECT_FALSE(volume().has());
    EXPECT_EQ(redoLabel(), text("3 so far"));
    must(file_->redo());
    EXPECT_EQ(volume(), Known { 3.0 });
}

TEST_F(UndoRuns, WhatWasDoneBetweenIsTakenBackInItsTurn)
{
    const auto run = enter(1);
    enter(2, run);
    must(setField(*file_, first, "print_notes", Known { text("between") }));
    enter(3, run);
    must(file_->undo());
    EXPECT_EQ(volume(), Known { 2.0 });
    EXPECT_TRUE(fieldOf(*file_, first, "print_notes").has());
    must(file_->undo());
    EXPECT_FALSE(fieldOf(*file_, first, "print_notes").has());
    must(file_->undo());
    EXPECT_FALSE(volume().has());
}

TEST_F(UndoRuns, ARunOfWhichOneStepCannotBeTakenBackStaysWhole)
{
    const auto run = enter(1);
    must(file_->perform(
        text("run"), [&](Writer& writer) { return writer.set(first, text("print_notes"), Known { text("mine") }); },
        run));
    ASSERT_TRUE(file_->connection().script("UPDATE print SET coat_volume_ml = 9").ok()) << "by another program";
    EXPECT_EQ(fails(file_->undo()).code, Trouble::Conflict);
    EXPECT_EQ(fieldOf(*file_, first, "print_notes"), Known { text("mine") }) << "all of it or nothing";
    EXPECT_EQ(volume(), Known { 9.0 });
}

} // namespace WASHFAST_FILE
