// Two windows on one file: each sees what the other writes within a second, and neither overwrites the other silently.
#include "tests/support/prints_fixture.h"
#include "ui/common/print_form.h"

#include <QElapsedTimer>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>
#include <cmath>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::Desk;

namespace {

constexpr int second = 1000; // milliseconds: what was promised

class TwoWindows : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        print = room.toned("A1-01", 0.9, 0.5);
        store::OpenOptions options;
        options.create = false;
        options.window = text("other");
        auto file = store::NotebookFile::open(room.path(), room.catalogue(), options);
        ASSERT_TRUE(file) << file.error().sentence().toStdString();
        other = std::make_unique<Desk>(std::move(*file), room.clock);
        QObject::connect(other.get(), &Desk::trouble, other.get(), [this](const Error& error) { troubles << error; });
    }
    bool set(Desk& desk, const char* key, const Known& value, const std::optional<Known>& expected = std::nullopt)
    {
        return desk.setPrintField({ print }, text(key), value, expected);
    }

    PrintsFixture room;
    std::unique_ptr<Desk> other;
    QVector<Error> troubles;
    qint64 print = 0;
};

TEST_F(TwoWindows, EachSeesTheOthersChangeWithinASecond)
{
    QSignalSpy there(other.get(), &Desk::changed);
    QElapsedTimer since;
    since.start();
    ASSERT_TRUE(set(room.desk(), "coat_volume_ml", Known { 0.62 }));
    ASSERT_TRUE(there.wait(second));
    EXPECT_LE(since.elapsed(), second);
    EXPECT_EQ(other->get(print, u"coat_volume_ml"), Known { 0.62 });

    QSignalSpy here(&room.desk(), &Desk::changed);
    ASSERT_TRUE(set(*other, "coat_volume_ml", Known { 0.7 }));
    ASSERT_TRUE(here.wait(second));
    EXPECT_EQ(room.number(print, "coat_volume_ml"), 0.7);
}

TEST_F(TwoWindows, AddingRemovingAndUndoAreSeen)
{
    QSignalSpy there(other.get(), &Desk::changed);
    const auto added = room.print("A1-02");
    while (other->notebook().prints().find(added) < 0 || other->get(added, u"print_code").text() != text("A1-02"))
        ASSERT_TRUE(there.wait(second));
    ASSERT_TRUE(
        room.desk().perform(text("Remove"), [&](store::Writer& writer) { return writer.remove(PrintId { print }); }));
    ASSERT_TRUE(there.wait(second));
    EXPECT_EQ(other->notebook().prints().find(print), -1);
    room.undo();
    ASSERT_TRUE(there.wait(second));
    EXPECT_GE(other->notebook().prints().find(print), 0);
    EXPECT_EQ(other->get(print, u"density_day_after_deepest"), Known { 0.5 }) << "with all that belongs to it";
}

TEST_F(TwoWindows, AChangeOfAValueThatWasSeenOtherwiseIsRefusedAndSaid)
{
    const Known seen = other->get(print, u"coat_volume_ml");
    ASSERT_TRUE(set(room.desk(), "coat_volume_ml", Known { 0.62 }));
    EXPECT_FALSE(set(*other, "coat_volume_ml", Known { 0.5 }, seen)); // before it has looked
    ASSERT_EQ(troubles.size(), 1);
    EXPECT_EQ(troubles[0].code, Trouble::Conflict);
    EXPECT_FALSE(troubles[0].says.isEmpty());
    EXPECT_EQ(other->get(print, u"coat_volume_ml"), Known { 0.62 }) << "and it shows the other's value at once";
    room.reopen();
    EXPECT_EQ(room.number(print, "coat_volume_ml"), 0.62);
}

TEST_F(TwoWindows, AFormDoesNotOverwriteWhatItDidNotShow)
{
    ui::PrintForm form(*other, ui::lightTheme());
    form.setStation(Station::Coat);
    form.setPrints({ print });
    form.show();
    form.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&form));
    auto* line = qobject_cast<QLineEdit*>(form.editor(text("coat_volume_ml"))->input());
    line->setFocus();
    QTest::keyClicks(line, text("0.5"));
    ASSERT_TRUE(set(room.desk(), "coat_volume_ml", Known { 0.62 }));
    QTest::qWait(second); // the other window hears of it while the person still types
    ASSERT_EQ(other->get(print, u"coat_volume_ml"), Known { 0.62 });
    QTest::keyClick(line, Qt::Key_Return);
    EXPECT_EQ(troubles.size(), 1);
    EXPECT_EQ(line->text(), text("0.62"));
    EXPECT_EQ(other->get(print, u"coat_volume_ml"), Known { 0.62 });
}

TEST_F(TwoWindows, ChangesOfDifferentFieldsDoNotDisturbEachOther)
{
    ASSERT_TRUE(set(room.desk(), "coat_volume_ml", Known { 0.62 }, Known {}));
    ASSERT_TRUE(set(*other, "coat_passes", Known { 3.0 }, Known {}));
    EXPECT_TRUE(troubles.isEmpty());
    EXPECT_EQ(other->get(print, u"coat_volume_ml"), Known { 0.62 });
    room.desk().lookForChanges();
    EXPECT_EQ(room.number(print, "coat_passes"), 3);
}

TEST_F(TwoWindows, UndoOfWhatTheOtherHasChangedSinceIsRefused)
{
    ASSERT_TRUE(set(room.desk(), "coat_volume_ml", Known { 0.62 }));
    ASSERT_TRUE(set(*other, "coat_volume_ml", Known { 0.7 }));
    room.desk().lookForChanges();
    other->undo(); // its own step first
    EXPECT_EQ(other->get(print, u"coat_volume_ml"), Known { 0.62 });
    EXPECT_TRUE(troubles.isEmpty());
}

TEST_F(TwoWindows, TheSameNameTwiceIsRefused)
{
    const auto add = [](Desk& desk) {
        return desk.perform(text("Add"), [](store::Writer& writer) -> Outcome {
            const auto added = writer.add(Entity::Print, 0, { { text("print_code"), Known { text("A1-07") } } });
            return added ? Outcome(Done {}) : Outcome(added.error());
        });
    };
    EXPECT_TRUE(add(room.desk()));
    EXPECT_FALSE(add(*other));
    EXPECT_EQ(troubles.size(), 1);
    EXPECT_EQ(other->notebook().prints().rows(), 2);
}

TEST_F(TwoWindows, TheSessionThatIsTakenBackIsLeft)
{
    qint64 made = 0;
    ASSERT_TRUE(room.desk().perform(text("New session"), [&](store::Writer& writer) -> Outcome {
        const auto added = writer.add(Entity::Session, 0,
            { { text("session_code"), Known { text("A2") } },
                { text("session_start"), Known { at("2026-05-11T10:00:00+02:00") } } });
        if (!added)
            return added.error();
        made = *added;
        return Done {};
    }));
    room.sit(made);
    QSignalSpy moved(&room.desk(), &Desk::sessionChanged);
    room.undo();
    EXPECT_EQ(moved.size(), 1);
    EXPECT_EQ(room.desk().session().value, room.session);
}

TEST_F(TwoWindows, WholeColumnsStayRightThroughEveryKindOfNews)
{
    // Three prints; the first is removed, then brought back in the middle of the table while the last is changed: all
    // in one piece of news for the other window.
    room.toned("A1-02", 0.9, 0.4);
    const auto last = room.toned("A1-03", 0.9, 0.3);
    room.desk().perform(text("Remove"), [&](store::Writer& writer) { return writer.remove(PrintId { print }); });
    other->lookForChanges();
    const int kept = room.catalogue().printField(u"kept");
    ASSERT_EQ(other->columns().column(kept).numbers.size(), 2U);
    room.undo();
    room.desk().setPrintField({ last }, text("density_day_after_deepest"), Known { 0.9 });
    other->lookForChanges();
    const auto& numbers = other->columns().column(kept).numbers;
    ASSERT_EQ(numbers.size(), 3U);
    EXPECT_NEAR(numbers[0], 0.5, 1e-12);
    EXPECT_NEAR(numbers[1], 0.375, 1e-12);
    EXPECT_NEAR(numbers[2], 1.0, 1e-12);
}

TEST_F(TwoWindows, WholeColumnsAreThoseOfAFreshReadingAfterAnyChanges)
{
    std::mt19937 chance(4);
    const auto below = [&](int n) { return int(chance() % unsigned(n)); };
    for (int i = 2; i < 8; ++i)
        room.toned(("A1-0" + std::to_string(i)).c_str(), 0.9, 0.1 * i);
    const int kept = room.catalogue().printField(u"kept");
    const int code = room.catalogue().printField(u"print_code");
    int added = 0;
    for (int round = 0; round < 60; ++round) {
        (void)other->columns().column(kept);
        (void)other->columns().column(code);
        for (int i = 0; i <= below(3); ++i) {
            const auto& prints = room.desk().notebook().prints();
            const auto chosen = prints.id(below(prints.rows()));
            switch (below(5)) {
            case 0:
                if (prints.rows() > 3)
                    room.desk().perform(
                        text("Remove"), [&](store::Writer& writer) { return writer.remove(PrintId { chosen }); });
                break;
            case 1:
                room.undo();
                break;
            case 2:
                room.print(("B-" + std::to_string(++added)).c_str());
                break;
            default:
                room.desk().setPrintField({ chosen }, text("density_day_after_deepest"), Known { below(100) / 100.0 });
            }
        }
        other->lookForChanges();
        const PrintColumns fresh(other->notebook());
        const auto& is = other->columns().column(kept).numbers;
        const auto& should = fresh.column(kept).numbers;
        ASSERT_EQ(is.size(), should.size()) << "round " << round;
        for (size_t row = 0; row < is.size(); ++row)
            ASSERT_TRUE(is[row] == should[row] || (std::isnan(is[row]) && std::isnan(should[row])))
                << "round " << round << ", row " << row;
        ASSERT_EQ(other->columns().column(code).texts, fresh.column(code).texts) << "round " << round;
    }
}

} // namespace

} // namespace WASHFAST_FILE
