// Curves, Causes, Term with its import, and Shelf with the example notebook: their models, what pointing, clicking and
// keys do, and what is written to files.
#include "app/demo/demo_notebook.h"
#include "core/exchange/delimited.h"
#include "tests/support/desk_fixture.h"
#include "ui/causes/answer_panel.h"
#include "ui/causes/causes_view.h"
#include "ui/causes/factor_model.h"
#include "ui/causes/next_page.h"
#include "ui/causes/picture_pane.h"
#include "ui/common/empty_state.h"
#include "ui/common/point_layer.h"
#include "ui/curves/curves_view.h"
#include "ui/curves/prints_chart.h"
#include "ui/shelf/record_model.h"
#include "ui/shelf/shelf_view.h"
#include "ui/term/import_dialog.h"
#include "ui/term/import_model.h"
#include "ui/term/term_state.h"
#include "ui/term/term_view.h"

#include <QAbstractItemModelTester>
#include <QComboBox>
#include <QFile>
#include <QGraphicsScene>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTabWidget>
#include <QTableView>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QTest>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ModelTester = QAbstractItemModelTester;
constexpr auto howToTest = ModelTester::FailureReportingMode::Fatal;

namespace {

class Views : public testing::Test {
protected:
    void fill()
    {
        ASSERT_TRUE(demo::writeDemo(room.desk().file()));
        room.reopen();
        room.desk().waitUntilComplete();
    }
    template <typename V> V& show()
    {
        auto made = std::make_unique<V>(room.services());
        auto* view = made.get();
        view->resize(1100, 700);
        view->show();
        view->activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(view));
        view->arrive();
        QTest::qWait(30);
        view_ = std::move(made);
        return *view;
    }
    static std::string wordsOf(const QWidget& widget)
    {
        QString all;
        for (const auto* label : widget.findChildren<QLabel*>())
            if (label->isVisible())
                all += label->text() + QLatin1Char('\n');
        return all.toStdString();
    }
    static QPushButton* button(const QWidget& within, const char* text)
    {
        for (auto* one : within.findChildren<QPushButton*>())
            if (one->text().remove(QLatin1Char('&')) == QString::fromLatin1(text))
                return one;
        ADD_FAILURE() << "no button " << text;
        return nullptr;
    }
    /// Asks why some of these prints failed, and waits for the answer.
    static ui::Question askWhy(ui::CausesView& causes, const char* batch)
    {
        QSignalSpy answered(&causes, &ui::CausesView::answered);
        ui::Question question;
        question.batch = QString::fromLatin1(batch);
        question.outcome = QStringLiteral("failed");
        causes.ask(question);
        EXPECT_TRUE(!answered.empty() || answered.wait(20000));
        return question;
    }
    static QByteArray bytesOf(const QString& path)
    {
        QFile file(path);
        EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << path.toStdString();
        return file.readAll();
    }

    DeskFixture room;
    QTemporaryDir files;
    std::unique_ptr<QWidget> view_;
};

} // namespace

// ---- Curves

TEST_F(Views, CurvesAreEmptyWithAWord)
{
    auto& curves = show<ui::CurvesView>();
    auto* empty = curves.findChild<ui::EmptyState*>();
    ASSERT_NE(empty, nullptr);
    EXPECT_TRUE(empty->isVisible());
    EXPECT_FALSE(empty->title().isEmpty());
}

TEST_F(Views, PointingAtAPrintSaysWhichAndAClickOpensIt)
{
    fill();
    auto& curves = show<ui::CurvesView>();
    auto* chart = curves.chart();
    ASSERT_GT(chart->prints().rows.size(), 100U);
    // The print furthest to the lower left stands apart from the cloud.
    size_t apart = 0;
    for (size_t i = 0; i < chart->prints().rows.size(); ++i)
        if (chart->prints().x[i] < chart->prints().x[apart])
            apart = i;
    const auto place = chart->points()->placeOf(int(apart));
    ASSERT_TRUE(place);
    const auto at = chart->mapFromScene(chart->points()->mapToScene(*place));
    QSignalSpy hovered(chart, &ui::PrintsChart::hovered);
    QTest::mouseMove(chart->viewport(), at);
    QTest::qWait(20);
    ASSERT_FALSE(hovered.empty());
    const int row = chart->prints().rows[size_t(hovered.back()[0].toInt())];
    const auto id = room.desk().notebook().prints().id(row);
    EXPECT_THAT(wordsOf(curves), testing::HasSubstr(room.text(id, "print_code").value_or("?")));
    QSignalSpy opened(&curves, &ui::View::openPrint);
    QTest::mouseClick(chart->viewport(), Qt::LeftButton, Qt::NoModifier, at);
    ASSERT_EQ(opened.size(), 1);
    EXPECT_EQ(opened[0][0].toLongLong(), id);
}

TEST_F(Views, TheOutcomeAndTheFilterNarrowThePlot)
{
    fill();
    auto& curves = show<ui::CurvesView>();
    const auto all = curves.chart()->prints().rows.size();
    QComboBox* outcome = nullptr;
    for (auto* box : curves.findChildren<QComboBox*>())
        if (box->findData(QStringLiteral("failed")) >= 0)
            outcome = box;
    ASSERT_NE(outcome, nullptr);
    outcome->setFocus();
    while (outcome->currentData().toString() != QLatin1String("failed")) {
        const int before = outcome->currentIndex();
        QTest::keyClick(outcome, Qt::Key_Down);
        ASSERT_NE(outcome->currentIndex(), before);
    }
    const auto failed = curves.chart()->prints().rows.size();
    EXPECT_LT(failed, all);
    EXPECT_GT(failed, 10U);
    for (const auto fate : curves.chart()->prints().fate)
        EXPECT_EQ(fate, ui::Fate::Failed);
    auto* filter = curves.findChild<QLineEdit*>();
    filter->setFocus();
    QTest::keyClicks(filter, QStringLiteral("session_code = S4"));
    EXPECT_LT(curves.chart()->prints().rows.size(), failed);
    EXPECT_GT(curves.chart()->prints().rows.size(), 0U);
    const auto before = curves.chart()->prints().rows;
    QTest::keyClicks(filter, QStringLiteral(" and ("));
    EXPECT_EQ(curves.chart()->prints().rows, before) << "half a filter changes nothing";
}

TEST_F(Views, APlotIsSavedInThreeFormats)
{
    fill();
    auto& curves = show<ui::CurvesView>();
    for (const auto& [plot, ending, starts] :
        { std::tuple(ui::Plot::DensityDose, "svg", "<?xml"), std::tuple(ui::Plot::KeptMoistureRinse, "pdf", "%PDF"),
            std::tuple(ui::Plot::MoistureDoseMap, "png", "\x89PNG") }) {
        curves.setPlot(plot);
        const auto path = files.filePath(QStringLiteral("plot.") + QLatin1String(ending));
        room.dialogs.willSave(path);
        button(curves, "Save...")->setFocus();
        QTest::keyClick(button(curves, "Save..."), Qt::Key_Space);
        const auto bytes = bytesOf(path);
        EXPECT_TRUE(bytes.startsWith(starts)) << ending;
        EXPECT_GT(bytes.size(), 5000) << ending;
    }
    EXPECT_TRUE(room.dialogs.allUsed());
}

TEST_F(Views, AnyTwoNumbersOfThePrintsCanBePlotted)
{
    fill();
    auto& curves = show<ui::CurvesView>();
    curves.setAxes(QStringLiteral("cloud_factor"), QStringLiteral("dose_j_cm2"), QStringLiteral("sun_zenith_deg"));
    const auto& prints = curves.chart()->prints();
    ASSERT_GT(prints.rows.size(), 50U) << "what the light room works out is in the plots";
    for (size_t i = 0; i < prints.rows.size(); ++i) {
        const auto id = room.desk().notebook().prints().id(prints.rows[i]);
        EXPECT_EQ(room.number(id, "cloud_factor"), prints.x[i]);
        EXPECT_EQ(room.number(id, "dose_j_cm2"), prints.y[i]);
    }
    EXPECT_THAT(curves.chart()->accessibleName().toStdString(), testing::StartsWith("Dose against "));
    curves.setAxes(QStringLiteral("rinse_minutes"), QStringLiteral("kept"), QString());
    EXPECT_GT(curves.chart()->prints().rows.size(), 20U);
}

// ---- Causes

TEST_F(Views, TheSearchAnswersInWordsAndInATable)
{
    fill();
    auto& causes = show<ui::CausesView>();
    ModelTester tester(causes.factors(), howToTest);
    askWhy(causes, "session_code = S4");
    ASSERT_GT(causes.factors()->rowCount(), 5);
    EXPECT_EQ(causes.factors()->factor(0).name, QStringLiteral("moisture_at_rinse_pct"));
    EXPECT_THAT(wordsOf(*causes.panel()), testing::HasSubstr("Moisture left at the rinse"));
    for (int row = 1; row < causes.factors()->rowCount(); ++row) {
        const auto& above = causes.factors()->factor(row - 1).p_adjusted;
        const auto& here = causes.factors()->factor(row).p_adjusted;
        EXPECT_TRUE(!here || (above && *above <= *here)) << "the smallest p first, row " << row;
    }
    askWhy(causes, "session_code = S3");
    EXPECT_THAT(wordsOf(*causes.panel()), testing::Not(testing::HasSubstr("A cause")));
}

// ---- Term and import

TEST_F(Views, TheTermCountsItsSessions)
{
    fill();
    auto& term = show<ui::TermView>();
    ASSERT_EQ(term.table()->rowCount(), 8);
    int prints = 0;
    for (int row = 0; row < 8; ++row)
        prints += term.table()->item(row, 3)->text().toInt();
    EXPECT_EQ(prints, room.desk().notebook().prints().rows());
    QSignalSpy shown(&term, &ui::View::showFiltered);
    term.table()->setFocus();
    term.table()->setCurrentCell(3, 0);
    QTest::keyClick(term.table(), Qt::Key_Return);
    ASSERT_EQ(shown.size(), 1);
    EXPECT_TRUE(shown[0][0].toString().contains(QStringLiteral("S4")));
}

TEST_F(Views, TheTermCountsPrintsThatWaitForTheirToneADayAfter)
{
    const auto session = room.add(Entity::Session, { { "session_code", "S1" } });
    const auto print = [&](const char* code, bool after, const char* outcome) {
        const auto id = room.add(Entity::Print, { { "print_code", code }, { "print_session", session } });
        for (const char* when : { "before_rinse", "day_after" })
            if (after || qstrcmp(when, "before_rinse") == 0)
                room.add(Entity::Reading,
                    { { "reading_when", when }, { "reading_where", "deepest" }, { "reading_density", 0.9 } }, id);
        if (outcome)
            room.set({ Entity::Print, id }, "print_outcome", outcome);
        return id;
    };
    print("A1", true, "kept");
    print("A2", false, "kept");
    print("A3", false, nullptr);
    const auto off = print("A4", false, "ran_off");
    auto summary = ui::summariesOf(room.desk().columns(), 0).at(0);
    EXPECT_EQ(summary.prints, 4);
    EXPECT_EQ(summary.waiting, 3);
    room.add(Entity::Reading,
        { { "reading_when", "day_after" }, { "reading_where", "deepest" }, { "reading_method", "nothing" } }, off);
    summary = ui::summariesOf(room.desk().columns(), 0).at(0);
    EXPECT_EQ(summary.waiting, 2);
    auto& term = show<ui::TermView>();
    QStringList labels;
    for (const auto* label : term.findChildren<QLabel*>())
        labels << label->text();
    EXPECT_TRUE(labels.join(QLatin1Char(' ')).contains(QStringLiteral("2 waiting for the reading a day after")))
        << labels.join(QLatin1Char(' ')).toStdString();
}

TEST_F(Views, AnImportShowsEachRowBeforeAnythingIsWritten)
{
    const auto path = files.filePath(QStringLiteral("old.csv"));
    {
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write("print_code,coat_volume_ml,Remarks\nX1,0.6,fine\nX2,much,poor\nX1,0.7,twice\n");
    }
    ui::ImportDialog dialog(room.services());
    ASSERT_TRUE(dialog.load(path));
    auto* rows = dialog.findChild<QTableView*>(QString(), Qt::FindChildrenRecursively);
    ui::ImportModel* model = nullptr;
    for (auto* table : dialog.findChildren<QTableView*>())
        if (auto* found = qobject_cast<ui::ImportModel*>(table->model()))
            model = found;
    ASSERT_NE(rows, nullptr);
    ASSERT_NE(model, nullptr);
    ModelTester tester(model, howToTest);
    using State = exchange::ImportRow::State;
    EXPECT_EQ(dialog.preview().count(State::New), 1);
    EXPECT_EQ(dialog.preview().count(State::Refused), 2);
    QString all;
    for (int row = 0; row < model->rowCount(); ++row)
        for (int column = 0; column < model->columnCount(); ++column)
            all += model->index(row, column).data().toString() + QLatin1Char(' ');
    EXPECT_TRUE(all.contains(QStringLiteral("“much” is not a number"))) << all.toStdString();
    EXPECT_FALSE(button(dialog, "Import")->isEnabled()) << "two rows are refused";
    EXPECT_EQ(room.desk().notebook().prints().rows(), 0);
    dialog.map(QStringLiteral("Remarks"), QStringLiteral("print_notes"));
    dialog.setKeepGood(true);
    ASSERT_TRUE(button(dialog, "Import")->isEnabled());
    dialog.accept();
    const auto made = room.desk().notebook().byName(Entity::Print, QStringLiteral("X1"));
    ASSERT_TRUE(made);
    EXPECT_EQ(room.text(*made, "print_notes"), "fine");
}

TEST_F(Views, AFileThatIsNoTableIsRefusedWithASentence)
{
    const auto path = files.filePath(QStringLiteral("book.csv"));
    {
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(QByteArray("PK\x03\x04") + QByteArray(200, '\0'));
    }
    ui::ImportDialog dialog(room.services());
    EXPECT_FALSE(dialog.load(path));
    EXPECT_FALSE(dialog.load(files.filePath(QStringLiteral("nowhere.csv"))));
    ASSERT_EQ(room.dialogs.shown().size(), 2U);
    for (const auto& one : room.dialogs.shown())
        EXPECT_EQ(one.kind, QStringLiteral("error"));
}

// ---- Shelf

TEST_F(Views, TheShelfHoldsEveryKindAndFollowsChanges)
{
    fill();
    auto& shelf = show<ui::ShelfView>();
    ModelTester tester(shelf.model(), howToTest);
    for (const auto entity :
        { Entity::Mix, Entity::Paper, Entity::Cover, Entity::Negative, Entity::Site, Entity::Term }) {
        shelf.choose(entity);
        EXPECT_EQ(shelf.model()->rowCount(), room.desk().notebook().table(entity).rows()) << int(entity);
        EXPECT_GT(shelf.model()->rowCount(), 0) << int(entity);
    }
    shelf.choose(Entity::Paper);
    const int before = shelf.model()->rowCount();
    room.desk().perform(QStringLiteral("Make"), [](store::Writer& writer) -> Outcome {
        const auto added = writer.add(
            Entity::Paper, 0, { { QStringLiteral("paper_name"), Known { QStringLiteral("Etching 250") } } });
        return added ? Outcome(Done {}) : Outcome(added.error());
    });
    EXPECT_EQ(shelf.model()->rowCount(), before + 1);
    room.desk().undo();
    EXPECT_EQ(shelf.model()->rowCount(), before);
}

TEST_F(Views, EveryPrintStandsAlongAFactorAndCanBeOpened)
{
    fill();
    auto& causes = show<ui::CausesView>();
    const auto question = askWhy(causes, "session_code = S4");
    const auto strip = ui::stripOf(ui::tableFor(question, room.desk().columns()).value(), causes.factors()->factor(0));
    EXPECT_EQ(int(strip.x.size()) + strip.unknown, 28) << "nobody is dropped without a word";
    causes.pages()->setCurrentIndex(1);
    QTest::qWait(40);
    ASSERT_EQ(causes.strip()->places().size(), strip.x.size());
    for (size_t i = 0; i < strip.x.size(); ++i)
        for (size_t j = 0; j < i; ++j)
            if (strip.x[i] < strip.x[j])
                EXPECT_LE(causes.strip()->places()[i].x(), causes.strip()->places()[j].x());
    QSignalSpy opened(&causes, &ui::View::openPrint);
    causes.strip()->setFocus();
    QTest::keyClick(causes.strip(), Qt::Key_Right);
    QTest::keyClick(causes.strip(), Qt::Key_Return);
    ASSERT_EQ(opened.size(), 1);
    EXPECT_EQ(room.text(opened[0][0].toLongLong(), "print_code"), strip.codes[0].toStdString());
    QTest::mouseClick(causes.strip(), Qt::LeftButton, Qt::NoModifier, causes.strip()->places().back().toPoint());
    ASSERT_EQ(opened.size(), 2);

    for (const char* ending : { "pdf", "json" }) {
        const auto path = files.filePath(QStringLiteral("answer.") + QLatin1String(ending));
        EXPECT_TRUE(causes.saveTo(path));
        EXPECT_GT(bytesOf(path).size(), 3000) << ending;
    }
    EXPECT_TRUE(bytesOf(files.filePath(QStringLiteral("answer.pdf"))).startsWith("%PDF"));
}

TEST_F(Views, TheNextPrintsGoToTheBenchInOneStep)
{
    fill();
    auto& causes = show<ui::CausesView>();
    askWhy(causes, "session_code = S6"); // dampness and a short exposure went together
    ASSERT_EQ(causes.answer().verdict, causes::Verdict::Tangle);
    causes.pages()->setCurrentWidget(causes.next());
    auto* table = causes.next()->table();
    ASSERT_GT(table->rowCount(), 1);
    int wanted = 0;
    for (int row = 0; row < table->rowCount(); ++row) {
        wanted += table->item(row, 0)->text().toInt();
        EXPECT_FALSE(table->item(row, 3)->text().isEmpty()) << "what it will tell, row " << row;
    }
    const auto newest = room.desk().notebook().table(Entity::Session);
    room.sit(newest.id(newest.rows() - 1));
    const int before = room.desk().notebook().prints().rows();
    auto* send = causes.next()->sendButton();
    ASSERT_TRUE(send->isEnabled());
    send->setFocus();
    QTest::keyClick(send, Qt::Key_Space);
    EXPECT_EQ(room.desk().notebook().prints().rows(), before + wanted);
    const auto made = room.desk().printsOf(room.desk().session()).back();
    EXPECT_TRUE(room.get(made, "print_notes").has());
    EXPECT_FALSE(room.get(made, "expose_start").has()) << "prepared, not done";
    room.desk().undo();
    EXPECT_EQ(room.desk().notebook().prints().rows(), before);
}

TEST_F(Views, TheAnswerSaysHowNewPrintsChangedIt)
{
    fill();
    auto& causes = show<ui::CausesView>();
    askWhy(causes, "session_code = S4");
    const int before = causes.answer().n;
    // One of the prints that nobody had judged is judged.
    qint64 open = 0;
    const auto& prints = room.desk().notebook().prints();
    for (int row = 0; row < prints.rows(); ++row)
        if (room.desk().reader().get(row, u"session_code").text() == QStringLiteral("S4")
            && !room.desk().reader().get(row, u"print_outcome").has())
            open = prints.id(row);
    ASSERT_NE(open, 0);
    QSignalSpy answered(&causes, &ui::CausesView::answered);
    room.desk().setPrintField({ open }, QStringLiteral("print_outcome"), Known { QStringLiteral("kept") });
    ASSERT_TRUE(!answered.empty() || answered.wait(20000));
    EXPECT_EQ(causes.answer().n, before + 1);
    EXPECT_THAT(wordsOf(*causes.panel()), testing::HasSubstr("\u21BB"));
}

TEST_F(Views, ALongSearchCanBeLeft)
{
    fill();
    auto& causes = show<ui::CausesView>();
    QSignalSpy answered(&causes, &ui::CausesView::answered);
    ASSERT_TRUE(!answered.empty() || answered.wait(20000) || !causes.working());
    answered.clear();
    causes.search();
    ASSERT_TRUE(causes.working());
    causes.stop();
    ASSERT_TRUE(!answered.empty() || answered.wait(20000));
    EXPECT_FALSE(causes.working());
    EXPECT_TRUE(causes.panel()->heading().contains(QStringLiteral("Stopped")) || causes.answer().n > 0);
}

} // namespace WASHFAST_FILE
