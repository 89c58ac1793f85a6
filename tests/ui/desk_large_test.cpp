// A notebook too large to be read at once: the running session first, the rest behind, and nothing lost in between.
#include "tests/support/prints_fixture.h"

#include <QSignalSpy>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::Desk;

namespace {

constexpr int inEach = 3000; // two sessions of it are more than a desk reads at once
constexpr int patience = 60'000;

class LargeNotebook : public testing::Test {
protected:
    void SetUp() override
    {
        auto file = open();
        const auto done = file->performOrigin(text("given"), [this](store::Writer& writer) -> Outcome {
            for (int s = 0; s < 2; ++s) {
                const auto start = s == 0 ? "2026-05-04T10:00:00+02:00" : "2026-05-11T10:00:00+02:00";
                const auto added = writer.add(Entity::Session, 0,
                    { { text("session_code"), Known { s == 0 ? text("A1") : text("A2") } },
                        { text("session_start"), Known { at(start) } } });
                if (!added)
                    return added.error();
                sessions[s] = { *added };
                for (int i = 0; i < inEach; ++i) {
                    const auto print = writer.add(Entity::Print, 0,
                        { { text("print_code"), Known { QStringLiteral("A%1-%2").arg(s + 1).arg(i) } },
                            { text("print_session"), Known { Link { *added } } } });
                    if (!print)
                        return print.error();
                    last = *print;
                }
            }
            return Done {};
        });
        ASSERT_TRUE(done) << done.error().sentence().toStdString();
    }
    std::unique_ptr<store::NotebookFile> open()
    {
        auto file = store::NotebookFile::open(folder.filePath(text("large.washfast")), catalogue);
        EXPECT_TRUE(file);
        return std::move(*file);
    }
    std::unique_ptr<Desk> sitDown() { return std::make_unique<Desk>(open(), clock); }

    QTemporaryDir folder;
    Catalogue catalogue = standardCatalogue();
    SettableClock clock;
    SessionId sessions[2];
    qint64 last = 0;
};

TEST_F(LargeNotebook, OpensWithTheRunningSessionAndBecomesComplete)
{
    auto desk = sitDown();
    EXPECT_FALSE(desk->complete());
    EXPECT_EQ(desk->session(), sessions[1]) << "the latest";
    EXPECT_EQ(desk->notebook().prints().rows(), inEach);
    EXPECT_EQ(desk->printsOf(sessions[1]).size(), inEach);
    QSignalSpy reloaded(desk.get(), &Desk::reloaded);
    ASSERT_TRUE(reloaded.wait(patience));
    EXPECT_TRUE(desk->complete());
    EXPECT_EQ(desk->notebook().prints().rows(), 2 * inEach);
    EXPECT_EQ(desk->session(), sessions[1]);
    EXPECT_EQ(reloaded.size(), 1);
}

TEST_F(LargeNotebook, FollowsChangesWhileTheRestIsBeingReadAndAfter)
{
    auto desk = sitDown();
    ASSERT_TRUE(desk->setPrintField({ last }, text("coat_passes"), Known { 3.0 }));
    EXPECT_EQ(desk->get(last, u"coat_passes"), Known { 3.0 });
    desk->waitUntilComplete();
    EXPECT_TRUE(desk->complete());
    EXPECT_EQ(desk->get(last, u"coat_passes"), Known { 3.0 }) << "not lost when the whole came";
    QSignalSpy changed(desk.get(), &Desk::changed);
    ASSERT_TRUE(desk->setPrintField({ last }, text("coat_passes"), Known { 4.0 }));
    EXPECT_EQ(changed.size(), 1);
    EXPECT_EQ(desk->get(last, u"coat_passes"), Known { 4.0 });
    QTest::qWait(100); // the watcher's own message comes late and must do no harm
    EXPECT_EQ(desk->notebook().prints().rows(), 2 * inEach);
    EXPECT_EQ(desk->get(last, u"coat_passes"), Known { 4.0 });
}

TEST_F(LargeNotebook, AnotherSessionIsReadWhenItIsChosen)
{
    auto desk = sitDown();
    ASSERT_FALSE(desk->complete());
    QSignalSpy reloaded(desk.get(), &Desk::reloaded);
    QSignalSpy moved(desk.get(), &Desk::sessionChanged);
    desk->setSession(sessions[0]);
    EXPECT_EQ(moved.size(), 1);
    EXPECT_EQ(reloaded.size(), 1);
    EXPECT_EQ(desk->printsOf(sessions[0]).size(), inEach);
    ASSERT_TRUE(desk->setPrintField({ desk->printsOf(sessions[0]).first() }, text("coat_passes"), Known { 5.0 }));
    EXPECT_EQ(desk->get(desk->printsOf(sessions[0]).first(), u"coat_passes"), Known { 5.0 });
    desk->waitUntilComplete();
    EXPECT_EQ(desk->notebook().prints().rows(), 2 * inEach);
    EXPECT_EQ(desk->session(), sessions[0]);
}

TEST_F(LargeNotebook, WhatAnotherWindowWritesMeanwhileIsThereInTheEnd)
{
    auto desk = sitDown();
    auto other = open();
    qint64 added = 0;
    ASSERT_TRUE(other->perform(text("Add"), [&](store::Writer& writer) -> Outcome {
        const auto print = writer.add(Entity::Print, 0,
            { { text("print_code"), Known { text("late") } },
                { text("print_session"), Known { Link { sessions[0].value } } } });
        if (!print)
            return print.error();
        added = *print;
        return Done {};
    }));
    desk->waitUntilComplete();
    desk->lookForChanges();
    EXPECT_EQ(desk->notebook().prints().rows(), 2 * inEach + 1);
    EXPECT_EQ(desk->get(added, u"print_code").text(), text("late"));
}

TEST_F(LargeNotebook, LeavingBeforeTheRestHasComeIsHarmless)
{
    auto desk = sitDown();
    ASSERT_FALSE(desk->complete());
    desk.reset();
    QTest::qWait(50);
    EXPECT_TRUE(open()->integrity());
}

} // namespace

} // namespace WASHFAST_FILE
