// Retired records are not offered where a record is chosen, and stay where they are set already.
#include "ui/bench/new_prints.h"
#include "ui/common/field_editor.h"
#include "ui/common/offered.h"
#include "ui/common/print_form.h"
#include "ui/common/record_dialog.h"
#include "ui/sunlight/light_ask.h"

#include "tests/support/prints_fixture.h"

#include <QComboBox>
#include <QLineEdit>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;

namespace {

class Offered : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson(); // mixes M2 and M10, paper P1
        old = room.add(Entity::Mix, { { "mix_code", "M1" } });
        print = room.print("A1-1", { { "print_mix", old } });
        room.set({ Entity::Mix, old }, "mix_retired", true);
    }
    [[nodiscard]] static QStringList choices(const ui::FieldEditor* editor)
    {
        QStringList all;
        if (auto* box = qobject_cast<QComboBox*>(editor->input()))
            for (int i = 0; i < box->count(); ++i)
                all << box->itemText(i);
        all.removeAll(QString());
        return all;
    }

    PrintsFixture room;
    qint64 old = 0, print = 0;
};

} // namespace

TEST_F(Offered, EveryKindThatCanBeRetiredIsKnown)
{
    const auto& catalogue = room.catalogue();
    for (const auto entity : { Entity::Chemical, Entity::Formula, Entity::Mix, Entity::Paper, Entity::Cover,
             Entity::Negative, Entity::Lamp, Entity::Card })
        EXPECT_FALSE(ui::retiredColumn(catalogue, entity).isEmpty()) << entityKey(entity).toStdString();
    EXPECT_TRUE(ui::retiredColumn(catalogue, Entity::Print).isEmpty());
}

TEST_F(Offered, NewPrintsAreNotMadeWithARetiredMix)
{
    ui::NewPrintsDialog dialog(room.services(), SessionId { room.session }, 2, nullptr);
    const auto* editor = dialog.editor(text("mix_code"));
    EXPECT_EQ(choices(editor), texts({ "M10", "M2" }));
    EXPECT_FALSE(editor->shown().has()) << "the last print's mix is used up: it is not handed on";
    EXPECT_EQ(choices(dialog.editor(text("paper_name"))), texts({ "P1" }));
    room.undo();
}

TEST_F(Offered, TheFormKeepsTheOneThatIsSet)
{
    ui::PrintForm form(room.desk(), room.look.theme());
    form.setFields({ room.catalogue().findPrintField(u"mix_code") });
    form.setPrints({ print });
    form.show();
    form.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&form));
    auto* editor = form.editor(text("mix_code"));
    EXPECT_EQ(choices(editor), texts({ "M1", "M10", "M2" }));
    auto* box = qobject_cast<QComboBox*>(editor->input());
    EXPECT_EQ(box->currentText(), text("M1"));
    // Walking through it with the keyboard changes nothing.
    box->setFocus();
    QTest::keyClick(box, Qt::Key_Tab);
    EXPECT_EQ(room.text(print, "mix_code"), "M1");
    // Another is chosen; from then on the retired one is not offered here either.
    box->setFocus();
    box->lineEdit()->selectAll();
    QTest::keyClicks(box, text("M2"));
    QTest::keyClick(box, Qt::Key_Return);
    EXPECT_EQ(room.text(print, "mix_code"), "M2");
    box->clearFocus();
    form.refresh();
    EXPECT_EQ(choices(editor), texts({ "M10", "M2" }));
}

TEST_F(Offered, ARecordsFormKeepsTheOneThatIsSetToo)
{
    const auto bottle = room.add(Entity::Chemical, { { "chemical_name", "Green salt, old jar" } });
    room.add(Entity::Chemical, { { "chemical_name", "Green salt, new jar" } });
    const auto part = room.add(Entity::MixPart, { { "part_substance", "x" }, { "part_chemical", bottle } }, room.m2);
    room.set({ Entity::Chemical, bottle }, "chemical_retired", true);
    const ui::RecordDialog fresh(room.services(), Entity::MixPart, 0, nullptr, room.m2);
    EXPECT_EQ(choices(fresh.editor(text("part_chemical"))), texts({ "Green salt, new jar" }));
    const ui::RecordDialog there(room.services(), Entity::MixPart, part, nullptr);
    EXPECT_EQ(choices(there.editor(text("part_chemical"))), texts({ "Green salt, old jar", "Green salt, new jar" }));
}

TEST_F(Offered, NeitherIsARetiredPaneBeforeALesson)
{
    const auto pane = room.add(
        Entity::Cover, { { "cover_name", "Old pane" }, { "cover_kind", "glass" }, { "cover_thickness_mm", 4 } });
    const auto count = ui::sunlight::paneChoices(room.desk().notebook()).size();
    room.set({ Entity::Cover, pane }, "cover_retired", true);
    EXPECT_EQ(ui::sunlight::paneChoices(room.desk().notebook()).size(), count - 1);
}

} // namespace WASHFAST_FILE
