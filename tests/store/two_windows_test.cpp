// Two windows on one notebook: each sees what the other writes, and neither overwrites it unseen.
#include "tests/support/child_process.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <chrono>
#include <gmock/gmock.h>
#include <thread>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Change;
using store::NotebookFile;
using store::OpenOptions;
using store::Writer;
using testing::ElementsAre;

namespace {

/// A change in words: "set print 1 coat_passes".
std::string words(const Change& change)
{
    const char* what = change.what == Change::What::Added ? "added "
        : change.what == Change::What::Removed            ? "removed "
                                                          : "set ";
    auto said = what + entityKey(change.row.entity).toStdString() + ' ' + std::to_string(change.row.id);
    if (change.what == Change::What::Set)
        said += ' ' + change.field.toStdString();
    return change.owner == 0 ? said : said + " of " + std::to_string(change.owner);
}

std::vector<std::string> words(const std::vector<Change>& changes)
{
    std::vector<std::string> said;
    for (const auto& change : changes)
        said.push_back(words(change));
    return said;
}

OpenOptions window(const char* name)
{
    OpenOptions options;
    options.window = text(name);
    return options;
}

const Ref first(Entity::Print, 1);

class TwoWindows : public testing::Test {
protected:
    void SetUp() override
    {
        here_ = scratch_.open(window("here"));
        addWholePrint(*here_, "P1");
        there_ = scratch_.open(window("there"));
        notebook_ = std::make_unique<Notebook>(must(here_->read()));
        (void)here_->changedElsewhere();
    }
    std::vector<std::string> refresh() { return words(must(here_->refresh(*notebook_))); }
    void expectAsFresh() { EXPECT_EQ(differences(*notebook_, must(here_->read(session_))), QStringList()); }

    ScratchNotebook scratch_;
    std::unique_ptr<NotebookFile> here_, there_;
    std::unique_ptr<Notebook> notebook_;
    std::optional<SessionId> session_;
};

} // namespace

TEST_F(TwoWindows, AChangeElsewhereIsNoticedOnceAndAtOnce)
{
    EXPECT_FALSE(here_->changedElsewhere());
    must(setField(*here_, first, "coat_passes", Known { 4.0 }));
    EXPECT_FALSE(here_->changedElsewhere()) << "its own writing is no news";
    must(setField(*there_, first, "coat_passes", Known { 5.0 }));
    EXPECT_TRUE(here_->changedElsewhere());
    EXPECT_FALSE(here_->changedElsewhere());
    (void)fieldOf(*there_, first, "coat_passes");
    EXPECT_FALSE(here_->changedElsewhere()) << "reading is no change";
}

TEST_F(TwoWindows, AnotherProcessIsNoticedWithinASecond)
{
    here_.reset(); // SQLite's locks do not survive a fork
    there_.reset();
    int ends[2];
    ASSERT_EQ(pipe(ends), 0);
    const auto child = fork();
    if (child == 0) {
        char go = 0;
        (void)!read(ends[0], &go, 1);
        addPrint(*scratch_.open(), "from the other process");
        _exit(0);
    }
    here_ = scratch_.open();
    ASSERT_EQ(write(ends[1], "x", 1), 1);
    int status = 0;
    waitpid(child, &status, 0);
    ASSERT_EQ(status, 0);
    const auto written = std::chrono::steady_clock::now();
    while (!here_->changedElsewhere() && std::chrono::steady_clock::now() - written < std::chrono::seconds(5))
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    EXPECT_LT(std::chrono::steady_clock::now() - written, std::chrono::seconds(1));
    EXPECT_THAT(refresh(), ElementsAre("added print 2"));
}

TEST_F(TwoWindows, RefreshTellsWhichFieldOfWhichRow)
{
    must(there_->perform(text("Edit"), [](Writer& writer) -> Outcome {
        must(writer.set(first, text("coat_passes"), Known { 5.0 }));
        must(writer.set(first, text("coat_passes"), Known { 6.0 }));
        must(writer.set({ Entity::Bath, 2 }, text("bath_minutes"), Known { 12.0 }));
        must(writer.add(Entity::Print, 0, { { text("print_code"), Known { text("P2") } } }));
        must(writer.add(Entity::Touch, 1, {}));
        return writer.remove({ Entity::Weighing, 3 });
    }));
    EXPECT_THAT(refresh(),
        ElementsAre("set print 1 coat_passes", "added print 2", "removed weighing 3 of 1", "added touch 1 of 1",
            "set bath 2 bath_minutes of 1"));
    EXPECT_EQ(notebook_->get(first, u"coat_passes"), Known { 6.0 });
    expectAsFresh();
    EXPECT_TRUE(refresh().empty());
}

TEST_F(TwoWindows, AChangeOfEvidenceIsOneOfItsField)
{
    must(setField(*there_, first, "coat_volume_ml", Known { 0.5, Evidence::Estimated }));
    EXPECT_THAT(refresh(), ElementsAre("set print 1 coat_volume_ml"));
    must(setField(*there_, first, "coat_volume_ml", Known { 0.5, Evidence::Assumed }));
    EXPECT_THAT(refresh(), ElementsAre("set print 1 coat_volume_ml"));
    EXPECT_EQ(notebook_->get(first, u"coat_volume_ml").evidence, Evidence::Assumed);
    expectAsFresh();
}

TEST_F(TwoWindows, UndoElsewhereIsSeenToo)
{
    must(setField(*there_, first, "coat_passes", Known { 5.0 }));
    must(there_->undo());
    EXPECT_THAT(refresh(), ElementsAre("set print 1 coat_passes"));
    must(there_->undo()); // the print itself, which was added here
    const auto changes = refresh();
    EXPECT_EQ(changes.size(), size_t(1 + childrenOfWholePrint));
    EXPECT_EQ(changes.front(), "removed print 1");
    expectAsFresh();
    must(there_->redo());
    EXPECT_EQ(refresh().front(), "added print 1");
    expectAsFresh();
}

TEST_F(TwoWindows, EachStepSaysWhoseItIs)
{
    must(setField(*there_, first, "coat_passes", Known { 5.0 }));
    EXPECT_EQ(must(here_->nextUndo())->window, text("there"));
    must(here_->undo());
    EXPECT_EQ(must(there_->nextUndo())->window, text("here"));
    EXPECT_EQ(must(there_->nextRedo())->label, text("Set coat_passes"));
}

TEST_F(TwoWindows, AnEntryThatTheOtherHasChangedIsNotOverwrittenUnseen)
{
    const Known seen = notebook_->get(first, u"coat_volume_ml");
    must(setField(*there_, first, "coat_volume_ml", Known { 0.9 }));
    const auto error = fails(setField(*here_, first, "coat_volume_ml", Known { 0.4 }, seen));
    EXPECT_EQ(error.code, Trouble::Conflict);
    EXPECT_EQ(error.where, text("Mix on the sheet"));
    EXPECT_EQ(fieldOf(*here_, first, "coat_volume_ml"), Known { 0.9 });
    // Having seen it, the person may.
    must(setField(*here_, first, "coat_volume_ml", Known { 0.4 }, Known { 0.9 }));
    EXPECT_EQ(fieldOf(*there_, first, "coat_volume_ml"), Known { 0.4 });
    // Another field of the same print is no conflict.
    must(setField(*there_, first, "coat_passes", Known { 8.0 }));
    must(setField(*here_, first, "coat_volume_ml", Known { 0.3 }, Known { 0.4 }));
}

TEST_F(TwoWindows, UnknownIsSomethingThatCanBeExpected)
{
    must(setField(*here_, first, "print_notes", Known { text("mine") }, Known {}));
    EXPECT_EQ(
        fails(setField(*there_, first, "print_notes", Known { text("yours") }, Known {})).code, Trouble::Conflict);
    EXPECT_EQ(fieldOf(*here_, first, "print_notes").text(), text("mine"));
}

TEST_F(TwoWindows, ARowThatTheOtherRemovedIsNotWrittenTo)
{
    must(there_->perform(text("Remove"), [](Writer& writer) { return writer.remove(first); }));
    EXPECT_EQ(fails(setField(*here_, first, "coat_passes", Known { 5.0 })).code, Trouble::Conflict);
}

TEST_F(TwoWindows, BothWriteInTurns)
{
    for (int n = 0; n < 30; ++n) {
        addPrint(n % 2 ? *here_ : *there_, qPrintable(QStringLiteral("T%1").arg(n)));
        refresh();
    }
    EXPECT_EQ(notebook_->prints().rows(), 31);
    expectAsFresh();
}

TEST_F(TwoWindows, WaitingForAnotherProgramEndsInASentence)
{
    must(here_->connection().script("PRAGMA busy_timeout = 100"));
    Outside other(scratch_.path());
    other.run("BEGIN IMMEDIATE");
    EXPECT_EQ(fails(setField(*here_, first, "coat_passes", Known { 5.0 })).code, Trouble::Busy);
    EXPECT_EQ(must(here_->read()).prints().rows(), 1) << "reading goes on";
    other.run("COMMIT");
    must(setField(*here_, first, "coat_passes", Known { 5.0 }));
}

TEST_F(TwoWindows, ARowThatMovesToAnotherPrintIsFollowed)
{
    addPrint(*here_, "P2");
    refresh();
    Outside(scratch_.path()).run("UPDATE bath SET print = 2 WHERE id = 1");
    EXPECT_THAT(refresh(), ElementsAre("removed bath 1 of 1", "added bath 1 of 2"));
    EXPECT_EQ(notebook_->children(Entity::Bath, 2).size(), 1U);
    expectAsFresh();
}

class OneSession : public TwoWindows {
protected:
    void SetUp() override
    {
        TwoWindows::SetUp();
        must(here_->perform(text("Sessions"), [](Writer& writer) -> Outcome {
            for (const char* code : { "S1", "S2" })
                must(writer.add(Entity::Session, 0, { { text("session_code"), Known { text(code) } } }));
            return writer.set(first, text("print_session"), Known { Link { 1 } });
        }));
        addWholePrint(*here_, "P2", 1, { 2, 0, 0, 0 });
        session_ = SessionId { 1 };
        notebook_ = std::make_unique<Notebook>(must(here_->read(session_)));
    }
};

TEST_F(OneSession, HoldsItsPrintsAndAllThatIsShared)
{
    EXPECT_FALSE(notebook_->complete);
    EXPECT_EQ(notebook_->only_session, 1);
    EXPECT_EQ(notebook_->prints().rows(), 1);
    EXPECT_EQ(notebook_->table(Entity::Weighing).rows(), 4);
    EXPECT_EQ(notebook_->table(Entity::Session).rows(), 2);
}

TEST_F(OneSession, PassesOverTheOthers)
{
    must(setField(*there_, Ref(Entity::Print, 2), "coat_passes", Known { 7.0 }));
    must(setField(*there_, Ref(Entity::Bath, 3), "bath_minutes", Known { 7.0 }));
    addWholePrint(*there_, "P3", 2, { 2, 0, 0, 0 });
    EXPECT_TRUE(refresh().empty());
    addWholePrint(*there_, "P4", 3, { 1, 0, 0, 0 });
    EXPECT_EQ(refresh().size(), size_t(1 + childrenOfWholePrint));
    expectAsFresh();
}

TEST_F(OneSession, APrintThatComesInBringsItsChildrenAndOneThatLeavesTakesThem)
{
    must(setField(*there_, Ref(Entity::Print, 2), "print_session", Known { Link { 1 } }));
    EXPECT_EQ(refresh().size(), size_t(1 + childrenOfWholePrint));
    EXPECT_EQ(notebook_->table(Entity::Weighing).rows(), 8);
    expectAsFresh();
    must(there_->perform(text("Move and remove"), [](Writer& writer) -> Outcome {
        must(writer.set(first, text("print_session"), {}));
        return writer.remove({ Entity::Print, 2 });
    }));
    refresh();
    EXPECT_EQ(notebook_->prints().rows(), 0);
    EXPECT_EQ(notebook_->table(Entity::Weighing).rows(), 0);
    expectAsFresh();
}

TEST_F(OneSession, TheLatestIsTheOneThatStartedLast)
{
    must(here_->perform(text("Starts"), [](Writer& writer) -> Outcome {
        must(writer.set({ Entity::Session, 1 }, text("session_start"),
            Known { *Instant::fromIso(std::string_view("2026-05-04T10:00:00+02:00")) }));
        // An hour earlier, though its text would sort later.
        return writer.set({ Entity::Session, 2 }, text("session_start"),
            Known { *Instant::fromIso(std::string_view("2026-05-04T12:00:00+05:00")) });
    }));
    EXPECT_EQ(must(here_->latestSession()), SessionId { 1 });
}

} // namespace WASHFAST_FILE
