// Dialogs, forms and papers in a made-up language.
#include "core/chemistry/bottle_labels.h"
#include "core/chemistry/mix_record.h"
#include "core/chemistry/risk_sheet.h"
#include "core/chemistry/teaching_sheet.h"
#include "tests/i18n/window_in_words.h"
#include "tests/support/photo_work.h"
#include "tests/support/rendered_photo.h"
#include "ui/bench/new_prints.h"
#include "ui/common/record_dialog.h"
#include "ui/curves/step_chart.h"
#include "ui/prints/column_dialog.h"
#include "ui/reading/compare_dialog.h"
#include "ui/reading/photo_canvas.h"
#include "ui/reading/reading_desk.h"
#include "ui/reading/signs_canvas.h"
#include "ui/reading/signs_dialog.h"
#include "ui/sheets/documents.h"
#include "ui/sheets/label_paint.h"
#include "ui/shelf/fill_steps.h"
#include "ui/shelf/formula_record.h"
#include "ui/term/bring_in_dialog.h"
#include "ui/term/import_dialog.h"

#include <QDoubleSpinBox>
#include <QFile>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::i18n;

namespace {

class DialogsInWords : public WindowInWords {
protected:
    void show(QWidget& dialog)
    {
        dialog.show();
        pause();
        readPages(dialog);
    }
    /// A page as it is printed.
    void readPaper(const ui::sheets::PaintPage& paint, int pages)
    {
        for (int page = 0; page < pages; ++page) {
            QBuffer buffer;
            buffer.open(QIODevice::WriteOnly);
            QSvgGenerator svg;
            svg.setOutputDevice(&buffer);
            svg.setViewBox(QRectF(0, 0, ui::sheets::mm(210), ui::sheets::mm(297)));
            {
                QPainter painter(&svg);
                paint(painter, page);
            }
            seen.readSvg(buffer.data(), QStringLiteral("paper"));
        }
    }
};

} // namespace

TEST_F(DialogsInWords, TheFormOfEveryRecord)
{
    for (const auto entity : allEntities()) {
        const auto owner = ownerOf(entity);
        qint64 of = owner ? lastOf(owner->entity) : 0;
        ui::RecordDialog fresh(room.services(), entity, 0, nullptr, of);
        show(fresh);
        fresh.accept(); // most of them say what is missing
        pause();
        seen.read(fresh);
        if (const auto id = lastOf(entity)) {
            ui::RecordDialog there(room.services(), entity, id, nullptr, of);
            if (entity == Entity::Formula)
                ui::prepareFormulaForm(there, room.desk(), id);
            show(there);
        }
    }
    EXPECT_GT(seen.count(), 1000);
}

TEST_F(DialogsInWords, NewPrintsColumnsAndSteps)
{
    for (const int count : { 1, 12 }) {
        ui::NewPrintsDialog prints(room.services(), room.desk().session(), count);
        show(prints);
        prints.accept();
    }
    QStringList keys;
    for (const auto& field : room.catalogue().printFields())
        keys << field.key;
    ui::ColumnDialog columns(room.catalogue(), keys.mid(0, 6), keys.mid(0, 4));
    show(columns);
    for (const auto& [child, owner] :
        { std::pair(Entity::NegativeStep, Entity::Negative), std::pair(Entity::CardPatch, Entity::Card) }) {
        ui::FillStepsDialog fill(room.services(), child, lastOf(owner), nullptr);
        show(fill);
        fill.firstDensity()->setValue(fill.firstDensity()->maximum());
        fill.accept();
        seen.read(fill);
    }
    ui::StepsDialog steps(room.services(), lastOf(Entity::Formula), nullptr);
    show(steps);
}

TEST_F(DialogsInWords, ATableIsImported)
{
    const QByteArray table = "print_code,coat_volume_ml,coat_start,print_outcome,Remark\nX1,0.6,,kept,fine\n"
                             "X2,much,yesterday,odd,poor\nX1,0.7,,,twice\nX3,9000,,,\nS1-01,,,,\n";
    {
        QFile file(path("old.csv"));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(table);
    }
    also_data << QString::fromUtf8(table) << QStringLiteral("old.csv");
    for (const auto& choice : room.catalogue().columnField(Entity::Print, u"print_outcome").choices)
        also_data << choice.key; // said beside their names, as they can be typed
    ui::ImportDialog empty(room.services());
    show(empty);
    ui::ImportDialog dialog(room.services());
    ASSERT_TRUE(dialog.load(path("old.csv")));
    show(dialog);
    dialog.map(QStringLiteral("Remark"), QStringLiteral("print_notes"));
    dialog.setKeepGood(true);
    pause();
    seen.read(dialog);
    dialog.accept();
    EXPECT_FALSE(dialog.load(path("nowhere.csv")));
    {
        QFile file(path("book.csv"));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(QByteArray("PK\x03\x04") + QByteArray(200, '\0'));
    }
    EXPECT_FALSE(dialog.load(path("book.csv")));
    EXPECT_GE(room.dialogs.shown().size(), 3U);
    seen.add(QStringLiteral("undo"), room.desk().undoLabel());
}

TEST_F(DialogsInWords, AnotherNotebookIsBroughtIn)
{
    {
        auto other = store::NotebookFile::open(path("other.washfast"), room.catalogue());
        ASSERT_TRUE(other);
        ASSERT_TRUE(demo::writeDemo(**other, 7));
    }
    {
        QFile file(path("text.washfast"));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write("no notebook");
    }
    also_data << QStringLiteral("other.washfast text.washfast");
    for (const char* name : { "other.washfast", "text.washfast", "none.washfast" }) {
        ui::BringInDialog dialog(room.services());
        dialog.begin(path(name));
        dialog.show();
        seen.read(dialog);
        waitFor(dialog);
        seen.read(dialog);
    }
    also_data << QStringLiteral("none.washfast copies before merge") << files.path() << room.path();
    seen.add(QStringLiteral("undo"), room.desk().undoLabel());
}

TEST_F(DialogsInWords, DensitiesReadInAPhoto)
{
    Scene scene;
    scene.patches = { { "white", 0.05, 0.05, 0.15, 0.15, { 0.05, 0.05, 0.05 } },
        { "grey", 0.25, 0.05, 0.15, 0.15, { 0.70, 0.70, 0.70 } },
        { "deep", 0.45, 0.35, 0.20, 0.30, { 1.1, 0.85, 0.45 } } };
    scene.noise = 1;
    ASSERT_TRUE(render(scene, 3).save(path("sheet.png")));
    also_data << QStringLiteral("sheet.png none.png");
    ui::ReadingDesk desk(room.services(), room.desk().printsOf(room.desk().session()).value(0));
    desk.resize(1180, 780);
    show(desk);
    desk.addFiles({ path("sheet.png"), path("none.png") });
    waitFor(desk);
    readPages(desk);
    const auto onto = *density::Perspective::ontoCorners(scene.corners);
    const auto mark = [&](ui::MarkRole role, double u, double v, double size) {
        desk.roleBox()->setCurrentIndex(int(role));
        dragOver(*desk.canvas(), *onto.toPhoto(density::Point { u, v }),
            *onto.toPhoto(density::Point { u + size, v + size }));
        waitFor(desk);
        readPages(desk);
    };
    mark(ui::MarkRole::Deepest, 0.48, 0.4, 0.1);
    mark(ui::MarkRole::White, 0.08, 0.08, 0.08);
    mark(ui::MarkRole::Grey, 0.28, 0.08, 0.08);
    for (int role = 0; role < desk.roleBox()->count(); ++role)
        mark(ui::MarkRole(role), 0.7, 0.1 + 0.05 * role, 0.04);
}

TEST_F(DialogsInWords, SignsAndTwoPhotosCompared)
{
    const auto prints = room.desk().printsOf(room.desk().session());
    Scene scene;
    scene.corners = { density::Point { 60, 50 }, { 846, 70 }, { 830, 620 }, { 44, 600 } };
    scene.patches = { { "print", 0.02, 0.02, 0.76, 0.96, { 0.9, 0.7, 0.4 } },
        { "covered", 0.82, 0.08, 0.15, 0.25, { 0.16, 0.15, 0.13 } } };
    scene.noise = 1.5;
    const auto stored = [&](qint64 print, const char* stage, unsigned seed) {
        return storePhoto(room, print, encode(render(scene, seed), "PNG"), stage, "photo.png");
    };
    const auto before = stored(prints[0], "before_rinse", 1);
    scene.extra = [](double u, double v) {
        const double lost = u > 0.1 && u < 0.3 && v > 0.78 && v < 0.95 ? -0.2 : 0.0;
        return lost + (u < 0.78 ? 0.03 * std::sin(2 * 3.14159265 * u * 130 / 5) : 0.0);
    };
    const auto after = stored(prints[0], "day_after", 2);
    also_data << QStringLiteral("photo.png");
    const auto onto = *density::Perspective::ontoCorners(scene.corners);
    const auto region
        = [&](double u, double v, double w, double h) { return *onto.toPhoto(density::rectangle(u, v, w, h)); };
    const auto mark = [&](ui::SheetCanvas& canvas) {
        canvas.sheet()->corners = scene.corners;
        canvas.sheet()->regions[ui::SheetRole::Paper] = region(0.84, 0.6, 0.1, 0.25);
        Q_EMIT canvas.marksChanged();
    };
    ui::SignsDialog signs(room.services(), prints[0], after);
    signs.resize(1180, 780);
    show(signs);
    waitFor(signs);
    readPages(signs);
    mark(*signs.canvas());
    signs.canvas()->sheet()->regions[ui::SheetRole::Covered] = region(0.84, 0.12, 0.1, 0.17);
    signs.canvas()->sheet()->regions[ui::SheetRole::Even] = region(0.06, 0.05, 0.68, 0.16);
    signs.look();
    seen.read(signs);
    waitFor(signs);
    ASSERT_TRUE(signs.proposals().has_value()) << signs.says().toStdString();
    readPages(signs);
    seen.add(QStringLiteral("signs"), signs.says());

    ui::CompareDialog compare(room.services(), { prints[0], prints[1] }, before, after);
    compare.resize(1180, 780);
    show(compare);
    waitFor(compare);
    for (const int which : { 0, 1 })
        mark(*compare.canvas(which));
    compare.compare();
    waitFor(compare);
    readPages(compare);
    seen.add(QStringLiteral("compared"), compare.says());
}

TEST_F(DialogsInWords, LabelsAndSheetsOnPaper)
{
    const auto& notebook = room.desk().notebook();
    std::vector<ui::sheets::Label> labels;
    const auto& bottles = notebook.table(Entity::Chemical);
    for (int row = 0; row < bottles.rows(); ++row)
        labels.emplace_back(chemistry::labelOfChemical(notebook, bottles.id(row)));
    const auto& mixes = notebook.table(Entity::Mix);
    for (int row = 0; row < mixes.rows(); ++row)
        labels.emplace_back(chemistry::labelOfMix(notebook, mixes.id(row)));
    for (const auto& sheet : chemistry::labelSheets()) {
        seen.add(QStringLiteral("label sheet"), sheet.name);
        readPaper(ui::sheets::labelPainter(sheet, labels), ui::sheets::labelPages(sheet, int(labels.size())));
    }
    QStringList all;
    for (const auto& substance : chemistry::knownSubstances())
        all << substance.key;
    readPaper(ui::sheets::riskPainter(chemistry::riskSheet(all, 6.5)), ui::sheets::riskPages);
    for (int row = 0; row < mixes.rows(); ++row) {
        const auto sheet = chemistry::teachingSheet(
            QStringLiteral("M1"), chemistry::audit(chemistry::batchOf(notebook, mixes.id(row))), 20, { 148, 210 });
        ASSERT_TRUE(sheet) << sheet.error().sentence().toStdString();
        readPaper(ui::sheets::teachingPainter(*sheet), ui::sheets::teachingPages);
    }
    EXPECT_GT(seen.count(), 300);
}

} // namespace WASHFAST_FILE
