// A whole lesson by the keyboard alone: from an empty notebook, twenty prints go through the six stations; then what is
// in the file, what Ctrl+Z takes back, and what the next start of the program finds.
#include "tests/support/bench_fixture.h"

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;

namespace {

constexpr int pupils = 20;

class BenchLesson : public BenchFixture {
protected:
    void begin()
    {
        open();
        ASSERT_FALSE(view->showsTable());
        ASSERT_EQ(view->empty()->title(), QStringLiteral("No session yet"));
        inDialog([](QDialog& dialog) { accept(dialog); });
        key(Qt::Key_Space); // the one action of the empty view
        ASSERT_TRUE(room.desk().session().valid());
        ASSERT_EQ(view->empty()->title(), QStringLiteral("No prints in this session yet"));
        inDialog([](QDialog& dialog) {
            auto& prints = dynamic_cast<NewPrintsDialog&>(dialog);
            EXPECT_EQ(prints.count()->value(), pupils);
            EXPECT_EQ(prints.firstCode()->text(), QStringLiteral("2024-06-21-01"));
            prints.firstCode()->setFocus();
            prints.firstCode()->selectAll();
            type("C-01");
            key(Qt::Key_Tab); // the maker's code
            type("m");
            accept(dialog);
        });
        key(Qt::Key_Space);
        ASSERT_TRUE(view->showsTable());
        ASSERT_EQ(view->model()->rowCount(), pupils);
        ASSERT_TRUE(tableHasFocus());
    }
    void minutes(int n) { room.clock.advanceMinutes(n); }
};

} // namespace

TEST_F(BenchLesson, TwentyPrintsGoThroughAllStationsByKeyboard)
{
    begin();
    const auto start = room.desk().now();
    ASSERT_EQ(view->chosen().size(), pupils) << "the new prints are chosen";

    key(Qt::Key_Space); // Coat starts
    minutes(2);
    key(Qt::Key_Right);
    ASSERT_EQ(view->chosen().size(), pupils) << "the arrow changes the station, not what is chosen";
    key(Qt::Key_Space); // Dry starts, and Coat ends with it
    minutes(20);
    key(Qt::Key_4); // dry to the touch
    minutes(1);
    key(Qt::Key_Space); // Dry ends
    key(Qt::Key_Right);
    key(Qt::Key_Space); // Expose
    minutes(4);
    key(Qt::Key_L);
    ASSERT_TRUE(lineHasFocus());
    type("20");
    key(Qt::Key_Return);
    ASSERT_TRUE(tableHasFocus());
    minutes(4);
    key(Qt::Key_L);
    type("30");
    key(Qt::Key_Return);
    minutes(2);
    key(Qt::Key_Right);
    key(Qt::Key_Space); // Hold, and Expose ends with it
    minutes(15);
    key(Qt::Key_Right);
    key(Qt::Key_Space); // Rinse, and Hold ends with it
    minutes(8);
    key(Qt::Key_Space);
    key(Qt::Key_Right);
    minutes(24 * 60);
    for (int i = 0; i < pupils; ++i) { // Read: numbers are simply typed
        type(QByteArray::number(0.8 + 0.01 * i, 'f', 2).constData());
        key(Qt::Key_Return);
    }
    ASSERT_TRUE(tableHasFocus()) << "after the last one";
    EXPECT_TRUE(room.dialogs.shown().empty()) << "nothing was asked on the way";

    const auto after = [&](int n) {
        auto time = start;
        time.ms_utc += qint64(n) * 60000;
        return time;
    };
    view.reset();
    room.reopen();
    const auto prints = room.desk().printsOf(room.desk().session());
    ASSERT_EQ(prints.size(), pupils);
    for (int i = 0; i < pupils; ++i) {
        const auto print = prints[i];
        const auto two = QStringLiteral("%1").arg(i + 1, 2, 10, QLatin1Char('0')).toStdString();
        EXPECT_EQ(room.text(print, "print_code"), "C-" + two);
        EXPECT_EQ(room.text(print, "print_maker"), "m" + two);
        EXPECT_EQ(room.time(print, "coat_start"), start);
        EXPECT_EQ(room.time(print, "coat_end"), after(2));
        EXPECT_EQ(room.time(print, "dry_start"), after(2));
        EXPECT_EQ(room.time(print, "dry_end"), after(23));
        EXPECT_EQ(room.time(print, "expose_start"), after(23));
        EXPECT_EQ(room.time(print, "expose_end"), after(33));
        EXPECT_EQ(room.text(print, "touch_at_expose"), "dry");
        // 20 W/m2 until the first reading at 4 min, evenly up to 30 at 8 min, 30 until 10 min: 20 x 240 s + 25 x 240 s
        // + 30 x 120 s = 14,400 J/m2 = 1.44 J/cm2 (1 W = 1 J/s: SI Brochure, BIPM, 9th edition, table 4).
        EXPECT_NEAR(room.number(print, "dose_j_cm2").value_or(-1), 1.44, 1e-9);
        EXPECT_EQ(room.number(print, "hold_minutes"), 15.0);
        EXPECT_EQ(room.time(print, "rinse_start"), after(48));
        EXPECT_EQ(room.time(print, "rinse_end"), after(56));
        EXPECT_EQ(room.childrenOf(print, Entity::Bath), 1);
        EXPECT_NEAR(room.number(print, "density_day_after_deepest").value_or(-1), 0.8 + 0.01 * i, 1e-12);
    }
}

TEST_F(BenchLesson, EveryKeyPressIsOneStepThatCtrlZTakesBack)
{
    begin();
    key(Qt::Key_Space);
    minutes(2);
    key(Qt::Key_Space);
    key(Qt::Key_Right);
    key(Qt::Key_Space);
    key(Qt::Key_3);
    const QStringList labels { QStringLiteral("Touch: matt but cool, 20 prints"),
        QStringLiteral("Start Dry, 20 prints"), QStringLiteral("End Coat, 20 prints"),
        QStringLiteral("Start Coat, 20 prints"), QStringLiteral("New prints, C-01 to C-20"),
        QStringLiteral("New session") };
    for (const auto& label : labels) {
        EXPECT_EQ(room.desk().undoLabel(), label);
        key(Qt::Key_Z, Qt::ControlModifier);
    }
    EXPECT_EQ(room.desk().undoLabel(), QString());
    EXPECT_EQ(room.desk().notebook().prints().rows(), 0);
    EXPECT_EQ(view->empty()->title(), QStringLiteral("No session yet"));
    for (int i = 0; i < labels.size(); ++i)
        room.desk().redo();
    ASSERT_TRUE(QTest::qWaitFor([&] { return view->model()->rowCount() == pupils; }))
        << "the session comes back with its prints";
    EXPECT_EQ(stage(7, Station::Dry), Stage::Running);
}

TEST_F(BenchLesson, TheStepsSurviveTheEndOfTheProgram)
{
    begin();
    key(Qt::Key_Space);
    view.reset();
    room.reopen();
    open();
    ASSERT_TRUE(view->showsTable());
    EXPECT_EQ(stage(0, Station::Coat), Stage::Running);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("Start Coat, 20 prints"));
    minutes(3);
    view->model()->tick();
    EXPECT_EQ(view->model()->index(5, BenchModel::Coat).data().toString(), QStringLiteral("03:00"))
        << "time went on meanwhile";
}

} // namespace WASHFAST_FILE
