// A form asks before it keeps times that can hardly be right.
#include "ui/bench/bench_view.h"
#include "ui/common/print_form.h"
#include "ui/common/record_dialog.h"
#include "ui/prints/station_section.h"

#include "tests/support/prints_fixture.h"

#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

constexpr int correct = 0, keep = 1;
const char* const decades = "2062-05-04T10:12:00+02:00";

class KeepTimes : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        first = room.print("A1-01", { { "rinse_start", "2026-05-04T10:00:00+02:00" } });
        second = room.print("A1-02", { { "rinse_start", "2026-05-04T10:00:00+02:00" } });
    }
    template <typename W> void enter(W& form, const char* key, const char* typed)
    {
        form.show();
        form.activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&form));
        auto* editor = form.editor(text(key));
        ASSERT_NE(editor, nullptr) << key;
        auto* line = qobject_cast<QLineEdit*>(editor->input());
        ASSERT_NE(line, nullptr);
        line->setFocus();
        line->selectAll();
        QTest::keyClicks(line, QString::fromUtf8(typed));
        QTest::keyClick(line, Qt::Key_Return);
    }
    [[nodiscard]] ui::PrintForm& rinse(const QVector<qint64>& prints)
    {
        form_ = std::make_unique<ui::PrintForm>(room.desk(), room.look.theme());
        form_->setDialogs(room.dialogs);
        form_->setStation(Station::Rinse);
        form_->setPrints(prints);
        return *form_;
    }
    [[nodiscard]] std::string asked() const { return room.dialogs.texts(text("question")).join(u'\n').toStdString(); }

    PrintsFixture room;
    qint64 first = 0, second = 0;

private:
    std::unique_ptr<ui::PrintForm> form_;
};

} // namespace

TEST_F(KeepTimes, AsksAboutAnEndOfDecadesLaterAndTakesNoForAnAnswer)
{
    room.dialogs.willAnswer(correct);
    auto& form = rinse({ first });
    enter(form, "rinse_end", decades);
    EXPECT_EQ(asked(), "“Rinse ends” is 36 years after “Rinse starts”. Keep it?");
    EXPECT_FALSE(room.time(first, "rinse_end"));
    EXPECT_TRUE(room.dialogs.allUsed());
    room.dialogs.willAnswer(std::nullopt); // Escape
    enter(form, "rinse_end", decades);
    EXPECT_FALSE(room.time(first, "rinse_end"));
}

TEST_F(KeepTimes, KeepsItWhenThePersonWantsIt)
{
    room.dialogs.willAnswer(keep);
    enter(rinse({ first }), "rinse_end", decades);
    EXPECT_EQ(room.time(first, "rinse_end")->toIso(), text(decades));
}

TEST_F(KeepTimes, AsksOnceForManyPrints)
{
    room.dialogs.willAnswer(keep);
    enter(rinse({ first, second }), "rinse_end", decades);
    EXPECT_TRUE(room.time(first, "rinse_end"));
    EXPECT_TRUE(room.time(second, "rinse_end"));
}

TEST_F(KeepTimes, AsksAboutAStartThatMakesTheEndTooLate)
{
    room.set({ Entity::Print, first }, "rinse_end", "2026-05-04T10:30:00+02:00");
    room.dialogs.willAnswer(correct);
    enter(rinse({ first }), "rinse_start", "1926-05-04T10:00:00+02:00");
    EXPECT_THAT(asked(), HasSubstr("100 years"));
    EXPECT_EQ(room.time(first, "rinse_start")->toIso(), text("2026-05-04T10:00:00+02:00"));
}

TEST_F(KeepTimes, AsksNothingAboutWhatIsPlausible)
{
    enter(rinse({ first }), "rinse_end", "2026-05-04T10:40:00+02:00");
    EXPECT_EQ(asked(), "");
    EXPECT_TRUE(room.time(first, "rinse_end"));
}

TEST_F(KeepTimes, ThePageOfAPrintAsks)
{
    ui::StationSection section(room.services(), Station::Rinse);
    section.setPrint(first);
    section.show();
    section.editButton()->click();
    ASSERT_NE(section.form(), nullptr);
    room.dialogs.willAnswer(correct);
    enter(*section.form(), "rinse_end", decades);
    EXPECT_THAT(asked(), HasSubstr("36 years"));
}

TEST_F(KeepTimes, TheBenchAsks)
{
    ui::BenchView bench(room.services());
    auto* form = bench.findChild<ui::PrintForm*>();
    ASSERT_NE(form, nullptr);
    form->setParent(nullptr); // out of its panel, so that it can be shown by itself
    const std::unique_ptr<ui::PrintForm> own(form);
    form->setStation(Station::Rinse);
    form->setPrints({ first });
    room.dialogs.willAnswer(correct);
    enter(*form, "rinse_end", decades);
    EXPECT_THAT(asked(), HasSubstr("36 years"));
}

TEST_F(KeepTimes, TheFormOfAnExposureAsks)
{
    const auto exposure = room.add(
        Entity::Exposure, { { "expose_number", 1 }, { "expose_start", "2026-05-04T10:00:00+02:00" } }, first);
    ui::RecordDialog dialog(room.services(), Entity::Exposure, exposure, nullptr, first);
    room.dialogs.willAnswer(correct);
    enter(dialog, "expose_end", decades);
    dialog.accept();
    EXPECT_EQ(asked(), "“Exposure ends” is 36 years after “Exposure starts”. Keep it?");
    EXPECT_FALSE(room.desk().notebook().get({ Entity::Exposure, exposure }, u"expose_end").has());
    EXPECT_TRUE(dialog.isVisible()) << "it can be corrected";
    room.dialogs.willAnswer(keep);
    dialog.accept();
    EXPECT_TRUE(room.desk().notebook().get({ Entity::Exposure, exposure }, u"expose_end").has());
    EXPECT_FALSE(dialog.isVisible());
}

} // namespace WASHFAST_FILE
