// One more thing to record is one entry in the catalogue and one column in a migration. Form, table, side by side,
// filter, import, export, data dictionary and the search for causes have it then, without having heard of it.
#include "tests/support/one_more_field.h"

#include "core/causes/answer.h"
#include "core/causes/from_notebook.h"
#include "core/exchange/delimited.h"
#include "core/exchange/dictionary.h"
#include "core/exchange/export.h"
#include "core/exchange/import.h"
#include "tests/support/desk_fixture.h"
#include "ui/beside/beside_model.h"
#include "ui/common/field_editor.h"
#include "ui/common/print_form.h"
#include "ui/prints/column_dialog.h"
#include "ui/prints/print_table_model.h"

#include <QFile>
#include <QLineEdit>
#include <QListWidget>
#include <QTemporaryDir>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;

namespace {

class OneMoreFieldShown : public testing::Test {
protected:
    OneMoreFieldShown()
        : grown(catalogueWithCurl())
        , room(grown.catalogue, grown.options())
    {
        const auto session = room.add(Entity::Session, { { "session_code", "A1" } });
        room.sit(session);
        for (int i = 1; i <= 12; ++i)
            prints << room.print(QStringLiteral("A1-%1").arg(i, 2, 10, QLatin1Char('0')).toUtf8().constData());
    }
    /// Sheets that curl fail, the others keep.
    void fill()
    {
        for (int i = 0; i < prints.size(); ++i) {
            room.desk().setPrintField({ prints[i] }, curlKey(), Known { i < 6 ? 20.0 + i : 2.0 + 0.1 * i });
            room.desk().setPrintField({ prints[i] }, QStringLiteral("coat_passes"), Known { i % 2 == 0 ? 2.0 : 3.0 });
            room.desk().setPrintField({ prints[i] }, QStringLiteral("print_outcome"),
                Known { i < 6 ? QStringLiteral("ran_off") : QStringLiteral("kept") });
        }
    }

    GrownCatalogue grown;
    DeskFixture room;
    QVector<qint64> prints;
    QTemporaryDir files;
};

} // namespace

TEST_F(OneMoreFieldShown, TheFormTakesIt)
{
    ui::PrintForm form(room.desk(), ui::lightTheme());
    form.setStation(Station::Dry);
    form.setPrints({ prints[0], prints[1] });
    form.show();
    form.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&form));
    auto* editor = form.editor(curlKey());
    ASSERT_NE(editor, nullptr);
    EXPECT_EQ(editor->input()->accessibleName(), QStringLiteral("Curl of the sheet [mm]"));
    editor->input()->setFocus();
    QTest::keyClicks(editor->input(), QStringLiteral("~7,5"));
    QTest::keyClick(editor->input(), Qt::Key_Return);
    for (const auto print : { prints[0], prints[1] })
        EXPECT_EQ(room.get(print, "dry_curl_mm"), (Known { 7.5, Evidence::Estimated }));
}

TEST_F(OneMoreFieldShown, TheTableAndTheFilterHaveIt)
{
    fill();
    ui::ColumnDialog columns(room.catalogue(), {}, {});
    auto* list = columns.findChildren<QListWidget*>()[0];
    bool offered = false;
    for (int i = 0; i < list->count(); ++i)
        offered = offered || list->item(i)->data(Qt::UserRole).toString() == curlKey();
    EXPECT_TRUE(offered);

    ui::PrintTableModel model(room.desk());
    model.setColumns({ QStringLiteral("print_code"), curlKey() });
    EXPECT_EQ(model.headerData(2, Qt::Horizontal).toString(), QStringLiteral("Curl of the sheet [mm]"));
    EXPECT_EQ(model.index(0, 2).data().toString(), QStringLiteral("20.0"));
    const auto parsed = parseFilter(QStringLiteral("dry_curl_mm > 10"), room.catalogue());
    ASSERT_TRUE(parsed.ok());
    model.setFilter(parsed.filter);
    EXPECT_EQ(model.rowCount(), 6);
}

TEST_F(OneMoreFieldShown, SideBySideShowsThatItDiffers)
{
    fill();
    ui::BesideModel model(room.desk());
    model.setPrints({ prints[0], prints[11] });
    bool found = false;
    for (int row = 0; row < model.rowCount(); ++row)
        if (model.fieldAt(row).key == curlKey()) {
            found = true;
            EXPECT_TRUE(model.differs(row));
            EXPECT_EQ(model.index(row, 1).data().toString(), QStringLiteral("3.1"));
        }
    EXPECT_TRUE(found);
}

TEST_F(OneMoreFieldShown, ATableBringsItInUnderItsKeyOrItsName)
{
    for (const char* heading : { "dry_curl_mm", "Curl of the sheet [cm]" }) {
        const bool centimetres = QByteArray(heading).contains("cm]");
        const auto table
            = exchange::readDelimited(QByteArray("print_code,") + heading + (centimetres ? "\nX1,1.2\n" : "\nX1,12\n"));
        const auto mapping = exchange::mapHeadings(table.header, room.catalogue(), {});
        const auto preview = exchange::previewImport(table, mapping, room.desk().notebook());
        ASSERT_EQ(preview.count(exchange::ImportRow::State::New), 1) << heading;
        const auto column = mapping.columnOf(room.catalogue().printField(curlKey()));
        ASSERT_GE(column, 0) << heading;
        const auto report = exchange::applyImport(room.desk().file(), preview, false, QStringLiteral("Import"));
        ASSERT_TRUE(report) << heading;
        room.desk().perform({}, [](store::Writer&) -> Outcome { return Done {}; });
        const auto made = room.desk().notebook().byName(Entity::Print, QStringLiteral("X1"));
        ASSERT_TRUE(made) << heading;
        EXPECT_NEAR(room.number(*made, "dry_curl_mm").value_or(-1), 12, 1e-9) << heading;
        room.desk().undo();
        ASSERT_FALSE(room.desk().notebook().byName(Entity::Print, QStringLiteral("X1"))) << heading;
    }
}

TEST_F(OneMoreFieldShown, TheExportAndItsDictionaryHaveIt)
{
    fill();
    const auto selection = exchange::selectForExport(room.desk().notebook(), std::nullopt);
    ASSERT_TRUE(selection);
    const auto path = files.filePath(QStringLiteral("prints.csv"));
    ASSERT_TRUE(exchange::exportPrints(*selection, path));
    QFile file(path);
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    const auto table = exchange::readDelimited(file.readAll());
    const auto column = table.header.indexOf(curlKey());
    ASSERT_GE(column, 0);
    EXPECT_EQ(table.rows[1].cells[column], QStringLiteral("21"));
    QFile about(path + QStringLiteral("-metadata.json"));
    ASSERT_TRUE(about.open(QIODevice::ReadOnly));
    EXPECT_TRUE(about.readAll().contains("dry_curl_mm"));
    const auto entry = exchange::dictionaryEntry(*room.catalogue().findPrintField(curlKey()));
    EXPECT_EQ(entry.unit, QStringLiteral("mm"));
    EXPECT_EQ(entry.station, QStringLiteral("Dry"));
}

TEST_F(OneMoreFieldShown, ItIsLookedAtAsACause)
{
    fill();
    causes::NotebookChoices choices;
    choices.outcome = QStringLiteral("failed");
    const auto table = causes::fromNotebook(room.desk().columns(), choices);
    ASSERT_TRUE(table) << table.error().sentence().toStdString();
    const auto answer = causes::analyse(*table);
    EXPECT_EQ(answer.factors_named, QStringList { curlKey() });
}

} // namespace WASHFAST_FILE
