// The line that says which prints are shown: good text, wrong text, what is kept of the last good one, and completion.
#include "ui/prints/filter_line.h"

#include "tests/support/prints_fixture.h"

#include <QCompleter>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::FilterLine;

namespace {

class Line : public testing::Test {
protected:
    void SetUp() override
    {
        line.show();
        line.activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&line));
        line.setFocus();
    }
    void type(const char* keys) { QTest::keyClicks(line.line(), text(keys)); }

    Catalogue catalogue = standardCatalogue();
    FilterLine line { catalogue, ui::lightTheme() };
    QSignalSpy said { &line, &FilterLine::filterChanged };
};

TEST_F(Line, GoodTextIsPassedOnAtEveryKey)
{
    type("rain");
    EXPECT_EQ(said.size(), 4);
    EXPECT_EQ(line.complaint(), QString());
}

TEST_F(Line, WrongTextSaysWhatAndWhereAndPassesNothingOn)
{
    line.setText(text("kept < 0.6"));
    ASSERT_EQ(said.size(), 1);
    line.setText(text("kept < 0.6 and nonsense = 4"));
    EXPECT_EQ(said.size(), 1) << "the last good one stays";
    EXPECT_TRUE(line.complaint().contains(text("nonsense"))) << line.complaint().toStdString();
    line.setText(text("kept < 0.6 and kept > 0.1"));
    EXPECT_EQ(said.size(), 2);
    EXPECT_EQ(line.complaint(), QString());
}

TEST_F(Line, WhatIsMissingAtTheEndIsSaidToo)
{
    line.setText(text("kept <"));
    EXPECT_NE(line.complaint(), QString());
    EXPECT_EQ(said.size(), 0);
}

TEST_F(Line, MarkupInTheTextIsShownNotObeyed)
{
    line.setText(text("nonsense = \"<b>bold</b>\""));
    EXPECT_TRUE(line.complaint().contains(text("nonsense")));
    EXPECT_TRUE(line.complaint().contains(text("&lt;b&gt;"))) << "as it stands in the rich text";
}

TEST_F(Line, AFieldsNameIsCompletedInTheMiddleOfTheLine)
{
    line.setText(text("kept < 0.6 and moist"));
    line.line()->setCursorPosition(int(line.text().size()));
    auto* completer = line.line()->completer();
    completer->setCompletionPrefix(line.text());
    QStringList found;
    for (int row = 0; completer->setCurrentRow(row); ++row)
        found << completer->currentCompletion();
    EXPECT_TRUE(found.contains(text("kept < 0.6 and moisture_at_rinse_pct")))
        << found.join(QLatin1Char('|')).toStdString();
    for (const auto& one : found)
        EXPECT_TRUE(one.startsWith(text("kept < 0.6 and moist"))) << one.toStdString();
}

TEST_F(Line, TheQuestionMarkAsksForHelp)
{
    QSignalSpy help(&line, &FilterLine::helpWanted);
    QTest::mouseClick(line.findChild<QToolButton*>(), Qt::LeftButton);
    EXPECT_EQ(help.size(), 1);
}

} // namespace

} // namespace WASHFAST_FILE
