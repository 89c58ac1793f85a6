// Row by row: each sheet is asked for what it lacks, a value that is there is never replaced without asking, one run is
// one undo, and a print with the tone before the rinse only is not finished.
#include "tests/support/bench_fixture.h"

#include <QLocale>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;
using testing::HasSubstr;
using testing::Not;

namespace {

class BenchRows : public BenchFixture {
protected:
    void openWith(int count)
    {
        addSession();
        prints = addPrints(count);
        open();
    }
    void press(qint64 print, Station station)
    {
        view->choose({ print });
        pressAll({ print }, station);
    }
    void pressAll(const QVector<qint64>& which, Station station)
    {
        goTo(view->model()->rowOf(which.front()), BenchModel::columnOf(station));
        view->choose(which);
        key(Qt::Key_Space);
    }
    /// The sheets were exposed and come in.
    void expose(const QVector<qint64>& which)
    {
        pressAll(which, Station::Expose);
        room.clock.advanceMinutes(10);
        pressAll(which, Station::Expose);
    }
    void rinse(const QVector<qint64>& which)
    {
        pressAll(which, Station::Rinse);
        room.clock.advanceMinutes(6);
        pressAll(which, Station::Rinse);
    }
    void nextDay() { room.clock.advanceMinutes(23 * 60); }
    void rowByRow(const QVector<qint64>& which)
    {
        goTo(view->model()->rowOf(which.front()), BenchModel::Rinse);
        view->choose(which);
        key(Qt::Key_R);
        ASSERT_TRUE(lineHasFocus());
    }
    void enter(const char* number)
    {
        type(number);
        key(Qt::Key_Return);
    }
    void reading(qint64 print, const char* when, double density, const char* method = nullptr,
        const char* channel = nullptr, Evidence evidence = Evidence::Measured)
    {
        const auto id = room.add(Entity::Reading,
            { { "reading_when", when }, { "reading_where", "deepest" },
                { "reading_density", knownNumber(density, evidence) } },
            print);
        if (method)
            room.set({ Entity::Reading, id }, "reading_method", method);
        if (channel)
            room.set({ Entity::Reading, id }, "reading_channel", channel);
    }
    void chooseIn(const char* choice)
    {
        for (auto* box : view->entry()->findChildren<QComboBox*>())
            if (const int at = box->findData(QString::fromLatin1(choice)); at >= 0)
                box->setCurrentIndex(at);
    }
    [[nodiscard]] std::optional<double> before(qint64 print) const
    {
        return room.number(print, "density_before_rinse_deepest");
    }
    [[nodiscard]] std::optional<double> after(qint64 print) const
    {
        return room.number(print, "density_day_after_deepest");
    }
    [[nodiscard]] std::string counts() const { return view->strip()->countsShown().toStdString(); }
    [[nodiscard]] std::string hint() const { return view->entry()->hint().toStdString(); }
    [[nodiscard]] std::string entryId() const { return view->entry()->entryId().toStdString(); }

    QVector<qint64> prints;
};

// Readings K and M of the lesson that is counted (invented numbers).
constexpr const char* tonesBefore[] { "0.98", "1.02", "0.95", "1.00", "0.97", "0.91", "0.94", "0.83", "0.80", "0.78" };
constexpr const char* tonesAfter[] { "0.96", "1.00", "0.93", "0.97", "0.95", "0.88", "0.92", "0.31", "0.27", "0.22" };

} // namespace

TEST_F(BenchRows, TheReadingsOfTheDayAfterStandBesideThoseBeforeTheRinse)
{
    openWith(12);
    const auto ten = prints.mid(1, 10);
    expose(prints);
    rowByRow(ten);
    EXPECT_EQ(entryId(), "read:before_rinse:deepest");
    for (const char* tone : tonesBefore)
        enter(tone);
    ASSERT_TRUE(tableHasFocus());
    rinse(prints);
    nextDay();
    rowByRow(ten);
    EXPECT_EQ(entryId(), "read:day_after:deepest");
    for (const char* tone : tonesAfter)
        enter(tone);
    ASSERT_TRUE(tableHasFocus());
    EXPECT_TRUE(room.dialogs.shown().empty()) << "nothing had to be replaced";
    for (int i = 0; i < 10; ++i) {
        EXPECT_EQ(before(ten[i]), QByteArray(tonesBefore[i]).toDouble()) << i;
        EXPECT_EQ(after(ten[i]), QByteArray(tonesAfter[i]).toDouble()) << i;
    }
    view.reset();
    room.reopen();
    for (int i = 0; i < 10; ++i) {
        EXPECT_EQ(room.childrenOf(ten[i], Entity::Reading), 2);
        EXPECT_EQ(before(ten[i]), QByteArray(tonesBefore[i]).toDouble()) << i;
    }
}

TEST_F(BenchRows, ARunIsOneUndoThatSaysWhatItTakesBack)
{
    openWith(10);
    expose(prints);
    rowByRow(prints);
    for (const char* tone : tonesBefore)
        enter(tone);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("10 readings, before the rinse"));
    rinse(prints);
    nextDay();
    rowByRow(prints);
    for (const char* tone : tonesAfter)
        enter(tone);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("10 readings, a day after"));
    key(Qt::Key_Z, Qt::ControlModifier);
    for (int i = 0; i < 10; ++i) {
        EXPECT_FALSE(after(prints[i])) << i;
        EXPECT_TRUE(before(prints[i])) << i;
    }
    EXPECT_EQ(room.desk().redoLabel(), QStringLiteral("10 readings, a day after"));
    room.desk().redo();
    EXPECT_EQ(after(prints[0]), 0.96);
    EXPECT_EQ(after(prints[9]), 0.22);
    EXPECT_EQ(room.desk().redoLabel(), QString());
}

TEST_F(BenchRows, ARunIsOneUndoAfterTheNextStartToo)
{
    openWith(3);
    expose(prints);
    rowByRow(prints);
    for (int i = 0; i < 3; ++i)
        enter(tonesBefore[i]);
    view.reset();
    room.reopen();
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("3 readings, before the rinse"));
    room.desk().undo();
    for (const auto print : prints)
        EXPECT_FALSE(before(print));
    room.reopen();
    EXPECT_EQ(room.desk().redoLabel(), QStringLiteral("3 readings, before the rinse"));
    room.desk().redo();
    for (const auto print : prints)
        EXPECT_TRUE(before(print));
}

TEST_F(BenchRows, ARunThatIsLeftKeepsWhatWasEnteredAndUndoTakesItBack)
{
    openWith(5);
    expose(prints);
    rowByRow(prints);
    EXPECT_THAT(hint(), HasSubstr("Escape keeps what was entered"));
    enter("0.98");
    enter("1.02");
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("Density, before the rinse, deepest, A1-02"))
        << "while it goes on one at a time is taken back";
    type("0.9");
    key(Qt::Key_Escape);
    ASSERT_TRUE(tableHasFocus());
    EXPECT_EQ(before(prints[0]), 0.98);
    EXPECT_EQ(before(prints[1]), 1.02);
    EXPECT_FALSE(before(prints[2])) << "it was not entered";
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("2 readings, before the rinse"));
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_FALSE(before(prints[0]));
    EXPECT_FALSE(before(prints[1]));
}

TEST_F(BenchRows, WhatIsTakenBackWhileTheRunGoesOnIsNotCounted)
{
    openWith(4);
    expose(prints);
    rowByRow(prints);
    enter("0.98");
    enter("1.20");
    key(Qt::Key_Z, Qt::ControlModifier);
    ASSERT_TRUE(lineHasFocus());
    EXPECT_TRUE(before(prints[0]));
    EXPECT_FALSE(before(prints[1]));
    key(Qt::Key_Up);
    enter("1.02");
    enter("0.95");
    key(Qt::Key_Escape);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("3 readings, before the rinse"));
    key(Qt::Key_Z, Qt::ControlModifier);
    for (const auto print : prints)
        EXPECT_FALSE(before(print));
}

TEST_F(BenchRows, WhatThisRunEnteredIsPutRightWithoutAQuestion)
{
    openWith(2);
    expose(prints);
    rowByRow(prints);
    enter("0.89");
    key(Qt::Key_Up);
    enter("0.98");
    enter("1.02");
    EXPECT_TRUE(room.dialogs.shown().empty());
    EXPECT_EQ(before(prints[0]), 0.98);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("2 readings, before the rinse"));
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Reading), 0);
    EXPECT_FALSE(before(prints[1]));
}

TEST_F(BenchRows, EachRowIsAskedForWhatItLacks)
{
    openWith(6);
    expose(prints.mid(0, 2));
    reading(prints[0], "before_rinse", 0.9);
    reading(prints[1], "before_rinse", 0.8);
    reading(prints[1], "day_after", 0.7);
    rinse(prints.mid(0, 2));
    nextDay();
    expose({ prints[2] });
    pressAll({ prints[3] }, Station::Dry);
    pressAll({ prints[4] }, Station::Coat);
    rowByRow(prints);
    const std::pair<int, const char*> turns[] { { 0, "read:day_after:deepest" }, { 2, "read:before_rinse:deepest" },
        { 3, "weigh:drying" }, { 4, "weigh:coated" }, { 5, "weigh:bare" } };
    EXPECT_THAT(hint(), HasSubstr("Left out because nothing is missing: 1 print"));
    const char* numbers[] { "0.85", "1.02", "12.5", "13.1", "11.2" };
    for (int i = 0; i < 5; ++i) {
        EXPECT_EQ(view->entry()->print(), prints[turns[i].first]) << i;
        EXPECT_EQ(entryId(), turns[i].second);
        EXPECT_THAT(hint(), HasSubstr(view->model()->code(prints[turns[i].first]).toStdString() + " lacks this: "));
        enter(numbers[i]);
    }
    ASSERT_TRUE(tableHasFocus());
    EXPECT_EQ(after(prints[0]), 0.85);
    EXPECT_EQ(before(prints[0]), 0.9);
    EXPECT_EQ(after(prints[1]), 0.7);
    EXPECT_EQ(before(prints[2]), 1.02);
    EXPECT_FALSE(after(prints[2]));
    EXPECT_EQ(room.childrenOf(prints[3], Entity::Weighing), 1);
    EXPECT_EQ(room.number(prints[4], "mass_coated_g"), 13.1);
    EXPECT_EQ(room.number(prints[5], "mass_bare_g"), 11.2);
    EXPECT_THAT(room.desk().undoLabel().toStdString(),
        testing::MatchesRegex("1 readings?, a day after; 1 readings?, before the rinse; 1 mass(es)?, while drying; "
                              "1 mass(es)?, just coated; 1 mass(es)?, bare sheet"));
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_FALSE(after(prints[0]));
    EXPECT_EQ(room.childrenOf(prints[3], Entity::Weighing), 0);
    EXPECT_TRUE(room.dialogs.shown().empty());
}

TEST_F(BenchRows, NumbersTypedAtReadGoWhereEachSheetIs)
{
    openWith(3);
    expose(prints);
    reading(prints[0], "before_rinse", 0.9);
    rinse({ prints[0] });
    nextDay();
    goTo(0, BenchModel::Read);
    enter("0.8");
    EXPECT_EQ(entryId(), "read:before_rinse:deepest") << "the next sheet is not rinsed";
    enter("1.1");
    enter("1.2");
    EXPECT_EQ(after(prints[0]), 0.8);
    EXPECT_EQ(before(prints[1]), 1.1);
    EXPECT_FALSE(after(prints[1]));
    EXPECT_EQ(before(prints[2]), 1.2);
}

TEST_F(BenchRows, MassesGoWhereEachSheetIs)
{
    openWith(3);
    pressAll({ prints[0] }, Station::Dry);
    pressAll({ prints[1] }, Station::Coat);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_W);
    enter("12.1");
    enter("13.1");
    enter("11.1");
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Weighing), 1);
    EXPECT_FALSE(room.get(prints[0], "mass_coated_g").has());
    EXPECT_EQ(room.number(prints[1], "mass_coated_g"), 13.1);
    EXPECT_EQ(room.number(prints[2], "mass_bare_g"), 11.1);
}

TEST_F(BenchRows, BeforeAValueIsReplacedThePersonIsAskedOnceInARun)
{
    openWith(3);
    expose(prints);
    const double was[] { 0.5, 0.6, 0.7 };
    for (int i = 0; i < 3; ++i)
        reading(prints[i], "before_rinse", was[i]);
    const auto typeAll = [&] {
        rowByRow(prints);
        for (const char* number : { "0.91", "0.92", "0.93" })
            enter(number);
        ASSERT_TRUE(tableHasFocus());
    };
    room.dialogs.willAnswer(0);
    typeAll();
    ASSERT_EQ(room.dialogs.shown().size(), 1U);
    const auto asked = room.dialogs.shown()[0];
    for (const char* part :
        { "A1-01", "Density, before the rinse, deepest", "0.50", "0.91", "A1-02 0.60", "A1-03 0.70" })
        EXPECT_THAT(asked.text.toStdString(), HasSubstr(part));
    EXPECT_EQ(asked.choices.first(), QStringLiteral("Keep what is recorded")) << "Enter keeps";
    EXPECT_EQ(said.last(), QStringLiteral("3 values that had been recorded before were kept."));
    for (int i = 0; i < 3; ++i)
        EXPECT_EQ(before(prints[i]), was[i]);

    room.dialogs.willAnswer(std::nullopt); // Escape
    typeAll();
    for (int i = 0; i < 3; ++i)
        EXPECT_EQ(before(prints[i]), was[i]);

    room.dialogs.willAnswer(1);
    typeAll();
    EXPECT_EQ(room.dialogs.shown().size(), 3U);
    EXPECT_EQ(before(prints[0]), 0.91);
    EXPECT_EQ(before(prints[2]), 0.93);
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Reading), 1);
    key(Qt::Key_Z, Qt::ControlModifier);
    for (int i = 0; i < 3; ++i)
        EXPECT_EQ(before(prints[i]), was[i]) << "one undo brings all of them back";
}

TEST_F(BenchRows, AnyOtherFieldIsAskedAboutToo)
{
    openWith(2);
    room.set({ Entity::Print, prints[0] }, "coat_volume_ml", 0.6);
    room.set({ Entity::Print, prints[0] }, "coat_start", room.desk().now());
    room.add(Entity::Weighing, { { "weigh_state", "coated" }, { "weigh_mass_g", 12.5 } }, prints[0]);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_R);
    auto* what = view->entry()->what();
    what->setCurrentIndex(what->findData(QStringLiteral("field:coat_volume_ml")));
    EXPECT_EQ(view->entry()->print(), prints[1]) << "where it was";
    key(Qt::Key_Up);
    EXPECT_EQ(view->entry()->print(), prints[0]);
    room.dialogs.willAnswer(0);
    enter("0.9");
    EXPECT_EQ(room.number(prints[0], "coat_volume_ml"), 0.6);
    enter("0.7");
    EXPECT_EQ(room.number(prints[1], "coat_volume_ml"), 0.7);

    goTo(0, BenchModel::Coat);
    view->choose({ prints[0] });
    key(Qt::Key_W);
    EXPECT_EQ(entryId(), "weigh:bare") << "the first row has its mass and is passed over";
    what->setCurrentIndex(what->findData(QStringLiteral("weigh:coated")));
    key(Qt::Key_Up);
    room.dialogs.willAnswer(0);
    enter("99");
    EXPECT_EQ(room.number(prints[0], "mass_coated_g"), 12.5);
    EXPECT_TRUE(room.dialogs.allUsed());
}

TEST_F(BenchRows, TheSameValueAgainIsNoQuestion)
{
    openWith(1);
    expose(prints);
    reading(prints[0], "before_rinse", 0.9);
    rowByRow(prints);
    enter("0.9");
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Reading), 1);
    EXPECT_TRUE(room.dialogs.shown().empty());
}

TEST_F(BenchRows, AnotherInstrumentStandsBesideTheFirst)
{
    openWith(1);
    expose(prints);
    reading(prints[0], "before_rinse", 0.98, "photo", "red", Evidence::Assumed);
    rowByRow(prints);
    chooseIn("densitometer");
    chooseIn("red");
    enter("1.04");
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Reading), 2);
    EXPECT_EQ(before(prints[0]), 1.04) << "a densitometer's counts before an assumed one";
    rowByRow(prints);
    chooseIn("visual");
    enter("1.2");
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Reading), 3);
    EXPECT_EQ(before(prints[0]), 1.04) << "red counts, so that both tones are of one channel";
    EXPECT_TRUE(room.dialogs.shown().empty());
}

TEST_F(BenchRows, WhatAPhotoMeasuredGoesWithTheValueThatIsReplaced)
{
    openWith(1);
    expose(prints);
    reading(prints[0], "before_rinse", 0.98, "photo", "red");
    const auto& notebook = room.desk().notebook();
    const Ref row { Entity::Reading, notebook.table(Entity::Reading).id(0) };
    room.set(row, "reading_lab_l", 40.0);
    room.set(row, "reading_spread", 0.02);
    room.dialogs.willAnswer(1);
    rowByRow(prints);
    enter("0.5");
    EXPECT_EQ(before(prints[0]), 0.5);
    EXPECT_FALSE(notebook.get(row, u"reading_lab_l").has());
    EXPECT_FALSE(notebook.get(row, u"reading_spread").has());
}

TEST_F(BenchRows, APrintWithTheToneBeforeTheRinseWaitsForTheDayAfter)
{
    openWith(3);
    expose(prints);
    rowByRow(prints.mid(0, 2));
    enter("0.9");
    enter("0.8");
    rinse(prints);
    EXPECT_THAT(counts(), HasSubstr("2 waiting for the day after"));
    EXPECT_THAT(counts(), HasSubstr("1 waiting for Read"));
    EXPECT_THAT(counts(), Not(HasSubstr("finished")));
    const auto cell = [&](int row) { return view->model()->index(row, BenchModel::Read).data().toString(); };
    EXPECT_EQ(cell(0), QStringLiteral("next day"));
    rowByRow(prints.mid(0, 2));
    EXPECT_THAT(hint(), HasSubstr("due from"));
    key(Qt::Key_Escape);
    nextDay();
    view->model()->tick();
    EXPECT_EQ(cell(0), QStringLiteral("due"));
    EXPECT_THAT(counts(), HasSubstr("2 due: reading a day after"));
    EXPECT_EQ(view->model()->counts().due, 2);
    rowByRow({ prints[0], prints[1] });
    EXPECT_THAT(hint(), Not(HasSubstr("due from")));
    enter("0.85");
    EXPECT_THAT(counts(), HasSubstr("1 finished"));
    EXPECT_THAT(counts(), HasSubstr("1 due: reading a day after"));
}

TEST_F(BenchRows, WithOneRowChosenThoseThatWaitForTheirSecondToneHaveTheirTurn)
{
    openWith(6);
    expose(prints);
    rinse(prints);
    for (const int i : { 0, 2, 5 })
        reading(prints[i], "before_rinse", 0.9);
    nextDay();
    goTo(0, BenchModel::Rinse);
    key(Qt::Key_R);
    for (const int i : { 0, 2, 5 }) {
        EXPECT_EQ(view->entry()->print(), prints[i]);
        enter("0.8");
    }
    ASSERT_TRUE(tableHasFocus());
    goTo(1, BenchModel::Rinse);
    key(Qt::Key_R);
    EXPECT_EQ(view->entry()->print(), prints[1]) << "another one can be read all the same";
}

TEST_F(BenchRows, ARanOffPrintWaitsTooUnlessThereIsNothingToRead)
{
    openWith(2);
    expose(prints);
    for (const auto print : prints)
        reading(print, "before_rinse", 0.8);
    rinse(prints);
    for (const auto print : prints)
        room.set({ Entity::Print, print }, "print_outcome", "ran_off");
    nextDay();
    view->model()->tick();
    EXPECT_EQ(view->model()->counts().due, 2) << "how much ran off is what the second tone says";
    rowByRow(prints);
    EXPECT_THAT(hint(), HasSubstr("Type - when there is nothing to read."));
    enter("0.3");
    enter("-");
    ASSERT_TRUE(tableHasFocus());
    EXPECT_FALSE(after(prints[1]));
    EXPECT_EQ(view->model()->counts().finished, 2);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("2 readings, a day after"));
    goTo(1, BenchModel::Read);
    enter("0.1"); // there is something after all
    EXPECT_EQ(after(prints[1]), 0.1);
    EXPECT_EQ(room.childrenOf(prints[1], Entity::Reading), 2);
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(view->model()->counts().finished, 2);
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(view->model()->counts().due, 2);
}

TEST_F(BenchRows, NothingToReadWithoutAnOutcomeIsNotFinished)
{
    openWith(1);
    expose(prints);
    reading(prints[0], "before_rinse", 0.8);
    rinse(prints);
    nextDay();
    rowByRow(prints);
    enter("-");
    EXPECT_EQ(view->model()->counts().finished, 0);
    EXPECT_THAT(counts(), HasSubstr("1 waiting for Read"));
    room.set({ Entity::Print, prints[0] }, "print_outcome", "ran_off");
    EXPECT_EQ(view->model()->counts().finished, 1);
}

TEST_F(BenchRows, TheFormAsksBeforeDifferentValuesAreReplaced)
{
    openWith(3);
    room.set({ Entity::Print, prints[0] }, "coat_volume_ml", 0.6);
    room.set({ Entity::Print, prints[1] }, "coat_volume_ml", 0.7);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_A, Qt::ControlModifier);
    key(Qt::Key_Return);
    auto* volume = view->form()->form()->editor(QStringLiteral("coat_volume_ml"));
    room.dialogs.willAnswer(0);
    volume->input()->setFocus();
    type("0.9");
    key(Qt::Key_Return);
    ASSERT_EQ(room.dialogs.shown().size(), 1U);
    EXPECT_THAT(room.dialogs.shown()[0].text.toStdString(), HasSubstr("A1-01 0.60, A1-02 0.70"));
    EXPECT_EQ(room.number(prints[0], "coat_volume_ml"), 0.6);
    EXPECT_EQ(room.number(prints[1], "coat_volume_ml"), 0.7);
    EXPECT_EQ(room.number(prints[2], "coat_volume_ml"), 0.9) << "there was nothing to keep";
    room.dialogs.willAnswer(1);
    volume->input()->setFocus();
    type("0.8");
    key(Qt::Key_Return);
    for (const auto print : prints)
        EXPECT_EQ(room.number(print, "coat_volume_ml"), 0.8);
    volume->input()->setFocus();
    key(Qt::Key_A, Qt::ControlModifier);
    type("0.5");
    key(Qt::Key_Return);
    EXPECT_EQ(room.number(prints[0], "coat_volume_ml"), 0.5) << "one value for all was shown and is changed as meant";
    EXPECT_TRUE(room.dialogs.allUsed());
}

TEST_F(BenchRows, AValueThatAnotherWindowEntersMeanwhileIsNotReplaced)
{
    openWith(1);
    expose(prints);
    rowByRow(prints);
    auto other = store::NotebookFile::open(room.path(), room.catalogue());
    ASSERT_TRUE(other);
    const auto written = (*other)->perform(QStringLiteral("there"), [&](store::Writer& writer) -> Outcome {
        const auto added = writer.add(Entity::Reading, prints[0],
            { { QStringLiteral("reading_when"), Known { Value(QStringLiteral("before_rinse")) } },
                { QStringLiteral("reading_where"), Known { Value(QStringLiteral("deepest")) } },
                { QStringLiteral("reading_density"), knownNumber(0.4) } });
        return added ? Outcome(Done {}) : Outcome(added.error());
    });
    ASSERT_TRUE(written);
    room.expectTrouble();
    enter("0.9");
    EXPECT_EQ(before(prints[0]), 0.4);
    EXPECT_EQ(room.troubles().size(), 1);
    EXPECT_TRUE(view->entry()->isVisible()) << "what was typed stays";
}

TEST_F(BenchRows, NothingOfTheStripIsCutOff)
{
    openWith(10);
    for (int i = 0; i < 10; ++i)
        room.set({ Entity::Print, prints[i] }, "print_code",
            QStringLiteral("B%1").arg(i + 1, 2, 10, QLatin1Char('0')).toUtf8().constData());
    expose(prints.mid(0, 8));
    for (int i = 0; i < 7; ++i)
        reading(prints[i], "before_rinse", 0.9 + 0.01 * i, "photo", "red", Evidence::Assumed);
    rinse(prints.mid(0, 6));
    room.set({ Entity::Print, prints[1] }, "print_outcome", "ran_off");
    reading(prints[2], "day_after", 0.85, "scan", "red");
    pressAll({ prints[8] }, Station::Dry);
    const auto pictures = qEnvironmentVariable("WASHFAST_PICTURES");
    room.look.applyTo(*qApp);
    const auto look = [&](const char* name) {
        for (const auto mode : { ThemeMode::Light, ThemeMode::Dark }) {
            room.look.setMode(mode);
            QApplication::processEvents();
            for (auto* part : view->entry()->findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly)) {
                if (!part->isVisible() || !view->entry()->isVisible())
                    continue;
                const auto* label = qobject_cast<QLabel*>(part);
                const int needed = label && label->wordWrap() ? label->heightForWidth(label->width()) : 0;
                EXPECT_GE(part->height(), needed) << name;
                if (!label || !label->wordWrap()) {
                    EXPECT_GE(part->width(), part->minimumSizeHint().width())
                        << name << ' ' << part->metaObject()->className() << ' '
                        << (label ? label->text().toStdString() : std::string());
                }
                EXPECT_LE(part->geometry().right(), view->entry()->width()) << name;
            }
            if (!pictures.isEmpty())
                EXPECT_TRUE(view->grab().save(
                    QStringLiteral("%1/%2-%3.png").arg(pictures, QLatin1String(name)).arg(int(mode))));
        }
    };
    view->resize(1000, 560);
    goTo(0, BenchModel::Read);
    look("rows-waiting");
    nextDay();
    view->model()->tick();
    look("rows-due");
    rowByRow(prints);
    look("rows-mixed");
    enter("0.88");
    look("rows-mixed-next");
    key(Qt::Key_Escape);
    rowByRow({ prints[2], prints[0] });
    auto* what = view->entry()->what();
    what->setCurrentIndex(what->findData(QStringLiteral("read:day_after:deepest")));
    chooseIn("scan");
    look("rows-there");
    room.dialogs.willAnswer(0);
    enter("0.31");
    enter("0.32");
    look("rows-after");
}

} // namespace WASHFAST_FILE
